using System;
using System.Collections.Generic;
using System.Globalization;
using Lampblack.Findings;
using Lampblack.Printers;

namespace Lampblack.Jobs;

/// <summary>Says of each figure of a build whether it was learned on this printer or is common practice.</summary>
internal static class PrinterNotes
{
    private const string Common = "common practice";

    /// <summary>What a printer file gives, and what it leaves to common practice.</summary>
    public static Finding Figures(PrinterFile file)
    {
        var turn = file.Turns.IsEmpty ? $"turning {Common}" : $"turning learned from {Count(file.Turns.Length, "sheet")}";
        var register = file.Register.IsEmpty ? $"register {Common} (nothing is undone)" : $"register learned from {Count(RegisterEstimate.Of(file).Sheets, "sheet")}";
        var scale = ScaleEstimate.Of(file);
        var width = scale.Sheets == 0 ? $"width {Common}" : $"width learned from {Count(scale.Sheets, "bar")}";
        return Finding.Note(
            "printer-figures",
            $"the printer {Shown.Code(file.Name)}: {turn}, {register}, {width}, margins as its file has them; the sheets say register {file.Revision.ToString(CultureInfo.InvariantCulture)}",
            "`lampblack printer show` tells how well each is known, and how to learn the rest");
    }

    /// <summary>Which black is printed where nobody asked for one, and why.</summary>
    public static Finding DefaultBlack(BlackBuild build, PrinterFile? file)
    {
        var toner = build.Ink.TotalCoverage;
        if (file is { Path.Colour: false } && WedgeEstimate.Of(file) is { Sheets: > 0 } wedge && wedge.Patch("front-gray-vector") is { } gray && wedge.Patch("front-K-vector") is { } k)
        {
            return Finding.Note(
                "black-default",
                FormattableString.Invariant($"the black is the default build `{build.Name}` for printers with black only; on the printer {Shown.Code(file.Name)} one layer of it keeps back {Told(gray)} and one of `K` {Told(k)} (density, learned from {Count(wedge.Sheets, "sheet")})"),
                "`--black K` sends full K, without hatches for colours");
        }

        if (file is { Path.Colour: false })
        {
            return Finding.Note(
                "black-default",
                FormattableString.Invariant($"the black is the default build `{build.Name}` for printers with black only: the driver's own black, common practice"),
                "`--black K` sends the same as full K; print one sheet of each and hold them to a lamp");
        }

        if (file is not null && CoverageLimit.Of(file) is { HeldCoverage: not null } limit)
        {
            return Finding.Note(
                "black-default",
                FormattableString.Invariant($"the black is `{build.Name}`, {toner * 100:0} % toner: the most that is known to hold on the printer {Shown.Code(file.Name)}, learned from {Count(limit.Sheets, "coverage row")}"),
                "`--black safe` lays down less");
        }

        var unlearned = file is null ? "" : $"; nothing was learned of what holds on the printer {Shown.Code(file.Name)}";
        return Finding.Note(
            "black-default",
            FormattableString.Invariant($"the black is the default build `{build.Name}`: {toner * 100:0} % toner with full K, which most fusers melt (common practice{unlearned})"),
            "`--black full` is darker where your printer fuses it: print one sheet, rub, fold and tape it");
    }

    /// <summary>How large the openings are where nobody said and nothing was learned of the register, and how to learn it.</summary>
    public static Finding DefaultSpread(double spreadMm, PrinterFile? file, string? word) => Finding.Note(
        "spread-default",
        FormattableString.Invariant($"openings are {spreadMm} mm larger than what shines, the usual allowance {(file is null ? "for a printer that nobody has measured" : $"(common practice, as nothing was learned of the register of the printer {Shown.Code(file.Name)})")}"),
        $"`--spread` sets another; smaller gives narrower halos and needs better register. To learn what your printer needs, print its calibration sheet: `lampblack printer sheet --printer {(word is null ? "NAME" : Shown.Short(word))}`");

    /// <summary>What the build makes of toner's growth and of the colours' places, where a printer file tells of them.</summary>
    public static IEnumerable<Finding> Edges(PrinterFile file, PrinterProperties printer)
    {
        var gain = GainEstimate.Of(file);
        if (gain.Sheets > 0)
        {
            yield return Finding.Note(
                "growth-learned",
                FormattableString.Invariant($"toner grows by {gain.GrowthMm:0.000} ± {gain.SdMm:0.000} mm at each edge of black on the printer {Shown.Code(file.Name)} (learned from {Count(gain.Sheets, "sheet")}): {(printer.PullBackMm > 0 ? FormattableString.Invariant($"edges are pulled back by {printer.PullBackMm:0.000} mm on both sides, so that they come out as drawn") : "nothing is pulled back for that")}"),
                "`lampblack printer forget NAME --what gain` prints edges where they are drawn");
        }

        if (printer.SheetsOfStandBack > 0)
        {
            yield return Finding.Note(
                "stand-back-learned",
                FormattableString.Invariant($"other inks end {printer.StandBackMm:0.##} mm inside black's edges: no colour of the printer {Shown.Code(file.Name)} comes out from under black on 99 of 100 places, by what was learned from {Count(printer.SheetsOfStandBack, "sheet")}{(printer.StandBackMm <= PlanesEstimate.LeastMm ? ", and never less than that" : printer.StandBackMm >= PlanesEstimate.MostMm ? ", as far as is of use" : string.Empty)}"),
                "more calibration sheets, learned from, bring that down to what the printer itself scatters");
        }
    }

    private static string Told(PatchDensity patch) =>
        patch.IsLowerBound ? FormattableString.Invariant($"at least {patch.Density:0.00}") : FormattableString.Invariant($"{patch.Density:0.00} ± {patch.UncertaintyDensity:0.00}");

    private static string Count(int count, string what) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {what}{(count == 1 ? "" : "s")}");
}
