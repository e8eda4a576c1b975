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
/// <remarks>Bodies that lie together are held eight by eight, and so are those groups and what is around them: a way goes from the outermost boxes inwards.</remarks>
internal sealed class Shadows
{
    private readonly ImmutableArray<Prism> _prisms;
    private readonly double _deepestMm;

    /// <summary>The bodies' boxes, then those around each eight of these, and so on to the last eight at most.</summary>
    private readonly EightBoxes[][] _levels;

    public Shadows(IEnumerable<OpaqueBody> bodies)
    {
        _prisms = [.. Neighbours([.. bodies.Where(body => body.Corners.Length > 2 && body.DepthMm > 0).Select(body => new Prism(body))])];
        _deepestMm = _prisms.IsEmpty ? 0 : _prisms.Max(prism => prism.Box.DepthMm);
        var levels = new List<EightBoxes[]>();
        UprightBox[] boxes = [.. _prisms.Select(prism => prism.Box)];
        while (true)
        {
            levels.Add(EightBoxes.Of(boxes));
            if (boxes.Length <= EightBoxes.Count)
            {
                break;
            }

            boxes = [.. boxes.Chunk(EightBoxes.Count).Select(UprightBox.Around)];
        }

        _levels = [.. levels];
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
    private bool IsBlocked(in Sightline way, int level, int eight)
    {
        // Boxes tell quickly what is out of the way; the bodies that are left are tried exactly.
        for (var near = way.Near(_levels[level][eight]); near != 0; near &= near - 1)
        {
            var one = (eight * EightBoxes.Count) + BitOperations.TrailingZeroCount(near);
            if (level == 0 ? _prisms[one].Blocks(way) : IsBlocked(way, level - 1, one))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>In an order in which each eight that follow each other lie together, and each sixty-four, and so on: halved again and again across the longer side.</summary>
    private static IEnumerable<Prism> Neighbours(ImmutableArray<Prism> prisms)
    {
        if (prisms.Length <= EightBoxes.Count)
        {
            return prisms;
        }

        var size = EightBoxes.Count;
        while (size * EightBoxes.Count < prisms.Length)
        {
            size *= EightBoxes.Count;
        }

        var around = UprightBox.Around([.. prisms.Select(prism => prism.Box)]);
        ImmutableArray<Prism> along = around.RightMm - around.LeftMm > around.TopMm - around.BottomMm
            ? [.. prisms.OrderBy(prism => prism.Box.LeftMm + prism.Box.RightMm)]
            : [.. prisms.OrderBy(prism => prism.Box.BottomMm + prism.Box.TopMm)];
        var half = (prisms.Length + size - 1) / size / 2 * size;
        return Neighbours(along[..half]).Concat(Neighbours(along[half..]));
    }
}
