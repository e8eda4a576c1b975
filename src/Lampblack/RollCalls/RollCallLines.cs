using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;

namespace Lampblack.RollCalls;

/// <summary>A roll-call's record in words.</summary>
public static class RollCallLines
{
    private const int MostCauses = 8;

    /// <summary>Line by line.</summary>
    /// <param name="record">The record.</param>
    public static IEnumerable<string> Of(RollCallRecord record)
    {
        var answered = record.Results.Count(result => result.Verdict == RollCallVerdict.Answered);
        var hasRest = false;
        yield return string.Create(CultureInfo.InvariantCulture, $"{answered} of {record.Results.Length} answer.");
        foreach (var result in record.Results.Where(result => result.Verdict != RollCallVerdict.Answered))
        {
            yield return $"  {result.Name} ({result.Id}): {Sentence(result.Verdict)}";

            // What explains more than this control is told below, once. A dark lamp, or one that was called another time, has its own.
            var own = result.Said.Where(sentence => !record.IsOneCause || !record.Causes.Contains(sentence)).ToList();
            hasRest |= own.Count > 0;
            foreach (var sentence in own)
            {
                yield return $"    {sentence}";
            }
        }

        if (!record.Causes.IsEmpty && !record.IsOneCause)
        {
            yield return "Several things are wrong; under each control stands what is likeliest.";
        }

        if (record.IsOneCause)
        {
            var all = hasRest ? "the rest" : "it all";
            yield return record.Causes.Length == 1 ? $"One thing explains {all}:" : $"One of these explains {all}; look in this order:";
            foreach (var cause in record.Causes.Take(MostCauses))
            {
                yield return $"  - {cause}";
            }

            if (record.Causes.Length > MostCauses)
            {
                yield return string.Create(CultureInfo.InvariantCulture, $"  and {record.Causes.Length - MostCauses} more that would look the same.");
            }
        }
    }

    private static string Sentence(RollCallVerdict verdict) => verdict switch
    {
        RollCallVerdict.Wrong => "does not answer as it should",
        RollCallVerdict.Skipped => "was left out",
        _ => "was not called",
    };
}
