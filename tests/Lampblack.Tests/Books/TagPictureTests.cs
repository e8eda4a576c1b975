using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Xml.Linq;
using Lampblack.Geometry;
using Lampblack.Jobs;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>Which tag a name means: in the book's picture of each kind of part, in the drawings of looms, and which hole a number means. Examples, and desks whose parts chance has picked.</summary>
public sealed class TagPictureTests
{
    private static readonly string[] Parts = ["toggle-mini-on-on", "toggle-mini-on-off-on", "toggle-mini-momentary-both", "pot-9mm", "pot-16mm-m7", "button-12-momentary", "button-16-momentary", "button-16-lit", "encoder-m7", "lamp-3mm-clip"];

    public static TheoryData<string> Desks => ["dome-desk", "yard-board", "kiln", .. Enumerable.Range(1, 20).Select(chance => chance.ToString(CultureInfo.InvariantCulture))];

    [Theory]
    [MemberData(nameof(Desks))]
    public void Every_tag_is_nearest_to_its_own_name(string name)
    {
        var made = Made(name);
        var seen = 0;
        foreach (var panel in made.Facts.Wiring!.Wires.Panels.Where(panel => panel.Plug is not null))
        {
            var picture = Assert.Single(ExampleBooks.Pictures(made.Book), one => one.Content.Contains($"The tags of the parts on {panel.Laid.Panel.Title}, seen", StringComparison.Ordinal));
            var drawing = XElement.Parse(picture.Content);
            var dots = drawing.Descendants().Where(element => element.Name.LocalName == "circle" && Number(element, "r") == 0.9).Select(element => At(element, "cx", "cy", 0)).ToList();
            var names = drawing.Descendants().Where(element => element.Name.LocalName == "text" && element.Attribute("font-weight") is not null).Select(element => (Words: element.Value, At: At(element, "x", "y", 0.9))).ToList();
            Assert.Equal(dots.Count, names.Count);
            foreach (var (own, (words, at)) in dots.Zip(names))
            {
                var letters = Box<PageSpace>.Around(at, words.Length * 1.7, 2);
                var others = dots.Where(dot => dot != own).Select(dot => Far(letters, dot)).Min();
                Assert.True(others > 1.8 * Far(letters, own), $"{words} is {Far(letters, own):0.0} mm from its tag and {others:0.0} mm from another");
                seen++;
            }

            // All names of a part stand at one side; on a ring of tags each stands inwards.
            foreach (var part in Cells(dots.Zip(names.Select(one => one.At))).Where(part => part.Count > 1))
            {
                var sides = part.Select(pair => Math.Abs(pair.Second.XMm - pair.First.XMm) > Math.Abs(pair.Second.YMm - pair.First.YMm) ? ("x", Math.Sign(pair.Second.XMm - pair.First.XMm)) : ("y", Math.Sign(pair.Second.YMm - pair.First.YMm))).Distinct().ToList();
                Assert.True(sides.Count == 1 || panel.Laid.Parts.Any(one => one.Part.Class == Lampblack.Parts.PartClass.Rotary), $"{panel.Laid.Panel.Id}: names at {string.Join(", ", sides)}");
            }
        }

        Assert.True(seen >= 3);
    }

    /// <summary>In the drawing of the looms, of which the letters alone are left: each letter has one dot that is clearly the nearest.</summary>
    [Theory]
    [MemberData(nameof(Desks))]
    public void Every_name_in_a_loom_drawing_has_one_nearest_dot(string name)
    {
        foreach (var panel in Made(name).Facts.Wiring!.Wires.Panels.Where(panel => panel.Plug is not null))
        {
            var layers = LoomDrawing.Of(panel).Layers;
            var dots = Joined(layers.Single(layer => layer.Id == "terminals").Region.Pieces.Select(piece => piece.Bounds.Grow(-0.01)));
            var letters = layers.Single(layer => layer.Id == "terminal-names").Region.Pieces;
            Assert.NotEmpty(letters);
            foreach (var letter in letters)
            {
                var far = dots.Select(dot => Far(letter.Bounds, dot.Centre)).Order().ToList();
                Assert.True(far[1] > 1.3 * far[0], $"{panel.Laid.Panel.Title}: a letter at {letter.Bounds.Centre} is {far[0]:0.00} mm from one dot and {far[1]:0.00} mm from another");
            }
        }
    }

    [Theory]
    [MemberData(nameof(Desks))]
    public void Every_hole_is_nearest_to_its_own_number(string name)
    {
        var made = Made(name);
        foreach (var chart in made.Facts.Charts)
        {
            var drawing = XElement.Parse(Assert.Single(ExampleBooks.Pictures(made.Book), one => one.Content.Contains($"{chart.Laid.Panel.Title}: holes with their numbers", StringComparison.Ordinal)).Content);
            var scale = drawing.Descendants().First(element => element.Name.LocalName == "rect") is var plate ? Number(plate, "width") / chart.Laid.Panel.WidthMm : 1;
            var holes = chart.Holes.Select(hole => (hole.Label, Box: Box<PageSpace>.Around(new(2 + (hole.Centre.XMm * scale), 6 + ((chart.Laid.Panel.HeightMm - hole.Centre.YMm) * scale)), hole.Shape.Bounds.WidthMm * scale, hole.Shape.Bounds.HeightMm * scale))).ToList();
            foreach (var (label, box) in holes)
            {
                var at = At(Assert.Single(drawing.Descendants(), element => element.Name.LocalName == "text" && element.Value == label), "x", "y", 0.9);
                var letters = Box<PageSpace>.Around(at, label.Length * 1.7, 2);
                var other = holes.Where(one => one.Label != label).Select(one => Far(letters, one.Box)).DefaultIfEmpty(99).Min();
                Assert.True(Far(letters, box) * 1.2 < other, $"{label} is {Far(letters, box):0.0} mm from its hole and {other:0.0} mm from another");
            }
        }
    }

    private static MadeBook Made(string name)
    {
        if (!int.TryParse(name, CultureInfo.InvariantCulture, out var chance))
        {
            return ExampleBooks.Of(name);
        }

        // Six to ten parts in a grid of three rows.
        var draw = new Random(chance);
        var controls = string.Concat(Enumerable.Range(0, 6 + (chance % 5)).Select(index => FormattableString.Invariant($"""

              [[panel.control]]
              id = "part-{index + 1}"
              part = "{Parts[draw.Next(Parts.Length)]}"
              at = [{24 + (40 * (index % 4)) + draw.Next(-2, 3)}, {96 - (34 * (index / 4)) + draw.Next(-2, 3)}]

            """)));
        var text = SmallDesk.Text().Replace("size = [120, 70]", "size = [170, 120]", StringComparison.Ordinal).Replace("ATmega328P", "ATmega2560", StringComparison.Ordinal);
        var (first, last) = (text.IndexOf("  [[panel.control]]", StringComparison.Ordinal), text.IndexOf("  [[panel.emitter]]", StringComparison.Ordinal));
        return SmallDesk.Build(text[..first] + controls + text[last..]).MadeBook!;
    }

    /// <summary>Rows and columns of a picture of parts.</summary>
    private static IEnumerable<List<(Point<PageSpace> First, Point<PageSpace> Second)>> Cells(IEnumerable<(Point<PageSpace> First, Point<PageSpace> Second)> pairs) =>
        pairs.GroupBy(pair => ((int)(pair.First.XMm / 45), (int)(pair.First.YMm / 43))).Select(group => group.ToList());

    /// <summary>A dot that is open is drawn as a ring: what lies within another is left out.</summary>
    private static List<Box<BackSpace>> Joined(IEnumerable<Box<BackSpace>> dots) => dots.Aggregate(new List<Box<BackSpace>>(), (all, dot) => all.Exists(other => other.Overlaps(dot)) ? all : [.. all, dot]);

    private static Point<PageSpace> At(XElement element, string x, string y, double down) => new(Number(element, x), Number(element, y) - down);

    private static double Far<TSpace>(Box<TSpace> box, Point<TSpace> at)
        where TSpace : struct, ISpace => at.DistanceMm(new(Math.Clamp(at.XMm, box.LeftMm, box.RightMm), Math.Clamp(at.YMm, box.BottomMm, box.TopMm)));

    private static double Far(Box<PageSpace> one, Box<PageSpace> other)
    {
        var (across, up) = (Math.Max(0, Math.Max(one.LeftMm - other.RightMm, other.LeftMm - one.RightMm)), Math.Max(0, Math.Max(one.BottomMm - other.TopMm, other.BottomMm - one.TopMm)));
        return Math.Sqrt((across * across) + (up * up));
    }

    private static double Number(XElement element, string name) => double.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);
}
