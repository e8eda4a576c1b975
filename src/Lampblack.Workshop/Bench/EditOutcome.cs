using System;
using System.Linq;
using Lampblack.Edits;
using Lampblack.Findings;

namespace Lampblack.Workshop.Bench;

/// <summary>What came of an edit.</summary>
/// <param name="Result">The edit; with a cost it was not written.</param>
/// <param name="Cost">What it would cost beyond a new print, in a sentence; null where it costs no more, or the maker said yes.</param>
public sealed record EditOutcome(EditResult Result, string? Cost)
{
    /// <summary>Why it was refused, in words; null where it was not.</summary>
    public string? Refusal => Result.Findings.FirstOrDefault(finding => finding.Severity == Severity.Stop) is { } stop
        ? $"{stop.Message}. {stop.Hint}".Replace("`", string.Empty, StringComparison.Ordinal)
        : null;
}
