using System;
using System.Collections.Generic;
using System.Linq;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using NetTopologySuite.Geometries;
using NetTopologySuite.Geometries.Implementation;
using NtsGeometry = NetTopologySuite.Geometries.Geometry;

namespace Lampblack.Geometry;

/// <content>
/// Regions on their way from one place to another. A word goes from its line to its panel, its page and its printer, and mostly by shifts alone: on the grid
/// these add up to whole steps, and no corner is touched until somebody asks for it.
/// </content>
public sealed partial class Region<TSpace>
{
    /// <summary>Beyond this, lengths are left to numbers that hold more steps.</summary>
    private const double FarthestMm = 50_000;

    private Footing _footing;

    /// <summary>Whether all corners lie on the grid, once that is known.</summary>
    private enum Footing : byte
    {
        Unknown,
        OnGrid,
        Between,
    }

    /// <summary>Two threads may both make it; either's does.</summary>
    private NtsGeometry Shape => _shape ??= _steps == default ? _made : Shifted(_made, _steps);

    /// <summary>The box around the shape, which takes no corner either.</summary>
    private Envelope Envelope
    {
        get
        {
            var made = _made.EnvelopeInternal;
            return _steps == default || made.IsNull ? made : new(Away(made.MinX, _steps.Right), Away(made.MaxX, _steps.Right), Away(made.MinY, _steps.Up), Away(made.MaxY, _steps.Up));
        }
    }

    private bool IsOnGrid
    {
        get
        {
            if (_footing == Footing.Unknown)
            {
                _footing = PiecesOf(_made).All(piece => AreOnGrid(Numbers(piece.ExteriorRing)) && piece.InteriorRings.All(hole => AreOnGrid(Numbers(hole)))) ? Footing.OnGrid : Footing.Between;
            }

            return _footing == Footing.OnGrid;
        }
    }

    /// <summary>A hash for <see cref="IsVery"/>.</summary>
    internal int VeryHash => HashCode.Combine(RuntimeHelpers.GetHashCode(_made), _steps);

    /// <summary>Whether the other is this very shape at this very place, without a look at any corner; shapes that were made twice may be alike all the same.</summary>
    internal bool IsVery(Region<TSpace> other) => ReferenceEquals(_made, other._made) && _steps == other._steps;

    /// <summary>The corners of each piece, told in steps of the grid from its first one: alike pieces have the same numbers, wherever they lie.</summary>
    /// <param name="corners">Filled anew for each piece: of its outer border and then of each hole the number of corners, and the corners.</param>
    /// <returns>Where each piece's first corner lies, in steps from the origin.</returns>
    internal IEnumerable<(long Right, long Up)> PiecesInSteps(List<int> corners)
    {
        foreach (var piece in PiecesOf(_made))
        {
            corners.Clear();
            var first = FirstCorner(piece);
            Add(corners, Numbers(piece.ExteriorRing), first);
            foreach (var hole in piece.InteriorRings)
            {
                Add(corners, Numbers(hole), first);
            }

            yield return (first.Right + _steps.Right, first.Up + _steps.Up);
        }
    }

    private static Region<TSpace> OnGrid(IReadOnlyList<Polygon> polygons)
    {
        var region = Of(polygons);
        region._footing = Footing.OnGrid;
        return region;
    }

    /// <summary>By how many steps of the grid a map shifts this region; null where it does more, or where the region lies between the steps.</summary>
    private (int Right, int Up)? ShiftOf<TTo>(Affine<TSpace, TTo> map)
        where TTo : struct, ISpace
    {
        if (map is not { Xx: 1, Xy: 0, Yx: 0, Yy: 1 } || IsEmpty || !(Math.Abs(map.XMm) < FarthestMm && Math.Abs(map.YMm) < FarthestMm) || !IsOnGrid)
        {
            return null;
        }

        var (right, up) = (Steps(map.XMm), Steps(map.YMm));
        return Math.Max(Math.Abs(_steps.Right + right), Math.Abs(_steps.Up + up)) <= FarthestMm / Resolution.GridMm ? ((int)right, (int)up) : null;
    }

    private static Polygon Mapped<TTo>(Polygon piece, Affine<TSpace, TTo> map)
        where TTo : struct, ISpace => Changed(piece, (numbers, to) =>
        {
            for (var at = 0; at < to.Length; at += 2)
            {
                var there = map.Apply(new(numbers[at], numbers[at + 1]));
                (to[at], to[at + 1]) = (Resolution.Snap(there.XMm), Resolution.Snap(there.YMm));
            }
        });

    private static NtsGeometry Shifted(NtsGeometry made, (int Right, int Up) steps)
    {
        var pieces = PiecesOf(made).Select(piece => Changed(piece, (numbers, to) =>
        {
            for (var at = 0; at < to.Length; at += 2)
            {
                (to[at], to[at + 1]) = (Away(numbers[at], steps.Right), Away(numbers[at + 1], steps.Up));
            }
        })).ToArray();
        return pieces.Length == 1 ? pieces[0] : Factory.CreateMultiPolygon(pieces);
    }

    private static Polygon Changed(Polygon piece, Action<double[], double[]> change)
    {
        return Factory.CreatePolygon(Ring((LinearRing)piece.ExteriorRing), [.. piece.InteriorRings.Select(hole => Ring((LinearRing)hole))]);

        LinearRing Ring(LinearRing ring)
        {
            var numbers = Numbers(ring);
            var to = new double[numbers.Length];
            change(numbers, to);
            return new(new PackedDoubleCoordinateSequence(to, 2, 0), Factory);
        }
    }

    private static bool AreOnGrid(double[] numbers)
    {
        foreach (var number in numbers)
        {
            if (Resolution.Snap(number) != number)
            {
                return false;
            }
        }

        return true;
    }

    private static (long Right, long Up) FirstCorner(Polygon piece)
    {
        var numbers = Numbers(piece.ExteriorRing);
        return (Steps(numbers[0]), Steps(numbers[1]));
    }

    /// <summary>A ring's corners without the last, which is the first again.</summary>
    private static void Add(List<int> corners, double[] numbers, (long Right, long Up) first)
    {
        var start = corners.Count + 1;
        corners.Add((numbers.Length / 2) - 1);
        CollectionsMarshal.SetCount(corners, start + numbers.Length - 2);
        var to = CollectionsMarshal.AsSpan(corners)[start..];
        for (var at = 0; at < to.Length; at += 2)
        {
            (to[at], to[at + 1]) = (checked((int)(Steps(numbers[at]) - first.Right)), checked((int)(Steps(numbers[at + 1]) - first.Up)));
        }
    }

    private static double Away(double mm, int steps) => (Steps(mm) + steps) * Resolution.GridMm;

    private static long Steps(double mm) => (long)Math.Round(mm / Resolution.GridMm, MidpointRounding.AwayFromZero);

    /// <summary>The numbers of a ring's corners, two for each.</summary>
    private static double[] Numbers(LineString ring)
    {
        if (ring.CoordinateSequence is PackedDoubleCoordinateSequence { Dimension: 2 } packed)
        {
            return packed.GetRawCoordinates();
        }

        var corners = ring.CoordinateSequence;
        var numbers = new double[2 * corners.Count];
        for (var index = 0; index < corners.Count; index++)
        {
            (numbers[2 * index], numbers[(2 * index) + 1]) = (corners.GetX(index), corners.GetY(index));
        }

        return numbers;
    }
}
