using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;

namespace Lampblack.Edits;

/// <summary>A desk file after an edit.</summary>
/// <param name="Bytes">Its bytes; the old ones where the edit was refused.</param>
/// <param name="Changes">What was exchanged, in ascending order; every other byte is as it was.</param>
/// <param name="Findings">Why it was refused (a <c>stop</c>), or what it costs.</param>
/// <param name="Words">What was done, for a list of steps and for screen readers: <c>SHUTTER moved 3 mm right</c>. Empty where nothing was.</param>
/// <param name="Items">What was edited or made, as <c>panel/item</c>, by the names that hold afterwards.</param>
public sealed record EditResult(
    ImmutableArray<byte> Bytes, ImmutableArray<ByteChange> Changes, ImmutableArray<Finding> Findings, string Words, ImmutableArray<string> Items)
{
    /// <summary>Whether it was refused.</summary>
    public bool IsRefused => Findings.Any(finding => finding.Severity == Severity.Stop);
}

/// <summary>A stretch of a file that was exchanged.</summary>
/// <param name="Offset">Where it began in the old bytes.</param>
/// <param name="Removed">The old bytes.</param>
/// <param name="Inserted">The new bytes.</param>
public sealed record ByteChange(int Offset, ImmutableArray<byte> Removed, ImmutableArray<byte> Inserted);
