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
    public static ImmutableArray<Painted<PanelSpace>> Paint(
        SeparationShapes shapes, Region<PanelSpace> sheet, BlackBuild build, double standBackMm, double spreadMm)
    {
        // Colours first, the black over them, as on the front.
        var areas = new List<Painted<PanelSpace>>(MarkInks.Backed(shapes, build, spreadMm)) { new(shapes.MaskBlack, build.Edge) };
        if (build.StandsBack)
        {
            var open = shapes.Openings.Pieces.Append(shapes.Windows);
            var core = sheet.Grow(-standBackMm).Except(Region<PanelSpace>.Union(
                open.AsParallel().AsOrdered().Select(piece => piece.Grow(standBackMm))));
            areas.Add(new(core, build.Ink));
        }

        areas.Add(new(shapes.MaskCrosshairs, build.Ink.Space == InkSpace.Gray ? Ink.Gray(0) : Ink.FullK));
        return [.. areas.Where(area => !area.Region.IsEmpty)];
    }
}
