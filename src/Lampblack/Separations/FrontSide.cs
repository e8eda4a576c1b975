using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Separations;

/// <summary>Paints the front: the field with its legends left out, K carrying every edge.</summary>
internal static class FrontSide
{
    public static ImmutableArray<Painted<PanelSpace>> Paint(
        SeparationShapes shapes, Region<PanelSpace> sheet, Ink? field, BlackBuild build, double standBackMm)
    {
        var coloured = MarkInks.Coloured(shapes.Visible, build);
        var thin = shapes.Covers.Where(cover => cover.Ink != (field ?? build.Edge)).ToList();
        var black = shapes.FrontBlack.Except(Region<PanelSpace>.Union(thin.Select(cover => cover.Region)));

        // Colours first, the black over them: printers fill every dot that is touched, and so K's edge is the one that stays.
        var areas = new List<Painted<PanelSpace>>(coloured);
        areas.AddRange(MarkInks.UnderBlack(thin, sheet.Except(shapes.FrontBlack)));
        areas.Add(new(black, field ?? build.Edge));
        if (field is null && build.StandsBack)
        {
            areas.AddRange(Rims(coloured, black, standBackMm));
            areas.Add(new(Core(shapes, sheet, standBackMm), build.Ink));
        }

        areas.Add(new(shapes.FrontCrosshairs, build.Ink.Space == InkSpace.Gray ? Ink.Gray(0) : Ink.FullK));
        return [.. areas.Where(area => !area.Region.IsEmpty)];
    }

    /// <summary>A colour runs under K's edge by as much as the other inks stand back, so that no white rim shows when a colour plane is off.</summary>
    private static IEnumerable<Painted<PanelSpace>> Rims(ImmutableArray<Painted<PanelSpace>> coloured, Region<PanelSpace> black, double standBackMm) =>
        coloured.Where(colour => colour.Ink.Space == InkSpace.Cmyk).Select(colour => new Painted<PanelSpace>(
            colour.Region.Grow(standBackMm).Intersect(black),
            Ink.Cmyk(colour.Ink.Amounts[0], colour.Ink.Amounts[1], colour.Ink.Amounts[2], 1)));

    /// <summary>The field choked by the stand-back. Growing all that is left out of it is far quicker than choking it and gives the same.</summary>
    private static Region<PanelSpace> Core(SeparationShapes shapes, Region<PanelSpace> sheet, double standBackMm)
    {
        var open = shapes.Visible.Where(Separator.Knocks).Select(mark => mark.Shape).Append(shapes.Windows).Concat(shapes.Covers.Select(cover => cover.Region));
        return sheet.Grow(-standBackMm).Except(Region<PanelSpace>.Union(
            open.AsParallel().AsOrdered().Select(shape => shape.Grow(standBackMm))));
    }
}
