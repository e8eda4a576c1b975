using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.VectorArt;

/// <summary>Makes regions from trails and loose outlines.</summary>
internal static class Outlines
{
    /// <summary>The inside of trails.</summary>
    /// <exception cref="FarAwayException">They lie too far out to be drawn.</exception>
    public static Region<ItemSpace> Fill(IEnumerable<Trail> trails, Matrix toMm, FillRule rule, Budget budget)
    {
        var outlines = new List<Outline<ItemSpace>>();
        foreach (var trail in trails)
        {
            var points = ImmutableArray.CreateBuilder<Point<ItemSpace>>();
            points.Add(PointOf(toMm.Apply(trail.Start)));
            foreach (var piece in trail.Pieces.Select(piece => piece.Map(toMm)))
            {
                if (piece.IsStraight)
                {
                    points.Add(PointOf(piece.To));
                    budget.Spend(1);
                    continue;
                }

                var before = points.Count;
                Curves.AddCubic(points, PointOf(piece.From), PointOf(piece.First), PointOf(piece.Second), PointOf(piece.To), Resolution.ChordErrorMm);
                budget.Spend(points.Count - before);
            }

            outlines.Add(new(points.ToImmutable(), Closed: true));
        }

        return Region(outlines, rule, budget);
    }

    /// <summary>What a pen covers.</summary>
    /// <exception cref="FarAwayException">It lies too far out to be drawn.</exception>
    public static Region<ItemSpace> Stroke(IEnumerable<Trail> trails, Stroke stroke, Matrix toMm, Budget budget) => Region(
        Stroker.Outlines(trails, stroke, toMm, Resolution.ChordErrorMm, budget)
            .Select(outline => new Outline<ItemSpace>([.. outline.Select(PointOf)], Closed: true)),
        FillRule.NonZero,
        budget);

    /// <summary>A rectangle of any coordinates.</summary>
    /// <exception cref="FarAwayException">It lies too far out to be drawn.</exception>
    public static Region<ItemSpace> Rectangle(double x, double y, double width, double height, Matrix toMm) => width > 0 && height > 0
        ? Region<ItemSpace>.FromCorners([
            PointOf(toMm.Apply(new(x, y))), PointOf(toMm.Apply(new(x + width, y))), PointOf(toMm.Apply(new(x + width, y + height))), PointOf(toMm.Apply(new(x, y + height)))])
        : Region<ItemSpace>.Empty;

    /// <summary>A place in mm.</summary>
    /// <exception cref="FarAwayException">It lies too far out to be drawn.</exception>
    public static Point<ItemSpace> PointOf(Spot spot) =>
        Math.Abs(spot.X) <= Limits.FarthestMm && Math.Abs(spot.Y) <= Limits.FarthestMm ? new(spot.X, spot.Y) : throw new FarAwayException();

    private static Region<ItemSpace> Region(IEnumerable<Outline<ItemSpace>> outlines, FillRule rule, Budget budget) =>
        Region<ItemSpace>.FromWindings(outlines, rule, ref budget.MeetingsLeft) ?? throw new TooMuchException(TooMuch.Meetings);
}

/// <summary>Something lies too far out to be drawn, or nowhere; caught where the element is known.</summary>
internal sealed class FarAwayException : Exception;
