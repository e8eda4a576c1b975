using System;
using System.Globalization;
using System.Linq;
using System.Text.RegularExpressions;
using Lampblack.Findings;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Calibration;

/// <summary>How far the back's lines stand off at one reading scale; null where a direction was not read.</summary>
/// <param name="Typed">As it was typed.</param>
/// <param name="Place">Where the scale is.</param>
/// <param name="RightMm">To the right.</param>
/// <param name="UpMm">Upwards.</param>
internal sealed partial record ScaleAnswer(Typed Typed, SheetPlace Place, double? RightMm, double? UpMm)
{
    /// <summary>Where the scales end, either way.</summary>
    public const double LongestMm = 3.5;

    /// <summary>From one mark of a scale to the next.</summary>
    public const double MarkMm = 0.5;

    private const string Form = "write the place and how far the back's line stands right (x) and up (y) of the middle, in mm or in marks with a c: NE:x=+0.3,y=-0.1 or NE:x=+2c; left and down are negative";

    /// <summary>Reads <c>NE:x=+0.3,y=-0.1</c>; null with findings.</summary>
    public static ScaleAnswer? Read(Typed typed, PaperSize paper, PrinterProperties printer)
    {
        var (head, rest) = NamedValues.Head(typed.Text);
        if (head is null)
        {
            typed.Unreadable("does not say where it was read", Form);
            return null;
        }

        if (NamedValues.Read(rest) is not { } pairs)
        {
            typed.Unreadable("is no reading", Form, Repaired(head, rest));
            return null;
        }

        if (SheetPlace.OfScale(head, typed, paper, printer) is not { } place)
        {
            return null;
        }

        double? right = null;
        double? up = null;
        foreach (var (name, value) in pairs)
        {
            var axis = name.ToUpperInvariant();
            if (axis is not ("X" or "Y"))
            {
                typed.Unreadable($"has {Shown.Code(name)}; a scale is read in x and in y", Form, Repaired(head, rest));
                return null;
            }

            if ((axis == "X" ? right : up) is not null)
            {
                typed.Twice(axis.ToLowerInvariant());
                return null;
            }

            if (Number(typed, axis.ToLowerInvariant(), value) is not { } mm)
            {
                return null;
            }

            right = axis == "X" ? mm : right;
            up = axis == "Y" ? mm : up;
        }

        return new(typed, place, right, up);
    }

    private static double? Number(Typed typed, string axis, string value)
    {
        double mm;
        if (Marks().Match(value) is { Success: true } marks)
        {
            mm = double.Parse(marks.Groups["count"].Value.Replace(',', '.').Replace('\u2212', '-'), NumberStyles.Float, CultureInfo.InvariantCulture) * MarkMm;
        }
        else if (!LengthText.TryRead(value, out mm, out var problem))
        {
            typed.Unreadable($"has {Shown.Code(value)} for {axis}, which {problem}", Form);
            return null;
        }

        if (Math.Abs(mm) > LongestMm + 1e-9)
        {
            typed.Findings.Add(Finding.Stop(
                "reading-range",
                $"{typed.Shown}: {axis} is {Shown.Mm(mm)}, but the scales end {Shown.Mm(LongestMm)} from their middle",
                "look again, and mind the decimal point; if the line is off the scale, look at the turn boxes first: a wrong edge, or a page fitted to other paper, shows there",
                item: typed.Option));
            return null;
        }

        return mm;
    }

    private static string? Repaired(string head, string rest)
    {
        var found = Guess().Matches(rest.ToLowerInvariant()).Select(match => $"{match.Groups["axis"].Value}={match.Groups["value"].Value}").ToList();
        return found.Count == 0 ? null : $"{head}:{string.Join(',', found)}";
    }

    [GeneratedRegex("^(?<count>[+\u2212-]?[0-9]{1,3}([.,][0-9]{1,2})?) ?[cC]$", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant)]
    private static partial Regex Marks();

    [GeneratedRegex("(?<axis>[xy])[^a-z0-9+-]*(?<value>[+-]?[0-9]+([.,][0-9]+)? ?(c|mm)?)", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant)]
    private static partial Regex Guess();
}
