using System;
using System.Collections.Immutable;
using System.Linq;
using System.Runtime.CompilerServices;

namespace Lampblack.Illumination;

/// <summary>Area times share of two facets, nothing in between: the mean of both ways, which differ a little as each looks from a few places only.</summary>
/// <remarks>All facets of a side are alike and stand in one grid, so that what two exchange depends on their sides and their distance in that grid alone, and is reckoned once.</remarks>
internal sealed class FacetExchange
{
    /// <summary>Nearer than so many sizes a facet is looked at from four places instead of its middle.</summary>
    public const double NearSizes = 3;

    private const int Sides = 6;

    private readonly Looks _looks;
    private readonly ImmutableArray<(BoxSide Side, int X, int Y, int Z)> _places;
    private readonly Facet?[] _samples = new Facet?[Sides];
    private readonly float[]?[] _known = new float[Sides * Sides][];
    private readonly Place _halfMm;
    private readonly (int X, int Y, int Z) _most;

    /// <param name="facets">All facets of a box.</param>
    /// <param name="looks">How closely they are looked at.</param>
    public FacetExchange(ImmutableArray<Facet> facets, Looks looks)
    {
        _looks = looks;

        // Half of a facet's width, height and depth is the grid's step: middles of sides lie between walls.
        var (mask, wall) = (facets.First(facet => facet.Side == BoxSide.Mask), facets.First(facet => facet.Side == BoxSide.Left));
        _halfMm = new(mask.HalfU.X, mask.HalfV.Y, wall.HalfV.Z);
        var first = mask.Centre;
        _places = [.. facets.Select(facet => (facet.Side, Steps(facet.Centre.X - first.X, _halfMm.X), Steps(facet.Centre.Y - first.Y, _halfMm.Y), Steps(facet.Centre.Z, _halfMm.Z)))];
        _most = (Widest(place => place.X), Widest(place => place.Y), Widest(place => place.Z));
        foreach (var facet in facets)
        {
            _samples[(int)facet.Side] ??= facet;
        }

        for (var one = 0; one < Sides; one++)
        {
            for (var other = one + 1; other < Sides; other++)
            {
                _known[(one * Sides) + other] = [.. Enumerable.Repeat(float.NaN, (_most.X + 1) * (_most.Y + 1) * (_most.Z + 1))];
            }
        }

        int Widest(Func<(BoxSide Side, int X, int Y, int Z), int> along) => _places.Max(along) - _places.Min(along);
    }

    /// <summary>What a facet exchanges with each.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public float[] Row(int index)
    {
        var row = new float[_places.Length];
        for (var other = 0; other < row.Length; other++)
        {
            row[other] = _places[index].Side < _places[other].Side ? Of(_places[index], _places[other])
                : _places[index].Side > _places[other].Side ? Of(_places[other], _places[index])
                : 0;
        }

        return row;
    }

    private float Of((BoxSide Side, int X, int Y, int Z) one, (BoxSide Side, int X, int Y, int Z) other)
    {
        // Of two given sides all distances along one axis are even, or all are odd.
        var (x, y, z) = (other.X - one.X, other.Y - one.Y, other.Z - one.Z);
        ref var known = ref _known[((int)one.Side * Sides) + (int)other.Side]![((((((x + _most.X) >> 1) * (_most.Y + 1)) + ((y + _most.Y) >> 1)) * (_most.Z + 1)) + ((z + _most.Z) >> 1))];

        // Two threads that look for the same at once find the same.
        if (float.IsNaN(known))
        {
            var (from, to) = (_samples[(int)one.Side]!, _samples[(int)other.Side]!);
            (from, to) = (from.At(default), to.At(new(x * _halfMm.X, y * _halfMm.Y, z * _halfMm.Z)));
            known = (Exchanged(from, to) + Exchanged(to, from)) / 2;
        }

        return known;
    }

    private float Exchanged(Facet facet, Facet seen) => (float)(facet.AreaMm2 * ((seen.Centre - facet.Centre).Length < NearSizes * Math.Max(seen.SizeMm, facet.SizeMm)
        ? facet.Quarters.Average(place => seen.SeenFrom(place, facet.Normal, _looks.PolygonSizes))
        : seen.SeenFrom(facet.Centre, facet.Normal, _looks.PolygonSizes)));

    private static int Steps(double mm, double stepMm) => (int)Math.Round(mm / stepMm, MidpointRounding.AwayFromZero);
}
