using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Quantities;

namespace Lampblack.Printers;

/// <summary>How the field's black is built.</summary>
/// <param name="Name">The word by which it is chosen.</param>
/// <param name="Ink">The full build.</param>
/// <param name="Edge">What the edge is made of: K alone, where the build has other inks that must stand back; the build itself otherwise.</param>
public sealed record BlackBuild(string Name, Ink Ink, Ink Edge)
{
    /// <summary>Whether other inks stand back from the edge.</summary>
    public bool StandsBack => Ink != Edge;
}

/// <summary>What is known of a printer on one path through it: with a printer file, measured; without one, common practice.</summary>
/// <param name="Builds">The black builds it can be asked for, the default first.</param>
/// <param name="SpreadMm">How much larger openings are than what shines.</param>
/// <param name="StandBackMm">How far C, M and Y stay inside K's edge.</param>
/// <param name="MarginMm">Unprintable border of the sheet.</param>
/// <param name="LeadingEdgeMm">Strip at the leading edge that must stay free of heavy toner.</param>
/// <param name="SideOne">What the printer does to a front page, in front view.</param>
/// <param name="SideTwo">What the printer does to a back page in front view, relative to the front.</param>
/// <param name="HalfTurnOfBack">Whether the back page needs a half-turn, for printers that take the other edge first.</param>
/// <param name="Revision">What its sheets say behind <c>register</c>; 0 before anything was learned of it.</param>
/// <param name="IsCoverageKnown">Whether it is known how much toner the fuser holds.</param>
public sealed record PrinterProperties(
    ImmutableArray<BlackBuild> Builds,
    double SpreadMm,
    double StandBackMm,
    double MarginMm,
    double LeadingEdgeMm,
    Affine<SheetSpace, SheetSpace> SideOne,
    Affine<SheetSpace, SheetSpace> SideTwo,
    bool HalfTurnOfBack,
    int Revision = 0,
    bool IsCoverageKnown = false)
{
    /// <summary>How far edges of black are pulled back on both sides, because toner grows by as much; 0 where nothing is known of that.</summary>
    public double PullBackMm { get; init; }

    /// <summary>On how many calibration sheets the stand-back rests; 0 where it is common practice.</summary>
    public int SheetsOfStandBack { get; init; }

    /// <summary>The build that uses up what was learned to hold.</summary>
    public const string Learned = "learned";

    /// <summary>
    /// A printer nobody has measured: openings 0.5 mm larger, inks standing back by 0.1 mm, 5 mm margins, 10 mm free at the leading edge,
    /// no shift or turn. Common practice, no source.
    /// </summary>
    public static PrinterProperties Unmeasured { get; } = new(
        [
            // 240 %: below the 260 % that is often given as what a toner fuser melts; 300 % is reported to flake.
            new("safe", Ink.Cmyk(0.6, 0.4, 0.4, 1), Ink.FullK),
            new("full", Ink.Cmyk(1, 1, 1, 1), Ink.FullK),
            new("K", Ink.FullK, Ink.FullK),
            new("gray", Ink.Gray(0), Ink.Gray(0)),
            new("rgb", Ink.Rgb(0, 0, 0), Ink.Rgb(0, 0, 0)),
        ],
        SpreadMm: 0.5,
        StandBackMm: 0.1,
        MarginMm: 5,
        LeadingEdgeMm: 10,
        SideOne: Affine<SheetSpace, SheetSpace>.Identity,
        SideTwo: Affine<SheetSpace, SheetSpace>.Identity,
        HalfTurnOfBack: false);

    /// <summary>What a printer file tells; common practice where it tells nothing.</summary>
    /// <param name="file">The printer file.</param>
    /// <param name="paper">The paper of its path.</param>
    public static PrinterProperties Of(PrinterFile file, PaperSize paper)
    {
        ArgumentNullException.ThrowIfNull(file);

        // A printer with black only is asked for gray, whose colours come as hatches.
        var planes = file.Planes.IsEmpty || !file.Path.Colour ? null : PlanesEstimate.Of(file);
        return Unmeasured with
        {
            Builds = file.Path.Colour ? DarkestBlack.First(BuildsOf(file), file) : BuildsOf(file),
            StandBackMm = planes?.StandBackMm() ?? Unmeasured.StandBackMm,
            SheetsOfStandBack = planes?.Sheets ?? 0,
            PullBackMm = GainEstimate.Of(file).PullBackMm,
            MarginMm = file.Path.MarginMm,
            LeadingEdgeMm = file.Path.LeadingEdgeMm,
            SideOne = ScaleEstimate.Of(file).On(paper),
            SideTwo = RegisterEstimate.Of(file).On(paper),
            HalfTurnOfBack = file.HalfTurnOfBack,
            Revision = file.Revision,
            IsCoverageKnown = CoverageLimit.Of(file) is { HeldCoverage: not null, FlakedCoverage: not null } or { HeldCoverage: >= 4 },
        };
    }

    private static ImmutableArray<BlackBuild> BuildsOf(PrinterFile file)
    {
        if (!file.Path.Colour)
        {
            return [.. Unmeasured.Builds.Where(build => build.Name is "gray" or "K").OrderBy(build => build.Name == "gray" ? 0 : 1)];
        }

        // The other inks share alike what K leaves: grey as far as a driver's inks make grey, and the patches of the coverage row are built so too.
        return CoverageLimit.Of(file).HeldCoverage is { } limit and >= 1 and <= 4
            ? [new(Learned, Ink.Cmyk((limit - 1) / 3, (limit - 1) / 3, (limit - 1) / 3, 1), Ink.FullK), .. Unmeasured.Builds]
            : Unmeasured.Builds;
    }

    /// <summary>The build of that name, in any case of letters.</summary>
    public BlackBuild? Build(string name) =>
        Builds.FirstOrDefault(build => string.Equals(build.Name, name, StringComparison.OrdinalIgnoreCase));
}
