using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text.RegularExpressions;
using Lampblack.Findings;

namespace Lampblack.Calibration;

/// <summary>What was read of one vernier of a calibration sheet.</summary>
/// <param name="Typed">As it was typed.</param>
/// <param name="Vernier">Which one.</param>
/// <param name="ReadMm">What it reads; <see cref="Calibration.Vernier.InRegisterMm"/> where side 2 lies right.</param>
internal sealed partial record VernierAnswer(Typed Typed, Vernier Vernier, double ReadMm)
{
    private const string Form = "write each vernier's name and what it reads, such as 1x=5.3,1y=4.8: the whole number of the front at the back's line 0, and the tenths; 5.0 is in register";

    // A value may hold a comma, so that it ends before the next name only.
    private static readonly char[] Blanks = [',', ';', ' ', '\t', '\u00A0'];

    /// <summary>Reads <c>1x=5.3,1y=4.8</c>; null with findings.</summary>
    public static ImmutableArray<VernierAnswer>? Read(Typed typed, ImmutableArray<Vernier> verniers)
    {
        var found = Pair().Matches(typed.Text);
        if (found.Count == 0 || found[0].Index > 0)
        {
            typed.Unreadable("is no reading of a vernier", Form, Repaired(typed.Text));
            return null;
        }

        var answers = ImmutableArray.CreateBuilder<VernierAnswer>();
        foreach (Match pair in found)
        {
            var (name, value) = (pair.Groups["name"].Value.ToLowerInvariant(), pair.Groups["value"].Value.Trim(Blanks));
            if (verniers.FirstOrDefault(known => known.Name == name) is not { } vernier)
            {
                typed.Unreadable($"has {Shown.Code(name)} for a vernier", "they are called 1x, 1y to 5x, 5y; " + Form);
                return null;
            }

            if (ValueOf(typed, name, value) is not { } read)
            {
                return null;
            }

            answers.Add(new(typed, vernier, read));
        }

        return answers.ToImmutable();
    }

    private static double? ValueOf(Typed typed, string name, string value)
    {
        if (!Number().IsMatch(value))
        {
            typed.Unreadable($"has {Shown.Code(value)} for {name}, which is no number of a scale: it has no sign and no unit", Form);
            return null;
        }

        var read = double.Parse(value.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);
        if (read is >= Vernier.LowestMm and <= Vernier.HighestMm)
        {
            return read;
        }

        // 53 was meant as 5.3 by whoever saw the scale; a reading counted from the middle, 0.3, can't be told from one that is wrong.
        var hint = read is >= 10 * Vernier.LowestMm and <= 10 * Vernier.HighestMm
            ? FormattableString.Invariant($"did you mean {name}={read / 10:0.0#}? ")
            : read < Vernier.LowestMm ? "the scale's own numbers count, 5.0 in register: 0.3 to the right or up reads 5.3, to the left or down 4.7. " : string.Empty;
        typed.Findings.Add(Finding.Stop(
            "reading-range",
            FormattableString.Invariant($"{typed.Shown}: {name} is {read}, but a vernier reads {Vernier.LowestMm:0} to {Vernier.HighestMm:0}"),
            hint + "look again; if line 0 is off the scale, look at the turn mark first: a wrong edge, or a page fitted to other paper, shows there",
            item: typed.Option));
        return null;
    }

    /// <summary>What was probably meant: 1x5.3, x1=5.3, 1x:5.3; null where there is nothing like it.</summary>
    private static string? Repaired(string text)
    {
        var found = Guess().Matches(text.ToLowerInvariant())
            .Select(match => $"{match.Groups["number"].Value}{match.Groups["axis"].Value}={match.Groups["value"].Value}").ToList();
        return found.Count == 0 ? null : string.Join(',', found);
    }

    [GeneratedRegex(@"(?<name>[0-9]*[A-Za-z]+)\s*=(?<value>.*?)(?=[\s,;]*[0-9]*[A-Za-z]+\s*=|$)", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant | RegexOptions.Singleline)]
    private static partial Regex Pair();

    [GeneratedRegex("^[0-9]{1,3}([.,][0-9]{1,3})?$", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant)]
    private static partial Regex Number();

    [GeneratedRegex("(?:(?<number>[1-5])(?<axis>[xy])|(?<axis>[xy])(?<number>[1-5]))[^0-9a-z]*(?<value>[1-9]([.,][0-9]{1,2})?)", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant)]
    private static partial Regex Guess();
}
