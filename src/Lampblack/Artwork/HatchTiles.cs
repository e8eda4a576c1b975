using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Artwork;

/// <summary>
/// The bare parts of a hatch as outlines in a plane of its own: x runs along, y across, and the pattern is anchored at the origin. At a scale of 0.8,
/// the smallest that is asked for, bare lines are 0.28 mm wide or more and black gaps 0.35 mm or more: six and eight dots at 600 dpi.
/// </summary>
internal static class HatchTiles
{
    private const int DotCorners = 16;
    private const double SquareRoot2 = 1.4142135623730951;

    public static IEnumerable<ImmutableArray<Point<ItemSpace>>> Draw(HatchPattern pattern, Box<ItemSpace> room, double scale, bool narrow) => pattern switch
    {
        HatchPattern.Rising => Slants(room, 1, 0.5 * scale, 0.5 * scale),
        HatchPattern.Dots => narrow ? OneRowOfDots(room) : Dots(room, 0.35 * scale, 1.25 * scale),
        HatchPattern.BroadBars => Bars(room, 1.2 * scale, 0.5 * scale),
        HatchPattern.Along => narrow ? Edges(room) : Lines(room, 0.5 * scale, 0.5 * scale),
        HatchPattern.Falling => Slants(room, -1, 0.4 * scale, 0.7 * scale),
        HatchPattern.Crossed => [.. Slants(room, 1, 0.35 * scale, 0.65 * scale), .. Slants(room, -1, 0.35 * scale, 0.65 * scale)],
        HatchPattern.ThinBars => Bars(room, 0.4 * scale, 0.9 * scale),
        _ => Bent(room, 0.65 * scale, 0.65 * scale, narrow ? room.HeightMm / 2 : 1.2 * scale),
    };

    private static IEnumerable<ImmutableArray<Point<ItemSpace>>> Slants(Box<ItemSpace> room, int slope, double bareMm, double blackMm) =>
        Zigzags(room, bareMm * SquareRoot2, (bareMm + blackMm) * SquareRoot2, [(room.BottomMm, slope * room.BottomMm), (room.TopMm, slope * room.TopMm)]);

    private static IEnumerable<ImmutableArray<Point<ItemSpace>>> Bars(Box<ItemSpace> room, double bareMm, double blackMm) =>
        Zigzags(room, bareMm, bareMm + blackMm, [(room.BottomMm, 0), (room.TopMm, 0)]);

    /// <summary>Bars that turn back at every step upwards from the origin.</summary>
    private static IEnumerable<ImmutableArray<Point<ItemSpace>>> Bent(Box<ItemSpace> room, double bareMm, double blackMm, double stepMm)
    {
        var first = (int)Math.Floor(room.BottomMm / stepMm);
        var last = (int)Math.Ceiling(room.TopMm / stepMm);
        var bends = Enumerable.Range(first, last - first + 1).Select(step => (step * stepMm, step % 2 == 0 ? 0 : -stepMm));
        return Zigzags(room, bareMm * SquareRoot2, (bareMm + blackMm) * SquareRoot2, [.. bends]);
    }

    /// <summary>Bars across the room that follow these bends: how far each is moved at which height.</summary>
    private static IEnumerable<ImmutableArray<Point<ItemSpace>>> Zigzags(
        Box<ItemSpace> room, double barMm, double pitchMm, ImmutableArray<(double YMm, double MoveMm)> bends)
    {
        var from = (int)Math.Floor((room.LeftMm - bends.Max(bend => bend.MoveMm) - barMm) / pitchMm);
        var to = (int)Math.Ceiling((room.RightMm - bends.Min(bend => bend.MoveMm) + barMm) / pitchMm);
        for (var bar = from; bar <= to; bar++)
        {
            var x = (bar * pitchMm) - (barMm / 2);
            yield return
            [
                .. bends.Select(bend => new Point<ItemSpace>(x + barMm + bend.MoveMm, bend.YMm)),
                .. bends.Reverse().Select(bend => new Point<ItemSpace>(x + bend.MoveMm, bend.YMm)),
            ];
        }
    }

    private static IEnumerable<ImmutableArray<Point<ItemSpace>>> Lines(Box<ItemSpace> room, double bareMm, double blackMm)
    {
        var pitch = bareMm + blackMm;
        for (var line = (int)Math.Floor(room.BottomMm / pitch); line <= Math.Ceiling(room.TopMm / pitch); line++)
        {
            yield return Flat(room, (line * pitch) - (bareMm / 2), (line * pitch) + (bareMm / 2));
        }
    }

    /// <summary>Both edges of a narrow band, with one black line between them.</summary>
    private static IEnumerable<ImmutableArray<Point<ItemSpace>>> Edges(Box<ItemSpace> room)
    {
        var half = Math.Max(0.35, room.HeightMm * 0.3) / 2;
        yield return Flat(room, room.BottomMm, room.Centre.YMm - half);
        yield return Flat(room, room.Centre.YMm + half, room.TopMm);
    }

    private static IEnumerable<ImmutableArray<Point<ItemSpace>>> Dots(Box<ItemSpace> room, double radiusMm, double pitchMm)
    {
        var rowMm = pitchMm * 0.87;
        for (var row = (int)Math.Floor(room.BottomMm / rowMm); row <= Math.Ceiling(room.TopMm / rowMm); row++)
        {
            var shift = row % 2 == 0 ? 0 : pitchMm / 2;
            for (var dot = (int)Math.Floor(room.LeftMm / pitchMm); dot <= Math.Ceiling(room.RightMm / pitchMm); dot++)
            {
                yield return Dot(new((dot * pitchMm) + shift, row * rowMm), radiusMm);
            }
        }
    }

    /// <summary>Dots as large as a narrow band lets them be, a third of its width off either edge together.</summary>
    private static IEnumerable<ImmutableArray<Point<ItemSpace>>> OneRowOfDots(Box<ItemSpace> room)
    {
        var pitch = Math.Max(1, room.HeightMm * 1.1);
        var count = (int)Math.Floor(room.WidthMm / pitch);
        for (var dot = 0; dot < count; dot++)
        {
            yield return Dot(new(room.Centre.XMm + ((dot - ((count - 1) / 2.0)) * pitch), room.Centre.YMm), room.HeightMm * 0.32);
        }
    }

    private static ImmutableArray<Point<ItemSpace>> Flat(Box<ItemSpace> room, double fromMm, double toMm) =>
        [new(room.LeftMm, fromMm), new(room.RightMm, fromMm), new(room.RightMm, toMm), new(room.LeftMm, toMm)];

    private static ImmutableArray<Point<ItemSpace>> Dot(Point<ItemSpace> middle, double radiusMm) =>
        [.. Enumerable.Range(0, DotCorners).Select(corner => middle.Polar(radiusMm, corner * 360.0 / DotCorners))];
}
