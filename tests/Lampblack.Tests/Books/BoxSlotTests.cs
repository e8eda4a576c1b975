using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Books;
using Lampblack.Geometry;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>What leads into and out of the boxes has its slot, its place is told, and its wires are long enough for the way.</summary>
public sealed class BoxSlotTests
{
    [Theory]
    [InlineData("dome-desk", "the pair from the lamps’ supply|USB cable of the ATmega2560|cables to TELESCOPE", "the cables of parts that this book does not wire|cables to DOME")]
    [InlineData("yard-board", "the pair from the lamps’ supply|USB cable of the ATmega328P", null)]
    [InlineData("kiln", "the pair from the lamps’ supply|USB cable of the ATmega32U4|USB cable of the USB-to-serial adapter|the cables of parts that this book does not wire", null)]
    public void Every_cable_has_a_slot_at_a_place_that_is_told(string name, string first, string? second)
    {
        var made = ExampleBooks.Of(name);
        var slots = ExampleBooks.Rows(made.Book, "slot").ConvertAll(row => (Box: row.Key.Split(':')[0], What: ExampleBooks.Plain(row.Cells[1]), Middle: Number(row.Cells[2]), Wide: Number(row.Cells[3]), High: Number(row.Cells[4])));
        Assert.Equal(new[] { first, second }.OfType<string>(), made.Facts.Boxes.Select(box => string.Join('|', slots.Where(slot => slot.Box == box.Id).Select(slot => slot.What))));
        foreach (var box in made.Facts.Boxes)
        {
            // Between the floor's blocks of 12 mm, a finger's breadth of wood from one to the next, below what carries the lamp board.
            var here = slots.Where(slot => slot.Box == box.Id).OrderBy(slot => slot.Middle).ToList();
            // What is told is told from the wall's own end, 3 mm outside of the box's inside.
            Assert.All(here, slot => Assert.True(slot.Middle - 3 - (slot.Wide / 2) > 12 && slot.Middle - 3 + (slot.Wide / 2) < box.WidthMm - 12 && slot.High is > 5 and < 30));
            Assert.All(here.Zip(here.Skip(1)), pair => Assert.True(pair.Second.Middle - pair.First.Middle - ((pair.First.Wide + pair.Second.Wide) / 2) > 8));
        }
    }

    [Fact]
    public void A_box_that_is_too_narrow_for_slots_side_by_side_has_one_for_all()
    {
        var made = ExampleBooks.Of("kiln");
        var box = made.Facts.Boxes[0] with { Inside = new(3, 3, 60, 60) };
        var slot = Assert.Single(ExampleBooks.Rows(BuildBook.Of(made.Facts with { Boxes = [box] }, made.Bill, "TESTED"), "slot"));
        Assert.Equal((3 + 30, 30), (Number(slot.Cells[2]), Number(slot.Cells[3])));
    }

    /// <summary>By hand: from the dome's middle up to its wall, along half of both panels, down to the telescope's middle, and a hand's breadth round the walls: 55 + 90 + 90 + 40 + 150 mm.</summary>
    [Fact]
    public void Wires_from_box_to_box_reach()
    {
        var made = ExampleBooks.Of("dome-desk");
        var wires = made.Facts.Wiring!.Wires;
        Assert.Equal("dome", wires.Home!.Laid.Panel.Id);
        var (home, other) = (wires.Panels.Single(panel => panel.Laid.Panel.Id == "dome"), wires.Panels.Single(panel => panel.Laid.Panel.Id == "scope"));
        var wish = made.Facts.Laid.Desk.Controller!;
        Assert.Equal(wish.CableMm + wish.SlackMm, home.CableMm);
        Assert.InRange(other.CableMm, 425 + wish.SlackMm, 425 + wish.SlackMm + 5);

        // The book tells the same length at the plug, and buys it; the lamps' wires take the same way, 6 mm less of each panel.
        var words = string.Join(' ', made.Book.Steps.SelectMany(step => step.Blocks.OfType<BookTable>()).Select(table => table.Caption));
        Assert.Contains($"Plug J2: from each contact a wire of {made.Facts.Ruler(other.CableMm)}", words, StringComparison.Ordinal);
        var away = ExampleBooks.Rows(made.Book, "lamp-wire").Where(row => row.Cells[5].StartsWith("TELESCOPE", StringComparison.Ordinal) || row.Cells[6].StartsWith("TELESCOPE", StringComparison.Ordinal)).ToList();
        Assert.Equal(2, away.Count);
        Assert.All(away, row => Assert.InRange(Number(row.Cells[2]), 425 - 12, 425 + 40));
        var gate = ExampleBooks.Rows(made.Book, "lamp-wire").Single(row => row.Cells[1] == "TELESCOPE" && row.Cells[5].StartsWith("RG", StringComparison.Ordinal));
        Assert.Equal(other.CableMm, Number(gate.Cells[2]));
    }

    [Fact]
    public void The_pair_s_loss_counts_the_way_on_to_the_last_box()
    {
        var plan = ExampleBooks.Of("dome-desk").Facts.Circuit!;
        Assert.Equal(425, plan.Wish.OnwardLengthMm, 1e-9);

        // Ohm's law, there and back: AWG gauges by their definition d = 0.127 mm * 92^((36 - n) / 39), copper of 1.72e-8 ohm metres (from memory, within a few percent).
        var amperes = plan.Channels.Sum(channel => channel.HighestAmperes);
        var square = Math.PI / 4 * Math.Pow(0.127e-3 * Math.Pow(92, (36 - plan.Wire.Gauge.Awg) / 39.0), 2);
        double Loss(double mm) => 2 * mm / 1000 * 1.72e-8 / square * amperes;
        Assert.InRange(plan.Wire.DropVolts, 0.95 * Loss(plan.Wish.WireLengthMm + 425), 1.12 * Loss(plan.Wish.WireLengthMm + 425));
        Assert.Equal(0, ExampleBooks.Of("kiln").Facts.Circuit!.Wish.OnwardLengthMm);
    }

    /// <summary>By hand: half of both lit panels each way, the dark one between them, and a hand's breadth: 60 + 60 + 35 + 35 + 90 + 150 mm. The book cuts the pair as long, but for the walls.</summary>
    [Fact]
    public void The_pair_passes_a_panel_that_nothing_lights()
    {
        var desk = SmallDesk.Text(more: "[[panel]]\nid = \"first\"\nsize = [120, 70]\n[[panel.legend]]\nid = \"a\"\ntext = \"A\"\nat = [60, 35]\n[[panel]]\nid = \"dark\"\nsize = [90, 70]\n[[panel.legend]]\nid = \"b\"\ntext = \"B\"\nat = [45, 35]\nrole = \"unlit\"\nink = \"white\"\n");
        Assert.Equal(430, SmallDesk.Build(desk).MadeBook!.Facts.Circuit!.Wish.OnwardLengthMm, 1e-9);
    }

    /// <summary>Looms go round cells and blocks.</summary>
    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void No_loom_crosses_a_cell_or_a_block(string name)
    {
        var made = ExampleBooks.Of(name);
        foreach (var panel in made.Facts.Wiring!.Wires.Panels)
        {
            List<Box<PanelSpace>> walled =
            [
                .. made.Facts.Cells.Where(cell => cell.Panel == panel.Laid.Panel.Id).Select(cell => cell.Inside.Grow(0.5)),
                .. made.Facts.Boxes.Single(box => box.Id == panel.Laid.Panel.Id).Blocks.Select(block => block.Area),
            ];
            Assert.DoesNotContain(panel.Wires, wire => wire.Way.Zip(wire.Way.Skip(1)).Any(step => walled.Exists(wall => wall.Overlaps(Box<PanelSpace>.Between(step.First, step.Second).Grow(0.001)))));
        }

        Assert.Empty(ExampleBooks.Rows(made.Book, "cell-notch"));
    }

    /// <summary>A wire that runs through a cell: it comes in and goes out, and the book says where the card is notched for it.</summary>
    [Fact]
    public void A_wire_through_a_cell_has_its_notches()
    {
        var made = ExampleBooks.Of("dome-desk");
        var panel = made.Facts.Wiring!.Wires.Panels.Single(one => one.Laid.Panel.Id == "dome");
        var (wire, from, to) = panel.Wires.SelectMany(one => one.Way.Zip(one.Way.Skip(1)).Select(step => (one, step.First, step.Second))).MaxBy(step => step.First.DistanceMm(step.Second));
        var middle = from + (0.5 * (to - from));
        var cell = new BookCell("dome", "TRIED", new(middle.XMm - 3, middle.YMm - 2, 6, 4), 1);
        var notches = ExampleBooks.Rows(BuildBook.Of(made.Facts with { Cells = [cell] }, made.Bill, "TESTED"), "cell-notch")
            .Where(row => row.Cells[4].Split(", ").Contains(wire.Number.ToString(CultureInfo.InvariantCulture))).ToDictionary(row => row.Cells[1], row => Number(row.Cells[2]));
        var (walls, at) = from.YMm == to.YMm ? (new[] { "left", "right" }, 2) : (["lower", "upper"], 3);
        Assert.Equal(walls, notches.Keys.Order());
        Assert.All(notches.Values, one => Assert.Equal(at, one));
    }

    /// <summary>A hidden legend so close below a lever that a tag of it stands within the cell, as the desk itself plans it: a wire that ends in there, and begins outside, passes one notch.</summary>
    [Fact]
    public void A_tag_within_a_cell_of_a_real_desk_has_its_notch()
    {
        var made = SmallDesk.Build(SmallDesk.Text() + "\n\n  [[panel.legend]]\n  id = \"fault\"\n  text = \"FAULT\"\n  at = [30, 27]\n  role = \"hidden\"\n").MadeBook!;
        var cell = Assert.Single(made.Facts.Cells);
        var notches = ExampleBooks.Rows(made.Book, "cell-notch").SelectMany(row => row.Cells[4].Split(", ")).ToList();
        var passing = made.Facts.Wiring!.Wires.Panels.Single().Wires.Where(wire => cell.Inside.Contains(wire.Way[0]) != cell.Inside.Contains(wire.Way[^1])).Select(wire => wire.Number.ToString(CultureInfo.InvariantCulture)).ToList();
        Assert.NotEmpty(passing);
        Assert.All(passing, number => Assert.Single(notches, one => one == number));
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
