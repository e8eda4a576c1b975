using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Xml.Linq;
using Lampblack.Books;
using Lampblack.Geometry;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>What carries a lamp board, read back from picture and table: no wire lies over it or under a screw's washer, and no corner hangs free. A board gives where it is not carried: common practice, no source.</summary>
public sealed class LampRestTests
{
    // A washer for a screw of 3 mm (ISO 7089) is 7 mm wide; the strip 8.
    private const double WasherRadiusMm = 3.5;
    private const double CornerMm = 40;

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void No_wire_lies_over_a_piece_of_strip_or_beside_its_screw(string name)
    {
        var made = ExampleBooks.Of(name);
        var straight = 0;
        foreach (var box in made.Facts.Boxes)
        {
            var back = XElement.Parse(Assert.Single(ExampleBooks.Pictures(made.Book), picture => picture.Content.Contains($"The lamp board of {box.Panel} seen from behind", StringComparison.Ordinal)).Content);
            var rests = back.Descendants().Where(element => element.Name.LocalName == "rect" && element.Attribute("fill")?.Value == "#cdbb98")
                .Select(element => new Box<PageSpace>(Number(element, "x"), Number(element, "y"), Number(element, "width"), Number(element, "height"))).ToList();
            Assert.Equal(ExampleBooks.Rows(made.Book, "rest").Count(row => row.Key.StartsWith(box.Id + ":", StringComparison.Ordinal) && row.Cells[2] == "piece of strip"), rests.Count);
            var scale = rests.Min(rest => Math.Min(rest.WidthMm, rest.HeightMm)) / 8;
            var wires = BoardPicture.Of(made.Book, box.Panel).SelectMany(picture => picture.Wires).SelectMany(BoardPicture.Pieces).ToList();
            Assert.NotEmpty(wires);
            foreach (var (from, to) in wires)
            {
                foreach (var rest in rests)
                {
                    var far = Enumerable.Range(0, 201).Select(step => from + (step / 200.0 * (to - from))).Min(at => at.DistanceMm(new(Math.Clamp(at.XMm, rest.LeftMm, rest.RightMm), Math.Clamp(at.YMm, rest.BottomMm, rest.TopMm))));
                    Assert.True(far > 1.9 * scale, $"{box.Panel}: a wire from {from} to {to} is {far / scale:0.0} mm from a piece of strip");
                    Assert.True(rest.Centre.DistanceMm(from, to) > WasherRadiusMm * scale);
                }
            }

            straight += wires.Count;
        }

        Assert.True(straight >= made.Facts.Lamps.Length);
    }

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void Every_corner_of_a_lamp_board_is_carried(string name)
    {
        var made = ExampleBooks.Of(name);
        foreach (var box in made.Facts.Boxes)
        {
            Assert.Empty(Bare(made.Book, box));
        }

        Assert.DoesNotContain("joints leave no room", ExampleBooks.Words(made.Book.Steps.Single(step => step.Id == "lamps-in")), StringComparison.Ordinal);
    }

    /// <summary>Emitters all along two walls leave no room near their corner: then the book says what carries the board there.</summary>
    [Fact]
    public void A_corner_that_no_strip_fits_is_told()
    {
        var row = string.Concat(Enumerable.Range(0, 7).Select(index => FormattableString.Invariant($"\n  [[panel.emitter]]\n  at = [{9 + (8 * index)}, 8.5]\n")))
            + string.Concat(Enumerable.Range(1, 6).Select(index => FormattableString.Invariant($"\n  [[panel.emitter]]\n  at = [9, {8.5 + (8 * index)}]\n")));
        var made = SmallDesk.Build(SmallDesk.Text() + row).MadeBook!;
        var box = made.Facts.Boxes[0];
        Assert.Equal(["lower left"], Bare(made.Book, box));
        Assert.Contains("Near the lower left corner of Levers joints leave no room", ExampleBooks.Words(made.Book.Steps.Single(step => step.Id == "lamps-in")), StringComparison.Ordinal);
    }

    private static IEnumerable<string> Bare(Book book, BookBox box)
    {
        var rests = ExampleBooks.Rows(book, "rest").Where(row => row.Key.StartsWith(box.Id + ":", StringComparison.Ordinal) && row.Cells[2] == "piece of strip")
            .Select(row => (Wall: row.Cells[1], From: double.Parse(row.Cells[3], CultureInfo.InvariantCulture), Long: double.Parse(row.Cells[4], CultureInfo.InvariantCulture))).ToList();
        foreach (var (name, x, y) in new[] { ("lower left", 0.0, 0.0), ("lower right", box.WidthMm, 0), ("upper left", 0, box.HeightMm), ("upper right", box.WidthMm, box.HeightMm) })
        {
            var far = rests.Min(rest =>
            {
                Box<PanelSpace> area = rest.Wall switch
                {
                    "lower" => new(rest.From, 0, rest.Long, 8),
                    "upper" => new(rest.From, box.HeightMm - 8, rest.Long, 8),
                    "left" => new(0, rest.From, 8, rest.Long),
                    _ => new(box.WidthMm - 8, rest.From, 8, rest.Long),
                };
                return new Point<PanelSpace>(x, y).DistanceMm(new(Math.Clamp(x, area.LeftMm, area.RightMm), Math.Clamp(y, area.BottomMm, area.TopMm)));
            });
            if (far > CornerMm + 0.5)
            {
                yield return name;
            }
        }
    }

    private static double Number(XElement element, string name) => double.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);
}
