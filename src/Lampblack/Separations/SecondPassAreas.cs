using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Bitmaps;
using Lampblack.Findings;
using Lampblack.Formats;
using Lampblack.Geometry;

namespace Lampblack.Separations;

/// <summary>
/// What a second pass of a side prints: the field's black once more, choked, so that it may lie off by as much as the choke without reaching an edge
/// of the first pass. Marks, crosshairs and colours are not printed twice, nor are the covers of hidden legends, which would get too dark.
/// </summary>
public static class SecondPassAreas
{
    /// <summary>
    /// How far a second pass stands back from every edge of the first: by the spread, so that on the front it stays out of the halo that is there
    /// anyway; and by the usual spread of a printer that nobody has measured, as nobody measures the other edge.
    /// </summary>
    /// <param name="spreadMm">The spread of the openings.</param>
    /// <param name="usualSpreadMm">The usual spread.</param>
    public static double ChokeMm(double spreadMm, double usualSpreadMm) => Math.Max(spreadMm, usualSpreadMm);

    /// <summary>The front's; empty where the field is in an ink of its own, which is not to hold light back.</summary>
    /// <param name="separation">The separated panel.</param>
    /// <param name="chokeMm">The choke.</param>
    public static ImmutableArray<Painted<PanelSpace>> Front(PanelSeparation separation, double chokeMm)
    {
        ArgumentNullException.ThrowIfNull(separation);
        return separation.Artwork.Laid.Panel.Field is not null ? []
            : Choked(
                separation,
                separation.Shapes.FrontBlack,
                Region<PanelSpace>.Union(separation.Shapes.Covers.Select(cover => cover.Region)),
                chokeMm,
                separation.Shapes.Dots.Select(dot => (dot, dot.Cover ?? dot.Shown)));
    }

    /// <summary>Says where there is nothing to print a second time.</summary>
    /// <param name="separation">The separated panel.</param>
    public static ImmutableArray<Finding> CheckFront(PanelSeparation separation)
    {
        ArgumentNullException.ThrowIfNull(separation);
        var panel = separation.Artwork.Laid.Panel;
        return panel.Field is null ? [] :
        [
            Finding.Note(
                "second-pass-field",
                $"the field of panel `{panel.Id}` is not black, so its front gets no second pass",
                "its mask holds the light back: `--second-pass mask` prints that twice",
                panel.Span,
                panel.Id),
        ];
    }

    /// <summary>The mask's.</summary>
    /// <param name="separation">The separated panel.</param>
    /// <param name="chokeMm">The choke.</param>
    public static ImmutableArray<Painted<PanelSpace>> Mask(PanelSeparation separation, double chokeMm)
    {
        ArgumentNullException.ThrowIfNull(separation);
        return Choked(
            separation,
            separation.Shapes.MaskBlack,
            Region<PanelSpace>.Empty,
            chokeMm,
            separation.Shapes.Dots.Where(dot => dot.Opening is not null).Select(dot => (dot, dot.Opening!)));
    }

    /// <summary>K up to the choke, and the other inks standing back from it as in the first pass.</summary>
    private static ImmutableArray<Painted<PanelSpace>> Choked(
        PanelSeparation separation, Region<PanelSpace> black, Region<PanelSpace> single, double chokeMm, IEnumerable<(DotLayer Layer, BitRaster Open)> dots)
    {
        var build = separation.Build;
        var sheet = Region<PanelSpace>.Rectangle(separation.Bleed);
        var open = sheet.Except(black).Union(single);
        var core = build.StandsBack ? Within(chokeMm + separation.StandBackMm) : null;
        var areas = new[] { new Painted<PanelSpace>(Within(chokeMm), build.Edge), new(core ?? Region<PanelSpace>.Empty, build.Ink) };
        return [.. areas.Where(area => !area.Region.IsEmpty), .. DotPaint.Again([.. dots], build, core, chokeMm, separation.StandBackMm)];

        // A hundredth more than asked for, by which curves may miss their true border.
        Region<PanelSpace> Within(double byMm) => sheet.Grow(-byMm).Except(open.Grow(byMm + Separator.StandBackErrorMm, Separator.StandBackErrorMm));
    }
}
