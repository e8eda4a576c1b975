using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Text.RegularExpressions;
using System.Threading;
using System.Xml.Linq;
using Lampblack.Books;
using Lampblack.Circuits;
using Lampblack.Geometry;
using Lampblack.Jobs;
using Lampblack.Tests.Suites;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>Wires as the printed book shows them: every wire once in a picture whose letters can be read, every contact once at the controller, and no two things of one name.</summary>
public sealed class BookWiresTests
{
    // 6.5 points; a point is 1/72 inch.
    private const double LeastLetterMm = 6.5 * 25.4 / 72;

    // A4 and Letter, less the page's margins of 12 mm; the lower one of their widths is A4's.
    private const double PageWideMm = 210 - 24;
    private const double PictureHighMm = 108;

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void Every_wire_stands_once_in_a_picture_that_can_be_read(string name)
    {
        var result = Run(name);
        var steps = result.MadeBook!.Book.Steps.Where(step => step.Id.StartsWith("wire-", StringComparison.Ordinal)).ToList();
        var drawn = new List<int>();
        foreach (var picture in steps.SelectMany(step => step.Blocks.OfType<PictureRow>()).SelectMany(row => row.All).Where(picture => picture.Content.Contains("as chains from tag to tag", StringComparison.Ordinal)))
        {
            var root = XElement.Parse(picture.Content);
            var sides = root.Attribute("viewBox")!.Value.Split(' ').Select(side => double.Parse(side, CultureInfo.InvariantCulture)).ToList();
            Assert.True(sides[2] <= PageWideMm && sides[3] <= PictureHighMm, $"{sides[2]} x {sides[3]} mm is made smaller on a page");
            var texts = root.Descendants().Where(element => element.Name.LocalName == "text").ToList();
            Assert.All(texts, text => Assert.True(double.Parse(text.Attribute("font-size")!.Value, CultureInfo.InvariantCulture) >= LeastLetterMm, text.Value));

            // A wire's number stands alone, in the middle of its line.
            drawn.AddRange(texts.Where(text => text.Attribute("text-anchor")?.Value == "middle").Select(text => int.Parse(text.Value, CultureInfo.InvariantCulture)));

            // Signs are explained where they occur, and only there.
            var ends = Wires(result).Where(wire => texts.Any(text => text.Value == wire["no"] && text.Attribute("text-anchor") is not null)).Select(wire => wire["between wire and to terminal"]).ToList();
            Assert.Equal(ends.Exists(end => end.Contains("diode", StringComparison.Ordinal)), picture.Caption.Contains("diode", StringComparison.Ordinal));
            Assert.Equal(ends.Exists(end => end.EndsWith('Ω')), picture.Caption.Contains("resistor", StringComparison.Ordinal));
        }

        Assert.Equal(Wires(result).Select(wire => int.Parse(wire["no"], CultureInfo.InvariantCulture)), drawn.Order());
    }

    /// <summary>The tables against the list that the wiring writes by itself: each contact at the pin that it goes to, register pins by the data sheets of 74HC165 and 74HC595 (inputs A to D are pins 11 to 14, E to H 3 to 6; outputs A is 15, B to H 1 to 7).</summary>
    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void Every_contact_ends_at_its_pin(string name)
    {
        var result = Run(name);
        var page = SmallDesk.Xml(SmallDesk.Html(result));
        var rows = SmallDesk.Rows(page, "joint");
        foreach (var plug in EverythingOnceTests.Csv(result, "wiring/plugs.csv"))
        {
            var contact = $"{plug["plug"]} · {plug["contact"]}";
            var row = Assert.Single(rows, row => row.Row.Elements().ElementAt(2).Value.Split(", ").Contains(contact));
            Assert.Equal($"{plug["controller"]}:{Pin(plug["goes to"])}", row.Key);
            var colours = Wires(result).Where(wire => wire["net"] == plug["net"]).Select(wire => wire["colour"]).ToHashSet();
            Assert.Contains(row.Row.Elements().ElementAt(3).Value, colours);
        }

        // 0 V comes first, then 5 V, then the pins in the order of their numbers.
        var pins = rows.Where(row => row.Key[2] == 'D').Select(row => int.Parse(row.Key.AsSpan(3), CultureInfo.InvariantCulture)).ToList();
        Assert.Equal("1:GND", rows[0].Key);
        Assert.Equal(pins.Order(), pins);
    }

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void No_two_things_have_one_name(string name)
    {
        var facts = Run(name).MadeBook!.Facts;
        var nets = facts.Wiring!.Wires.Nets.Nets.Select(net => net.Name);
        var parts = CircuitParts.Of(facts.Circuit!).Select(part => part.Label).Where(label => label.Length > 0);
        var plugs = facts.Wiring.Wires.Panels.Select(panel => panel.Plug?.Name).OfType<string>();
        Assert.Empty(nets.Concat(parts).Concat(plugs).GroupBy(one => one, StringComparer.OrdinalIgnoreCase).Where(same => same.Count() > 1).Select(same => same.Key));

        // Nor two controls that only a sign keeps apart: point-1 and point.1.
        var items = facts.Laid.Panels.SelectMany(panel => panel.Parts).Select(part => string.Concat(part.Origin.Item.Where(char.IsLetterOrDigit)));
        Assert.Empty(items.GroupBy(one => one, StringComparer.OrdinalIgnoreCase).Where(same => same.Count() > 1).Select(same => same.Key));
        var spoken = SpokenNames.Of(facts.Wiring.Needs);
        Assert.Equal(spoken.Count, spoken.Values.Distinct(StringComparer.OrdinalIgnoreCase).Count());
    }

    private static string Pin(string end)
    {
        if (!end.StartsWith("shift register", StringComparison.Ordinal))
        {
            return end;
        }

        var (number, letter, isInput) = (end.Split(' ', ',')[2], end[^1], end.Contains("input", StringComparison.Ordinal));
        var pin = isInput ? letter <= 'D' ? letter - 'A' + 11 : letter - 'E' + 3 : letter == 'A' ? 15 : letter - 'A';
        return string.Create(CultureInfo.InvariantCulture, $"74HC{(isInput ? 165 : 595)} no {number}, pin {pin}");
    }

    private static List<Dictionary<string, string>> Wires(BuildResult result) => EverythingOnceTests.Csv(result, "wiring/wires.csv").FindAll(wire => wire["panel"].Length > 0);

    private static BuildResult Run(string name) =>
        Build.Run(ExampleDesks.Source(name), new("A4", "option", Parts: BuildParts.Bench | BuildParts.Book), new Progress<string>(), CancellationToken.None);

    /// <summary>The back with its looms: no number of a part lies over a tag that a wire ends at, or over another number.</summary>
    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void Numbers_on_the_picture_of_the_looms_cover_no_tag(string name)
    {
        var made = ExampleBooks.Of(name);
        foreach (var panel in made.Facts.Wiring!.Wires.Panels.Where(panel => panel.Plug is not null))
        {
            var paths = XElement.Parse(made.Facts.Pictures[$"{panel.Laid.Panel.Id}/looms"].Content).Elements().Where(element => element.Name.LocalName == "path").Select(element => Boxes(element.Attribute("d")!.Value)).ToList();

            // The last layers: paper within the plug, tags, plug, paper round numbers, numbers.
            var (tags, clear) = (paths[^4], paths[^2]);
            var ends = panel.Wires.SelectMany(wire => new[] { (wire.From.Item, wire.From.Terminal), (wire.To.Item, wire.To.Terminal) }).Where(end => end.Item != panel.Plug!.Name).Distinct().Count();
            Assert.Equal(ends, tags.Count);
            Assert.Equal(panel.Laid.Parts.Length, clear.Count);
            Assert.All(clear, number => Assert.DoesNotContain(tags, tag => tag.Overlaps(number, 2)));
            Assert.All(clear.Index(), number => Assert.DoesNotContain(clear.Take(number.Index), other => other.Overlaps(number.Item, 2)));
        }
    }

    /// <summary>The boxes of a path's closed pieces; each begins at a place and goes on in steps.</summary>
    private static List<Box<PageSpace>> Boxes(string path)
    {
        var boxes = new List<Box<PageSpace>>();
        foreach (var piece in path.Split('z', StringSplitOptions.RemoveEmptyEntries))
        {
            var figures = Regex.Matches(piece, "-?[0-9]+").Select(match => int.Parse(match.ValueSpan, CultureInfo.InvariantCulture)).ToList();
            var (x, y, xs, ys) = (0, 0, new List<int>(), new List<int>());
            for (var index = 0; index + 1 < figures.Count; index += 2)
            {
                (x, y) = (x + figures[index], y + figures[index + 1]);
                xs.Add(x);
                ys.Add(y);
            }

            boxes.Add(Box<PageSpace>.Between(new(xs.Min(), ys.Min()), new(xs.Max(), ys.Max())));
        }

        return boxes;
    }
}
