using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Sheets;

namespace Lampblack.Wiring;

/// <summary>What is written beside a part: its name, and a line for each wire.</summary>
/// <param name="Item">The part's item.</param>
/// <param name="Lines">The lines.</param>
/// <param name="Body">The part's body.</param>
internal sealed record PartTag(string Item, ImmutableArray<string> Lines, Box<BackSpace> Body);

/// <summary>A tag where it found room.</summary>
/// <param name="Tag">The tag.</param>
/// <param name="Box">Its room.</param>
/// <param name="TextMm">Height of its capitals.</param>
internal sealed record PlacedTag(PartTag Tag, Box<BackSpace> Box, double TextMm);

/// <summary>Finds room for tags beside bodies: none overlaps a body or another tag, and few looms run beneath.</summary>
internal static class TagPlaces
{
    /// <summary>From one line to the next, as a share of the capitals' height.</summary>
    public const double LineFactor = 1.6;

    /// <summary>From a tag's edge to its letters.</summary>
    public const double AirMm = 0.5;

    // Read at arm's length first; where there is no room, from nearer.
    private static readonly ImmutableArray<double> SizesMm = [2, 1.7, 1.4];
    private static readonly ImmutableArray<double> GapsMm = [0.8, 2, 4, 7, 11, 16, 23];

    // A tag that cuts a loom in two is read wrongly sooner than one that stands a little away.
    private const double LoomCost = 40;
    private const double GapCost = 2;
    private const double LeaderStepMm = 0.7;

    /// <summary>The tags that found room, in their order; the others are left out.</summary>
    /// <param name="tags">The tags.</param>
    /// <param name="taken">Where none may be.</param>
    /// <param name="looms">What they should not lie over.</param>
    /// <param name="within">Where all must be.</param>
    public static ImmutableArray<PlacedTag> Of(IEnumerable<PartTag> tags, IEnumerable<Box<BackSpace>> taken, IReadOnlyList<Box<BackSpace>> looms, Box<BackSpace> within)
    {
        var full = taken.ToList();
        var placed = ImmutableArray.CreateBuilder<PlacedTag>();
        foreach (var tag in tags)
        {
            if (Best(tag) is { } found)
            {
                full.Add(found.Box);
                placed.Add(found);
            }
        }

        return placed.ToImmutable();

        PlacedTag? Best(PartTag tag)
        {
            foreach (var size in SizesMm)
            {
                var (width, height) = (tag.Lines.Max(line => SheetText.WidthMm(line, size)) + (2 * AirMm), (tag.Lines.Length * size * LineFactor) + (2 * AirMm) - (size * (LineFactor - 1)));

                // Nothing farther away than the farthest place matters: of hundreds of tags that is nearly all.
                var reach = tag.Body.Grow(GapsMm[^1] + Math.Max(width, height));
                var (near, nearLooms) = (full.FindAll(box => box.Overlaps(reach)), looms.Where(loom => loom.Overlaps(reach)).ToList());
                // The cheapest first: the first that nothing stands in the way of is taken, and only so many are looked at.
                var found = GapsMm.SelectMany(gap => Around(tag.Body, width, height, gap).Select((box, order) => (Box: box, Cost: (GapCost * gap) + (0.1 * order))))
                    .Where(one => within.Contains(one.Box) && !near.Exists(box => box.Overlaps(one.Box)))
                    .Select(one => (one.Box, Cost: (LoomCost * nearLooms.Count(loom => loom.Overlaps(one.Box))) + one.Cost))
                    .OrderBy(one => one.Cost)
                    .Where(one => IsClear(one.Box, tag.Body, near))
                    .Select(one => new PlacedTag(tag, one.Box, size))
                    .FirstOrDefault();
                if (found is not null)
                {
                    return found;
                }
            }

            return null;
        }

        // The thin line from a tag to its part crosses no other tag, and no other part.
        static bool IsClear(Box<BackSpace> box, Box<BackSpace> body, List<Box<BackSpace>> near)
        {
            var (from, to) = Leader(box, body);
            var count = (int)(from.DistanceMm(to) / LeaderStepMm);
            return Enumerable.Range(0, count).Select(step => from + ((step + 0.5) / count * (to - from))).All(point => !near.Exists(other => other != body && other.Contains(point)));
        }
    }

    /// <summary>Where the thin line between a tag and its part begins and ends.</summary>
    public static (Point<BackSpace> From, Point<BackSpace> To) Leader(Box<BackSpace> box, Box<BackSpace> body) => (Nearest(box, body.Centre), Nearest(body, box.Centre));

    private static Point<BackSpace> Nearest(Box<BackSpace> box, Point<BackSpace> to) => new(Math.Clamp(to.XMm, box.LeftMm, box.RightMm), Math.Clamp(to.YMm, box.BottomMm, box.TopMm));

    private static IEnumerable<Box<BackSpace>> Around(Box<BackSpace> body, double width, double height, double gap)
    {
        var (middleX, middleY) = (body.Centre.XMm - (width / 2), body.Centre.YMm - (height / 2));
        var (left, right, below, above) = (body.LeftMm - gap - width, body.RightMm + gap, body.BottomMm - gap - height, body.TopMm + gap);
        var (alignTop, alignBottom) = (body.TopMm - height, body.BottomMm);
        return
        [
            new(right, middleY, width, height), new(left, middleY, width, height), new(middleX, below, width, height), new(middleX, above, width, height),
            new(right, alignTop, width, height), new(left, alignTop, width, height), new(right, alignBottom, width, height), new(left, alignBottom, width, height),
            new(right, below, width, height), new(left, below, width, height), new(right, above, width, height), new(left, above, width, height),
        ];
    }
}
