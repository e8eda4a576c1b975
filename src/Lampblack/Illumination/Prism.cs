using System;
using System.Linq;
using System.Runtime.CompilerServices;

namespace Lampblack.Illumination;

/// <summary>A body that stands upright from the mask inwards, of any convex outline.</summary>
internal sealed class Prism
{
    private readonly (double NormalX, double NormalY, double Limit)[] _edges;

    public Prism(OpaqueBody body)
    {
        var corners = body.Corners;
        var area = corners.Select((corner, index) => (corner, next: corners[(index + 1) % corners.Length])).Sum(edge => (edge.corner.XMm * edge.next.YMm) - (edge.next.XMm * edge.corner.YMm));
        var turn = area > 0 ? 1 : -1;
        _edges = [.. corners.Select((corner, index) =>
        {
            var next = corners[(index + 1) % corners.Length];
            var (x, y) = (turn * (next.YMm - corner.YMm), -turn * (next.XMm - corner.XMm));
            return (x, y, (x * corner.XMm) + (y * corner.YMm));
        })];
        Box = new(corners.Min(corner => corner.XMm), corners.Max(corner => corner.XMm), corners.Min(corner => corner.YMm), corners.Max(corner => corner.YMm), body.DepthMm);
        IsSquare = corners.Length == 4 && corners.All(corner => (corner.XMm == Box.LeftMm || corner.XMm == Box.RightMm) && (corner.YMm == Box.BottomMm || corner.YMm == Box.TopMm));
    }

    /// <summary>The box around it.</summary>
    public UprightBox Box { get; }

    /// <summary>Whether it is that box, as most bodies are: they lie square to the panel.</summary>
    public bool IsSquare { get; }

    /// <summary>Whether it stands in a way.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public bool Blocks(in Sightline way)
    {
        var (start, end) = way.Reach(Box.DepthMm);
        if (IsSquare)
        {
            return Within(way.From.X, way.X, Box.LeftMm, Box.RightMm, ref start, ref end) && Within(way.From.Y, way.Y, Box.BottomMm, Box.TopMm, ref start, ref end) && end - start > Sightline.Grazing;
        }

        foreach (var (normalX, normalY, limit) in _edges)
        {
            var outside = (normalX * way.From.X) + (normalY * way.From.Y) - limit;
            var along = (normalX * way.X) + (normalY * way.Y);
            if (along == 0)
            {
                if (outside >= 0)
                {
                    return false;
                }
            }
            else if (along > 0)
            {
                end = Math.Min(end, -outside / along);
            }
            else
            {
                start = Math.Max(start, -outside / along);
            }

            if (end - start <= Sightline.Grazing)
            {
                return false;
            }
        }

        return true;
    }

    private static bool Within(double from, double way, double low, double high, ref double start, ref double end)
    {
        if (way == 0)
        {
            return from > low && from < high;
        }

        var (first, second) = ((low - from) / way, (high - from) / way);
        start = Math.Max(start, Math.Min(first, second));
        end = Math.Min(end, Math.Max(first, second));
        return end > start;
    }
}
