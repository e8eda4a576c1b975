using System;
using System.Globalization;
using System.Linq;
using System.Text.RegularExpressions;
using Lampblack.Books;
using Lampblack.Jobs;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>What lights up at three cells and what waits for data: the trial of the lamps' circuit and the bill speak of what the desk has.</summary>
public sealed partial class PixelBookTests
{
    [Theory]
    [InlineData("emitter-5mm-wide", true)]
    [InlineData("strip-120", true)]
    [InlineData("pixels-60", false)]
    public void Three_cells_are_held_to_gates_alone(string emitter, bool hasGates)
    {
        var made = Made(emitter);
        var feed = made.Book.Steps.Single(step => step.Id == "feed");
        var words = ExampleBooks.Words(feed);
        Assert.Equal(hasGates, words.Contains("Touch one gate wire after the other with the plus of three fresh AA cells", StringComparison.Ordinal));
        Assert.Equal(!hasGates, words.Contains("Leave every data wire alone: pixels have no gate", StringComparison.Ordinal));
        Assert.Equal(hasGates, feed.AllTools.Any(tool => tool.Name == "three AA cells in a holder"));
        Assert.Equal(hasGates, made.Bill.Lines.Any(line => line.Key == "cells-aa"));
        Assert.Equal(hasGates, words.Contains("every emitter lights", StringComparison.Ordinal));

        // Nothing of a transistor is told where there is none, in words, tables or pictures.
        var all = $"{words} {string.Join(' ', feed.Blocks.OfType<BookTable>().SelectMany(table => table.Rows).SelectMany(row => row.Cells))} {string.Join(' ', feed.Blocks.OfType<PictureRow>().SelectMany(row => row.All).Select(picture => $"{picture.Caption} {picture.Content}"))}";
        Assert.Equal(hasGates, Transistor().IsMatch(ExampleBooks.Plain(all).Replace("pixels have no gate", string.Empty, StringComparison.Ordinal)));
        Assert.Equal(emitter == "emitter-5mm-wide", all.Contains("The filled dot is an emitter", StringComparison.Ordinal));
        Assert.Empty(ToolWords.Missing(made.Book));
    }

    /// <summary>1 mA or less for each pixel in the dark (from memory), twice that on the meter.</summary>
    [Fact]
    public void The_meter_is_told_what_pixels_take_in_the_dark()
    {
        var made = Made("pixels-60");
        var row = Assert.Single(ExampleBooks.Rows(made.Book, "channel"));
        Assert.Equal($"{made.Facts.Lamps.Length} pixels", row.Cells[1]);
        Assert.Equal($"{2 * made.Facts.Lamps.Length} mA, dark, without data", row.Cells[3]);
    }

    /// <summary>The meter stands before all boards, so the pixels of both panels draw through it whichever is looked at.</summary>
    [Fact]
    public void Pixels_of_two_panels_are_told_together()
    {
        const string Second = "\n[[panel]]\nid = \"branch\"\ntitle = \"Branch\"\nsize = [110, 60]\n[[panel.legend]]\ntext = \"BRANCH\"\nat = [55, 30]\n";
        var made = SmallDesk.Build(Text("pixels-60") + Second).MadeBook!;
        var rows = ExampleBooks.Rows(made.Book, "channel").ToList();
        Assert.Equal(2, rows.Count);
        Assert.All(rows, row => Assert.Equal($"{2 * made.Facts.Lamps.Length} mA, dark, without data, all pixels of the desk together", row.Cells[3]));
    }

    /// <summary>A legend with a lamp of its own in a cell has a gate, beside pixels that have none.</summary>
    [Fact]
    public void A_cell_beside_pixels_is_tried_by_its_gate_and_the_pixels_are_reckoned_with()
    {
        const string Own = "\n  [[panel.legend]]\n  text = \"BLOCKED\"\n  at = [30, 14]\n  light = \"own\"\n";
        var made = SmallDesk.Build(Text("pixels-60") + Own).MadeBook!;
        var feed = made.Book.Steps.Single(step => step.Id == "feed");
        var words = ExampleBooks.Words(feed);
        Assert.Contains("Touch one gate wire after the other", words, StringComparison.Ordinal);
        Assert.Contains("Leave every data wire alone", words, StringComparison.Ordinal);
        Assert.Contains("every emitter of a channel with a gate lights", words, StringComparison.Ordinal);
        var legs = feed.Blocks.OfType<PictureRow>().SelectMany(row => row.All).First(picture => picture.Caption.StartsWith("Which end is which", StringComparison.Ordinal));
        Assert.Contains("transistor", legs.Content, StringComparison.Ordinal);
        Assert.Contains(">DI<", legs.Content, StringComparison.Ordinal);
        var channels = ExampleBooks.Rows(made.Book, "channel").ToList();
        Assert.Equal(2, channels.Count);
        var pixels = Assert.Single(channels, row => row.Cells[3].Contains("without data", StringComparison.Ordinal));
        var gate = Assert.Single(channels, row => !row.Cells[3].Contains("without data", StringComparison.Ordinal));
        Assert.True(Milliamperes(gate.Cells[3]) > Milliamperes(pixels.Cells[3]), $"{gate.Cells[3]} and {pixels.Cells[3]}");
        Assert.Contains("and what stands before the pixels", made.Bill.Lines.Single(line => line.Key == "joint-board").Others, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("pixels-60", "pixel", "strip of pixels of 5 V, 60 a metre, cut between any two", "pixels")]
    [InlineData("strip-120", "strip", "strip of 12 V, 120 emitters a metre, cut every 25 mm, warm white", "pieces")]
    public void Strips_and_pixels_are_named_in_the_bill_as_they_are_sold(string emitter, string key, string what, string unit)
    {
        var result = SmallDesk.Build(Text(emitter));
        var lamps = result.MadeBook!.Facts.Lamps.Length;
        var line = EverythingOnceTests.Csv(result, "bill.csv").Single(row => row["key"] == key);
        Assert.Equal((what, unit), (line["what"], line["unit"]));
        Assert.Equal((unit == "pixels" ? lamps : lamps / 3).ToString(CultureInfo.InvariantCulture), line["amount"]);
        Assert.Contains("Levers", line["used_for"], StringComparison.Ordinal);
        Assert.Contains(unit == "pixels" ? "50 mA" : "20 mA a unit", line["others_that_fit"], StringComparison.Ordinal);
        Assert.EndsWith(unit, Assert.Single(ExampleBooks.Rows(result.MadeBook.Book, "bill"), row => row.Key == key).Cells[1], StringComparison.Ordinal);
        Assert.Equal("guessed", line["price_is"]);
    }

    /// <summary>What stands before pixels, and nothing that switches lamps.</summary>
    [Fact]
    public void A_desk_of_pixels_buys_what_stands_before_them()
    {
        var bill = Made("pixels-60").Bill.Lines.ToDictionary(line => line.Key);
        Assert.Equal("supply, 5 V DC", bill["supply"].What);
        Assert.Equal((1, "capacitor, electrolytic, 1000 µF"), (bill["capacitor-electrolytic"].Amount, bill["capacitor-electrolytic"].What));
        Assert.Contains("in the data line, close to the first pixel", bill["lamp-resistor-330"].UsedFor, StringComparison.Ordinal);
        Assert.Contains("before the pixels", bill["joint-board"].Others, StringComparison.Ordinal);
        Assert.DoesNotContain("transistor", bill.Keys);
        Assert.DoesNotContain("lamp-diode", bill.Keys);
        Assert.DoesNotContain("level-shifter", bill.Keys);
    }

    /// <summary>Modules are bought by their data lines; that nothing in the bill feeds them is said where one buys them.</summary>
    [Theory]
    [InlineData("display-0-96-in", "for data of 5 V, with SDA, SCL")]
    [InlineData("lamp-12mm-pixel", "a pixel for 5 V, with wires for data in and data out")]
    public void Displays_and_pixels_in_holes_say_what_they_must_be_like(string part, string needs)
    {
        var result = SmallDesk.Build($"{SmallDesk.Text()}\n\n  [[panel.control]]\n  id = \"log\"\n  part = \"{part}\"\n  at = [60, 58]\n");
        var line = EverythingOnceTests.Csv(result, "bill.csv").Single(row => row["key"] == part);
        Assert.Equal(("1", "log"), (line["amount"], line["used_for"]));
        Assert.Contains($"{needs}; what gives its 5 V is not in this bill", line["others_that_fit"], StringComparison.Ordinal);
        Assert.Contains("5 V and 0 V are not wired", ExampleBooks.Plain(string.Join(' ', result.MadeBook!.Book.Chapters[0].Blocks.OfType<Paragraph>().Select(one => one.Markup))), StringComparison.Ordinal);
    }

    private static MadeBook Made(string emitter) => SmallDesk.Build(Text(emitter)).MadeBook!;

    private static string Text(string emitter) => string.Join('\n', SmallDesk.Text().Replace("emitter-5mm-wide", emitter, StringComparison.Ordinal).Split('\n')
        .Where(line => emitter == "emitter-5mm-wide" || (!line.Contains("panel.emitter", StringComparison.Ordinal) && !line.Contains("at = [45, 20]", StringComparison.Ordinal) && !line.Contains("at = [76, 52]", StringComparison.Ordinal))));

    private static double Milliamperes(string cell) => double.Parse(cell[..cell.IndexOf(' ', StringComparison.Ordinal)], CultureInfo.InvariantCulture);

    [GeneratedRegex("[Tt]ransistor|[Gg]ate\\b|\\bdrain\\b")]
    private static partial Regex Transistor();
}
