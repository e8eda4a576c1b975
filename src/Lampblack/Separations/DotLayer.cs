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
public sealed class DotLayer
{
    /// <summary>Black islands larger than this, 0.3 mm wide and as long as a hand, are not looked at.</summary>
    private const double LargestIslandMm2 = 30;

    /// <summary>Black between dots that is narrow, and smaller than this, is a corner that was rounded off.</summary>
    private const double LeastStrokeMm2 = 0.1;

    /// <summary>A length that is a whole number of dots but for the last digits of a division is that number.</summary>
    private const double RoundingDots = 1e-6;

    private readonly BlackBuild _build;
    private readonly Lazy<ImmutableArray<Painted<PanelSpace>>> _onFront;
    private readonly Lazy<ImmutableArray<Painted<PanelSpace>>> _onMask;

    private DotLayer(DotMark mark, Affine<DotSpace, PanelSpace> placement, BitRaster shown, BitRaster? opening, BitRaster? cover, BlackBuild build, double pullBackMm)
    {
        (Mark, Placement, Shown, Opening, Cover, _build) = (mark, placement, shown, opening, cover, build);
        Box = Painted<PanelSpace>.Stencil(shown, placement, Ink.None).Region.Bounds;
        (ShownDots, OpeningDots) = (shown.Count(), opening?.Count() ?? 0);
        (ShownSent, OpeningSent) = (Sent(shown, pullBackMm), opening is null ? null : Sent(opening, pullBackMm));
        _onFront = new(() => [.. Bare(Shown, ShownSent)]);
        _onMask = new(() => Opening is null ? [] : mark.Style.Backed ? [.. Bare(Opening, OpeningSent!)] : [Stencil(OpeningSent!, Ink.Bare(build.Ink.Space))]);
    }

    /// <summary>The picture.</summary>
    public DotMark Mark { get; }

    /// <summary>Where the dots below go; they reach farther out than the picture's own.</summary>
    public Affine<DotSpace, PanelSpace> Placement { get; }

    /// <summary>What of the picture is seen on the front: not under later marks, not in holes, not beyond the bleed.</summary>
    public BitRaster Shown { get; }

    /// <summary>Where the mask is open for it; null where it does not shine.</summary>
    public BitRaster? Opening { get; }

    /// <summary>What is left out of the front's black in print: more than is seen, by as much as toner closes.</summary>
    internal BitRaster ShownSent { get; }

    /// <summary>The same of the mask.</summary>
    internal BitRaster? OpeningSent { get; }

    /// <summary>The picture as it comes out on paper: nothing is pulled back.</summary>
    internal DotLayer AsPrinted => new(Mark, Placement, Shown, Opening, Cover, _build, 0);

    /// <summary>How many dots are seen on the front.</summary>
    public long ShownDots { get; }

    /// <summary>How much is seen on the front, in mm2.</summary>
    public double ShownMm2 => ShownDots * Mark.MmPerDot * Mark.MmPerDot;

    /// <summary>How many dots of the mask are open for it.</summary>
    public long OpeningDots { get; }

    /// <summary>How much of the mask is open for it, in mm2.</summary>
    public double OpeningMm2 => OpeningDots * Mark.MmPerDot * Mark.MmPerDot;

    /// <summary>What it is covered with by day, which reaches over the opening by the spread, as the covers of drawn marks do; null where it is not hidden.</summary>
    internal BitRaster? Cover { get; }

    /// <summary>Whether it is covered by day.</summary>
    internal bool IsHidden => Cover is not null;

    /// <summary>What the front shows of it, over the black; nothing where it is hidden.</summary>
    internal ImmutableArray<Painted<PanelSpace>> OnFront => IsHidden ? [] : _onFront.Value;

    /// <summary>What the mask has in place of its black.</summary>
    internal ImmutableArray<Painted<PanelSpace>> OnMask => _onMask.Value;

    /// <summary>The one ink of all dots, where the maker gave one; null where the picture has its own colours or none.</summary>
    internal Ink? OwnInk => Mark.Colours is null && Mark.Style.Ink is { } ink && ink != Ink.None ? MarkInks.Of(ink, _build) : null;

    /// <summary>All that its dots can reach.</summary>
    internal Box<PanelSpace> Box { get; }

    /// <summary>Lays a picture out.</summary>
    /// <param name="mark">The picture.</param>
    /// <param name="over">What lies over it: later marks, and the windows of holes.</param>
    /// <param name="sheet">All that is printed of the panel.</param>
    /// <param name="build">The black build.</param>
    /// <param name="spreadMm">The spread of the openings.</param>
    /// <param name="standBackMm">How far other inks stand back from K's edges.</param>
    /// <param name="pullBackMm">How far edges of black are pulled back in print.</param>
    public static DotLayer Of(DotMark mark, Region<PanelSpace> over, Region<PanelSpace> sheet, BlackBuild build, double spreadMm, double standBackMm, double pullBackMm = 0)
    {
        ArgumentNullException.ThrowIfNull(mark);
        ArgumentNullException.ThrowIfNull(over);
        // A second pass reaches farthest: from the opening on.
        var reachMm = spreadMm + SecondPassAreas.ChokeMm(spreadMm, PrinterProperties.Unmeasured.SpreadMm) + standBackMm + pullBackMm;
        var margin = (int)Math.Ceiling(reachMm / mark.MmPerDot) + 4;
        var placement = Affine<DotSpace, DotSpace>.Shift(-margin, -margin).Then(mark.Placement);
        var wide = mark.Shown.Crop(-margin, -margin, mark.Shown.WidthDots + (2 * margin), mark.Shown.HeightDots + (2 * margin));
        var printed = Dots(sheet);
        var shown = wide.And(printed);
        if (!over.IsEmpty)
        {
            shown = shown.Except(Dots(over));
        }

        var spread = mark.Style.Role == LightRole.Unlit ? null : shown.Grow(RadiusDots(spreadMm, mark.MmPerDot)).And(printed);
        return mark.Style.Role == LightRole.Hidden
            ? new(mark, placement, shown, shown, spread, build, pullBackMm)
            : new(mark, placement, shown, spread is null ? null : WithoutSmallIslands(spread), null, build, pullBackMm);

        BitRaster WithoutSmallIslands(BitRaster opening) => opening.WithoutThinHoles(
            (int)Math.Round(Separator.SmallestIslandMm / mark.MmPerDot, MidpointRounding.AwayFromZero), (long)(LargestIslandMm2 / (mark.MmPerDot * mark.MmPerDot)));

        BitRaster Dots(Region<PanelSpace> region) => RegionDots.Of(region, placement.Inverse(), wide.WidthDots, wide.HeightDots);
    }

    /// <summary>How wide and high each opening is, turned as the picture is.</summary>
    internal IEnumerable<(double WidthMm, double HeightMm)> Openings() => Opening is null ? []
        : Opening.Pieces(1).Select(piece => (piece.Box.WidthDots * Mark.MmPerDot, piece.Box.HeightDots * Mark.MmPerDot));

    /// <summary>Dots around its own, in one ink.</summary>
    /// <param name="dots">The dots; its own are painted over them.</param>
    /// <param name="within">All that may be printed on.</param>
    /// <param name="ink">The ink.</param>
    internal Painted<PanelSpace> Around(BitRaster dots, Region<PanelSpace> within, Ink ink) =>
        Stencil(dots.And(RegionDots.Of(within, Placement.Inverse(), dots.WidthDots, dots.HeightDots)), ink);

    /// <summary>How much less toner there is on the front than if the black were whole, in mm2 of full layers.</summary>
    /// <param name="black">The black.</param>
    internal double FrontTonerLessMm2(Ink black) =>
        IsHidden ? 0 : ShownMm2 * Math.Max(0, black.TotalCoverage - (OnFront.Length > 0 ? OnFront[^1].Ink : Ink.None).TotalCoverage);

    /// <summary>What a second pass leaves bare.</summary>
    /// <param name="open">The dots that are open in the first one.</param>
    /// <param name="byMm">How far it stands back from them.</param>
    internal Painted<PanelSpace> LeftOut(BitRaster open, double byMm) => Stencil(open.Grow(RadiusDots(byMm, Mark.MmPerDot)), Ink.Bare(_build.Ink.Space));

    /// <summary>
    /// The radius, from middle to middle, that spreads dots by no less than a length: half a dot more, because dots have corners that a slanting shift uncovers,
    /// and at least up to the next whole dot, so that straight edges along the rows are not short.
    /// </summary>
    internal static double RadiusDots(double spreadMm, double mmPerDot)
    {
        var dots = spreadMm / mmPerDot;
        return Math.Max(dots + 0.5, Math.Ceiling(dots - RoundingDots));
    }

    /// <summary>Dots made wider by as much as toner closes them again; strokes of black between them that would vanish stay as they are drawn.</summary>
    private BitRaster Sent(BitRaster dots, double pullBackMm)
    {
        var radius = pullBackMm / Mark.MmPerDot;
        if (radius < 1)
        {
            // Less than a dot: the nearest that the picture's own dots can say.
            return radius < 0.5 ? dots : WithStrokes(dots.Grow(1));
        }

        return WithStrokes(dots.Grow(radius));

        BitRaster WithStrokes(BitRaster wide)
        {
            var reach = radius + (PulledBack.LeastStrokeMm / 2 / Mark.MmPerDot);
            var strokes = dots.Grow(reach).Shrink(reach, BeyondEdge.Clear).Except(dots).WithoutSpecks((long)Math.Ceiling(LeastStrokeMm2 / (Mark.MmPerDot * Mark.MmPerDot)));
            return wide.Except(strokes.Raster);
        }
    }

    private IEnumerable<Painted<PanelSpace>> Bare(BitRaster dots, BitRaster sent)
    {
        yield return Stencil(sent, OwnInk ?? Ink.Bare(_build.Ink.Space));
        if (OwnInk is null && Mark.Colours is { } colours)
        {
            yield return Painted<PanelSpace>.Picture(Coloured(colours, dots, _build.Ink.Space), colours.Placement);
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
