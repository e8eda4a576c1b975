using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Separations;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>A panel in thin lines: the plate, its parts from the front and, dashed, from behind, and what is written on it; no field.</summary>
internal static class TrialPanel
{
    private const double WidestFilledMm = 3;
    private const double CrossMm = 2;
    private const double AroundWordsMm = 0.6;
    private const double PointerMm = 0.6;

    public static Region<PanelSpace> Draw(PanelSeparation separation)
    {
        var laid = separation.Artwork.Laid;
        var marks = Region<PanelSpace>.Union(Marks(laid, separation.Shapes.Visible));
        var inside = laid.Outline.Contains(marks) ? marks : marks.Intersect(laid.Outline);
        ImmutableArray<Box<PanelSpace>> words = [.. separation.Shapes.Visible.Where(mark => mark.IsLettering && !mark.Shape.IsEmpty).Select(mark => mark.Shape.Bounds.Grow(AroundWordsMm))];
        var parts = laid.Parts.SelectMany(part => Part(part, words)).ToList();
        return Region<PanelSpace>.Union([TrialDrawing.Lines(laid.Outline), inside, .. parts, .. TrialHoleSizes.Of(laid, [.. inside.Pieces, .. parts])]);
    }

    /// <summary>The marks as far as they are seen. What has the field's own ink cuts into others and is not seen itself, but for words, which are.</summary>
    private static IEnumerable<Region<PanelSpace>> Marks(LaidPanel laid, ImmutableArray<Mark> visible)
    {
        var filled = Filled(laid).ToList();
        foreach (var (index, mark) in visible.Index())
        {
            var isText = index >= visible.Length - laid.Texts.Length;
            if (isText || mark.Style.Ink is not null)
            {
                // An area is outlined as if it were whole: words in it are filled, and a line around each letter would only thicken them.
                yield return index < laid.Areas.Length ? TrialDrawing.Lines(AreaShape.Of(laid.Areas[index]))
                    : filled[index] ? mark.Shape : TrialDrawing.Lines(mark.Shape);
            }
        }
    }

    /// <summary>Which marks are filled, in the order in which a panel's artwork is drawn; large ones are outlined, for this sheet is to be read, not to be black.</summary>
    private static IEnumerable<bool> Filled(LaidPanel laid) =>
    [
        .. laid.Areas.Select(_ => false),
        .. laid.Rules.Select(rule => rule.Rule.WidthMm <= WidestFilledMm),
        .. laid.Dials.SelectMany(dial => dial.Ranges.Select(_ => false).Append(true)),
        .. laid.Leaders.Select(_ => true),
        .. laid.Texts.Select(_ => true),
    ];

    private static IEnumerable<Region<PanelSpace>> Part(PlacedPart placed, ImmutableArray<Box<PanelSpace>> words)
    {
        var map = Affine<ItemSpace, ItemSpace>.Turn(-placed.TurnDegrees).Then(Affine<ItemSpace, PanelSpace>.Shift(placed.Centre.XMm, placed.Centre.YMm));
        foreach (var hole in placed.Holes)
        {
            yield return TrialDrawing.Lines(hole);
            yield return TrialDrawing.Cross(hole == placed.Holes[0] ? placed.Centre : hole.Bounds.Centre, CrossMm);
        }

        yield return TrialDrawing.Lines(placed.Covered);
        if (placed.Part.KnobDiameter is { } knob)
        {
            yield return TrialDrawing.Lines(Region<PanelSpace>.Disc(placed.Centre, knob.Mm / 2));
            yield return Pointer(knob.Mm / 2).Map(map);
        }

        if (placed.Part.Body is not null)
        {
            // What lies behind may be left out where there are words: they are what is to be read from the chair.
            var dashes = TrialDrawing.Dashes(Region<ItemSpace>.Rectangle(placed.Part.BodyBox).Map(map));
            var near = words.Where(word => word.Overlaps(dashes.Bounds)).Select(Region<PanelSpace>.Rectangle).ToList();
            yield return near.Count == 0 ? dashes : dashes.Except(Region<PanelSpace>.Union(near));
        }
    }

    /// <summary>A knob's line, in the middle of its way; a knob without one says nothing to somebody who reads a dial.</summary>
    private static Region<ItemSpace> Pointer(double radiusMm) =>
        Region<ItemSpace>.Rectangle(new(-PointerMm / 2, radiusMm * 0.45, PointerMm, radiusMm * 0.5));
}
