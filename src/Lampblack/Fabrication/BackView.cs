using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Parts;
using Lampblack.Sheets;

namespace Lampblack.Fabrication;

/// <summary>The back of a panel with the bodies of its parts as they will sit, in true size, as one sees it with the panel turned over like a page.</summary>
public static class BackView
{
    private const double StampMm = 3.2;
    private const double HeadMm = 9;
    private const double SideMm = 4;
    private const double NameMm = 2;
    private const double SmallMm = 1.5;
    private const double LeastMm = 0.7;
    private const double LineMm = 3;
    private const double ClearMm = 0.5;

    // Ink of our own drawings: near black, a straw for bodies, a grey for what is beneath.
    private const string Ink = "#1d1b16";
    private const string Straw = "#e6d9a8";
    private const string Paper = "#ffffff";
    private const string Plate = "#f1efe9";

    /// <summary>The drawing as SVG.</summary>
    /// <param name="chart">The panel's chart.</param>
    public static ImmutableArray<byte> Svg(HoleChart chart) => Drawing(chart).File();

    /// <summary>The same in its layers.</summary>
    /// <param name="chart">The panel's chart.</param>
    public static SvgDrawing<BackSpace> Drawing(HoleChart chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        var (widthMm, heightMm) = Size(chart);
        return new(widthMm, heightMm, $"{chart.Laid.Panel.Title}, seen from behind", Layers(chart));
    }

    /// <summary>Width and height of the drawing, in mm: the plate and a little around it.</summary>
    /// <param name="chart">The panel's chart.</param>
    public static (double WidthMm, double HeightMm) Size(HoleChart chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        return (chart.Laid.Panel.WidthMm + (2 * SideMm), chart.Laid.Panel.HeightMm + SideMm + HeadMm);
    }

    /// <summary>The drawing's layers, the lowest first.</summary>
    /// <param name="chart">The panel's chart.</param>
    public static ImmutableArray<SvgLayer<BackSpace>> Layers(HoleChart chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        var panel = chart.Laid.Panel;
        var (widthMm, heightMm) = Size(chart);

        // The one mirror of this drawing: what is at the right from the front is at the left from behind.
        var map = new Affine<PanelSpace, BackSpace>(-1, 0, panel.WidthMm + SideMm, 0, 1, SideMm);
        var plate = chart.Plate.Map(map).ToRegion();
        var bodies = chart.Laid.Parts.Where(part => part.Part.Body is not null).Select(part => (Part: part, Shape: Body(part, map))).ToList();
        var words = Names(chart, bodies, map).ToList();
        return
        [
            new("paper", "paper", Region<BackSpace>.Rectangle(new(0, 0, widthMm, heightMm)), Paper),
            new("plate", "the plate", plate, Plate),
            new("plate-edge", "its edge", TrialDrawing.Lines(plate, 0.3), Ink),
            new("bodies", "bodies of the parts, terminals included", Region<BackSpace>.Union(bodies.Select(body => body.Shape)), Straw),
            new("body-edges", "their edges", Region<BackSpace>.Union(Region<BackSpace>.OfAlike(bodies.Select(body => body.Shape), shape => TrialDrawing.Lines(shape, 0.25))), Ink),
            new("holes", "the openings", Openings(chart.Holes.Select(hole => hole.Shape.Map(map)), [.. words.Select(word => word.Bounds.Grow(ClearMm))]), Ink),
            new("names", "numbers and names", Region<BackSpace>.Union(words), Ink),
            new("stamp", "which side this is", Stamp(panel.Title, widthMm, heightMm), Ink),
        ];
    }

    /// <summary>The openings in dashes, words left clear. Only a dash that runs across a word's edge is cut; most are outside or within.</summary>
    private static Region<BackSpace> Openings(IEnumerable<Region<BackSpace>> holes, ImmutableArray<Box<BackSpace>> words)
    {
        var shapes = holes.ToList();
        return Region<BackSpace>.Union(shapes.Zip(Region<BackSpace>.OfAlike(shapes, TrialDrawing.Dashes)).SelectMany(hole =>
        {
            var near = words.Where(word => word.Overlaps(hole.Second.Bounds)).ToList();
            return hole.Second.Pieces.Where(dash => !near.Exists(word => word.Contains(dash.Bounds))).Select(dash => near.FindAll(word => word.Overlaps(dash.Bounds)) switch
            {
                [] => dash,
                var across => dash.Except(Region<BackSpace>.Union(across.Select(Region<BackSpace>.Rectangle))),
            });
        }));
    }

    /// <summary>A body as it is seen: a barrel is round, though it is reckoned with corners.</summary>
    private static Region<BackSpace> Body(PlacedPart part, Affine<PanelSpace, BackSpace> map)
    {
        var shape = part.Body().Map(map);
        return part.Part.Body is { IsRound: true } barrel ? Region<BackSpace>.Disc(shape.Bounds.Centre, barrel.Width.Mm / 2) : shape;
    }

    private static Region<BackSpace> Stamp(string title, double widthMm, double heightMm)
    {
        var words = $"SEEN FROM BEHIND  ·  {PrintableText.Clean(title)}";
        return Text(words, SheetText.FittingMm(words, StampMm, widthMm - 4), new(widthMm / 2, heightMm - (HeadMm / 2)));
    }

    /// <summary>Each part's number, name and depth in its body, as many lines as have room; the number alone above a hole without a body.</summary>
    private static IEnumerable<Region<BackSpace>> Names(HoleChart chart, List<(PlacedPart Part, Region<BackSpace> Shape)> bodies, Affine<PanelSpace, BackSpace> map)
    {
        var numbers = chart.Holes.Where(hole => char.IsAsciiDigit(hole.Label[^1])).ToLookup(hole => hole.Origin.Item, hole => hole.Label);
        foreach (var part in chart.Laid.Parts)
        {
            var number = numbers[part.Origin.Item].First();
            if (part.Part.Body is not { } room)
            {
                var at = map.Apply(part.Centre);
                yield return Text(number, NameMm, new(at.XMm, at.YMm + (part.Holes[0].Bounds.HeightMm / 2) + 1.8));
                continue;
            }

            // Askew, only the square within is surely body.
            var box = bodies.Find(one => ReferenceEquals(one.Part, part)).Shape.Bounds;
            if (part.TurnDegrees % 90 != 0)
            {
                var side = Math.Min(room.Width.Mm, room.Height.Mm);
                box = new(box.Centre.XMm - (side / 2), box.Centre.YMm - (side / 2), side, side);
            }

            var name = part.Origin.Name;
            string[] lines = [number, name, $"{Cutout.Text(room.Depth.Mm)} mm deep"];
            var count = Math.Clamp((int)((box.HeightMm - 1) / LineMm), 1, lines.Length);
            if (count == 1)
            {
                lines = [$"{number}  {name}"];
            }

            var y = box.Centre.YMm + ((count - 1) * LineMm / 2);
            foreach (var (index, line) in lines.Take(count).Index())
            {
                var wanted = index == 0 ? NameMm : SmallMm;
                var size = SheetText.FittingMm(line, wanted, box.WidthMm - 1);
                yield return size < LeastMm ? Text(number, Math.Min(NameMm, box.HeightMm / 2), new(box.Centre.XMm, y)) : Text(line, size, new(box.Centre.XMm, y));
                y -= LineMm;
            }
        }
    }

    private static Region<BackSpace> Text(string words, double heightMm, Point<BackSpace> middle) =>
        SheetText.Centred(words, heightMm, new(0, 0), Side.Front).Map(Affine<SheetSpace, BackSpace>.Shift(middle.XMm, middle.YMm));
}
