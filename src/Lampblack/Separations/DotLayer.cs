using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Bitmaps;
using Lampblack.Desks;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Imaging;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Separations;

/// <summary>A picture's dots on both sides of a panel. The black stays one vector fill, as many drivers give full black to those only; the dots are taken out of it.</summary>
/// <param name="Mark">The picture.</param>
/// <param name="Placement">Where the dots below go; they reach farther out than the picture's own.</param>
/// <param name="Shown">What of the picture is seen on the front: not under later marks, not in holes, not beyond the bleed.</param>
/// <param name="Opening">Where the mask is open for it; null where it does not shine.</param>
public sealed record DotLayer(DotMark Mark, Affine<DotSpace, PanelSpace> Placement, BitRaster Shown, BitRaster? Opening)
{
    /// <summary>How much is seen on the front, in mm2.</summary>
    public double ShownMm2 => Shown.Count() * Mark.MmPerDot * Mark.MmPerDot;

    /// <summary>How much of the mask is open for it, in mm2.</summary>
    public double OpeningMm2 => Mark.Style.Role == LightRole.Unlit ? 0 : (Opening?.Count() ?? 0) * Mark.MmPerDot * Mark.MmPerDot;

    private bool IsHidden => Mark.Style.Role == LightRole.Hidden;

    /// <summary>Lays a picture out.</summary>
    /// <param name="mark">The picture.</param>
    /// <param name="over">What lies over it: later marks, and the windows of holes.</param>
    /// <param name="sheet">All that is printed of the panel.</param>
    /// <param name="spreadMm">The spread of the openings.</param>
    /// <param name="standBackMm">How far other inks stand back from K's edges.</param>
    public static DotLayer Of(DotMark mark, Region<PanelSpace> over, Region<PanelSpace> sheet, double spreadMm, double standBackMm)
    {
        ArgumentNullException.ThrowIfNull(mark);
        ArgumentNullException.ThrowIfNull(over);
        var margin = (int)Math.Ceiling((spreadMm + standBackMm) / mark.MmPerDot) + 2;
        var placement = Affine<DotSpace, DotSpace>.Shift(-margin, -margin).Then(mark.Placement);
        var wide = mark.Shown.Crop(-margin, -margin, mark.Shown.WidthDots + (2 * margin), mark.Shown.HeightDots + (2 * margin));
        var printed = Dots(sheet);
        var shown = wide.And(printed);
        if (!over.IsEmpty)
        {
            shown = shown.Except(Dots(over));
        }

        var opening = mark.Style.Role switch
        {
            LightRole.Unlit => null,
            LightRole.Hidden => shown,
            _ => shown.Grow(RadiusDots(spreadMm, mark.MmPerDot)).And(printed),
        };
        return new(mark, placement, shown, opening);

        BitRaster Dots(Region<PanelSpace> region) => RegionDots.Of(region, placement.Inverse(), wide.WidthDots, wide.HeightDots);
    }

    /// <summary>How wide and high each opening is, turned as the picture is.</summary>
    internal IEnumerable<(double WidthMm, double HeightMm)> Openings() => Opening is null ? []
        : Opening.Pieces(1).Select(piece => (piece.Box.WidthDots * Mark.MmPerDot, piece.Box.HeightDots * Mark.MmPerDot));

    /// <summary>What is painted over the front's black.</summary>
    /// <param name="build">The black build.</param>
    /// <param name="field">The field's own ink; null where it is the build.</param>
    /// <param name="standBackMm">How far other inks stand back from K's edges.</param>
    /// <param name="spreadMm">The spread of the openings.</param>
    public IEnumerable<Painted<PanelSpace>> OnFront(BlackBuild build, Ink? field, double standBackMm, double spreadMm)
    {
        if (IsHidden)
        {
            // A cover is one layer, and it reaches over the opening by the spread, as those of drawn marks do.
            yield return Stencil(Shown.Grow(RadiusDots(spreadMm, Mark.MmPerDot)), MarkInks.Cover(Mark.Style, build));
            yield break;
        }

        if (field is null && build.StandsBack)
        {
            // An ink of its own runs on under K's edge, so that no white rim shows when a colour plane is off.
            var rim = OwnInk(build) is { Space: InkSpace.Cmyk } own ? Ink.Cmyk(own.Amounts[0], own.Amounts[1], own.Amounts[2], 1) : build.Edge;
            yield return Stencil(Shown.Grow(standBackMm / Mark.MmPerDot), rim);
        }

        foreach (var area in Bare(Shown, build, OwnInk(build)))
        {
            yield return area;
        }
    }

    /// <summary>What is painted over the mask's black.</summary>
    /// <param name="build">The black build.</param>
    /// <param name="standBackMm">How far other inks stand back from K's edges.</param>
    public IEnumerable<Painted<PanelSpace>> OnMask(BlackBuild build, double standBackMm)
    {
        if (Opening is null)
        {
            yield break;
        }

        if (build.StandsBack)
        {
            yield return Stencil(Opening.Grow(standBackMm / Mark.MmPerDot), build.Edge);
        }

        foreach (var area in Mark.Style.Backed ? Bare(Opening, build, OwnInk(build)) : [Stencil(Opening, Ink.Bare(build.Ink.Space))])
        {
            yield return area;
        }
    }

    /// <summary>How much less toner there is on the front than if the black were whole, in mm2 of full layers.</summary>
    /// <param name="black">The black.</param>
    internal double FrontTonerLessMm2(Ink black)
    {
        var own = Mark.Colours is { } colours ? new ColourDots(InkSpace.Rgb, colours.WidthPx, colours.HeightPx, ImmutableArray.Create(colours.Rgb.Span), null).MeanInk : Mark.Style.Ink;
        return IsHidden ? 0 : ShownMm2 * Math.Max(0, black.TotalCoverage - (own ?? Ink.None).TotalCoverage);
    }

    /// <summary>What a second pass leaves out, or prints in less.</summary>
    /// <param name="open">The dots that are open in the first one.</param>
    /// <param name="ink">What is printed instead.</param>
    /// <param name="byMm">How far it stands back from them.</param>
    internal Painted<PanelSpace> LeftOut(BitRaster open, Ink ink, double byMm) => Stencil(open.Grow(RadiusDots(byMm, Mark.MmPerDot)), ink);

    /// <summary>
    /// The radius, from middle to middle, that spreads dots by no less than a length: half a dot more, so that a border that was drawn through a dot's middle comes
    /// out in its place on average, and at least up to the next whole dot, so that straight edges along the rows are not short.
    /// </summary>
    internal static double RadiusDots(double spreadMm, double mmPerDot) => Math.Max((spreadMm / mmPerDot) + 0.5, Math.Ceiling(spreadMm / mmPerDot));

    /// <summary>The one ink of all dots, where the maker gave one; null where the picture has its own colours or none.</summary>
    private Ink? OwnInk(BlackBuild build) => Mark.Colours is null && Mark.Style.Ink is { } ink && ink != Ink.None ? MarkInks.Of(ink, build) : null;

    private IEnumerable<Painted<PanelSpace>> Bare(BitRaster dots, BlackBuild build, Ink? own)
    {
        yield return Stencil(dots, own ?? Ink.Bare(build.Ink.Space));
        if (own is null && Mark.Colours is { } colours)
        {
            yield return Painted<PanelSpace>.Picture(Coloured(colours, dots, build.Ink.Space), colours.Placement);
        }
    }

    /// <summary>The picture, of which only the dots are printed that are open; the mask lies over all of it, at its own resolution.</summary>
    private ColourDots Coloured(DotColours colours, BitRaster dots, InkSpace space)
    {
        var toDots = colours.Placement.Then(Placement.Inverse());
        var (from, to) = (toDots.Apply(new(0, 0)), toDots.Apply(new(colours.WidthPx, colours.HeightPx)));
        var (left, top) = (Whole(from.XMm), Whole(from.YMm));
        var mask = dots.Crop(left, top, Math.Max(1, Whole(to.XMm) - left), Math.Max(1, Whole(to.YMm) - top));
        var rgb = colours.Rgb.Span;
        if (space != InkSpace.Gray)
        {
            return new(InkSpace.Rgb, colours.WidthPx, colours.HeightPx, ImmutableArray.Create(rgb), mask);
        }

        var gray = ImmutableArray.CreateBuilder<byte>(colours.WidthPx * colours.HeightPx);
        for (var dot = 0; dot < rgb.Length; dot += 3)
        {
            // ISO 32000-1 clause 10.3.3.
            gray.Add((byte)Math.Round((0.3 * rgb[dot]) + (0.59 * rgb[dot + 1]) + (0.11 * rgb[dot + 2]), MidpointRounding.AwayFromZero));
        }

        return new(InkSpace.Gray, colours.WidthPx, colours.HeightPx, gray.MoveToImmutable(), mask);

        static int Whole(double dots) => (int)Math.Round(dots, MidpointRounding.AwayFromZero);
    }

    private Painted<PanelSpace> Stencil(BitRaster dots, Ink ink) => Painted<PanelSpace>.Stencil(dots, Placement, ink);
}
