using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Separations;

/// <summary>Makes a front and a mask that belong together from one panel's artwork.</summary>
public static class Separator
{
    /// <summary>Black islands in the mask that are narrower than this don't print; the opening closes over them.</summary>
    internal const double SmallestIslandMm = 0.3;

    /// <summary>Where the other inks end lies under solid K, so a quarter of a dot at 600 dpi is exact enough.</summary>
    internal const double StandBackErrorMm = 0.01;

    /// <summary>Separates a panel.</summary>
    /// <param name="artwork">The panel's shapes.</param>
    /// <param name="printer">What is known of the printer.</param>
    /// <param name="build">The black build to use.</param>
    /// <param name="spreadMm">How much larger openings are than what shines.</param>
    /// <param name="hatches">Which hatch stands for which ink where there is black only; null for the panel's own.</param>
    public static Checked<PanelSeparation> Separate(
        PanelArtwork artwork, PrinterProperties printer, BlackBuild build, double spreadMm, HatchKey? hatches = null)
    {
        ArgumentNullException.ThrowIfNull(artwork);
        ArgumentNullException.ThrowIfNull(printer);
        ArgumentNullException.ThrowIfNull(build);
        var panel = artwork.Laid.Panel;
        var bleed = new Box<PanelSpace>(0, 0, panel.WidthMm, panel.HeightMm).Grow(PanelSeparation.BleedMm);
        var sheet = Region<PanelSpace>.Rectangle(bleed);
        var holes = HoleWindows.Of(artwork.Laid);
        var windows = holes.Union();
        var seen = VisibleMarks.Of(artwork.Marks, bleed, windows);
        var key = build.Ink.Space != InkSpace.Gray ? null : hatches ?? HatchKey.Of([artwork]);
        ImmutableArray<Mark> visible = [.. (key is null ? seen : Hatching.Apply(seen, key)).Where(mark => !mark.Shape.IsEmpty).Select(mark => mark with { Style = MarkInks.StyleOf(mark.Style, build) })];
        var standBackMm = build.StandsBack ? printer.StandBackMm : 0;

        var lit = Region<PanelSpace>.Union(visible.Where(Shines).Select(mark => mark.Shape));
        var spread = Region<PanelSpace>.Union(visible.Where(mark => Shines(mark) && !MarkInks.IsHidden(mark)).Select(mark => mark.Extent)).Grow(spreadMm);
        var openings = spread.Union(Region<PanelSpace>.Union(visible.Where(MarkInks.IsHidden).Select(mark => mark.Shape))).Intersect(sheet);
        openings = WithoutSmallIslands(sheet, openings);
        var maskBlack = sheet.Except(openings.Union(windows));
        var dots = artwork.Dots.Select(dot => DotLayer.Of(
            dot with { Style = MarkInks.StyleOf(dot.Style, build) }, Region<PanelSpace>.Union(seen.Skip(dot.Below).Select(mark => mark.Shape).Append(windows)), sheet, build, spreadMm, standBackMm, printer.PullBackMm)).ToImmutableArray();
        var knocked = Region<PanelSpace>.Union(visible.Where(Knocks).Select(mark => mark.Shape).Append(windows));
        var frontBlack = sheet.Except(knocked);

        var gaps = panel.Field is null ? Region<PanelSpace>.Empty
            : Region<PanelSpace>.Union(visible.Where(mark => Knocks(mark) && mark.Extent != mark.Shape).Select(mark => mark.Extent.Except(mark.Shape))).Except(knocked);
        var shapes = new SeparationShapes(
            visible,
            lit,
            gaps,
            MarkInks.Covers(visible, knocked, build, spreadMm),
            openings,
            frontBlack,
            maskBlack,
            windows,
            holes.Crosshairs(onMask: false),
            holes.Crosshairs(onMask: true)) { Dots = dots };

        // Growth was measured at black's edges: a field in an ink of its own is left as it is.
        var frontPullMm = panel.Field is null ? printer.PullBackMm : 0;
        var open = frontPullMm > 0 ? knocked.Except(Region<PanelSpace>.Union(visible.Where(mark => Knocks(mark) && MarkInks.IsBlack(mark.Style.Ink!)).Select(mark => mark.Shape))) : knocked;
        var maskOpen = openings.Union(windows);
        var (frontSent, maskSent) = (PulledBack.Of(open, frontPullMm), PulledBack.Of(maskOpen, printer.PullBackMm));
        var front = FrontSide.Paint(shapes, knocked, open, frontSent.Open, sheet, MarkInks.Field(panel, build), build, standBackMm, frontPullMm);
        var mask = MaskSide.Paint(shapes, maskOpen, maskSent.Open, sheet, build, standBackMm, spreadMm, printer.PullBackMm);
        var separation = new PanelSeparation(
            artwork, build, spreadMm, standBackMm, bleed, front.Areas, mask.Areas, shapes, Measure(shapes, sheet, knocked, front, mask, artwork.Holes, spreadMm)) { PullBackMm = printer.PullBackMm };
        return new(
            separation,
            [
                .. SeparationChecks.Check(separation, seen), .. DotChecks.Check(separation, seen), .. key is null ? [] : ColourChecks.Check(artwork, key),
                .. GrowthChecks.Check(separation, frontSent.Narrow, maskSent.Narrow),
            ]);
    }

    /// <summary>Whether light is to come through a mark.</summary>
    internal static bool Shines(Mark mark) => mark.Style is { Role: not LightRole.Unlit, Ink: not null };

    /// <summary>The opening behind a mark: spread for what the front outlines (for a hatch also behind what is black between its lines), exact for what is outlined by the mask itself.</summary>
    internal static Region<PanelSpace> OpeningOf(Mark mark, double spreadMm) => MarkInks.IsHidden(mark) ? mark.Shape : mark.Extent.Grow(spreadMm);

    /// <summary>Whether a mark is left out of the front's black: everything but hidden marks and those in the field's own ink.</summary>
    internal static bool Knocks(Mark mark) => mark.Style is { Role: not LightRole.Hidden, Ink: not null };

    private static Region<PanelSpace> WithoutSmallIslands(Region<PanelSpace> sheet, Region<PanelSpace> openings)
    {
        var islands = new List<Region<PanelSpace>>();
        foreach (var opening in openings.Pieces)
        {
            islands.AddRange(opening.FilledHoles().Where(hole => hole.Grow(-SmallestIslandMm / 2).IsEmpty));
        }

        return islands.Count == 0 ? openings : Region<PanelSpace>.Union([openings, .. islands.Select(island => island.Intersect(sheet))]);
    }

    private static SeparationFigures Measure(
        SeparationShapes shapes,
        Region<PanelSpace> sheet,
        Region<PanelSpace> knocked,
        PaintedSide front,
        PaintedSide mask,
        Region<PanelSpace> holes,
        double spreadMm)
    {
        var pieces = shapes.Openings.Pieces;
        var wanted = Region<PanelSpace>.Union(shapes.Visible.Where(mark => mark.Style.Ink is not null).Select(mark => mark.Shape));

        // Neither side black: open in the mask and left out in front; what is meant to be seen and what is cut away doesn't count.
        var leak = knocked.Except(wanted).Except(holes).Intersect(shapes.Openings);
        var dots = shapes.Dots.SelectMany(dot => dot.Openings()).ToList();
        var narrowestMm = Math.Min(Region<PanelSpace>.NarrowestMm(pieces), dots.Select(dot => Math.Min(dot.WidthMm, dot.HeightMm)).DefaultIfEmpty(double.PositiveInfinity).Min());
        var count = pieces.Length + dots.Count;
        return new(
            count,
            count == 0 ? 0 : narrowestMm,
            spreadMm,
            Math.Max(0, shapes.Openings.AreaMm2 - shapes.Lit.AreaMm2) + shapes.Dots.Sum(dot => Math.Max(0, dot.OpeningMm2 - dot.ShownMm2)),
            leak.AreaMm2,
            front.TonerMm2 / sheet.AreaMm2,
            mask.TonerMm2 / sheet.AreaMm2);
    }
}
