using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Separations;

/// <summary>Paints the mask: black everywhere but where light must come through, K carrying every edge. Still in front view.</summary>
internal static class MaskSide
{
    /// <param name="shapes">What is to come out on paper.</param>
    /// <param name="open">Openings and windows.</param>
    /// <param name="sent">The same, made wider by as much as toner closes them.</param>
    /// <param name="sheet">All that is printed.</param>
    /// <param name="build">The black.</param>
    /// <param name="standBackMm">How far other inks stand back.</param>
    /// <param name="spreadMm">How much larger openings are than what shines.</param>
    /// <param name="pullBackMm">How far black is pulled back.</param>
    public static PaintedSide Paint(
        SeparationShapes shapes, Region<PanelSpace> open, Region<PanelSpace> sent, Region<PanelSpace> sheet, BlackBuild build, double standBackMm, double spreadMm, double pullBackMm)
    {
        var backed = MarkInks.Beside(MarkInks.Backed(shapes, build, spreadMm), open, sent, pullBackMm);
        var edge = new Painted<PanelSpace>(pullBackMm > 0 ? sheet.Except(sent) : shapes.MaskBlack, build.Edge);
        var core = build.StandsBack ? sheet.Grow(-standBackMm).Except(sent.Grow(standBackMm, Separator.StandBackErrorMm)) : null;
        ImmutableArray<Painted<PanelSpace>> inside = core is not null ? [new(core, build.Ink)] : [];
        var crosshairs = new Painted<PanelSpace>(shapes.MaskCrosshairs, build.Ink.Space == InkSpace.Gray ? Ink.Gray(0) : Ink.FullK);

        // Colours first, the black over them, as on the front.
        var dots = DotPaint.Mask(shapes.Dots, build, core, standBackMm);
        return new(
            [.. ((IEnumerable<Painted<PanelSpace>>)[.. backed, edge, .. inside, .. dots, crosshairs]).Where(area => !area.Region.IsEmpty)],
            Math.Max(0, PaintedSide.Toner(backed, edge, inside, crosshairs) - shapes.Dots.Sum(dot => dot.OpeningMm2 * build.Ink.TotalCoverage)));
    }
}
