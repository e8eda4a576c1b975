using System;
using System.Collections.Generic;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Calibration;

/// <summary>One thing that was typed, and the finding for what can't be read of it.</summary>
/// <param name="Option">The option it was typed behind.</param>
/// <param name="Text">What was typed.</param>
/// <param name="Findings">Where findings go.</param>
internal sealed record Typed(string Option, string Text, List<Finding> Findings)
{
    /// <summary>The longest text that is looked at.</summary>
    public const int Longest = 200;

    /// <summary>How it is shown in a message.</summary>
    public string Shown => Lampblack.Findings.Shown.Code($"{Option} {Text}");

    /// <summary>It can't be read.</summary>
    /// <param name="problem">The end of a sentence whose subject is the text.</param>
    /// <param name="allowed">What can be written.</param>
    /// <param name="meant">The nearest right form, if there is one.</param>
    public void Unreadable(string problem, string allowed, string? meant = null) => Findings.Add(Finding.Stop(
        "answer-form", $"{Shown} {problem}", meant is null ? allowed : $"did you mean `{Option} {meant}`? {allowed}", item: Option));

    /// <summary>The same was told twice.</summary>
    public void Twice(string what) => Findings.Add(Finding.Stop(
        "answer-twice", $"{Shown}: {what} was told twice", "tell each once; look which one is right", item: Option));

    /// <summary>One of a few words, in any case of letters; null with a finding.</summary>
    public string? OneOf(params string[] words)
    {
        var typed = Text.Trim();
        foreach (var word in words)
        {
            if (string.Equals(word, typed, StringComparison.OrdinalIgnoreCase))
            {
                return word;
            }
        }

        Unreadable("is none of the words that are known", $"known are {string.Join(", ", words)}", Nearest.To(typed, words));
        return null;
    }
}
