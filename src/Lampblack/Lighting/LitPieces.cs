using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Geometry;
using Lampblack.Layout;

namespace Lampblack.Lighting;

/// <summary>Cuts what shines on a panel into pieces that are judged one by one.</summary>
internal static class LitPieces
{
    /// <summary>Longer marks are judged in stretches: along a line that long the eye sees a slow change as even.</summary>
    private const double LongestMm = 25;

    /// <summary>From one place that is looked up to the next.</summary>
    private const double StepMm = 4;

    private const double PictureStepMm = 10;

    /// <summary>All that shines by the common light.</summary>
    /// <param name="artwork">The panel.</param>
    /// <param name="luminance">Of a mark's style its luminance for each lux behind the mask.</param>
    public static ImmutableArray<LitPiece> General(PanelArtwork artwork, Func<MarkStyle, double> luminance)
    {
        var own = OwnItems(artwork).Keys.ToHashSet(StringComparer.Ordinal);
        return
        [
            .. artwork.Marks.Where(mark => mark.Style.Role == LightRole.Lit && !mark.Shape.IsEmpty && !own.Contains(mark.Origin.Item)).SelectMany(mark => Cut(mark, luminance)),
            .. artwork.Dots.Where(dot => dot.Style.Role == LightRole.Lit && !own.Contains(dot.Origin.Item)).SelectMany(dot => Cut(dot, luminance)),
        ];
    }

    /// <summary>The items with a light of their own, and the output that switches each; 0 where none is named.</summary>
    public static ImmutableSortedDictionary<string, int> OwnItems(PanelArtwork artwork)
    {
        var panel = artwork.Laid.Panel;
        var lamps = panel.Items.ToDictionary(item => item.Id, item => item.Lamp, StringComparer.Ordinal);
        var own = ImmutableSortedDictionary.CreateBuilder<string, int>(StringComparer.Ordinal);
        foreach (var mark in artwork.Marks.Where(mark => mark.Style.Role != LightRole.Unlit))
        {
            var lamp = LampOf(mark.Origin, lamps);
            if (lamp.Source == LampSource.Own || (lamp.Source == LampSource.Usual && mark.Style.Role == LightRole.Hidden))
            {
                own[mark.Origin.Item] = lamp.Output;
            }
        }

        return own.ToImmutable();
    }

    /// <summary>A mark's pieces.</summary>
    public static IEnumerable<LitPiece> Cut(Mark mark, Func<MarkStyle, double> luminance)
    {
        var box = mark.Shape.Bounds;
        return Pieces(mark.Origin, mark.Name, box, Along(mark.Shape), luminance(mark.Style)).Select(piece => piece with { Mark = mark.Shape });
    }

    /// <summary>The lamp of an item, copies as their original.</summary>
    private static LampOf LampOf(Origin origin, Dictionary<string, LampOf> lamps)
    {
        var name = origin.Name;
        if (lamps.TryGetValue(name, out var lamp))
        {
            return lamp;
        }

        var dot = name.LastIndexOf('.');
        return dot > 0 && lamps.TryGetValue(name[..dot], out var original) ? original : Desks.LampOf.Unsaid;
    }

    private static IEnumerable<LitPiece> Cut(DotMark dot, Func<MarkStyle, double> luminance)
    {
        var box = dot.Bounds;
        var places = from x in Steps(box.LeftMm, box.WidthMm, PictureStepMm) from y in Steps(box.BottomMm, box.HeightMm, PictureStepMm) select new Point<PanelSpace>(x, y);
        return Pieces(dot.Origin, dot.Name, box, places, luminance(dot.Style)).Select(piece => piece with { Picture = dot });
    }

    private static IEnumerable<double> Steps(double from, double length, double step)
    {
        var count = Math.Max(1, (int)Math.Round(length / step, MidpointRounding.AwayFromZero));
        return Enumerable.Range(0, count).Select(index => from + ((index + 0.5) * length / count));
    }

    private static IEnumerable<LitPiece> Pieces(Origin origin, string words, Box<PanelSpace> box, IEnumerable<Point<PanelSpace>> places, double luminance)
    {
        var (columns, rows) = (Parts(box.WidthMm), Parts(box.HeightMm));
        return places
            .GroupBy(place => (Column: Part(place.XMm - box.LeftMm, box.WidthMm, columns), Row: Part(place.YMm - box.BottomMm, box.HeightMm, rows)))
            .OrderBy(group => group.Key.Row).ThenBy(group => group.Key.Column)
            .Select(group =>
            {
                // Many places of a mark lie close together; one of each neighbourhood is enough.
                ImmutableArray<Point<PanelSpace>> few = [.. group.DistinctBy(place => (Math.Floor(place.XMm / StepMm), Math.Floor(place.YMm / StepMm)))];
                var (left, bottom) = (few.Min(place => place.XMm), few.Min(place => place.YMm));
                return new LitPiece(origin, words, columns * rows == 1 ? box : new(left, bottom, few.Max(place => place.XMm) - left, few.Max(place => place.YMm) - bottom), few, luminance);
            });
    }

    private static int Parts(double lengthMm) => Math.Max(1, (int)Math.Ceiling(lengthMm / LongestMm));

    private static int Part(double alongMm, double lengthMm, int parts) => lengthMm > 0 ? Math.Clamp((int)(alongMm / lengthMm * parts), 0, parts - 1) : 0;

    /// <summary>Places along a shape's outlines, which run beside its strokes.</summary>
    private static IEnumerable<Point<PanelSpace>> Along(Region<PanelSpace> shape)
    {
        foreach (var outline in shape.Borders())
        {
            var points = outline.Points;
            for (var index = 0; index < points.Length; index++)
            {
                var (from, to) = (points[index], points[(index + 1) % points.Length]);
                var pieces = Math.Max(1, (int)(from.DistanceMm(to) / StepMm));
                for (var piece = 0; piece < pieces; piece++)
                {
                    yield return from + ((double)piece / pieces * (to - from));
                }
            }
        }
    }
}
