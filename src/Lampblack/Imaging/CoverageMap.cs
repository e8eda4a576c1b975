using System;
using System.Buffers;
using System.Runtime.InteropServices;
using Lampblack.Geometry;
using Lampblack.Optics;
using SkiaSharp;

namespace Lampblack.Imaging;

/// <summary>How much of each dot a shape covers: 0 nothing, 255 all. Row 0 is at the top, the left dot comes first.</summary>
public sealed class CoverageMap
{
    private readonly byte[] _coverage;

    private CoverageMap(int widthPx, int heightPx, double mmPerDot, byte[] coverage)
    {
        WidthPx = widthPx;
        HeightPx = heightPx;
        MmPerDot = mmPerDot;
        _coverage = coverage;
    }

    /// <summary>Dots in a row.</summary>
    public int WidthPx { get; }

    /// <summary>Rows.</summary>
    public int HeightPx { get; }

    /// <summary>Side of a dot, in mm.</summary>
    public double MmPerDot { get; }

    /// <summary>The dots, row by row from the top.</summary>
    public ReadOnlyMemory<byte> Coverage => _coverage;

    /// <summary>The covered area in mm2, part-covered dots counted by their share.</summary>
    public double AreaMm2
    {
        get
        {
            long sum = 0;
            foreach (var dot in _coverage)
            {
                sum += dot;
            }

            return sum / 255.0 * MmPerDot * MmPerDot;
        }
    }

    /// <summary>Draws a region, edges anti-aliased; borders come out within 0.06 of a dot.</summary>
    /// <param name="region">The shape; parts outside the view are left out.</param>
    /// <param name="view">What the map shows.</param>
    /// <param name="mmPerDot">Side of a dot, in mm.</param>
    /// <typeparam name="TSpace">The space of both.</typeparam>
    /// <exception cref="ArgumentOutOfRangeException">The view or the dots have no size, or there are more than 400 million dots.</exception>
    public static CoverageMap Of<TSpace>(Region<TSpace> region, Box<TSpace> view, double mmPerDot)
        where TSpace : struct, ISpace
    {
        ArgumentNullException.ThrowIfNull(region);
        return Of(region, new DotGrid<TSpace>(view, mmPerDot).Checked());
    }

    /// <summary>The map smeared as paper smears light that passes it.</summary>
    /// <param name="spreadMm">kp in mm, see <see cref="PaperOptics.SpreadMm"/>; 0 changes nothing.</param>
    public CoverageMap Blur(double spreadMm)
    {
        var room = ArrayPool<float>.Shared.Rent(_coverage.Length);
        var values = room.AsSpan(0, _coverage.Length);
        for (var index = 0; index < values.Length; index++)
        {
            values[index] = _coverage[index];
        }

        LineSpread.Of(spreadMm, MmPerDot).Apply(values, WidthPx, HeightPx, channels: 1);
        var coverage = new byte[values.Length];
        for (var index = 0; index < values.Length; index++)
        {
            coverage[index] = (byte)Math.Clamp(values[index] + 0.5f, 0, 255);
        }

        ArrayPool<float>.Shared.Return(room);
        return new(WidthPx, HeightPx, MmPerDot, coverage);
    }

    internal static CoverageMap Of(int widthPx, int heightPx, double mmPerDot, byte[] coverage) => new(widthPx, heightPx, mmPerDot, coverage);

    internal static CoverageMap Of<TSpace>(Region<TSpace> region, DotGrid<TSpace> grid)
        where TSpace : struct, ISpace
    {
        var (widthPx, heightPx) = (grid.WidthPx, grid.HeightPx);
        var coverage = new byte[widthPx * heightPx];
        using var path = Path(region, grid);
        using var paint = new SKPaint { IsAntialias = true, Style = SKPaintStyle.Fill, Color = SKColors.Black };
        var held = GCHandle.Alloc(coverage, GCHandleType.Pinned);
        try
        {
            var info = new SKImageInfo(widthPx, heightPx, SKColorType.Alpha8, SKAlphaType.Premul);
            using var surface = SKSurface.Create(info, held.AddrOfPinnedObject(), widthPx);
            surface.Canvas.DrawPath(path, paint);
            surface.Flush();
        }
        finally
        {
            held.Free();
        }

        return new(widthPx, heightPx, grid.MmPerDot, coverage);
    }

    /// <summary>What the shape leaves free.</summary>
    internal CoverageMap Rest()
    {
        var rest = new byte[_coverage.Length];
        for (var index = 0; index < rest.Length; index++)
        {
            rest[index] = (byte)(255 - _coverage[index]);
        }

        return new(WidthPx, HeightPx, MmPerDot, rest);
    }

    /// <summary>The part of this map that lies within another one of the same size, dot by dot.</summary>
    internal CoverageMap Within(CoverageMap other)
    {
        var both = new byte[_coverage.Length];
        for (var index = 0; index < both.Length; index++)
        {
            both[index] = (byte)(((_coverage[index] * other._coverage[index]) + 127) / 255);
        }

        return new(WidthPx, HeightPx, MmPerDot, both);
    }

    internal ReadOnlySpan<byte> Row(int row) => _coverage.AsSpan(row * WidthPx, WidthPx);

    // Outer borders and holes turn opposite ways, so the default (nonzero) rule leaves the holes open.
    private static SKPath Path<TSpace>(Region<TSpace> region, DotGrid<TSpace> grid)
        where TSpace : struct, ISpace
    {
        var (leftMm, topMm) = (grid.View.LeftMm, grid.View.TopMm);
        var dotsPerMm = 1 / grid.MmPerDot;
        using var builder = new SKPathBuilder();
        foreach (var border in region.Borders())
        {
            var corners = new SKPoint[border.Points.Length];
            for (var index = 0; index < corners.Length; index++)
            {
                var point = border.Points[index];
                corners[index] = new((float)((point.XMm - leftMm) * dotsPerMm), (float)((topMm - point.YMm) * dotsPerMm));
            }

            builder.AddPoly(corners, true);
        }

        return builder.Detach();
    }
}
