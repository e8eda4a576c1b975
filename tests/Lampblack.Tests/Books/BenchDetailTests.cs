using System;
using System.Globalization;
using System.Linq;
using System.Text.RegularExpressions;
using Lampblack.Books;
using Lampblack.Parts;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>What a maker stumbled over at the bench: strips on small boards, where boards live, the adapter's wires, what is not wired, sizes that a ruler shows, sums of times.</summary>
public sealed partial class BenchDetailTests
{
    /// <summary>A panel of a legend and an emitter has no room for the strip of perforated board: it is neither of negative size nor wider than the box.</summary>
    [Theory]
    [InlineData(24, 18, true)]
    [InlineData(34, 24, true)]
    [InlineData(60, 40, false)]
    [InlineData(120, 70, false)]
    public void The_strip_of_a_tiny_panel_has_a_size_and_a_place(double widthMm, double heightMm, bool isOutside)
    {
        var desk = string.Create(CultureInfo.InvariantCulture, $"lampblack = 1\ntitle = \"Gate lamp\"\n[lighting]\nemitter = \"emitter-5mm-wide\"\ndepth = 30\n[[panel]]\nid = \"gate\"\ntitle = \"Gate\"\nsize = [{widthMm}, {heightMm}]\n  [[panel.legend]]\n  id = \"a\"\n  text = \"UP\"\n  height = 3\n  at = [{widthMm / 2}, {heightMm / 2}]\n");
        var made = SmallDesk.Build(desk).MadeBook!;
        Assert.DoesNotContain(ExampleBooks.Pictures(made.Book), picture => picture.Content.Contains("width=\"-", StringComparison.Ordinal) || picture.Content.Contains("height=\"-", StringComparison.Ordinal));
        Assert.Equal(isOutside, ExampleBooks.Words(made.Book.Steps.Single(step => step.Id == "feed")).Contains("is larger than the box", StringComparison.Ordinal));

        // What is bought holds two rails, a resistor and a transistor with its two: 12 holes of 2.54 mm at least, and 22 mm of height.
        var bought = Sides(made.Bill.Lines.Single(line => line.Key == "joint-board").UsedFor.Split(": ")[1]);
        Assert.True(bought.One >= 25 && bought.Other >= 22, $"{bought}");
        Assert.Equal(isOutside, bought.One > widthMm - 6 || bought.Other > heightMm - 6);
    }

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void Places_of_strips_and_notches_are_whole_millimetres(string name)
    {
        var rows = ExampleBooks.Rows(ExampleBooks.Of(name).Book, "rest");
        Assert.NotEmpty(rows);
        Assert.All(rows, row => Assert.All(new[] { row.Cells[3], row.Cells[4] }, cell => Assert.True(int.TryParse(cell, NumberStyles.None, CultureInfo.InvariantCulture, out _), $"{row.Key} {cell}")));
    }

    /// <summary>The sockets' board holds its sockets (a chip of 16 pins is 20 mm long), lies within the box, and its home is told.</summary>
    [Fact]
    public void The_board_of_the_registers_has_a_size_and_a_home()
    {
        var made = ExampleBooks.Of("yard-board");
        var board = ExampleBooks.Words(made.Book.Steps.Single(step => step.Id == "board"));
        var (longMm, highMm) = Sides(board.Split("a piece of perforated board of ")[1].Split(',')[0]);
        var sockets = made.Facts.Wiring!.Pins.Controllers.Sum(plan => (plan.Inputs?.ChipCount ?? 0) + (plan.Outputs?.ChipCount ?? 0));
        Assert.True(longMm >= 20 * sockets && longMm < made.Facts.Boxes[0].WidthMm && highMm < made.Facts.Boxes[0].HeightMm);
        Assert.Contains(made.Bill.Lines, line => line.Key == "register-board" && line.What.EndsWith(made.Facts.Size(longMm, highMm), StringComparison.Ordinal));
        Assert.Contains("Close beside it on the same floor goes the board with the shift registers", ExampleBooks.Words(made.Book.Steps.Single(step => step.Id == "house")), StringComparison.Ordinal);
        Assert.DoesNotContain("Close beside it", ExampleBooks.Words(ExampleBooks.Of("dome-desk").Book.Steps.Single(step => step.Id == "house")), StringComparison.Ordinal);
    }

    /// <summary>Data sheet of the ATmega32U4: PD2 is RXD1, PD3 is TXD1; boards call them D0 and D1 (from memory). What one sends the other hears.</summary>
    [Fact]
    public void The_adapter_s_wires_are_crossed_and_its_place_is_told()
    {
        var made = ExampleBooks.Of("kiln");
        var rows = ExampleBooks.Rows(made.Book, "adapter-wire").ConvertAll(row => (From: row.Cells[4], To: row.Cells[5]));
        Assert.Equal([("GND", "GND"), ("TX", "D0"), ("RX", "D1")], rows);
        var joints = ExampleBooks.Rows(made.Book, "joint").ToDictionary(row => row.Key, row => ExampleBooks.Plain(row.Cells[4]));
        Assert.Contains("X2 to TX of the USB-to-serial adapter", joints["1:D0"], StringComparison.Ordinal);
        Assert.Contains("X3 to RX of the USB-to-serial adapter", joints["1:D1"], StringComparison.Ordinal);
        Assert.Contains("the USB-to-serial adapter in a sleeve of tape", ExampleBooks.Words(made.Book.Steps.Single(step => step.Id == "house")), StringComparison.Ordinal);
        Assert.Empty(ExampleBooks.Rows(ExampleBooks.Of("dome-desk").Book, "adapter-wire"));
    }

    [Fact]
    public void What_is_not_wired_is_told_on_the_first_page_with_what_it_needs()
    {
        var kiln = ExampleBooks.Of("kiln");
        var opening = ExampleBooks.Plain(string.Join(' ', kiln.Book.Chapters[0].Blocks.OfType<Paragraph>().Select(one => one.Markup)));

        // Told apart by eye in the kiln's file: `wired = false` stands at the meter and at the chart, and nowhere else; every other part that is no screw has contacts.
        var told = opening[opening.IndexOf("Not wired by this book", StringComparison.Ordinal)..];
        Assert.Equal(["monitor/chart", "monitor/meter"], UnwiredName().Matches(told).Select(match => match.Groups[1].Value).Order(StringComparer.Ordinal));
        Assert.Contains("two wires from what it shows", opening, StringComparison.Ordinal);
        Assert.DoesNotContain("Not wired by this book", string.Join(' ', ExampleBooks.Of("yard-board").Book.Chapters[0].Blocks.OfType<Paragraph>().Select(one => one.Markup)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("kiln")]
    public void The_bill_has_knobs_screws_and_rails_as_they_are_needed(string name)
    {
        var made = ExampleBooks.Of(name);
        var parts = made.Facts.Laid.Panels.SelectMany(panel => panel.Parts).Where(part => part.Part.KnobDiameter is not null).ToList();
        Assert.Equal(parts.Count(part => part.Part.Class == PartClass.Encoder), made.Bill.Lines.Where(line => line.What.StartsWith("knob without a pointer", StringComparison.Ordinal)).Sum(line => line.Amount));
        Assert.Equal(parts.Count(part => part.Part.Class != PartClass.Encoder), made.Bill.Lines.Where(line => line.What.StartsWith("knob with a pointer", StringComparison.Ordinal)).Sum(line => line.Amount));
        var screws = made.Bill.Lines.Single(line => line.Key == "screw-m3").Others;
        var words = ExampleBooks.Words(made.Book.Steps.Single(step => step.Id == "box"));
        Assert.Contains($"The panel's screws are then {screws.Split(" long")[0]} long", words, StringComparison.Ordinal);

        // Both rails of every strip, in metres.
        var strips = made.Bill.Lines.Single(line => line.Key == "joint-board").UsedFor.Split("; ").Select(strip => Sides(strip.Split(": ")[1])).ToList();
        Assert.True(made.Bill.Lines.Single(line => line.Key == "bare-wire").Amount >= strips.Sum(strip => 2 * strip.One) / 1000 * 0.9);
    }

    [Fact]
    public void Wood_is_drilled_before_it_is_screwed_and_no_paper_is_glued_on_paint()
    {
        var book = ExampleBooks.Of("dome-desk").Book;
        var box = ExampleBooks.Words(book.Steps.Single(step => step.Id == "box"));
        Assert.Contains("Drill each piece of strip through, 2 mm", box, StringComparison.Ordinal);
        Assert.Contains("prick a mark into it through the hole of each piece of strip", box, StringComparison.Ordinal);
        Assert.DoesNotContain("rill", ExampleBooks.Words(book.Steps.Single(step => step.Id == "lamps-in")), StringComparison.Ordinal);
        foreach (var step in book.Steps.Where(step => step.Id is "lamps-dome" or "lamps-scope"))
        {
            Assert.Contains("tape it on the board's white face", ExampleBooks.Words(step), StringComparison.Ordinal);
            Assert.DoesNotContain("glue stick", step.Materials);
        }
    }

    /// <summary>A part that clamps 3.2 mm by its data sheet, on 3 mm of plate with glue and 0.2 mm of paper.</summary>
    [Fact]
    public void A_part_that_clamps_less_than_the_panel_with_its_paper_is_told()
    {
        var desk = SmallDesk.Text().Replace("part = \"toggle-mini-on-on\"", "part = \"button-16-momentary\"", StringComparison.Ordinal).Replace("states = [\"MAIN\", \"LOOP\"]", string.Empty, StringComparison.Ordinal).Replace("[lighting]", "[stack]\nplate = 3\nglue = 0.05\n\n[lighting]", StringComparison.Ordinal);
        var result = SmallDesk.Build(desk);
        var row = ExampleBooks.Rows(result.MadeBook!.Book, "kind").Single(one => one.Key == "button-16-momentary");
        Assert.Equal("3.2 mm, and the panel has 3.25 mm: it fits with its nut alone, without a washer, if the thread shows past the nut: try it on a scrap as thick", row.Cells[3]);
    }

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void A_chapter_s_time_is_the_sum_of_what_stands_at_its_steps(string name)
    {
        var book = ExampleBooks.Of(name).Book;
        foreach (var chapter in book.Chapters.Where(chapter => !chapter.Steps.IsEmpty))
        {
            Assert.Equal(chapter.Steps.Sum(step => Shown(BuildBook.Duration(step.Minutes))), Shown(BuildBook.Duration(chapter.Minutes)));
            Assert.Equal(chapter.Steps.Sum(step => Shown(BuildBook.Duration(step.WaitMinutes))), Shown(BuildBook.Duration(chapter.WaitMinutes)));
        }
    }

    private static (double One, double Other) Sides(string size)
    {
        var sides = size.Split(" mm")[0].Split(" x ").Select(side => double.Parse(side, CultureInfo.InvariantCulture)).ToArray();
        return (sides[0], sides[1]);
    }

    private static int Shown(string words) => words == "none" ? 0
        : words.Split(' ') switch
        {
            [var hours, "h", var minutes, "min"] => (60 * int.Parse(hours, CultureInfo.InvariantCulture)) + int.Parse(minutes, CultureInfo.InvariantCulture),
            [var hours, "h"] => 60 * int.Parse(hours, CultureInfo.InvariantCulture),
            [var minutes, "min"] => int.Parse(minutes, CultureInfo.InvariantCulture),
            _ => throw new FormatException(words),
        };

    [GeneratedRegex(@"(\w+/[\w.-]+) \(")]
    private static partial Regex UnwiredName();
}
