using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.SourceText;

namespace Lampblack.Jobs;

/// <summary>Paper, printer, black and spread of one build.</summary>
/// <param name="Paper">The paper.</param>
/// <param name="Printer">What is known of the printer.</param>
/// <param name="Black">The black.</param>
/// <param name="AskedSpreadMm">The spread that the maker asked for; null where the printer decides.</param>
internal sealed record PrintSetup(PaperSize Paper, PrinterProperties Printer, BlackBuild Black, double? AskedSpreadMm)
{
    /// <summary>How much larger openings are than what shines, panel by panel; known once it is known where panels lie on their sheets.</summary>
    public SpreadPlan Spreads { get; init; } = SpreadPlan.Uniform(AskedSpreadMm ?? Printer.SpreadMm);

    /// <summary>Toner above this share of a layer is reported to flake: 260 % is often given as what a fuser melts, 300 % as too much.</summary>
    private const double FusableLayers = 2.6;

    /// <summary>The build for a printer with black only; colours become grays and hatches.</summary>
    private const string BlackOnly = "gray";

    private const double SmallestSpreadMm = 0.05;
    internal const double LargestSpreadMm = 3;

    /// <summary>What is known of how much toner the fuser holds.</summary>
    public CoverageLimit Coverage { get; init; } = new(null, null, 0);

    /// <summary>Whether so much toner on one side is more than many fusers melt, and not known to hold here.</summary>
    /// <param name="totalCoverage">In full layers.</param>
    public bool IsHeavy(double totalCoverage) => IsHeavy(totalCoverage, Coverage);

    private static bool IsHeavy(double totalCoverage, CoverageLimit limit) => totalCoverage > FusableLayers && !limit.Holds(totalCoverage);

    private static CoverageLimit LimitOf(BuildRequest request) => request.Printer is { } file ? CoverageLimit.Of(file) : new(null, null, 0);

    public static PrintSetup Of(BuildRequest request, List<Finding> findings)
    {
        var paper = ReadPaper(request, findings);
        var printer = request.Printer is { } file ? PrinterProperties.Of(file, paper) : PrinterProperties.Unmeasured;
        if (request.Printer is { } told)
        {
            findings.Add(PrinterNotes.Figures(told));
            findings.AddRange(PrinterNotes.Edges(told, printer));
        }

        var black = ReadBlack(request, printer, findings);
        CheckSecondPass(request, black, findings);
        return new(paper, printer, black, ReadSpread(request, findings)) { Coverage = LimitOf(request) };
    }

    private static PaperSize ReadPaper(BuildRequest request, List<Finding> findings)
    {
        if (PaperSize.Find(request.Paper) is not { } paper)
        {
            findings.Add(UnknownPaper.Finding(request.Paper));
            return PaperSize.All[0];
        }

        if (request.Printer is { } printer && OtherPaper(printer, paper) is { } other)
        {
            findings.Add(other);
        }

        return paper;
    }

    /// <summary>What is wrong where a printer file is about another paper than the one asked for; null where it is not.</summary>
    internal static Finding? OtherPaper(PrinterFile printer, PaperSize paper) => PaperSize.Find(printer.Path.Paper) is { } learned && learned != paper
        ? Finding.Stop(
            "printer-other-paper",
            $"the printer file {Shown.Code(printer.Name)} is about {learned.Name}, and {paper.Name} was asked for; what was learned on one paper is wrong on another",
            $"leave out `--paper`, or start a printer file for {paper.Name}: `lampblack printer new`")
        : null;

    private static BlackBuild ReadBlack(BuildRequest request, PrinterProperties printer, List<Finding> findings)
    {
        var build = request.Black is { } name ? printer.Build(name)
            : request.Printer is { Path.Colour: false } ? printer.Build(BlackOnly)
            : printer.Builds[0];
        if (build is null)
        {
            findings.Add(NoSuchBlack(request, printer));
            return printer.Builds[0];
        }

        var limit = LimitOf(request);
        if (limit.Forbids(build.Ink.TotalCoverage))
        {
            findings.Add(Finding.Stop(
                "black-over-limit",
                FormattableString.Invariant($"the black build `{build.Name}` lays down {build.Ink.TotalCoverage * 100:0} % toner; on the printer {Shown.Code(request.Printer!.Name)} {(limit.HeldCoverage is { } held ? FormattableString.Invariant($"no more than {held * 100:0} % is known to hold") : FormattableString.Invariant($"{limit.FlakedCoverage * 100:0} % flaked"))}"),
                limit.HeldCoverage is null ? "use `--black K`, or print a coverage row and learn what holds" : "use the default, or print a coverage row once more and learn what holds"));
        }
        else if (IsHeavy(build.Ink.TotalCoverage, limit))
        {
            findings.Add(Finding.Warn(
                "black-heavy",
                FormattableString.Invariant($"the black build `{build.Name}` lays down {build.Ink.TotalCoverage * 100:0} % toner; many fusers melt no more than about 260 %"),
                "what a fuser can't melt comes off: it flakes, ghosts on the next sheets, soils the fuser, or makes the sheet wrap around it. Try one sheet first: rub it, fold it, pull tape off it; if it flakes, use `--black safe`. Only heavy paper that the printer's maker allows; the fuser is hot"));
        }
        else if (request.Black is null)
        {
            findings.Add(PrinterNotes.DefaultBlack(build, request.Printer));
        }

        return build;
    }

    /// <summary>Two passes of one side lie on each other in the fuser.</summary>
    private static void CheckSecondPass(BuildRequest request, BlackBuild build, List<Finding> findings)
    {
        var layers = 2 * build.Ink.TotalCoverage;
        if (request.SecondPass == SecondPass.None || !IsHeavy(layers, LimitOf(request)))
        {
            return;
        }

        findings.Add(Finding.Warn(
            "black-heavy",
            FormattableString.Invariant($"two passes of the black build `{build.Name}` lay down {layers * 100:0} % toner; many fusers melt no more than about 260 %"),
            "a second pass is meant for one black toner: `--black K` or `--black gray` lay down 200 %. Try one sheet first: rub it, fold it, pull tape off it; the fuser is hot"));
    }

    private static Finding NoSuchBlack(BuildRequest request, PrinterProperties printer)
    {
        var asked = request.Black ?? string.Empty;
        var meant = Nearest.To(asked, printer.Builds.Select(one => one.Name)) is { } near ? $"did you mean `--black {near}`? " : string.Empty;
        var known = $"{meant}known are {string.Join(", ", printer.Builds.Select(one => one.Name))}";
        return request.Printer is { Path.Colour: false } file && PrinterProperties.Unmeasured.Build(asked) is { } inColours
            ? Finding.Stop(
                "black-needs-colour", $"the black build `{inColours.Name}` needs colours, and the printer {Shown.Code(file.Name)} prints black only", known)
            : string.Equals(asked, PrinterProperties.Learned, StringComparison.OrdinalIgnoreCase)
                ? Finding.Stop("black-unknown", $"there is no black build `{PrinterProperties.Learned}` yet: nothing was learned of what holds", $"name a printer file that has learned from a coverage row (`lampblack printer learn` with `--held`), or another build: {known}")
                : Finding.Stop("black-unknown", $"there is no black build {Shown.Code(asked)}", known);
    }

    private static double? ReadSpread(BuildRequest request, List<Finding> findings)
    {
        if (request.SpreadMm is not { } spread)
        {
            return null;
        }

        if (spread is >= SmallestSpreadMm and <= LargestSpreadMm)
        {
            return spread;
        }

        findings.Add(Finding.Stop(
            "spread-range", FormattableString.Invariant($"the spread must be from {SmallestSpreadMm} to {LargestSpreadMm} mm, found {spread}"), "0.5 mm is usual"));
        return null;
    }
}
