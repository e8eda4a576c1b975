using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Books;

/// <summary>What has a number or a name beside it.</summary>
/// <param name="Words">The number or name.</param>
/// <param name="At">What is drawn; places are mm from the upper left corner, y down.</param>
/// <param name="IsNeeded">Whether it is written even where there is no good place.</param>
internal sealed record Labelled(string Words, Box<PageSpace> At, bool IsNeeded);

/// <summary>
/// Numbers and names beside what they belong to: above it wherever that is clear, and things that stand close together have theirs all at one side, so that no number between two is
/// taken for the other's.
/// </summary>
/// <param name="room">Where words find room.</param>
/// <param name="letterMm">Size of their letters.</param>
internal sealed class LabelSides(WordRoom room, double letterMm)
{
    // Nearer than that two things are one group.
    private const double GroupMm = 9;
    private const double GapMm = 0.3;

    // Letters fill so much of a line's height, and with their air so much.
    private const double LetterHighMm = 2;
    private const double HighMm = 2.4;

    // To anything else than its own a word is so many times as far; where that can't be had, it is at least nearer to its own.
    private const double NearerFactor = 2.5;
    private const double LeastFactor = 1.3;

    private static readonly ImmutableArray<(int Dx, int Dy)> Sides = [(0, -1), (1, 0), (-1, 0), (0, 1)];

    /// <summary>The words that found a place, with the place's middle.</summary>
    public IEnumerable<(Labelled Of, double X, double Y)> Of(ImmutableArray<Labelled> all)
    {
        // Groups first: they have the least choice.
        foreach (var group in Groups(all).OrderByDescending(group => group.Count))
        {
            // Where no side is good for all, the one that is for most comes first.
            var side = Sides.FirstOrDefault(one => IsGood(group, one, all));
            ImmutableArray<(int Dx, int Dy)> order = side == default ? [.. Sides.OrderByDescending(one => group.Count(item => IsGood([item], one, all)))] : [side];
            foreach (var item in group)
            {
                var own = order.FirstOrDefault(one => IsGood([item], one, all));
                if (own != default)
                {
                    var (x, y) = Place(item, own);
                    room.Take(x, y, WordRoom.WideMm(item.Words, letterMm), HighMm);
                    yield return (item, x, y);
                }
                else if (Elsewhere(item, all) is { } place)
                {
                    yield return (item, place.X, place.Y);
                }
            }
        }
    }

    private static List<List<Labelled>> Groups(ImmutableArray<Labelled> all)
    {
        var groups = new List<List<Labelled>>();
        foreach (var item in all)
        {
            var near = groups.FindAll(group => group.Exists(other => other.At.Grow(GroupMm).Overlaps(item.At)));
            groups.RemoveAll(near.Contains);
            groups.Add([.. near.SelectMany(group => group), item]);
        }

        return groups;
    }

    /// <summary>Whether all words of a group are clear at a side.</summary>
    private bool IsGood(List<Labelled> group, (int Dx, int Dy) side, ImmutableArray<Labelled> all)
    {
        var boxes = group.ConvertAll(item => Letters(Place(item, side), item));
        return group.Zip(boxes).All(one =>
            room.IsFree(one.First.Words, Place(one.First, side), letterMm, HighMm)
            && boxes.TrueForAll(other => other == one.Second || !other.Grow(GapMm).Overlaps(one.Second))
            && IsNearest(one.Second, one.First, all, NearerFactor));
    }

    private static bool IsNearest(Box<PageSpace> letters, Labelled item, ImmutableArray<Labelled> all, double factor)
    {
        var least = factor * Far(letters, item.At);
        return all.All(other => ReferenceEquals(other, item) || Far(letters, other.At) >= least);
    }

    /// <summary>Round about; where nothing is clear a word that is not needed is left out.</summary>
    private (double X, double Y)? Elsewhere(Labelled item, ImmutableArray<Labelled> all)
    {
        var round = WordRoom.Round(item.At.Centre.XMm, item.At.Centre.YMm, (item.At.WidthMm / 2) + 0.2, (item.At.HeightMm / 2) + 0.2, item.Words, letterMm).ToList();
        (double X, double Y)? Nearest(double factor) => room.Free(item.Words, round.FindAll(place => IsNearest(Letters(place, item), item, all, factor)), letterMm);
        return Nearest(NearerFactor) ?? Nearest(LeastFactor) ?? (item.IsNeeded ? room.Place(item.Words, round, letterMm: letterMm) : null);
    }

    private (double X, double Y) Place(Labelled item, (int Dx, int Dy) side) =>
        (item.At.Centre.XMm + (side.Dx * ((item.At.WidthMm + WordRoom.WideMm(item.Words, letterMm)) / 2)), item.At.Centre.YMm + (side.Dy * (((item.At.HeightMm + HighMm) / 2) + GapMm)));

    private Box<PageSpace> Letters((double X, double Y) place, Labelled item) => Box<PageSpace>.Around(new(place.X, place.Y), WordRoom.WideMm(item.Words, letterMm) - 1, LetterHighMm);

    private static double Far(Box<PageSpace> one, Box<PageSpace> other)
    {
        var (across, up) = (Math.Max(0, Math.Max(one.LeftMm - other.RightMm, other.LeftMm - one.RightMm)), Math.Max(0, Math.Max(one.BottomMm - other.TopMm, other.BottomMm - one.TopMm)));
        return Math.Sqrt((across * across) + (up * up));
    }
}
