using System.Collections.Generic;
using Lampblack.Findings;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Calibration;

/// <summary>How long the bars of 100 mm were found on one sheet; null where one was not measured.</summary>
internal sealed record BarAnswer(Typed Typed, double? FrontMm, double? BackMm)
{
    private const string Form = "write what the ruler shows in mm or in inches, such as front=99.8,back=99.7 or front=3.93in";

    /// <summary>Reads <c>front=99.8,back=99.7</c>; null with findings.</summary>
    public static BarAnswer? Read(Typed typed)
    {
        if (NamedValues.Read(typed.Text) is not { } pairs)
        {
            typed.Unreadable("does not say which bar is how long", Form, LengthText.TryRead(typed.Text, out _, out _) ? $"front={typed.Text.Trim()}" : null);
            return null;
        }

        var lengths = new Dictionary<string, double>();
        foreach (var (name, value) in pairs)
        {
            var side = name.ToLowerInvariant();
            if (side is not ("front" or "back"))
            {
                typed.Unreadable($"has a bar {Shown.Code(name)}; there is one on the front and one on the back", Form, SourceText.Nearest.To(side, ["front", "back"]) is { } near ? $"{near}={value}" : null);
                return null;
            }

            if (!LengthText.TryRead(value, out var mm, out var problem))
            {
                typed.Unreadable($"has {Shown.Code(value)} for the {side}, which {problem}", Form);
                return null;
            }

            if (mm is < BarLimits.ShortestMm or > BarLimits.LongestMm)
            {
                var meant = mm is >= BarLimits.ShortestMm / 10 and <= BarLimits.LongestMm / 10 ? $"{side}={value}cm"
                    : mm is >= BarLimits.ShortestMm / 25.4 and <= BarLimits.LongestMm / 25.4 ? $"{side}={value}in" : null;
                typed.Unreadable($"has {Shown.Mm(mm)} for a bar of 100 mm", Form, meant);
                return null;
            }

            if (!lengths.TryAdd(side, mm))
            {
                typed.Twice($"the {side}'s bar");
                return null;
            }
        }

        if (!lengths.ContainsKey("front"))
        {
            typed.Unreadable("has the back's bar alone, which tells nothing without the front's", Form);
            return null;
        }

        var answer = new BarAnswer(typed, lengths.TryGetValue("front", out var front) ? front : null, lengths.TryGetValue("back", out var back) ? back : null);
        return answer.IsBelieved(answer.FrontMm, answer.BackMm, string.Empty) ? answer : null;
    }

    /// <summary>Whether bars so long can be the printer's own doing; a finding where not.</summary>
    /// <param name="frontMm">The front's.</param>
    /// <param name="backMm">The back's.</param>
    /// <param name="with">What the lengths include besides what was typed.</param>
    public bool IsBelieved(double? frontMm, double? backMm, string with)
    {
        if (BarLimits.Scaled(frontMm, backMm, $"{Typed.Shown}: {with}") is not { } scaled)
        {
            return true;
        }

        Typed.Findings.Add(scaled with { Hint = scaled.Hint + ". Nothing was stored", Item = Typed.Option });
        return false;
    }
}
