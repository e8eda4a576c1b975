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
    public static PaintedSide Paint(
        SeparationShapes shapes, Region<PanelSpace> sheet, Ink? field, BlackBuild build, double standBackMm)
    {
        var coloured = MarkInks.Coloured(shapes.Visible, build);
        var thin = shapes.Covers.Where(cover => cover.Ink != (field ?? build.Edge)).ToImmutableArray();
        var edge = new Painted<PanelSpace>(shapes.FrontBlack.Except(Region<PanelSpace>.Union(thin.Select(cover => cover.Region))), field ?? build.Edge);
        ImmutableArray<Painted<PanelSpace>> inside = field is null && build.StandsBack
            ? [.. Rims(coloured, edge.Region, standBackMm), new(Core(shapes, sheet, standBackMm), build.Ink)]
            : [];
        var crosshairs = new Painted<PanelSpace>(shapes.FrontCrosshairs, build.Ink.Space == InkSpace.Gray ? Ink.Gray(0) : Ink.FullK);

        // Colours first, the black over them: printers fill every dot that is touched, and so K's edge is the one that stays.
        var under = MarkInks.UnderBlack(thin, sheet.Except(shapes.FrontBlack));
        return new(
            [.. ((IEnumerable<Painted<PanelSpace>>)[.. coloured, .. under, edge, .. inside, crosshairs]).Where(area => !area.Region.IsEmpty)],
            PaintedSide.Toner([.. coloured, .. thin], edge, inside, crosshairs));
    }

    /// <summary>A colour runs under K's edge by as much as the other inks stand back, so that no white rim shows when a colour plane is off.</summary>
    private static IEnumerable<Painted<PanelSpace>> Rims(ImmutableArray<Painted<PanelSpace>> coloured, Region<PanelSpace> black, double standBackMm) =>
        coloured.Where(colour => colour.Ink.Space == InkSpace.Cmyk).Select(colour => new Painted<PanelSpace>(
            colour.Region.Grow(standBackMm, Separator.StandBackErrorMm).Intersect(black),
            Ink.Cmyk(colour.Ink.Amounts[0], colour.Ink.Amounts[1], colour.Ink.Amounts[2], 1)));

    /// <summary>The field choked by the stand-back. Growing all that is left out of it is far quicker than choking it and gives the same.</summary>
    private static Region<PanelSpace> Core(SeparationShapes shapes, Region<PanelSpace> sheet, double standBackMm)
    {
        var open = Region<PanelSpace>.Union(
            shapes.Visible.Where(Separator.Knocks).Select(mark => mark.Shape).Append(shapes.Windows).Concat(shapes.Covers.Select(cover => cover.Region)));
        return sheet.Grow(-standBackMm).Except(open.Grow(standBackMm, Separator.StandBackErrorMm));
    }
}
