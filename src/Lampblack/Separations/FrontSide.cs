using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Separations;

/// <summary>Paints the front: the field with its legends left out, K carrying every edge.</summary>
internal static class FrontSide
{
    public static ImmutableArray<Painted<PanelSpace>> Paint(
        SeparationShapes shapes, Region<PanelSpace> sheet, Ink? field, BlackBuild build, double standBackMm, ImmutableArray<PlacedPart> parts)
    {
        var areas = new List<Painted<PanelSpace>>();
        var hidden = Region<PanelSpace>.Union(shapes.Visible.Where(IsHidden).Select(mark => mark.Shape));
        var black = shapes.FrontBlack.Except(hidden);

        // Colours first, the black over them: printers fill every dot that is touched, and so K's edge is the one that stays.
        foreach (var mark in shapes.Visible)
        {
            if (IsHidden(mark))
            {
                areas.Add(new(mark.Shape, Cover(mark.Style.CoverShare, build.Ink.Space)));
            }
            else if (mark.Style.Ink is { } ink && ink != Ink.None)
            {
                areas.Add(new(mark.Shape, ink));
            }
        }

        if (field is not null)
        {
            areas.Add(new(black, field));
        }
        else
        {
            Field(areas, shapes, sheet, black, build, standBackMm);
        }

        areas.Add(new(HoleWindows.Crosshairs(parts, mirrored: false), Ink.FullK));
        return [.. areas.Where(area => !area.Region.IsEmpty)];
    }

    private static bool IsHidden(Mark mark) => mark.Style is { Role: LightRole.Hidden, Ink: not null };

    private static void Field(
        List<Painted<PanelSpace>> areas,
        SeparationShapes shapes,
        Region<PanelSpace> sheet,
        Region<PanelSpace> black,
        BlackBuild build,
        double standBackMm)
    {
        areas.Add(new(black, build.Edge));
        if (!build.StandsBack)
        {
            return;
        }

        // A colour runs under K's edge by as much as the other inks stand back, so that no white rim shows when a colour plane is off.
        foreach (var mark in shapes.Visible.Where(mark => mark.Style is { Role: not LightRole.Hidden, Ink.Space: InkSpace.Cmyk } && mark.Style.Ink != Ink.None))
        {
            var amounts = mark.Style.Ink!.Amounts;
            var rim = mark.Shape.Grow(standBackMm).Intersect(black);
            areas.Add(new(rim, Ink.Cmyk(amounts[0], amounts[1], amounts[2], 1)));
        }

        // Choking the field is growing everything left out of it; growing small shapes is far quicker and gives the same.
        var open = shapes.Visible.Where(mark => mark.Style.Ink is not null).Select(mark => mark.Shape).Append(shapes.Windows);
        var core = sheet.Grow(-standBackMm).Except(Region<PanelSpace>.Union(
            open.AsParallel().AsOrdered().Select(shape => shape.Grow(standBackMm))));
        areas.Add(new(core, build.Ink));
    }

    /// <summary>One K layer, or a share of one.</summary>
    internal static Ink Cover(double share, InkSpace space) => space == InkSpace.Gray
        ? Ink.Gray(Math.Round(1 - share, 4, MidpointRounding.AwayFromZero))
        : Ink.Cmyk(0, 0, 0, share);
}
