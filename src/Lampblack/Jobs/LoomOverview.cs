using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Fabrication;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Sheets;
using Lampblack.Wiring;

namespace Lampblack.Jobs;

/// <summary>The back of a panel with its looms and nothing that is too small to be read in a book: the parts carry the numbers of their holes alone, and each tag that a wire is soldered to is a small square.</summary>
internal static class LoomOverview
{
    // Height of figures as they are printed: 7 points, whose figures are 1.8 mm high.
    private const double PrintedMm = 1.8;
    private const double SideMm = 4;
    private const double TagMm = 1.3;
    private const double AroundPlugMm = 0.8;
    private const string Ink = "#1d1b16";

    private const double AirShare = 0.25;

    // A number hides what lies below it: a loom sooner than a tag, another number or another part. Beside its body it is found less soon than on it.
    private const double CoveredCost = 20;
    private const double BesideCost = 1;
    private const double LaterCost = 0.01;

    /// <summary>The drawing.</summary>
    /// <param name="chart">The panel's holes.</param>
    /// <param name="wires">Its wires.</param>
    /// <param name="shownMm">How wide it is printed.</param>
    public static SvgDrawing<BackSpace> Of(HoleChart chart, PanelWires wires, double shownMm)
    {
        var (widthMm, heightMm) = BackView.Size(chart);
        var map = new Affine<PanelSpace, BackSpace>(-1, 0, chart.Laid.Panel.WidthMm + SideMm, 0, 1, SideMm);
        var figureMm = Math.Max(1.2, PrintedMm * widthMm / shownMm);
        var ways = wires.Wires.Select(wire => wire.Way.Select(map.Apply).ToList()).ToList();
        var looms = LoomLines.Of(ways).ConvertAll(piece => piece.Box);
        var tags = wires.Wires.Zip(ways).SelectMany(pair => new[] { (pair.First.From.Item, At: pair.Second[0]), (pair.First.To.Item, At: pair.Second[^1]) })
            .Where(end => end.Item != wires.Plug?.Name).Select(end => Box<BackSpace>.Around(end.At, TagMm, TagMm)).Distinct().ToList();
        var bodies = chart.Laid.Parts.Where(part => part.Part.Body is not null).ToDictionary(part => part.Origin.Item, part => part.Body().Map(map).Bounds);

        // The plug lies on the wires that end in it, whole, with its name as large as the numbers.
        var plugBox = LoomDrawing.PlugBox(wires) is { WidthMm: > 0 } box ? new Box<BackSpace>(box.LeftMm + SideMm, box.BottomMm + SideMm, box.WidthMm, box.HeightMm).Grow(AroundPlugMm) : default;
        var plug = plugBox.WidthMm > 0 ? Region<BackSpace>.Rectangle(plugBox) : Region<BackSpace>.Empty;
        var paper = new Box<BackSpace>(0, 0, widthMm, heightMm);
        var words = new List<Region<BackSpace>>();
        foreach (var hole in chart.Holes.Where(hole => char.IsAsciiDigit(hole.Label[^1])).DistinctBy(hole => hole.Origin.Item))
        {
            var places = Places(hole.Label, figureMm, bodies.TryGetValue(hole.Origin.Item, out var body) ? body : Box<BackSpace>.Around(map.Apply(hole.Centre), 0, 0));
            var others = bodies.Where(other => other.Key != hole.Origin.Item).Select(other => other.Value).Concat(words.Select(word => word.Bounds)).Append(plug.Bounds).ToList();
            var place = places.MinBy(one => one.Cost + looms.Sum(one.Box.SharedMm2) + (CoveredCost * (tags.Concat(others).Sum(one.Box.SharedMm2) + (one.Box.WidthMm * one.Box.HeightMm) - one.Box.SharedMm2(paper)))).Box;
            words.Add(Centred(hole.Label, figureMm, place.Centre));
        }

        return new(widthMm, heightMm, $"{chart.Laid.Panel.Title}: looms, seen from behind",
        [
            .. BackView.Layers(chart).Where(layer => layer.Id is not ("names" or "holes" or "stamp")),
            new("looms", "wires; the thicker the line, the more run there", Region<BackSpace>.Union(looms.Select(Region<BackSpace>.Rectangle)).Except(plug), LoomDrawing.Wire),
            new("plug-face", "paper within the plug", plug, "#ffffff"),
            new("tags", "tags that wires are soldered to", Region<BackSpace>.Union(tags.Select(Region<BackSpace>.Rectangle)), Ink),
            new("plug", "the plug that the loom ends in", plug.IsEmpty ? plug : TrialDrawing.Lines(plug, 0.4).Union(Centred(wires.Plug!.Name, SheetText.FittingMm(wires.Plug.Name, figureMm, plugBox.WidthMm - 1), plugBox.Centre)), Ink),
            new("clear", "paper round the numbers", Region<BackSpace>.Union(words.Select(word => Region<BackSpace>.Rectangle(word.Bounds.Grow(figureMm * AirShare)))), "#ffffff"),
            new("numbers", "numbers of the holes", Region<BackSpace>.Union(words), Ink),
        ]);
    }

    /// <summary>Where a part's number may stand with its air: amid its body, near the body's edges, right beside it.</summary>
    private static IEnumerable<(Box<BackSpace> Box, double Cost)> Places(string number, double heightMm, Box<BackSpace> body)
    {
        var (wide, high) = (SheetText.WidthMm(number, heightMm) + (2 * heightMm * AirShare), heightMm * (1 + (2 * AirShare)));
        var (across, up) = (Math.Max(0, (body.WidthMm - wide) / 2), Math.Max(0, (body.HeightMm - high) / 2));
        (double X, double Y)[] within = [(0, 0), (0, 0.5), (0, -0.5), (0, 1), (0, -1), (-1, 0), (1, 0), (-1, 1), (1, 1), (-1, -1), (1, -1)];
        foreach (var (index, (x, y)) in within.Index())
        {
            yield return (Box<BackSpace>.Around(new(body.Centre.XMm + (x * across), body.Centre.YMm + (y * up)), wide, high), LaterCost * index);
        }

        (double X, double Y)[] beside = [(-1, 0), (1, 0), (0, 1), (0, -1)];
        foreach (var (index, (x, y)) in beside.Index())
        {
            yield return (Box<BackSpace>.Around(new(body.Centre.XMm + (x * ((body.WidthMm + wide) / 2)), body.Centre.YMm + (y * ((body.HeightMm + high) / 2))), wide, high), BesideCost + (LaterCost * index));
        }
    }

    private static Region<BackSpace> Centred(string words, double heightMm, Point<BackSpace> middle) =>
        SheetText.Centred(words, heightMm, new(0, 0), Side.Front).Map(Affine<SheetSpace, BackSpace>.Shift(middle.XMm, middle.YMm));
}
