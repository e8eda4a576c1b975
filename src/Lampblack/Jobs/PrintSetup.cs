using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Jobs;

/// <summary>Paper, printer, black and spread of one build.</summary>
internal sealed record PrintSetup(PaperSize Paper, PrinterProperties Printer, BlackBuild Black, double SpreadMm)
{
    /// <summary>Toner above this share of a layer is reported to flake: 260 % is often given as what a fuser melts, 300 % as too much.</summary>
    private const double FusableLayers = 2.6;

    /// <summary>The build for a printer with black only; colours become grays and hatches.</summary>
    private const string BlackOnly = "gray";

    private const double SmallestSpreadMm = 0.05;
    private const double LargestSpreadMm = 3;

    public static PrintSetup Of(BuildRequest request, List<Finding> findings)
    {
        var printer = PrinterProperties.Unmeasured;
        return new(ReadPaper(request, findings), printer, ReadBlack(request, printer, findings), ReadSpread(request, printer, findings));
    }

    private static PaperSize ReadPaper(BuildRequest request, List<Finding> findings)
    {
        if (PaperSize.Find(request.Paper) is { } paper)
        {
            return paper;
        }

        findings.Add(Finding.Stop(
            "paper-unknown", $"there is no paper {Shown.Code(request.Paper)}", "known are " + string.Join(", ", PaperSize.All.Select(size => size.Name))));
        return PaperSize.All[0];
    }

    private static BlackBuild ReadBlack(BuildRequest request, PrinterProperties printer, List<Finding> findings)
    {
        var build = request.Black is { } name ? printer.Build(name)
            : request.Printer is { Path.Colour: false } ? printer.Build(BlackOnly)
            : printer.Builds[0];
        if (build is null)
        {
            findings.Add(Finding.Stop(
                "black-unknown",
                $"there is no black build {Shown.Code(request.Black ?? string.Empty)}",
                "known are " + string.Join(", ", printer.Builds.Select(known => known.Name))));
            return printer.Builds[0];
        }

        if (build.Ink.TotalCoverage > FusableLayers)
        {
            findings.Add(Finding.Warn(
                "black-heavy",
                FormattableString.Invariant($"the black build `{build.Name}` lays down {build.Ink.TotalCoverage * 100:0} % toner; many fusers melt no more than about 260 %"),
                "try one sheet first: rub it, fold it, pull tape off it; if it flakes, use `--black safe`. Only heavy paper that the printer's maker allows; the fuser is hot"));
        }
        else if (request.Black is null)
        {
            findings.Add(Finding.Note(
                "black-default",
                FormattableString.Invariant($"the black is the default build `{build.Name}`: {build.Ink.TotalCoverage * 100:0} % toner with full K, which most fusers melt"),
                "`--black full` is darker where your printer fuses it: print one sheet, rub, fold and tape it"));
        }

        return build;
    }

    private static double ReadSpread(BuildRequest request, PrinterProperties printer, List<Finding> findings)
    {
        if (request.SpreadMm is not { } spread)
        {
            findings.Add(Finding.Note(
                "spread-default",
                FormattableString.Invariant($"openings are {printer.SpreadMm} mm larger than what shines, the usual allowance for a printer that nobody has measured"),
                "`--spread` sets another; smaller gives narrower halos and needs better register"));
            return printer.SpreadMm;
        }

        if (spread is >= SmallestSpreadMm and <= LargestSpreadMm)
        {
            return spread;
        }

        findings.Add(Finding.Stop(
            "spread-range", FormattableString.Invariant($"the spread must be from {SmallestSpreadMm} to {LargestSpreadMm} mm, found {spread}"), "0.5 mm is usual"));
        return printer.SpreadMm;
    }
}
