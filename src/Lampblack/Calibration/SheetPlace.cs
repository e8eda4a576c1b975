using System;
using System.Globalization;
using System.Linq;
using System.Text.RegularExpressions;
using Lampblack.Findings;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;
using Lampblack.SourceText;

namespace Lampblack.Calibration;

/// <summary>A place on the sheet where something was read.</summary>
/// <param name="Name">As it is told to the maker.</param>
/// <param name="XMm">To the right of the sheet's middle.</param>
/// <param name="YMm">Above the sheet's middle.</param>
/// <param name="SdMm">How well the place is known, standard deviation in mm.</param>
internal sealed partial record SheetPlace(string Name, double XMm, double YMm, double SdMm)
{
    private const double MmPerCm = 10;

    // Whole centimetres: a rounding of half a centimetre either way.
    private static readonly double CentimetresSdMm = MmPerCm / Math.Sqrt(12);

    /// <summary>Whether it was told as whole centimetres.</summary>
    public bool IsCentimetres => Centimetres().IsMatch(Name);

    /// <summary>Whether it is another place of whole centimetres, or a neighbour of it: somebody may measure instead of reading what is printed.</summary>
    public bool IsBeside(string other)
    {
        var (mine, match) = (Centimetres().Match(Name), Centimetres().Match(other));
        return match.Success && Near("x") && Near("y");

        bool Near(string axis) => Math.Abs(int.Parse(mine.Groups[axis].Value, CultureInfo.InvariantCulture) - int.Parse(match.Groups[axis].Value, CultureInfo.InvariantCulture)) <= 1;
    }

    /// <summary>Where a block is whose place was not told: somewhere on the sheet.</summary>
    public static SheetPlace Unknown(PaperSize paper) => new("the block", 0, 0, Math.Sqrt(((paper.WidthMm * paper.WidthMm) + (paper.HeightMm * paper.HeightMm)) / 12) / 2);

    /// <summary>The place of a reading scale, or one in centimetres; null with a finding.</summary>
    public static SheetPlace? OfScale(string head, Typed typed, PaperSize paper, PrinterProperties printer)
    {
        var scales = SheetRoom.Of(paper, printer).ReadingScales;
        foreach (var (name, middle) in scales)
        {
            if (string.Equals(name, head, StringComparison.OrdinalIgnoreCase))
            {
                return new(name, middle.XMm - (paper.WidthMm / 2), middle.YMm - (paper.HeightMm / 2), 0);
            }
        }

        if (Centimetres().IsMatch(head))
        {
            return OfCentimetres(head, typed, paper);
        }

        var nearest = Nearest.To(head, scales.Select(scale => scale.Name)) ?? NearestByLetters(head);
        typed.Unreadable(
            $"has {Shown.Code(head)} for a place",
            "places are NE, NW, SE and SW, or whole centimetres from the lower left corner such as 6-21",
            nearest is null ? null : $"{nearest}:{NamedValues.Head(typed.Text).Tail}");
        return null;
    }

    /// <summary>A place in whole centimetres from the sheet's lower left corner, as it is printed beside a block: <c>6-21</c>; null with a finding.</summary>
    public static SheetPlace? OfCentimetres(string head, Typed typed, PaperSize paper)
    {
        var match = Centimetres().Match(head);
        if (!match.Success)
        {
            typed.Unreadable($"has {Shown.Code(head)} for a place", "a place is two numbers of whole centimetres as printed beside the block, such as 6-21");
            return null;
        }

        var x = int.Parse(match.Groups["x"].Value, CultureInfo.InvariantCulture) * MmPerCm;
        var y = int.Parse(match.Groups["y"].Value, CultureInfo.InvariantCulture) * MmPerCm;
        if (x > paper.WidthMm || y > paper.HeightMm)
        {
            typed.Findings.Add(Finding.Stop(
                "place-outside",
                FormattableString.Invariant($"{typed.Shown}: the place {x / MmPerCm:0}-{y / MmPerCm:0} cm lies outside {paper.Name}, which is {paper.WidthMm / MmPerCm:0.#} cm wide and {paper.HeightMm / MmPerCm:0.#} cm tall"),
                "type the two numbers that are printed beside the block: first across, then up, from the sheet's lower left corner",
                item: typed.Option));
            return null;
        }

        return new(FormattableString.Invariant($"{x / MmPerCm:0}-{y / MmPerCm:0}"), x - (paper.WidthMm / 2), y - (paper.HeightMm / 2), CentimetresSdMm);
    }

    // "EN", "top right" and the like: words for the corners.
    private static string? NearestByLetters(string head) => head.ToUpperInvariant() switch
    {
        "EN" or "TOP RIGHT" or "UPPER RIGHT" => "NE",
        "WN" or "TOP LEFT" or "UPPER LEFT" => "NW",
        "ES" or "BOTTOM RIGHT" or "LOWER RIGHT" => "SE",
        "WS" or "BOTTOM LEFT" or "LOWER LEFT" => "SW",
        _ => null,
    };

    [GeneratedRegex("^(?<x>[0-9]{1,3})\\s*[-/\u2013]\\s*(?<y>[0-9]{1,3})$", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant)]
    private static partial Regex Centimetres();
}
