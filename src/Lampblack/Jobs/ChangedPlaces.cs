using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Runtime.InteropServices;
using Lampblack.Artwork;
using Lampblack.Geometry;
using Lampblack.Layout;

namespace Lampblack.Jobs;

/// <summary>Where two states of one panel look different.</summary>
internal static class ChangedPlaces
{
    /// <summary>More of the panel than this is drawn anew as a whole.</summary>
    private const double LargestShare = 0.4;

    private static readonly IEqualityComparer<Mark> VeryMarks = EqualityComparer<Mark>.Create(
        (a, b) => a!.Shape.IsVery(b!.Shape) && a.Extent.IsVery(b.Extent) && a.Kind == b.Kind && a.Style == b.Style, mark => mark.Shape.VeryHash);

    private static readonly IEqualityComparer<PlacedPart> VeryParts = EqualityComparer<PlacedPart>.Create(
        (a, b) => ReferenceEquals(a!.Part, b!.Part) && a.Centre == b.Centre && a.TurnDegrees == b.TurnDegrees, part => part.Centre.GetHashCode());

    /// <summary>The windows outside of which both look the same; none where nothing changed, null where the whole panel is to be drawn anew.</summary>
    /// <param name="before">The panel as it was.</param>
    /// <param name="now">The panel as it is.</param>
    /// <param name="reachMm">How far a mark's light and its opening reach beyond it.</param>
    public static ImmutableArray<Box<PanelSpace>>? Between(PanelArtwork before, PanelArtwork now, double reachMm)
    {
        var (old, panel) = (before.Laid.Panel, now.Laid.Panel);
        if ((old.WidthMm, old.HeightMm, old.CornerMm, old.Field) != (panel.WidthMm, panel.HeightMm, panel.CornerMm, panel.Field)
            || before.Laid.Order != now.Laid.Order || !SameDots(before, now))
        {
            return null;
        }

        var boxes = new List<Box<PanelSpace>>();
        Add(before.Marks, now.Marks, VeryMarks, Fingerprint, mark => mark.Extent == mark.Shape ? mark.Shape.Bounds : ArtworkWindow.Joined(mark.Shape.Bounds, mark.Extent.Bounds), boxes);
        Add(before.Laid.Parts, now.Laid.Parts, VeryParts, Fingerprint, ArtworkWindow.Bounds, boxes);
        var whole = new Box<PanelSpace>(0, 0, panel.WidthMm, panel.HeightMm);
        var windows = Merged(boxes.Select(box => box.Grow(reachMm)).Where(box => box.Overlaps(whole)));
        return windows.Sum(box => box.WidthMm * box.HeightMm) > LargestShare * whole.WidthMm * whole.HeightMm ? null : windows;
    }

    private static bool SameDots(PanelArtwork before, PanelArtwork now) => before.Dots.Length == now.Dots.Length
        && before.Dots.Zip(now.Dots).All(pair => pair.First.Placement == pair.Second.Placement && pair.First.Style == pair.Second.Style
            && pair.First.Shown.WidthDots == pair.Second.Shown.WidthDots && pair.First.Shown.HeightDots == pair.Second.Shown.HeightDots && pair.First.Name == pair.Second.Name);

    private static void Add<T>(
        ImmutableArray<T> before, ImmutableArray<T> now, IEqualityComparer<T> veryOnes, Func<T, int> fingerprint, Func<T, Box<PanelSpace>> bounds, List<Box<PanelSpace>> boxes)
    {
        // Nearly all of both is the very same shape in the same place; corners are compared only of what is not.
        var (was, isNow) = (before.ToHashSet(veryOnes), now.ToHashSet(veryOnes));
        var (gone, come) = (before.Where(one => !isNow.Contains(one)).ToList(), now.Where(one => !was.Contains(one)).ToList());

        // Marks that only changed their number in the list look the same, but for which lies over which; that is the order of the file, and rarely changes alone.
        var (old, seen) = (gone.ConvertAll(one => fingerprint(one)).ToHashSet(), come.ConvertAll(one => fingerprint(one)).ToHashSet());
        boxes.AddRange(gone.Where(one => !seen.Contains(fingerprint(one))).Select(bounds));
        boxes.AddRange(come.Where(one => !old.Contains(fingerprint(one))).Select(bounds));
    }

    private static int Fingerprint(Mark mark)
    {
        var hash = default(HashCode);
        hash.Add(mark.Kind);
        hash.Add(mark.Style);
        AddTo(ref hash, mark.Shape);
        if (mark.Extent != mark.Shape)
        {
            AddTo(ref hash, mark.Extent);
        }

        return hash.ToHashCode();
    }

    private static int Fingerprint(PlacedPart part)
    {
        var hash = default(HashCode);
        hash.Add(part.Part.Class);
        hash.Add(part.Part.KnobDiameter?.Mm);
        hash.Add(part.Centre);
        hash.Add(part.TurnDegrees);
        AddTo(ref hash, part.Covered);
        foreach (var hole in part.Holes)
        {
            AddTo(ref hash, hole);
        }

        return hash.ToHashCode();
    }

    private static void AddTo(ref HashCode hash, Region<PanelSpace> region)
    {
        foreach (var border in region.Borders())
        {
            hash.AddBytes(MemoryMarshal.AsBytes(border.Points.AsSpan()));
        }
    }

    /// <summary>Boxes that overlap become one.</summary>
    private static ImmutableArray<Box<PanelSpace>> Merged(IEnumerable<Box<PanelSpace>> boxes)
    {
        var merged = new List<Box<PanelSpace>>();
        foreach (var one in boxes)
        {
            var box = one;
            for (var index = 0; index < merged.Count; index++)
            {
                if (merged[index].Overlaps(box))
                {
                    box = ArtworkWindow.Joined(box, merged[index]);
                    merged.RemoveAt(index);
                    index = -1;
                }
            }

            merged.Add(box);
        }

        return [.. merged];
    }
}
