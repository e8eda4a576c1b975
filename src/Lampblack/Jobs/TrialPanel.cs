using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Quantities;
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

    /// <summary>All that is drawn. Shapes may lie over each other: they are one ink, and joining them would take longer than all the rest of the sheet.</summary>
    /// <param name="separation">The panel.</param>
    /// <param name="ink">The one ink.</param>
    public static ImmutableArray<Painted<PanelSpace>> Draw(PanelSeparation separation, Ink ink)
    {
        var laid = separation.Artwork.Laid;
        ImmutableArray<Box<PanelSpace>> words =
            [.. separation.Shapes.Visible.Where(mark => mark.Kind == MarkKind.Text && !mark.Shape.IsEmpty).Select(mark => mark.Shape.Bounds.Grow(AroundWordsMm))];
        List<Region<PanelSpace>> shapes =
        [
            .. Marks(laid, separation.Shapes.Visible).Select(mark => laid.Outline.Contains(mark) ? mark : mark.Intersect(laid.Outline)),
            .. laid.Parts.GroupBy(part => (part.Part, part.TurnDegrees)).SelectMany(Parts),
            .. Behind(laid.Parts, words),
        ];
        IEnumerable<Region<PanelSpace>> all = [TrialDrawing.Lines(laid.Outline), .. shapes, .. TrialHoleSizes.Of(laid, shapes)];
        var pictures = separation.Shapes.Dots.Select(dot => Painted<PanelSpace>.Stencil(dot.Shown, dot.Placement, ink));
        return [.. pictures, .. all.Select(shape => new Painted<PanelSpace>(shape, ink))];
    }

    /// <summary>The marks as far as they are seen. What has the field's own ink cuts into others and is not seen itself, but for words, which are.</summary>
    private static IEnumerable<Region<PanelSpace>> Marks(LaidPanel laid, ImmutableArray<Mark> visible)
    {
        // An area is outlined as if it were whole: words in it are filled, and a line around each letter would only thicken them.
        var areas = laid.Areas.Where(area => area.Style.Ink is not null).Select(area => TrialDrawing.Lines(AreaShape.Of(area)));
        return areas.Concat(visible.Where(mark => mark.Kind != MarkKind.Area && (mark.Kind == MarkKind.Text || mark.Style.Ink is not null))
            .Select(mark => IsFilled(mark) ? mark.Shape : TrialDrawing.Lines(mark.Shape)));
    }

    /// <summary>Whether a mark is filled; large ones are outlined, for this sheet is to be read, not to be black.</summary>
    private static bool IsFilled(Mark mark) => mark.Kind switch
    {
        MarkKind.Text or MarkKind.Leader or MarkKind.Dial => true,
        // Of a line, the area is its length times its width, and the border twice its length.
        MarkKind.Rule or MarkKind.Art => 2 * mark.Shape.AreaMm2 <= WidestFilledMm * mark.Shape.PerimeterMm,
        _ => false,
    };

    /// <summary>Parts of one kind, turned alike: drawn once and put in all their places.</summary>
    private static IEnumerable<Region<PanelSpace>> Parts(IEnumerable<PlacedPart> alike)
    {
        var places = alike.Select(part => part.Centre).ToList();
        var drawn = Part(alike.First()).ToList();
        return drawn.Concat(places.Skip(1).SelectMany(place => drawn.Select(shape => shape.Map(
            Affine<PanelSpace, PanelSpace>.Shift(place.XMm - places[0].XMm, place.YMm - places[0].YMm)))));
    }

    private static IEnumerable<Region<PanelSpace>> Part(PlacedPart placed)
    {
        foreach (var hole in placed.Holes)
        {
            yield return TrialDrawing.Lines(hole);
            yield return TrialDrawing.Cross(hole == placed.Holes[0] ? placed.Centre : hole.Bounds.Centre, CrossMm);
        }

        yield return TrialDrawing.Lines(placed.Covered);
        if (placed.Part.KnobDiameter is { } knob)
        {
            yield return TrialDrawing.Lines(Region<PanelSpace>.Disc(placed.Centre, knob.Mm / 2));
            yield return Pointer(knob.Mm / 2).Map(placed.Map);
        }
    }

    private static IEnumerable<Region<PanelSpace>> Behind(IEnumerable<PlacedPart> parts, ImmutableArray<Box<PanelSpace>> words)
    {
        foreach (var dashes in Region<PanelSpace>.OfAlike(parts.Where(part => part.Part.Body is not null).Select(part => part.Body()), TrialDrawing.Dashes))
        {
            // What lies behind may be left out where there are words: they are what is to be read from the chair.
            var near = words.Where(word => word.Overlaps(dashes.Bounds)).Select(Region<PanelSpace>.Rectangle).ToList();
            yield return near.Count == 0 ? dashes : dashes.Except(Region<PanelSpace>.Union(near));
        }
    }

    /// <summary>A knob's line, in the middle of its way; a knob without one says nothing to somebody who reads a dial.</summary>
    private static Region<ItemSpace> Pointer(double radiusMm) =>
        Region<ItemSpace>.Rectangle(new(-PointerMm / 2, radiusMm * 0.45, PointerMm, radiusMm * 0.5));
}
