using System;
using System.Collections.Generic;
using System.Runtime.InteropServices;

namespace Lampblack.Geometry;

/// <summary>
/// Cuts sides where they meet, until they meet in their ends only. Crossings are rounded to the grid, which bends sides a little and can make new
/// crossings; those are cut in the next round.
/// </summary>
/// <remarks>Rounds are known to end quickly but not proven to end; whoever asks has another way for the rest.</remarks>
internal sealed class SideCutter
{
    private const int MostRounds = 12;

    private readonly List<(int Side, GridPoint Place)> _cuts = [];
    private readonly int[] _firstOfRing;
    private bool[]? _isNew;

    private SideCutter(List<GridSide> sides, int ringCount)
    {
        Sides = sides;
        _firstOfRing = new int[ringCount];
        FindRings();
    }

    /// <summary>The sides, ring by ring.</summary>
    public List<GridSide> Sides { get; private set; }

    /// <summary>Where sides meet that do not follow each other in their ring.</summary>
    public HashSet<GridPoint> Nodes { get; } = [];

    /// <summary>Cuts the sides of rings; null where they still cross after many rounds.</summary>
    public static SideCutter? Cut(List<GridSide> sides, int ringCount)
    {
        var cutter = new SideCutter(sides, ringCount);
        for (var round = 0; round < MostRounds; round++)
        {
            cutter.Sweep();
            if (cutter._cuts.Count == 0)
            {
                return cutter;
            }

            cutter.Apply();
        }

        return null;
    }

    private void FindRings()
    {
        for (var index = Sides.Count - 1; index >= 0; index--)
        {
            _firstOfRing[Sides[index].Ring] = index;
        }
    }

    /// <summary>Looks at all pairs whose boxes meet in a strip, from left to right. A pair may be looked at in two strips: its cuts are the same.</summary>
    private void Sweep()
    {
        var sides = CollectionsMarshal.AsSpan(Sides);
        var strips = new SideStrips(sides);
        var open = new List<int>();
        var strip = -1;
        foreach (var entry in strips.Order)
        {
            if (strips.StripOf(entry) != strip)
            {
                strip = strips.StripOf(entry);
                open.Clear();
            }

            var (index, lowX) = (strips.Sides[entry], strips.LowX(entry));
            ref readonly var side = ref sides[index];
            var (low, high) = side.Start.Y < side.End.Y ? (side.Start.Y, side.End.Y) : (side.End.Y, side.Start.Y);
            for (var at = open.Count - 1; at >= 0; at--)
            {
                if (strips.HighX[open[at]] < lowX)
                {
                    open[at] = open[^1];
                    open.RemoveAt(open.Count - 1);
                    continue;
                }

                var before = strips.Sides[open[at]];
                ref readonly var other = ref sides[before];
                if (Math.Min(other.Start.Y, other.End.Y) <= high && low <= Math.Max(other.Start.Y, other.End.Y) && (_isNew is null || _isNew[index] || _isNew[before]))
                {
                    Meet(before, other, index, side);
                }
            }

            open.Add(entry);
        }
    }

    private void Meet(int firstIndex, in GridSide first, int secondIndex, in GridSide second)
    {
        var (from, to) = (first.Left(second.Start), first.Left(second.End));
        if ((from > 0 && to > 0) || (from < 0 && to < 0))
        {
            return;
        }

        var (otherFrom, otherTo) = (second.Left(first.Start), second.Left(first.End));
        if ((otherFrom > 0 && otherTo > 0) || (otherFrom < 0 && otherTo < 0))
        {
            return;
        }

        if (from != 0 && to != 0 && otherFrom != 0 && otherTo != 0)
        {
            var share = otherFrom / ((double)otherFrom - otherTo);
            var crossing = new GridPoint(first.Start.X + Part(first.End.X - first.Start.X, share), first.Start.Y + Part(first.End.Y - first.Start.Y, share));
            CutAt(firstIndex, first, crossing);
            CutAt(secondIndex, second, crossing);
            return;
        }

        CutOn(firstIndex, first, from, second.Start);
        CutOn(firstIndex, first, to, second.End);
        CutOn(secondIndex, second, otherFrom, first.Start);
        CutOn(secondIndex, second, otherTo, first.End);

        // A side that turns back over the one before it lies on it; then the corner between the two is one where chains end.
        var isOneLine = from == 0 && to == 0;
        if (first.Start == second.Start || (first.Start == second.End && (isOneLine || Next(secondIndex) != firstIndex)))
        {
            Nodes.Add(first.Start);
        }

        if (first.End == second.End || (first.End == second.Start && (isOneLine || Next(firstIndex) != secondIndex)))
        {
            Nodes.Add(first.End);
        }
    }

    private int Next(int index) => index + 1 < Sides.Count && Sides[index + 1].Ring == Sides[index].Ring ? index + 1 : _firstOfRing[Sides[index].Ring];

    private static long Part(long length, double share) => (long)Math.Round(length * share, MidpointRounding.AwayFromZero);

    private void CutOn(int index, in GridSide side, long left, GridPoint end)
    {
        if (left == 0 && side.HasBetween(end))
        {
            CutAt(index, side, end);
        }
    }

    private void CutAt(int index, in GridSide side, GridPoint place)
    {
        Nodes.Add(place);
        if (place != side.Start && place != side.End)
        {
            _cuts.Add((index, place));
        }
    }

    /// <summary>Puts the parts of cut sides in their place; only those are looked at again.</summary>
    private void Apply()
    {
        _cuts.Sort(Compare);
        var sides = new List<GridSide>(Sides.Count + _cuts.Count);
        var isNew = new List<bool>(Sides.Count + _cuts.Count);
        var next = 0;
        for (var index = 0; index < Sides.Count; index++)
        {
            var side = Sides[index];
            var isCut = next < _cuts.Count && _cuts[next].Side == index;
            for (; next < _cuts.Count && _cuts[next].Side == index; next++)
            {
                var place = _cuts[next].Place;
                if (place != side.Start)
                {
                    sides.Add(side with { End = place });
                    isNew.Add(true);
                    side = side with { Start = place, Corner = -1 };
                }
            }

            sides.Add(side);
            isNew.Add(isCut);
        }

        (Sides, _isNew) = (sides, [.. isNew]);
        _cuts.Clear();
        FindRings();
    }

    private int Compare((int Side, GridPoint Place) first, (int Side, GridPoint Place) second)
    {
        if (first.Side != second.Side)
        {
            return first.Side.CompareTo(second.Side);
        }

        var along = Sides[first.Side].Along(first.Place).CompareTo(Sides[first.Side].Along(second.Place));
        return along != 0 ? along : first.Place.CompareTo(second.Place);
    }
}
