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

    /// <summary>Longer sides of outlines are taken in stretches.</summary>
    private const double FineMm = 1;

    private const double PictureStepMm = 10;

    /// <summary>All that shines by the common light.</summary>
    /// <param name="artwork">The panel.</param>
    /// <param name="luminance">Of a mark's style its luminance for each lux behind the mask.</param>
    public static ImmutableArray<LitPiece> General(PanelArtwork artwork, Func<MarkStyle, double> luminance)
    {
        var own = OwnItems(artwork).Keys.ToHashSet(StringComparer.Ordinal);
        return
        [
            .. artwork.Marks.Where(mark => mark.Style.Role == LightRole.Lit && !mark.Shape.IsEmpty && !own.Contains(mark.Origin.Item)).ToList()
                .AsParallel().AsOrdered().Select(mark => Cut(mark, luminance).ToList()).AsSequential().SelectMany(pieces => pieces),
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
        var places = from x in Steps(box.LeftMm, box.WidthMm, PictureStepMm) from y in Steps(box.BottomMm, box.HeightMm, PictureStepMm) select new LitPlace(new(x, y), 1);
        return Pieces(dot.Origin, dot.Name, box, places, luminance(dot.Style)).Select(piece => piece with { Picture = dot });
    }

    private static IEnumerable<double> Steps(double from, double length, double step)
    {
        var count = Math.Max(1, (int)Math.Round(length / step, MidpointRounding.AwayFromZero));
        return Enumerable.Range(0, count).Select(index => from + ((index + 0.5) * length / count));
    }

    private static IEnumerable<LitPiece> Pieces(Origin origin, string words, Box<PanelSpace> box, IEnumerable<LitPlace> places, double luminance)
    {
        var (columns, rows) = (Parts(box.WidthMm), Parts(box.HeightMm));
        var stretches = new LitStretch?[columns * rows];
        foreach (var place in places)
        {
            var index = (Part(place.At.YMm - box.BottomMm, box.HeightMm, rows) * columns) + Part(place.At.XMm - box.LeftMm, box.WidthMm, columns);
            (stretches[index] ??= new()).Add(place);
        }

        return stretches.OfType<LitStretch>().Select(stretch => new LitPiece(origin, words, stretches.Length == 1 ? box : stretch.Box, stretch.Places(), luminance));
    }

    private static int Parts(double lengthMm) => Math.Max(1, (int)Math.Ceiling(lengthMm / LongestMm));

    private static int Part(double alongMm, double lengthMm, int parts) => lengthMm > 0 ? Math.Clamp((int)(alongMm / lengthMm * parts), 0, parts - 1) : 0;

    /// <summary>Stretches of a shape's outlines, which run beside its strokes: where strokes are of one width, outlines weigh them as their area does.</summary>
    private static IEnumerable<LitPlace> Along(Region<PanelSpace> shape)
    {
        foreach (var outline in shape.Borders())
        {
            var points = outline.Points;
            for (var index = 0; index < points.Length; index++)
            {
                var (from, to) = (points[index], points[(index + 1) % points.Length]);
                var length = from.DistanceMm(to);
                var pieces = Math.Max(1, (int)(length / FineMm));
                for (var piece = 0; length > 0 && piece < pieces; piece++)
                {
                    yield return new(from + ((piece + 0.5) / pieces * (to - from)), length / pieces);
                }
            }
        }
    }
}
