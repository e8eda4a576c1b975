using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Wiring;

/// <summary>Looms as lines: the thicker, the more wires run there.</summary>
internal static class LoomLines
{
    private const double OneMm = 0.45;
    private const double MoreMm = 0.16;
    private const int MostCounted = 24;

    /// <summary>A piece of a loom.</summary>
    /// <param name="Box">The line as it is drawn.</param>
    /// <param name="Count">How many wires.</param>
    public sealed record Piece<TSpace>(Box<TSpace> Box, int Count)
        where TSpace : struct, ISpace;

    /// <summary>The pieces of ways that run along x and y, each as long as the same number of wires share it.</summary>
    public static List<Piece<TSpace>> Of<TSpace>(IEnumerable<IReadOnlyList<Point<TSpace>>> ways)
        where TSpace : struct, ISpace
    {
        var stretches = ways.SelectMany(way => way.Zip(way.Skip(1), (from, to) => (from, to))).Select(pair =>
        {
            var isUpright = Math.Abs(pair.from.XMm - pair.to.XMm) < 1e-6;
            var (one, two) = isUpright ? (pair.from.YMm, pair.to.YMm) : (pair.from.XMm, pair.to.XMm);
            return (IsUpright: isUpright, At: Math.Round(isUpright ? pair.from.XMm : pair.from.YMm, 3, MidpointRounding.AwayFromZero), From: Math.Min(one, two), To: Math.Max(one, two));
        });
        var pieces = new List<Piece<TSpace>>();
        foreach (var line in stretches.GroupBy(stretch => (stretch.IsUpright, stretch.At)))
        {
            var ends = line.SelectMany(stretch => new[] { (At: stretch.From, Step: 1), (At: stretch.To, Step: -1) }).OrderBy(end => end.At).ToList();
            var count = 0;
            for (var index = 0; index + 1 < ends.Count; index++)
            {
                count += ends[index].Step;
                if (count > 0 && ends[index + 1].At - ends[index].At > 1e-6)
                {
                    pieces.Add(new(Drawn<TSpace>(line.Key.IsUpright, line.Key.At, ends[index].At, ends[index + 1].At, count), count));
                }
            }
        }

        return pieces;
    }

    private static Box<TSpace> Drawn<TSpace>(bool isUpright, double at, double from, double to, int count)
        where TSpace : struct, ISpace
    {
        var width = OneMm + (MoreMm * (Math.Min(count, MostCounted) - 1));
        var (start, length) = (from - (OneMm / 2), to - from + OneMm);
        return isUpright ? new(at - (width / 2), start, width, length) : new(start, at - (width / 2), length, width);
    }
}
