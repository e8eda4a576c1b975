using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Geometry;
using Lampblack.Layout;

namespace Lampblack.Jobs;

/// <summary>
/// The part of a panel's artwork that decides what is seen in a window. Separated and drawn it gives, inside the window, the dots that the whole panel gives:
/// nothing that lies further away than the spread and the paper's blur changes them.
/// </summary>
internal static class ArtworkWindow
{
    /// <summary>What is left out lies further from the window than this beyond the spread: the paper's blur, a small island's ring, a stand-back.</summary>
    public const double BeyondSpreadMm = 3;

    /// <summary>The marks, pictures and parts in reach of a window; the panel and its edge stay as they are.</summary>
    /// <param name="artwork">The whole panel.</param>
    /// <param name="window">What is to be seen.</param>
    /// <param name="spreadMm">The openings' spread.</param>
    public static PanelArtwork Within(PanelArtwork artwork, Box<PanelSpace> window, double spreadMm)
    {
        var reach = window.Grow(spreadMm + BeyondSpreadMm);
        var kept = artwork.Marks.Select(mark => !mark.Shape.IsEmpty && (mark.Shape.Bounds.Overlaps(reach) || mark.Extent.Bounds.Overlaps(reach))).ToArray();
        ImmutableArray<PlacedPart> parts = [.. artwork.Laid.Parts.Where(part => Bounds(part).Overlaps(reach))];
        return new(
            artwork.Laid with { Parts = parts },
            [.. artwork.Marks.Where((_, index) => kept[index])],
            Region<PanelSpace>.Union(parts.SelectMany(part => part.Holes)))
        {
            Dots = [.. artwork.Dots.Select(dot => dot with { Below = kept.Take(dot.Below).Count(isKept => isKept) })],
        };
    }

    /// <summary>All that a part takes away or hides.</summary>
    public static Box<PanelSpace> Bounds(PlacedPart part)
    {
        var box = part.Holes.Aggregate(part.Holes[0].Bounds, (all, hole) => Joined(all, hole.Bounds));
        box = part.Covered.IsEmpty ? box : Joined(box, part.Covered.Bounds);
        return part.Part.KnobDiameter is { } knob ? Joined(box, new Box<PanelSpace>(part.Centre.XMm, part.Centre.YMm, 0, 0).Grow(knob.Mm / 2)) : box;
    }

    /// <summary>The smallest box around two.</summary>
    public static Box<PanelSpace> Joined(Box<PanelSpace> first, Box<PanelSpace> second)
    {
        var (left, bottom) = (Math.Min(first.LeftMm, second.LeftMm), Math.Min(first.BottomMm, second.BottomMm));
        return new(left, bottom, Math.Max(first.RightMm, second.RightMm) - left, Math.Max(first.TopMm, second.TopMm) - bottom);
    }
}
