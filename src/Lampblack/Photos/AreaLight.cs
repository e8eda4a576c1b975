using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Imaging;

namespace Lampblack.Photos;

/// <summary>How bright an area is in a photo.</summary>
/// <param name="LightShare">Its light less the glow beside it, as it would be without the photo's blur; 1 is the brightest that a file can tell. Not a number where the photo does not show it.</param>
/// <param name="CutShare">Which share of it is cut off.</param>
internal readonly record struct SeenArea(double LightShare, double CutShare);

/// <summary>Measures areas of a panel in a photo: the mean over the area, shrunk a little, less the mean beside it.</summary>
internal sealed class AreaLight
{
    private const double MmPerDot = 0.1;

    /// <summary>Beside an area is what is further than this from all that shines, and no further than the other from the area.</summary>
    private const int ClearDots = 8;
    private const int BesideDots = 22;

    private const byte Whole = 250;
    private const byte Half = 128;

    private readonly LightPlane _light;
    private readonly CutDots _cut;
    private readonly PanelPose _pose;
    private readonly double _softMm;
    private readonly ImmutableArray<Region<PanelSpace>> _shining;
    private readonly RegionIndex<PanelSpace> _index;

    /// <summary>Measures in a photo.</summary>
    /// <param name="light">The photo.</param>
    /// <param name="cut">Its dots that are cut off.</param>
    /// <param name="pose">Where the panel is.</param>
    /// <param name="softMm">How soft edges are in the panel's middle, as a standard deviation; most of it is the camera's, so that it is larger where the panel is further away.</param>
    /// <param name="shining">All that shines, or may.</param>
    public AreaLight(LightPlane light, CutDots cut, PanelPose pose, double softMm, IEnumerable<Region<PanelSpace>> shining)
    {
        (_light, _cut, _pose, _softMm) = (light, cut, pose, softMm);
        _shining = [.. shining.Where(shape => !shape.IsEmpty)];
        _index = new(_shining);
    }

    /// <summary>One area.</summary>
    public SeenArea Of(Region<PanelSpace> shape)
    {
        var margin = (BesideDots + 2) * MmPerDot;
        var grid = new DotGrid<PanelSpace>(shape.Bounds.Grow(margin), MmPerDot);
        var own = CoverageMap.Of(shape, grid);
        var all = new byte[grid.WidthPx * grid.HeightPx];
        foreach (var near in _index.Near(grid.View))
        {
            var map = CoverageMap.Of(_shining[near], grid);
            for (var index = 0; index < all.Length; index++)
            {
                all[index] = Math.Max(all[index], map.Coverage.Span[index]);
            }
        }

        var ought = new SoftPicture([.. all.Select(cover => cover / 255f)], grid.WidthPx, grid.HeightPx).Soft(_softMm * _pose.PxPerMm / _pose.PxPerMmAt(shape.Bounds.Centre) / MmPerDot);
        var inner = Inner(own, Whole, shrink: true);
        inner = inner.Count > 0 ? inner : Inner(own, Whole, shrink: false) is { Count: > 0 } narrow ? narrow : Inner(own, Half, shrink: false);
        var beside = Beside(own, all);
        if (inner.Count == 0 || beside.Count == 0)
        {
            return new(double.NaN, 0);
        }

        var (light, cover, cut) = Mean(inner, grid, ought);
        var (glow, spill, _) = Mean(beside, grid, ought);
        return cover - spill > 0.05 ? new((light - glow) / (cover - spill), cut) : new(double.NaN, cut);
    }

    private static List<int> Inner(CoverageMap own, byte least, bool shrink)
    {
        var (inner, width) = (new List<int>(), own.WidthPx);
        var cover = own.Coverage.Span;
        for (var row = 1; row < own.HeightPx - 1; row++)
        {
            for (var column = 1; column < width - 1; column++)
            {
                var at = (row * width) + column;
                if (cover[at] >= least && (!shrink || (cover[at - 1] >= least && cover[at + 1] >= least && cover[at - width] >= least && cover[at + width] >= least)))
                {
                    inner.Add(at);
                }
            }
        }

        return inner;
    }

    /// <summary>What lies beside; a dot's distance is counted along rows and columns.</summary>
    private static List<int> Beside(CoverageMap own, byte[] all)
    {
        var clear = Near(all, own.WidthPx, own.HeightPx, ClearDots);
        var near = Near(own.Coverage.ToArray(), own.WidthPx, own.HeightPx, BesideDots);
        return [.. Enumerable.Range(0, all.Length).Where(at => near[at] && !clear[at])];
    }

    private static bool[] Near(byte[] cover, int width, int height, int reach)
    {
        var (along, both) = (new bool[cover.Length], new bool[cover.Length]);
        for (var row = 0; row < height; row++)
        {
            for (int column = 0, last = int.MinValue / 2; column < width + reach; column++)
            {
                last = column < width && cover[(row * width) + column] > 0 ? column : last;
                if (column >= reach)
                {
                    along[(row * width) + column - reach] = last >= column - (2 * reach);
                }
            }
        }

        for (var column = 0; column < width; column++)
        {
            for (int row = 0, last = int.MinValue / 2; row < height + reach; row++)
            {
                last = row < height && along[(row * width) + column] ? row : last;
                if (row >= reach)
                {
                    both[((row - reach) * width) + column] = last >= row - (2 * reach);
                }
            }
        }

        return both;
    }

    private (double Light, double Cover, double CutShare) Mean(List<int> dots, DotGrid<PanelSpace> grid, SoftPicture ought)
    {
        var (light, cover, cut, count) = (0.0, 0.0, 0, 0);
        foreach (var at in dots)
        {
            var (row, column) = Math.DivRem(at, grid.WidthPx);
            var (x, y) = _pose.Project(new(grid.View.LeftMm + ((column + 0.5) * MmPerDot), grid.View.TopMm - ((row + 0.5) * MmPerDot)));
            if (_light.At(x, y) is var seen && double.IsFinite(seen))
            {
                light += seen / LightPlane.White;
                cover += ought.At(column + 0.5, row + 0.5) is var share && double.IsFinite(share) ? share : 0;
                cut += _cut[x, y] ? 1 : 0;
                count++;
            }
        }

        return (light / count, cover / count, cut / (double)Math.Max(1, count));
    }
}
