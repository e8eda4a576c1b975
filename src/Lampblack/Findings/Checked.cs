using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Findings;

/// <summary>A result and everything that was noticed on the way to it. There is always a value, also beside <c>stop</c> findings.</summary>
/// <typeparam name="T">What was asked for.</typeparam>
/// <param name="Value">The result, as complete as it could be made.</param>
/// <param name="Findings">What was noticed, in the order of discovery.</param>
public sealed record Checked<T>(T Value, ImmutableArray<Finding> Findings)
{
    /// <summary>Whether any finding is a <see cref="Severity.Stop"/>.</summary>
    public bool HasStop => Findings.Any(finding => finding.Severity == Severity.Stop);
}
