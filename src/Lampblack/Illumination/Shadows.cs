using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Numerics;
using System.Runtime.CompilerServices;

namespace Lampblack.Illumination;

/// <summary>
/// Whether one place of the box sees another past the bodies. As bodies stand upright from the mask (depth 0) inwards, a ray can only meet one
/// on the stretch that is no deeper than the body; there it is cut with the footprint's edges.
/// </summary>
/// <remarks>Bodies that lie together are held four by four, and those groups once more: a way is first tried with what is around them.</remarks>
internal sealed class Shadows
{
    private readonly ImmutableArray<Prism> _prisms;
    private readonly double _deepestMm;
    private readonly FourBoxes[] _boxes;
    private readonly FourBoxes[] _around;

    /// <summary>For each group, bit by bit, whether a body is the box around it.</summary>
    private readonly uint[] _square;

    public Shadows(IEnumerable<OpaqueBody> bodies)
    {
        _prisms = Together([.. bodies.Where(body => body.Corners.Length > 2 && body.DepthMm > 0).Select(body => new Prism(body))]);
        _deepestMm = _prisms.IsEmpty ? 0 : _prisms.Max(prism => prism.Box.DepthMm);
        _boxes = FourBoxes.Of(_prisms.Select(prism => prism.Box));
        _around = FourBoxes.Of(_prisms.Select(prism => prism.Box).Chunk(FourBoxes.Count).Select(UprightBox.Around));
        _square = [.. _prisms.Chunk(FourBoxes.Count).Select(four => four.Index().Aggregate(0u, (bits, prism) => bits | (prism.Item.IsSquare ? 1u << prism.Index : 0)))];
    }

    /// <summary>Whether nothing stands anywhere.</summary>
    public bool IsEmpty => _prisms.IsEmpty;

    /// <summary>Whether a body stands between two places.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public bool Block(Place from, Place to)
    {
        // Ways that never come within reach of the deepest body are many.
        if (_prisms.IsEmpty || Math.Min(from.Z, to.Z) >= _deepestMm)
        {
            return false;
        }

        var way = new Sightline(from, to);
        for (var part = 0; part < _around.Length; part++)
        {
            for (var groups = way.Through(_around[part]); groups != 0; groups &= groups - 1)
            {
                if (IsBlocked(way, (part * FourBoxes.Count) + BitOperations.TrailingZeroCount(groups)))
                {
                    return true;
                }
            }
        }

        return false;
    }

    private bool IsBlocked(in Sightline way, int group)
    {
        var met = way.Through(_boxes[group]);
        if ((met & _square[group]) != 0)
        {
            return true;
        }

        for (; met != 0; met &= met - 1)
        {
            if (_prisms[(group * FourBoxes.Count) + BitOperations.TrailingZeroCount(met)].Blocks(way))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>In an order in which four that follow each other lie together: in strips from left to right, in each from the lower edge up.</summary>
    private static ImmutableArray<Prism> Together(ImmutableArray<Prism> prisms)
    {
        var groups = (prisms.Length + FourBoxes.Count - 1) / FourBoxes.Count;
        var strip = FourBoxes.Count * (int)Math.Ceiling(Math.Sqrt(groups));
        return [.. prisms.OrderBy(prism => prism.Box.Left + prism.Box.Right).Chunk(Math.Max(1, strip)).SelectMany(some => some.OrderBy(prism => prism.Box.Bottom + prism.Box.Top))];
    }
}
