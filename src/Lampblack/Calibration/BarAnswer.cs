using System.Collections.Generic;
using System.Collections.Immutable;
using Lampblack.Findings;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Calibration;

/// <summary>How long the bars of one sheet were found: of 100 mm on a production sheet, of 250 and 180 mm on a calibration sheet; null where one was not measured.</summary>
internal sealed record BarAnswer(Typed Typed, double? FrontMm, double? BackMm)
{
    private const string Form = "write what the ruler shows in mm or in inches, such as front=99.8,back=99.7 or front=3.93in; of a calibration sheet along=249.6,across=179.9";

    private static readonly ImmutableArray<string> Names = ["front", "back", "along", "across"];

    /// <summary>The upright bar of a calibration sheet.</summary>
    public double? AlongMm { get; private init; }

    /// <summary>Its level bar.</summary>
    public double? AcrossMm { get; private init; }

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
            if (!Names.Contains(side))
            {
                typed.Unreadable($"has a bar {Shown.Code(name)}; there is one on the front and one on the back, and on a calibration sheet one along and one across", Form, SourceText.Nearest.To(side, Names) is { } near ? $"{near}={value}" : null);
                return null;
            }

            if (!LengthText.TryRead(value, out var mm, out var problem))
            {
                typed.Unreadable($"has {Shown.Code(value)} for the {side}, which {problem}", Form);
                return null;
            }

            var barMm = side switch { "along" => BarLimits.AlongMm, "across" => BarLimits.AcrossMm, _ => BarLimits.BarMm };
            if (!IsNear(mm, barMm))
            {
                typed.Unreadable($"has {Shown.Mm(mm)} for a bar of {Shown.Mm(barMm)}", Form, IsNear(mm * 10, barMm) ? $"{side}={value}cm" : IsNear(mm * 25.4, barMm) ? $"{side}={value}in" : null);
                return null;
            }

            if (!lengths.TryAdd(side, mm))
            {
                typed.Twice($"the {side}'s bar");
                return null;
            }
        }

        var isSheet = lengths.ContainsKey("along") || lengths.ContainsKey("across");
        if (isSheet && (lengths.ContainsKey("front") || lengths.ContainsKey("back")))
        {
            typed.Unreadable("has bars of a production sheet and of a calibration sheet, and nothing is undone on the latter", "tell each sheet in a call of its own");
            return null;
        }

        if (!isSheet && !lengths.ContainsKey("front"))
        {
            typed.Unreadable("has the back's bar alone, which tells nothing without the front's", Form);
            return null;
        }

        var answer = new BarAnswer(typed, Length("front"), Length("back")) { AlongMm = Length("along"), AcrossMm = Length("across") };
        return answer.IsBelieved(answer.FrontMm, answer.BackMm, string.Empty) ? answer : null;

        double? Length(string side) => lengths.TryGetValue(side, out var mm) ? mm : null;
    }

    private static bool IsNear(double mm, double barMm) => mm >= BarLimits.ShortestMm / BarLimits.BarMm * barMm && mm <= BarLimits.LongestMm / BarLimits.BarMm * barMm;

    /// <summary>Whether bars so long can be the printer's own doing; a finding where not.</summary>
    /// <param name="frontMm">The front's.</param>
    /// <param name="backMm">The back's.</param>
    /// <param name="with">What the lengths include besides what was typed.</param>
    public bool IsBelieved(double? frontMm, double? backMm, string with)
    {
        if ((BarLimits.Scaled(frontMm, backMm, $"{Typed.Shown}: {with}") ?? BarLimits.ScaledSheet(AlongMm, AcrossMm, $"{Typed.Shown}: ")) is not { } scaled)
        {
            return true;
        }

        Typed.Findings.Add(scaled with { Hint = scaled.Hint + ". Nothing was stored", Item = Typed.Option });
        return false;
    }
}
