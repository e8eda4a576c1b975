using System;
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
    /// <param name="shapes">What is to come out on paper.</param>
    /// <param name="knocked">What is left out of the field.</param>
    /// <param name="open">What of that is not black itself.</param>
    /// <param name="sent">The same, made wider by as much as toner closes it.</param>
    /// <param name="sheet">All that is printed.</param>
    /// <param name="field">The field's ink; null for the build itself.</param>
    /// <param name="build">The black.</param>
    /// <param name="standBackMm">How far other inks stand back.</param>
    /// <param name="pullBackMm">How far black is pulled back.</param>
    public static PaintedSide Paint(
        SeparationShapes shapes, Region<PanelSpace> knocked, Region<PanelSpace> open, Region<PanelSpace> sent, Region<PanelSpace> sheet, Ink? field, BlackBuild build, double standBackMm, double pullBackMm)
    {
        var coloured = MarkInks.Beside(MarkInks.Coloured(shapes.Visible, build), open, sent, pullBackMm);
        var left = pullBackMm > 0 ? knocked.Union(sent) : knocked;
        var thin = shapes.Covers.Where(cover => cover.Ink != (field ?? build.Edge)).ToImmutableArray();
        // Covers are put to what they touch before the field is cut: cutting a field that is full of legends already takes far longer.
        var edge = new Painted<PanelSpace>(thin.IsEmpty && pullBackMm <= 0 ? shapes.FrontBlack : sheet.Except(Open(left, thin)), field ?? build.Edge);
        var core = field is null && build.StandsBack ? Core(Open(left, shapes.Covers), sheet, standBackMm) : null;
        ImmutableArray<Painted<PanelSpace>> inside = core is not null
            ? [.. Rims(coloured, edge.Region, standBackMm), new(core, build.Ink)]
            : [new(shapes.HatchGaps, build.Edge)];
        var crosshairs = new Painted<PanelSpace>(shapes.FrontCrosshairs, build.Ink.Space == InkSpace.Gray ? Ink.Gray(0) : Ink.FullK);

        // Colours first, the black over them: printers fill every dot that is touched, and so K's edge is the one that stays.
        var under = MarkInks.UnderBlack(thin, left);
        var dots = DotPaint.Front(shapes.Dots, build, pullBackMm > 0 ? sheet.Except(left) : shapes.FrontBlack, core, [new(left, Ink.Bare(build.Ink.Space)), .. coloured], standBackMm);
        return new(
            [.. ((IEnumerable<Painted<PanelSpace>>)[.. coloured, .. under, edge, .. inside, .. dots, crosshairs]).Where(area => !area.Region.IsEmpty)],
            Math.Max(0, PaintedSide.Toner([.. coloured, .. thin], edge, inside, crosshairs) - shapes.Dots.Sum(dot => dot.FrontTonerLessMm2(field ?? build.Ink))));
    }

    /// <summary>A colour runs under K's edge by as much as the other inks stand back, so that no white rim shows when a colour plane is off.</summary>
    private static IEnumerable<Painted<PanelSpace>> Rims(ImmutableArray<Painted<PanelSpace>> coloured, Region<PanelSpace> black, double standBackMm) =>
        coloured.Where(colour => colour.Ink.Space == InkSpace.Cmyk).Select(colour => new Painted<PanelSpace>(
            colour.Region.Grow(standBackMm, Separator.StandBackErrorMm).Intersect(black),
            Ink.Cmyk(colour.Ink.Amounts[0], colour.Ink.Amounts[1], colour.Ink.Amounts[2], 1)));

    /// <summary>The field choked by the stand-back. Growing all that is left out of it is far quicker than choking it and gives the same.</summary>
    private static Region<PanelSpace> Core(Region<PanelSpace> open, Region<PanelSpace> sheet, double standBackMm) =>
        sheet.Grow(-standBackMm).Except(open.Grow(standBackMm, Separator.StandBackErrorMm));

    private static Region<PanelSpace> Open(Region<PanelSpace> knocked, ImmutableArray<Painted<PanelSpace>> covers) =>
        covers.IsEmpty ? knocked : Region<PanelSpace>.Union(covers.Select(cover => cover.Region).Prepend(knocked));
}
