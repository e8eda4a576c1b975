using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Separations;

/// <summary>Makes a front and a mask that belong together from one panel's artwork.</summary>
public static class Separator
{
    /// <summary>Black islands in the mask that are narrower than this don't print; the opening closes over them.</summary>
    private const double SmallestIslandMm = 0.3;

    /// <summary>Separates a panel.</summary>
    /// <param name="artwork">The panel's shapes.</param>
    /// <param name="printer">What is known of the printer.</param>
    /// <param name="build">The black build to use.</param>
    /// <param name="spreadMm">How much larger openings are than what shines.</param>
    public static Checked<PanelSeparation> Separate(PanelArtwork artwork, PrinterProperties printer, BlackBuild build, double spreadMm)
    {
        ArgumentNullException.ThrowIfNull(artwork);
        ArgumentNullException.ThrowIfNull(printer);
        ArgumentNullException.ThrowIfNull(build);
        var panel = artwork.Laid.Panel;
        var bleed = new Box<PanelSpace>(0, 0, panel.WidthMm, panel.HeightMm).Grow(PanelSeparation.BleedMm);
        var sheet = Region<PanelSpace>.Rectangle(bleed);
        var visible = VisibleMarks.Of(Within(sheet, artwork.Marks));
        var windows = HoleWindows.Of(artwork.Laid.Parts);
        var standBackMm = build.StandsBack && panel.Field is null ? printer.StandBackMm : 0;

        var lit = Region<PanelSpace>.Union(visible.Where(Shines).Select(mark => mark.Shape));
        var openings = Region<PanelSpace>.Union(visible.Where(Shines).AsParallel().AsOrdered().Select(mark => mark.Shape.Grow(spreadMm)))
            .Intersect(sheet);
        openings = WithoutSmallIslands(sheet, openings);
        var maskBlack = sheet.Except(openings.Union(windows));
        var knocked = Region<PanelSpace>.Union(visible.Where(Knocks).Select(mark => mark.Shape).Append(windows));
        var frontBlack = sheet.Except(knocked);

        var shapes = new SeparationShapes(visible, lit, openings, frontBlack, maskBlack, windows);
        var front = FrontSide.Paint(shapes, sheet, panel.Field, build, standBackMm, artwork.Laid.Parts);
        var mask = MaskSide.Paint(shapes, sheet, build, standBackMm, spreadMm, artwork.Laid.Parts);
        var separation = new PanelSeparation(
            artwork, build, spreadMm, standBackMm, bleed, front, mask, shapes, Measure(shapes, sheet, front, mask, artwork.Holes, spreadMm));
        return new(separation, SeparationChecks.Check(separation));
    }

    /// <summary>Whether light is to come through a mark.</summary>
    internal static bool Shines(Mark mark) => mark.Style is { Role: not LightRole.Unlit, Ink: not null };

    /// <summary>Whether a mark is left out of the front's black: everything but hidden marks and those in the field's own ink.</summary>
    internal static bool Knocks(Mark mark) => mark.Style is { Role: not LightRole.Hidden, Ink: not null };

    /// <summary>The marks as far as they lie on the panel and its bleed: what reaches further would be printed over its neighbours on the sheet.</summary>
    private static ImmutableArray<Mark> Within(Region<PanelSpace> sheet, ImmutableArray<Mark> marks)
    {
        var box = sheet.Bounds;
        return
        [
            .. marks.AsParallel().AsOrdered()
                .Select(mark => box.Contains(mark.Shape.Bounds) ? mark : mark with { Shape = mark.Shape.Intersect(sheet) })
                .Where(mark => !mark.Shape.IsEmpty),
        ];
    }

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
        ImmutableArray<Painted<PanelSpace>> front,
        ImmutableArray<Painted<PanelSpace>> mask,
        Region<PanelSpace> holes,
        double spreadMm)
    {
        var pieces = shapes.Openings.Pieces;
        var wanted = Region<PanelSpace>.Union(shapes.Visible.Where(mark => mark.Style.Ink is not null).Select(mark => mark.Shape));

        // Neither side black: open in the mask and not black in front; what is meant to be seen and what is cut away doesn't count.
        var leak = shapes.Openings.Except(shapes.FrontBlack).Except(wanted).Except(holes);
        return new(
            pieces.Length,
            pieces.IsEmpty ? 0 : pieces.Min(piece => piece.SmallestWidthMm),
            spreadMm,
            Math.Max(0, shapes.Openings.AreaMm2 - shapes.Lit.AreaMm2),
            leak.AreaMm2,
            Coverage(front, sheet),
            Coverage(mask, sheet));
    }

    /// <summary>Mean toner in layers: each area counts what lies on top, as later areas are opaque.</summary>
    private static double Coverage(ImmutableArray<Painted<PanelSpace>> areas, Region<PanelSpace> sheet)
    {
        double toner = 0;
        for (var index = 0; index < areas.Length; index++)
        {
            // Only the large areas matter for a mean: the field's own layers come first and are cut by nothing but each other.
            var shown = areas[index].Region.AreaMm2;
            if (index + 1 < areas.Length && index < FieldLayers(areas))
            {
                shown -= areas[index + 1].Region.Intersect(areas[index].Region).AreaMm2;
            }

            toner += Math.Max(0, shown) * areas[index].Ink.TotalCoverage;
        }

        return toner / sheet.AreaMm2;
    }

    private static int FieldLayers(ImmutableArray<Painted<PanelSpace>> areas) =>
        areas.Length > 1 && areas[0].Ink == Ink.FullK && areas[1].Ink.TotalCoverage > 1 && areas[1].Ink.Space == InkSpace.Cmyk && areas[1].Ink.Amounts[3] == 1 ? 1 : 0;
}
