using System;
using System.Linq;
using Lampblack.Books;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>What has data lines, as the book tells it: what is wired and what is not, where each wire ends, and what the meter says of it.</summary>
public sealed class DataBookTests
{
    private const string Glow = "\n\n  [[panel.control]]\n  id = \"glow\"\n  part = \"lamp-12mm-pixel\"\n  at = [46, 56]\n\n  [[panel.control]]\n  id = \"glow-2\"\n  part = \"lamp-12mm-pixel\"\n  at = [76, 56]\n";

    private static readonly Lazy<MadeBook> Strip = new(() => Made(Pixels(SmallDesk.Text()) + Glow));

    [Fact]
    public void Pixels_are_told_on_the_first_page_with_what_is_wired_and_what_is_not()
    {
        var made = Strip.Value;
        var told = Opening(made);
        var line = made.Facts.Wiring!.Pins.Controllers[0].DataLines.Single(one => one.Terminal == "DI").Pin.Header;
        Assert.Contains($"Wired by this book for data only: main/glow, main/glow-2 (12 mm pixel, pushed in from behind): DI to {line}, then from each to the next.", told, StringComparison.Ordinal);
        Assert.Contains("Their 5 V and 0 V are not wired", told, StringComparison.Ordinal);
        var strip = made.Facts.Wiring.Pins.Controllers[0].DataLines.Single(one => one.Terminal == "data");
        Assert.Contains($"the pixels of {strip.ItemId}: data to {strip.Pin.Header}", told, StringComparison.Ordinal);
        Assert.Contains("No program of ours drives any of them", told, StringComparison.Ordinal);
        Assert.Contains("the cables of parts that this book does not wire", string.Join('|', ExampleBooks.Rows(made.Book, "slot").Select(row => ExampleBooks.Plain(row.Cells[1]))), StringComparison.Ordinal);
    }

    /// <summary>Every pin but those that the controls take is kept free: D2 to D4, D9 for the lamps, A0 for the knob.</summary>
    [Fact]
    public void A_display_without_a_pin_is_told_as_not_wired_and_keeps_its_slot()
    {
        var text = SmallDesk.Text().Replace("chip = \"ATmega328P\"", "chip = \"ATmega328P\"\nreserved = [\"D5\", \"D6\", \"D7\", \"D8\", \"D10\", \"D11\", \"D12\", \"D13\", \"A1\", \"A2\", \"A3\", \"A4\", \"A5\"]", StringComparison.Ordinal);
        var made = Made(text + "\n\n  [[panel.control]]\n  id = \"log\"\n  part = \"display-0-96-in\"\n  at = [60, 58]\n");
        Assert.Empty(made.Facts.Wiring!.Pins.Controllers[0].DataLines);
        var told = Opening(made);
        Assert.Contains("Not wired by this book, though it has its hole: main/log", told, StringComparison.Ordinal);
        Assert.DoesNotContain("for data only", told, StringComparison.Ordinal);
        Assert.Contains("no program of ours drives it", told, StringComparison.Ordinal);
        Assert.Contains(ExampleBooks.Rows(made.Book, "slot"), row => row.Cells[1].Contains("does not wire", StringComparison.Ordinal));
    }

    /// <summary>Table of joints, sentences at the controller and rows of the wires name the same end of a strip's data wire: its resistor (RD), or the shifter (UL) where a pin gives too little for the pixels.</summary>
    [Theory]
    [InlineData(false, "data resistor", "RD1")]
    [InlineData(true, "level shifter", "UL1")]
    public void A_strip_s_data_wire_ends_where_every_list_says(bool hasShifter, string target, string label)
    {
        var made = Strip.Value;
        var facts = made.Facts;
        facts = facts with
        {
            Circuit = facts.Circuit! with { Channels = [.. facts.Circuit.Channels.Select(channel => channel with { Pixels = channel.Pixels! with { NeedsShifter = hasShifter } })] },
            Wiring = facts.Wiring! with { Needs = [.. facts.Wiring.Needs.Select(need => need with { HasShifter = hasShifter && need.Part is null })] },
        };
        var book = BuildBook.Of(facts, made.Bill, "TESTED");
        var pin = facts.Wiring.Pins.Controllers[0].DataLines.Single(one => one.Terminal == "data").Pin.Header;
        var wire = Assert.Single(ExampleBooks.Rows(book, "lamp-wire"), row => ExampleBooks.Plain(row.Cells[6]) == pin);
        Assert.Equal($"{label}, free end", ExampleBooks.Plain(wire.Cells[5]));
        var joint = Assert.Single(ExampleBooks.Rows(book, "joint"), row => row.Key == $"1:{pin}");
        Assert.Contains($"{wire.Cells[0]}, wire to the {target} of", ExampleBooks.Plain(joint.Cells[4]), StringComparison.Ordinal);
        Assert.Contains(AtController.Of(facts.Wiring.Pins, facts.Wiring.Needs), sentence => sentence.StartsWith($"{pin} to the {target} of", StringComparison.Ordinal));
        Assert.DoesNotContain(book.Steps.SelectMany(step => step.Blocks.OfType<BookTable>()).SelectMany(table => table.Rows), row => row.Cells.Any(cell => cell.Contains("gate resistor", StringComparison.Ordinal)));
        Assert.Contains($"a wire from each {target} for the controller", ExampleBooks.Words(book.Steps.Single(step => step.Id == "feed")), StringComparison.Ordinal);

        // And the meter proves it.
        Assert.Single(ExampleBooks.Rows(book, "lamp-test"), row => row.Cells[1].StartsWith($"{pin} at", StringComparison.Ordinal) && row.Cells[2].StartsWith($"{label}, the end where {wire.Cells[0]}", StringComparison.Ordinal));
    }

    /// <summary>What a strip is fed by needs a shifter by the circuit's own rule; the plan of pins is told so.</summary>
    [Fact]
    public void The_plan_knows_what_the_circuit_knows()
    {
        var facts = Strip.Value.Facts;
        Assert.Equal(facts.Circuit!.Channels.Select(channel => channel.Pixels!.NeedsShifter), facts.Wiring!.Needs.Where(need => need is { Part: null, Kind: WiredKind.Data }).Select(need => need.HasShifter));
    }

    /// <summary>A desk whose controller reads nothing has its wires in the book all the same, and no roll that nobody could answer; one with dimmed light has firmware.</summary>
    [Theory]
    [InlineData("display", true)]
    [InlineData("pixel", true)]
    [InlineData("strip", false)]
    [InlineData("light", false)]
    public void A_desk_without_controls_has_a_chapter_of_wires(string what, bool hasPlug)
    {
        var text = SmallDesk.Text();
        text = text[..text.IndexOf("[[panel.control]]", StringComparison.Ordinal)] + "[[panel.legend]]\ntext = \"YARD\"\nat = [60, 20]\n"
            + what switch
            {
                "display" => "[[panel.control]]\nid = \"log\"\npart = \"display-0-96-in\"\nat = [60, 40]\n",
                "pixel" => Glow,
                _ => string.Empty,
            };
        var result = SmallDesk.Build(what is "light" ? text : Pixels(text), parts: BuildParts.All);
        Assert.DoesNotContain(result.Findings, finding => finding.Severity == Severity.Stop);
        var book = result.MadeBook!.Book;
        var steps = book.Steps.Select(step => step.Id).ToList();
        Assert.Contains("board", steps);
        Assert.Contains("test-wires", steps);
        Assert.Equal(hasPlug, steps.Contains("wire-main"));
        var isDriven = what == "light";
        Assert.Equal(isDriven, steps.Contains("flash-board"));
        Assert.Equal(isDriven, steps.Contains("roll-call"));
        Assert.Equal(isDriven, result.Files.Any(file => file.Path == "firmware/panel.hex"));
        Assert.Contains(result.Files, file => file.Path == "wiring/wires.csv");
        Assert.Contains(result.Files, file => file.Path == "wiring/checklist.pdf");
        Assert.Empty(MakersWaysTests.TooEarly(book));
        Assert.Empty(StepPictures.Faults(book));
        Assert.Empty(ToolWords.Missing(book));
        Assert.All(book.Steps, step => Assert.All(step.Blocks.OfType<BookTable>(), table => Assert.NotEmpty(table.Rows)));
    }

    private static MadeBook Made(string text)
    {
        var result = SmallDesk.Build(text);
        Assert.DoesNotContain(result.Findings, finding => finding.Severity == Severity.Stop);
        return result.MadeBook!;
    }

    private static string Pixels(string text) => string.Join('\n', text.Replace("emitter-5mm-wide", "pixels-60", StringComparison.Ordinal).Split('\n')
        .Where(line => !line.Contains("panel.emitter", StringComparison.Ordinal) && !line.Contains("at = [45, 20]", StringComparison.Ordinal) && !line.Contains("at = [76, 52]", StringComparison.Ordinal)));

    private static string Opening(MadeBook made) => ExampleBooks.Plain(string.Join(' ', made.Book.Chapters[0].Blocks.OfType<Paragraph>().Select(one => one.Markup)));
}
