using System;

namespace Lampblack.Geometry;

/// <summary>An upright rectangle.</summary>
/// <typeparam name="TSpace">The space it is in.</typeparam>
/// <param name="LeftMm">Left edge, in mm.</param>
/// <param name="BottomMm">Lower edge, in mm.</param>
/// <param name="WidthMm">Width, in mm; never negative.</param>
/// <param name="HeightMm">Height, in mm; never negative.</param>
public readonly record struct Box<TSpace>(double LeftMm, double BottomMm, double WidthMm, double HeightMm)
    where TSpace : struct, ISpace
{
    /// <summary>Right edge, in mm.</summary>
    public double RightMm => LeftMm + WidthMm;

    /// <summary>Upper edge, in mm.</summary>
    public double TopMm => BottomMm + HeightMm;

    /// <summary>The middle.</summary>
    public Point<TSpace> Centre => new(LeftMm + (WidthMm / 2), BottomMm + (HeightMm / 2));

    /// <summary>The box that reaches from one corner to the opposite one, in any order.</summary>
    public static Box<TSpace> Between(Point<TSpace> first, Point<TSpace> second) => new(
        Math.Min(first.XMm, second.XMm),
        Math.Min(first.YMm, second.YMm),
        Math.Abs(first.XMm - second.XMm),
        Math.Abs(first.YMm - second.YMm));

    /// <summary>The box about a middle.</summary>
    /// <param name="middle">The middle.</param>
    /// <param name="widthMm">Width, in mm.</param>
    /// <param name="heightMm">Height, in mm.</param>
    public static Box<TSpace> Around(Point<TSpace> middle, double widthMm, double heightMm) => new(middle.XMm - (widthMm / 2), middle.YMm - (heightMm / 2), widthMm, heightMm);

    /// <summary>The box with every edge moved outwards by <paramref name="byMm"/> (inwards where negative, down to nothing).</summary>
    public Box<TSpace> Grow(double byMm)
    {
        var width = Math.Max(0, WidthMm + (2 * byMm));
        var height = Math.Max(0, HeightMm + (2 * byMm));
        return new(Centre.XMm - (width / 2), Centre.YMm - (height / 2), width, height);
    }

    /// <summary>Whether the boxes share more than a border of <paramref name="slackMm"/>.</summary>
    public bool Overlaps(Box<TSpace> other, double slackMm = 0) =>
        LeftMm < other.RightMm - slackMm && other.LeftMm < RightMm - slackMm
        && BottomMm < other.TopMm - slackMm && other.BottomMm < TopMm - slackMm;

    /// <summary>How much area the boxes share.</summary>
    public double SharedMm2(Box<TSpace> other) =>
        Math.Max(0, Math.Min(RightMm, other.RightMm) - Math.Max(LeftMm, other.LeftMm)) * Math.Max(0, Math.Min(TopMm, other.TopMm) - Math.Max(BottomMm, other.BottomMm));

    /// <summary>How much of a straight stretch lies inside, from 0 to 1; nothing of one that runs along a border.</summary>
    /// <param name="from">Its beginning.</param>
    /// <param name="to">Its end.</param>
    public double InsideShare(Point<TSpace> from, Point<TSpace> to)
    {
        var (first, last) = (0.0, 1.0);
        foreach (var (start, way, low, high) in new[] { (from.XMm, to.XMm - from.XMm, LeftMm, RightMm), (from.YMm, to.YMm - from.YMm, BottomMm, TopMm) })
        {
            if (Math.Abs(way) < 1e-12)
            {
                if (start <= low || start >= high)
                {
                    return 0;
                }

                continue;
            }

            var (one, other) = ((low - start) / way, (high - start) / way);
            (first, last) = (Math.Max(first, Math.Min(one, other)), Math.Min(last, Math.Max(one, other)));
        }

        return Math.Max(0, last - first);
    }

    /// <summary>Whether the other box lies wholly inside, borders included.</summary>
    public bool Contains(Box<TSpace> other) =>
        other.LeftMm >= LeftMm && other.RightMm <= RightMm && other.BottomMm >= BottomMm && other.TopMm <= TopMm;

    /// <summary>Whether the point lies inside or on the border.</summary>
    public bool Contains(Point<TSpace> point) =>
        point.XMm >= LeftMm && point.XMm <= RightMm && point.YMm >= BottomMm && point.YMm <= TopMm;
}
