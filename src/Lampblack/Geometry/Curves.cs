using System;
using System.Collections.Immutable;

namespace Lampblack.Geometry;

/// <summary>Follows Bezier curves by chords.</summary>
public static class Curves
{
    /// <summary>Adds the chords of a quadratic curve, without its start, with its end.</summary>
    /// <param name="into">Where the points go.</param>
    /// <param name="start">First point.</param>
    /// <param name="control">Control point.</param>
    /// <param name="end">Last point.</param>
    /// <param name="chordErrorMm">Largest distance between curve and chord.</param>
    /// <typeparam name="TSpace">The space it is in.</typeparam>
    public static void AddQuadratic<TSpace>(
        ImmutableArray<Point<TSpace>>.Builder into, Point<TSpace> start, Point<TSpace> control, Point<TSpace> end, double chordErrorMm)
        where TSpace : struct, ISpace
    {
        ArgumentNullException.ThrowIfNull(into);

        // The second derivative is constant, so n equal steps miss the curve by |start - 2 control + end| / (4 n^2).
        var bend = new Vector<TSpace>(start.XMm - (2 * control.XMm) + end.XMm, start.YMm - (2 * control.YMm) + end.YMm).LengthMm;
        var steps = Steps(bend / 4, chordErrorMm);
        for (var index = 1; index <= steps; index++)
        {
            var t = (double)index / steps;
            var u = 1 - t;
            into.Add(new(
                (u * u * start.XMm) + (2 * u * t * control.XMm) + (t * t * end.XMm),
                (u * u * start.YMm) + (2 * u * t * control.YMm) + (t * t * end.YMm)));
        }
    }

    /// <summary>Adds the chords of a cubic curve, without its start, with its end.</summary>
    /// <param name="into">Where the points go.</param>
    /// <param name="start">First point.</param>
    /// <param name="first">First control point.</param>
    /// <param name="second">Second control point.</param>
    /// <param name="end">Last point.</param>
    /// <param name="chordErrorMm">Largest distance between curve and chord.</param>
    /// <typeparam name="TSpace">The space it is in.</typeparam>
    public static void AddCubic<TSpace>(
        ImmutableArray<Point<TSpace>>.Builder into, Point<TSpace> start, Point<TSpace> first, Point<TSpace> second, Point<TSpace> end, double chordErrorMm)
        where TSpace : struct, ISpace
    {
        ArgumentNullException.ThrowIfNull(into);

        // The largest second difference bounds the second derivative: |B''| <= 6 max, and n chords miss by |B''| / (8 n^2).
        var bendAtStart = new Vector<TSpace>(start.XMm - (2 * first.XMm) + second.XMm, start.YMm - (2 * first.YMm) + second.YMm).LengthMm;
        var bendAtEnd = new Vector<TSpace>(first.XMm - (2 * second.XMm) + end.XMm, first.YMm - (2 * second.YMm) + end.YMm).LengthMm;
        var steps = Steps(Math.Max(bendAtStart, bendAtEnd) * 6 / 8, chordErrorMm);
        for (var index = 1; index <= steps; index++)
        {
            var t = (double)index / steps;
            var u = 1 - t;
            into.Add(new(
                (u * u * u * start.XMm) + (3 * u * u * t * first.XMm) + (3 * u * t * t * second.XMm) + (t * t * t * end.XMm),
                (u * u * u * start.YMm) + (3 * u * u * t * first.YMm) + (3 * u * t * t * second.YMm) + (t * t * t * end.YMm)));
        }
    }

    private static int Steps(double missOfOneChordMm, double chordErrorMm) =>
        (int)Math.Clamp(Math.Ceiling(Math.Sqrt(missOfOneChordMm / chordErrorMm)), 1, 1000);
}
