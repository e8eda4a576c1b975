using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Lampblack.Books;
using Lampblack.Circuits;
using Lampblack.Geometry;
using Lampblack.Jobs;
using Lampblack.Tests.Circuits;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>The lamps' circuit as it is soldered: the rows of the book, joined as they say, are the circuit that was planned. The judge is ngspice, which knows nothing of strings.</summary>
public sealed partial class LampWireTests
{
    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void What_the_rows_join_takes_the_current_that_was_planned(string name)
    {
        var made = ExampleBooks.Of(name);
        var rows = Rows(made);
        var circuit = made.Facts.Circuit!;
        Assert.All(circuit.Channels, channel => Assert.Equal(channel.NominalAmperes, Amperes(rows, channel, made), channel.NominalAmperes * 0.01));

        // One emitter the other way round is seen.
        var wrong = rows.ToList();
        var at = wrong.FindIndex(row => LegRow().IsMatch(row.To));
        wrong[at] = wrong[at] with { To = Other(wrong[at].To) };
        Assert.Contains(circuit.Channels, channel => Math.Abs(Amperes(wrong, channel, made) - channel.NominalAmperes) > channel.NominalAmperes * 0.01);
    }

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void Every_leg_of_every_emitter_has_one_wire(string name) => HasEveryLeg(ExampleBooks.Of(name));

    /// <summary>Channels are named by what their legends say, and two may say the same.</summary>
    [Fact]
    public void Legends_that_say_the_same_are_all_fed()
    {
        var fault = string.Concat(new[] { 24, 96 }.Select(at => FormattableString.Invariant($"\n\n  [[panel.legend]]\n  id = \"fault-{at}\"\n  text = \"FAULT\"\n  at = [{at}, 14]\n  role = \"hidden\"\n")));
        var made = SmallDesk.Build(SmallDesk.Text() + fault).MadeBook!;
        Assert.Equal(2, made.Facts.Cells.Count(cell => cell.Words == "FAULT"));
        Assert.Equal(2, made.Facts.Circuit!.Channels.Count(channel => channel.Channel.Name.Contains("FAULT", StringComparison.Ordinal)));
        HasEveryLeg(made);
        Assert.Equal(made.Facts.Circuit.Channels.Length, ExampleBooks.Rows(made.Book, "channel").Select(row => row.Key).Distinct().Count());
    }

    private static void HasEveryLeg(MadeBook made)
    {
        var legs = Boards(made).SelectMany(board => board.Rows.SelectMany(row => new[] { row.From, row.To }).Where(end => LegRow().IsMatch(end)).Select(end => $"{board.Panel} {end}")).ToList();
        Assert.Equal(2 * made.Facts.Lamps.Length, legs.Count);
        Assert.Equal(legs.Count, legs.Distinct().Count());
        var numbers = Rows(made).Select(row => row.Name).ToList();
        Assert.Equal(Enumerable.Range(1, numbers.Count).Select(number => $"L{number}"), numbers);
    }

    /// <summary>From behind the longer leg is at the left of every emitter; every wire's number stands in the picture of its board, and every letter can be read.</summary>
    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void The_back_is_drawn_mirrored_with_every_wire_on_it(string name)
    {
        var made = ExampleBooks.Of(name);
        foreach (var board in Boards(made))
        {
            var back = XElement.Parse(Assert.Single(ExampleBooks.Pictures(made.Book), picture => picture.Content.Contains($"The lamp board of {board.Panel} seen from behind", StringComparison.Ordinal)).Content);
            var words = back.Descendants().Where(element => element.Name.LocalName == "text").Select(element => element.Value).ToList();
            Assert.All(board.Rows, row => Assert.Single(words, word => word == row.Name));
            var dots = Circles(back, 0.75);
            var lamps = made.Facts.Lamps.Where(lamp => lamp.Panel == board.Id).OrderBy(lamp => lamp.Number).ToList();
            Assert.Equal(2 * lamps.Count, dots.Count);
            foreach (var (pair, lamp) in dots.Chunk(2).Zip(lamps))
            {
                Assert.Equal(("#111", "#fff"), (pair[0].Fill, pair[1].Fill));
                Assert.True(pair[0].X < pair[1].X, $"emitter {lamp.Number}");
            }

            // A line that ends at one leg keeps off the other: nobody has to guess which one is meant.
            var legs = back.Descendants().Where(element => element.Name.LocalName == "circle" && Number(element.Attribute("r")!.Value) == 0.75)
                .Select(element => new Point<PanelSpace>(Number(element.Attribute("cx")!.Value), Number(element.Attribute("cy")!.Value))).Chunk(2).ToList();
            var lines = Assert.Single(BoardPicture.Of(made.Book, board.Panel)).Wires.SelectMany(BoardPicture.Pieces).Select(piece => (From: new Point<PanelSpace>(piece.From.XMm, piece.From.YMm), To: new Point<PanelSpace>(piece.To.XMm, piece.To.YMm))).ToList();
            var ends = 0;
            foreach (var (leg, other) in legs.SelectMany(pair => new[] { (pair[0], pair[1]), (pair[1], pair[0]) }))
            {
                var mine = lines.FindAll(line => Math.Min(line.From.DistanceMm(leg), line.To.DistanceMm(leg)) < 0.03);
                ends += mine.Count;
                Assert.All(mine, line => Assert.True(other.DistanceMm(line.From, line.To) > 1, $"{board.Panel}: a line to {leg} passes {other}"));
            }

            Assert.Equal(board.Rows.Count(row => row.From.Contains("(+)", StringComparison.Ordinal) || row.From.Contains("(−)", StringComparison.Ordinal)) + board.Rows.Count(row => row.To.Contains("(+)", StringComparison.Ordinal) || row.To.Contains("(−)", StringComparison.Ordinal)), ends);

            // What is farther to the right from the front is farther to the left from behind.
            var order = dots.Chunk(2).Select(pair => pair[0].X).Zip(lamps).OrderBy(one => one.First).Select(one => one.Second.XMm).ToList();
            Assert.Equal(order.OrderDescending(), order);
        }
    }

    /// <summary>Each gate's wire ends at the pin that the plan drives, as the table at the controller says, too; and the meter's row names both.</summary>
    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void Every_gate_comes_to_its_pin(string name)
    {
        var made = ExampleBooks.Of(name);
        var joints = ExampleBooks.Rows(made.Book, "joint").ToDictionary(row => row.Key[2..], row => ExampleBooks.Plain(string.Join('|', row.Cells)));
        var tests = ExampleBooks.Rows(made.Book, "lamp-test").Select(row => ExampleBooks.Plain(string.Join('|', row.Cells))).ToList();
        var dimmers = made.Facts.Wiring!.Pins.Controllers.SelectMany(plan => plan.Dimmers).Where(dimmer => !dimmer.IsMeter).ToList();
        Assert.NotEmpty(dimmers);
        foreach (var dimmer in dimmers)
        {
            var gate = Assert.Single(Rows(made), row => row.Net == dimmer.Channel && row.From.StartsWith("RG", StringComparison.Ordinal));
            Assert.Equal(dimmer.Pin.Header, gate.To);
            Assert.Contains($"{gate.Name}, wire to the gate resistor of {dimmer.Channel}", joints[dimmer.Pin.Header], StringComparison.Ordinal);
            Assert.Contains(tests, test => test.Contains($"{dimmer.Pin.Header} at the cable", StringComparison.Ordinal) && test.Contains($"where {gate.Name} is soldered", StringComparison.Ordinal));
        }

        // Plus and 0 V of every board are tried before the supply is switched on, and the two supplies' volts against each other before the USB is.
        Assert.Equal(made.Facts.Boxes.Length, tests.Count(test => test.Contains("plus and 0 V are not shorted", StringComparison.Ordinal)));
        Assert.Contains(tests, test => test.Contains("5 V and the lamps' supply never meet", StringComparison.Ordinal));
    }

    /// <summary>Pieces of strip lie where nothing is soldered; the board is held at all four sides; without that some emitter would stand over a strip.</summary>
    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void Nothing_is_soldered_over_what_carries_the_board(string name)
    {
        const double StripAndRoomMm = 12;
        var made = ExampleBooks.Of(name);
        var near = 0;
        foreach (var box in made.Facts.Boxes)
        {
            var rests = ExampleBooks.Rows(made.Book, "rest").Where(row => row.Key.StartsWith(box.Id + ":", StringComparison.Ordinal) && row.Cells[2] == "piece of strip").Select(row => (Wall: row.Cells[1], At: Number(row.Cells[3]), Long: Number(row.Cells[4]))).ToList();
            Assert.Subset(new HashSet<string>(rests.Select(rest => rest.Wall)), new HashSet<string>(["lower", "upper", "left", "right"]));
            foreach (var lamp in made.Facts.Lamps.Where(lamp => lamp.Panel == box.Id))
            {
                foreach (var leg in new[] { -1.5, 1.5 })
                {
                    var (x, y) = (lamp.XMm + leg - box.Inside.LeftMm, lamp.YMm - box.Inside.BottomMm);
                    foreach (var (wall, at, length) in rests)
                    {
                        var (along, from) = wall switch { "lower" => (x, y), "upper" => (x, box.HeightMm - y), "left" => (y, x), _ => (y, box.WidthMm - x) };
                        near += from < StripAndRoomMm ? 1 : 0;
                        Assert.True(from >= StripAndRoomMm - 0.01 || along < at - 3.99 || along > at + length + 3.99, $"emitter {lamp.Number} of {box.Id} stands over the {wall} piece at {at}");
                    }
                }
            }
        }

        Assert.True(near > 0 || name == "yard-board", "no emitter is near a wall: the test sees nothing");
    }

    private static double Amperes(List<WireRow> rows, ChannelPlan channel, MadeBook made)
    {
        // Wires unite their ends; what stands between them is a part of the drawing.
        var panel = Boards(made).First(board => board.Rows.Any(row => row.Net == channel.Channel.Name)).Rows.Select(row => row.Name).ToHashSet();
        var mine = rows.Where(row => panel.Contains(row.Name) && row.Net == channel.Channel.Name).ToList();
        var nodes = new Dictionary<string, string>();
        string Node(string end)
        {
            var at = end.EndsWith("D line", StringComparison.Ordinal) ? "0" : end;
            while (nodes.TryGetValue(at, out var next) && next != at)
            {
                at = next;
            }

            return at;
        }

        foreach (var row in mine)
        {
            var (one, other) = (Node(row.From), Node(row.To));
            if (one == "0")
            {
                nodes[other] = one;
            }
            else
            {
                nodes[one] = other;
            }
        }

        var ohms = channel.Strings.SelectMany(kind => Enumerable.Repeat(kind.String.ResistorOhms, kind.StringCount)).ToList();
        var resistors = mine.Where(row => row.From.EndsWith("free end", StringComparison.Ordinal)).Select((row, index) => ("plus", Node(row.From), ohms[index])).ToList();
        var emitters = mine.SelectMany(row => new[] { row.From, row.To }).Where(end => LegRow().IsMatch(end)).Select(end => end[..end.IndexOf(',', StringComparison.Ordinal)]).Distinct().Select(number => (Node(Leg(mine, number, "long")), Node(Leg(mine, number, "short")))).ToList();
        return Ngspice.SupplyAmperes(resistors, emitters, channel.Strings[0].String.Curve, made.Facts.Circuit!.Wish.SupplyVolts);
    }

    /// <summary>The end's own words, also where a planted fault has no wire at it.</summary>
    private static string Leg(List<WireRow> rows, string number, string which) =>
        rows.SelectMany(row => new[] { row.From, row.To }).FirstOrDefault(end => end.StartsWith($"{number}, {which}", StringComparison.Ordinal)) ?? $"{number}, {which}";

    private static string Other(string end) => end.Contains("long", StringComparison.Ordinal) ? end.Replace("long", "short", StringComparison.Ordinal).Replace('+', '−') : end.Replace("short", "long", StringComparison.Ordinal).Replace('−', '+');

    private static List<(double X, string Fill)> Circles(XElement drawing, double radius) =>
        [.. drawing.Descendants().Where(element => element.Name.LocalName == "circle" && Number(element.Attribute("r")!.Value) == radius).Select(element => (Number(element.Attribute("cx")!.Value), element.Attribute("fill")!.Value))];

    private static List<WireRow> Rows(MadeBook made) => [.. ExampleBooks.Rows(made.Book, "lamp-wire").Select(Row)];

    private static IEnumerable<(string Id, string Panel, List<WireRow> Rows)> Boards(MadeBook made) =>
        from box in made.Facts.Boxes
        let table = made.Book.Steps.SelectMany(step => step.Blocks.OfType<BookTable>()).Single(one => one.Caption.EndsWith($"the lamp board of {box.Panel}", StringComparison.Ordinal))
        select (box.Id, box.Panel, table.Rows.Select(Row).ToList());

    private static WireRow Row(BookRow row)
    {
        var cells = row.Cells.Select(ExampleBooks.Plain).ToList();
        return new(cells[0], cells[1], cells[5], cells[6]);
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^\d+, (long|short) ")]
    private static partial Regex LegRow();

    private sealed record WireRow(string Name, string Net, string From, string To);
}
