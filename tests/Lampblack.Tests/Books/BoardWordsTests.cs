using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Books;
using Lampblack.Tests.Fabrication;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>Drawings of backs say what is so: numbers that are never left out, and wires that found no way round.</summary>
public sealed class BoardWordsTests
{
    /// <summary>Holes without a body close beside each other: a number has no free place, and stands there all the same.</summary>
    [Fact]
    public void Every_hole_without_a_body_has_its_number_on_the_back()
    {
        var made = ExampleBooks.Of("yard-board");
        var holes = string.Concat(Enumerable.Range(0, 49).Select(index => $"[[panel.control]]\nid = \"h{index}\"\npart = \"hole-6\"\nat = [{6 + (5 * (index % 7))}, {6 + (5 * (index / 7))}]\n"));
        var chart = Fabricated.Chart($"[[panel]]\nid = \"main\"\ntitle = \"Crowded\"\nsize = [42, 42]\n{holes}").Value;
        var back = ExampleBooks.Pictures(BuildBook.Of(made.Facts with { Charts = [chart] }, made.Bill, "TESTED")).First(picture => picture.Content.Contains("Crowded seen from behind: bodies", StringComparison.Ordinal));
        Assert.Equal(49, chart.Holes.Length);
        Assert.All(chart.Holes, hole => Assert.Contains($">{hole.Label}<", back.Content, StringComparison.Ordinal));
    }

    /// <summary>In the examples every wire finds its way; emitters pushed into one corner, over the pieces of strip, leave some of them none.</summary>
    [Fact]
    public void A_wire_that_finds_no_way_round_is_named()
    {
        foreach (var name in new[] { "dome-desk", "yard-board", "kiln" })
        {
            Assert.All(Boards(ExampleBooks.Of(name).Book), caption => Assert.Contains(": wires go round them.", caption, StringComparison.Ordinal));
        }

        var made = ExampleBooks.Of("yard-board");
        ImmutableArray<BookLamp> crowded = [.. made.Facts.Lamps.Select(lamp => lamp with { XMm = 10 + (lamp.XMm / 12), YMm = 10 + (lamp.YMm / 12) })];
        // What finds its way is on pictures of its own.
        var caption = Assert.Single(Boards(BuildBook.Of(made.Facts with { Lamps = crowded }, made.Bill, "TESTED")), one => !one.Contains(": wires go round them.", StringComparison.Ordinal));
        Assert.Matches("but for (L[0-9]+, )+for which no way was found|but for L[0-9]+(, L[0-9]+)*, for which no way was found", caption);
    }

    private static ImmutableArray<string> Boards(Book book) => [.. ExampleBooks.Pictures(book).Where(picture => picture.Content.Contains("The lamp board of", StringComparison.Ordinal) && picture.Caption.Contains("SEEN FROM BEHIND", StringComparison.Ordinal)).Select(picture => picture.Caption)];
}
