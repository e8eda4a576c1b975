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
    public static PaintedSide Paint(
        SeparationShapes shapes, Region<PanelSpace> sheet, BlackBuild build, double standBackMm, double spreadMm)
    {
        var backed = MarkInks.Backed(shapes, build, spreadMm);
        var edge = new Painted<PanelSpace>(shapes.MaskBlack, build.Edge);
        var core = build.StandsBack ? Core(shapes, sheet, standBackMm) : null;
        ImmutableArray<Painted<PanelSpace>> inside = core is not null ? [new(core, build.Ink)] : [];
        var crosshairs = new Painted<PanelSpace>(shapes.MaskCrosshairs, build.Ink.Space == InkSpace.Gray ? Ink.Gray(0) : Ink.FullK);

        // Colours first, the black over them, as on the front.
        var dots = DotPaint.Mask(shapes.Dots, build, core, standBackMm);
        return new(
            [.. ((IEnumerable<Painted<PanelSpace>>)[.. backed, edge, .. inside, .. dots, crosshairs]).Where(area => !area.Region.IsEmpty)],
            Math.Max(0, PaintedSide.Toner(backed, edge, inside, crosshairs) - shapes.Dots.Sum(dot => dot.OpeningMm2 * build.Ink.TotalCoverage)));
    }

    private static Region<PanelSpace> Core(SeparationShapes shapes, Region<PanelSpace> sheet, double standBackMm) =>
        sheet.Grow(-standBackMm).Except(shapes.Openings.Union(shapes.Windows).Grow(standBackMm, Separator.StandBackErrorMm));
}
