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
/// <remarks>Bodies that lie together are held four by four, and so are those groups and what is around them: a way goes from the outermost boxes inwards.</remarks>
internal sealed class Shadows
{
    private readonly ImmutableArray<Prism> _prisms;
    private readonly double _deepestMm;

    /// <summary>The bodies' boxes, then those around each four of these, and so on to the last four at most.</summary>
    private readonly FourBoxes[][] _levels;

    /// <summary>For each group, bit by bit, whether a body is the box around it.</summary>
    private readonly uint[] _square;

    public Shadows(IEnumerable<OpaqueBody> bodies)
    {
        _prisms = [.. Together([.. bodies.Where(body => body.Corners.Length > 2 && body.DepthMm > 0).Select(body => new Prism(body))])];
        _deepestMm = _prisms.IsEmpty ? 0 : _prisms.Max(prism => prism.Box.DepthMm);
        var levels = new List<FourBoxes[]>();
        UprightBox[] boxes = [.. _prisms.Select(prism => prism.Box)];
        while (true)
        {
            levels.Add(FourBoxes.Of(boxes));
            if (boxes.Length <= FourBoxes.Count)
            {
                break;
            }

            boxes = [.. boxes.Chunk(FourBoxes.Count).Select(UprightBox.Around)];
        }

        _levels = [.. levels];
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

        return IsBlocked(new(from, to), _levels.Length - 1, 0);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private bool IsBlocked(in Sightline way, int level, int four)
    {
        var met = way.Through(_levels[level][four]);
        if (level == 0)
        {
            return met != 0 && IsBlocked(way, four, met);
        }

        for (; met != 0; met &= met - 1)
        {
            if (IsBlocked(way, level - 1, (four * FourBoxes.Count) + BitOperations.TrailingZeroCount(met)))
            {
                return true;
            }
        }

        return false;
    }

    private bool IsBlocked(in Sightline way, int four, uint met)
    {
        if ((met & _square[four]) != 0)
        {
            return true;
        }

        for (; met != 0; met &= met - 1)
        {
            if (_prisms[(four * FourBoxes.Count) + BitOperations.TrailingZeroCount(met)].Blocks(way))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>In an order in which each four that follow each other lie together, and each sixteen, and so on: halved again and again across the longer side.</summary>
    private static IEnumerable<Prism> Together(ImmutableArray<Prism> prisms)
    {
        if (prisms.Length <= FourBoxes.Count)
        {
            return prisms;
        }

        var size = FourBoxes.Count;
        while (size * FourBoxes.Count < prisms.Length)
        {
            size *= FourBoxes.Count;
        }

        var around = UprightBox.Around([.. prisms.Select(prism => prism.Box)]);
        ImmutableArray<Prism> along = around.RightMm - around.LeftMm > around.TopMm - around.BottomMm
            ? [.. prisms.OrderBy(prism => prism.Box.LeftMm + prism.Box.RightMm)]
            : [.. prisms.OrderBy(prism => prism.Box.BottomMm + prism.Box.TopMm)];
        var half = (prisms.Length + size - 1) / size / 2 * size;
        return Together(along[..half]).Concat(Together(along[half..]));
    }
}
