using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Books;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>Shift registers in the book: the rows against the pin functions of the data sheets, written down here a second time (74HC165: 1 SH/LD, 2 CLK, 9 QH, 10 SER, 15 CLK INH; 74HC595: 9 QH', 10 SRCLR, 11 SRCLK, 12 RCLK, 13 OE, 14 SER; both 8 GND, 16 VCC).</summary>
public sealed class RegisterBookTests
{
    [Theory]
    [InlineData(1, 0)]
    [InlineData(0, 2)]
    [InlineData(3, 3)]
    public void Every_pin_of_every_socket_lies_where_its_sheet_wants_it(int inputs, int outputs)
    {
        var (book, plan) = With(inputs, outputs);
        var joined = Joined(ExampleBooks.Rows(book, "register-wire").Select(row => (ExampleBooks.Plain(row.Cells[5]), ExampleBooks.Plain(row.Cells[6]))));
        Check(joined, plan);

        // The check itself sees a wire that is missing, wherever it is.
        var rows = ExampleBooks.Rows(book, "register-wire").ConvertAll(row => (ExampleBooks.Plain(row.Cells[5]), ExampleBooks.Plain(row.Cells[6])));
        Assert.All(rows, row => Assert.ThrowsAny<Xunit.Sdk.XunitException>(() => Check(Joined(rows.Where(other => other != row)), plan)));
    }

    /// <summary>What belongs together is joined and nothing else is: every pin of every socket against every other, and a bridge between two neighbours is seen.</summary>
    [Theory]
    [InlineData(2, 0)]
    [InlineData(3, 3)]
    public void No_wire_joins_what_is_apart(int inputs, int outputs)
    {
        var (book, plan) = With(inputs, outputs);
        var rows = ExampleBooks.Rows(book, "register-wire").ConvertAll(row => (ExampleBooks.Plain(row.Cells[5]), ExampleBooks.Plain(row.Cells[6])));
        var nets = Nets(plan);
        Assert.All(rows, row => Assert.True(nets.ContainsKey(row.Item1) && nets.ContainsKey(row.Item2), $"{row}"));
        Assert.Empty(Faults(rows));
        Assert.NotEmpty(Faults([.. rows, ("74HC165 no 1, pin 1", "74HC165 no 1, pin 2")]));
        Assert.NotEmpty(Faults([.. rows, ("74HC165 no 1, pin 10", "74HC165 no 1, pin 11")]));

        List<string> Faults(List<(string, string)> wires)
        {
            var joined = Joined(wires);
            return [.. from one in nets from other in nets where string.CompareOrdinal(one.Key, other.Key) < 0 && joined(one.Key, other.Key) != (one.Value == other.Value) select $"{one.Key} and {other.Key}"];
        }
    }

    [Fact]
    public void Inputs_are_pulled_up_and_every_chip_has_its_capacitor_and_its_socket()
    {
        var (book, _) = With(2, 1);
        var parts = ExampleBooks.Rows(book, "register-part").ConvertAll(row => (What: row.Cells[0], From: ExampleBooks.Plain(row.Cells[1])));
        Assert.Equal(3, parts.Count(part => part.What.StartsWith("capacitor", StringComparison.Ordinal)));
        var pulled = parts.Where(part => part.What.StartsWith("resistor 10 k", StringComparison.Ordinal)).Select(part => part.From).ToList();
        Assert.Equal(new[] { 1, 2 }.SelectMany(chip => new[] { 11, 12, 13, 14, 3, 4, 5, 6 }.Select(pin => $"74HC165 no {chip}, pin {pin}")), pulled);
    }

    [Fact]
    public void Sockets_are_tried_empty_after_the_firmware_and_before_the_roll()
    {
        var made = ExampleBooks.Of("yard-board");
        var order = made.Book.Steps.Select(step => step.Id).ToList();
        Assert.True(order.IndexOf("flash-board") < order.IndexOf("chips") && order.IndexOf("chips") < order.IndexOf("roll-call"), string.Join(' ', order));
        var chips = made.Facts.Wiring!.Pins.Controllers.Sum(plan => plan.Outputs?.ChipCount ?? 0);

        // Supply, the pin that must lie on 0 V, the pin that must lie on plus.
        Assert.Equal(3 * chips, ExampleBooks.Rows(made.Book, "chip-test").Count);
        Assert.Equal(chips, made.Bill.Lines.Single(line => line.Key == "register-socket").Amount);
        Assert.Single(ExampleBooks.Pictures(made.Book), picture => picture.Content.Contains("The socket of a 74HC595 with its notch", StringComparison.Ordinal));
        Assert.DoesNotContain(ExampleBooks.Of("dome-desk").Book.Steps, step => step.Id == "chips");
    }

    /// <summary>Where a contact goes is data: its words and its pin say the same.</summary>
    [Theory]
    [InlineData(true, 0, "shift register 1, input A", 11)]
    [InlineData(true, 1, "shift register 1, input B", 12)]
    [InlineData(true, 7, "shift register 1, input H", 6)]
    [InlineData(false, 0, "shift register 1, output A", 15)]
    [InlineData(false, 7, "shift register 1, output H", 7)]
    public void A_register_s_pin_says_its_words_and_its_number(bool isInput, int line, string words, int pin)
    {
        var place = new RegisterPin(isInput, 0, line);
        Assert.Equal((words, pin), (place.Words, place.Pin));
        Assert.EndsWith($"no 1, pin {pin}", place.AtSocket, StringComparison.Ordinal);
    }

    private static (Book Book, ControllerPlan Plan) With(int inputs, int outputs)
    {
        var made = ExampleBooks.Of("yard-board");
        var wiring = made.Facts.Wiring!;
        var old = wiring.Pins.Controllers[0];
        var (load, clock, data) = (old.Outputs!.Data, old.Outputs.Clock, old.Rows[0]);
        var plan = old with { Inputs = inputs == 0 ? null : new(load, clock, data, inputs), Outputs = outputs == 0 ? null : new(old.Columns[0], old.Columns[1], old.Columns[2], outputs) };
        return (BuildBook.Of(made.Facts with { Wiring = wiring with { Pins = wiring.Pins with { Controllers = [plan] } } }, made.Bill, "TESTED"), plan);
    }

    /// <summary>Of every pin the net that its sheet puts it on; a line of a plug, or an end of a chain that leads nowhere, is alone.</summary>
    private static Dictionary<string, string> Nets(ControllerPlan plan)
    {
        var nets = new Dictionary<string, string> { ["5V"] = "5V", ["GND"] = "GND" };
        foreach (var (name, count, load, clock, data) in new[]
        {
            ("74HC165", plan.Inputs?.ChipCount ?? 0, plan.Inputs?.Load.Header, plan.Inputs?.Clock.Header, plan.Inputs?.Data.Header),
            ("74HC595", plan.Outputs?.ChipCount ?? 0, plan.Outputs?.Latch.Header, plan.Outputs?.Clock.Header, plan.Outputs?.Data.Header),
        }.Where(one => one.Item2 > 0))
        {
            foreach (var header in new[] { load!, clock!, data! })
            {
                nets[header] = header;
            }

            foreach (var (chip, pin) in from chip in Enumerable.Range(1, count) from pin in Enumerable.Range(1, 16) select (chip, pin))
            {
                var isInput = name == "74HC165";
                var alone = $"{name} {chip} {pin}";
                nets[$"{name} no {chip}, pin {pin}"] = (isInput, pin) switch
                {
                    (_, 16) or (false, 10) => "5V",
                    (_, 8) or (true, 15) or (false, 13) => "GND",
                    (true, 1) or (false, 12) => load!,
                    (true, 2) or (false, 11) => clock!,
                    (true, 9) => chip == 1 ? data! : $"{name} chain {chip - 1}",
                    (true, 10) => chip == count ? "GND" : $"{name} chain {chip}",
                    (false, 14) => chip == 1 ? data! : $"{name} chain {chip - 1}",
                    (false, 9) => chip == count ? alone : $"{name} chain {chip}",
                    _ => alone,
                };
            }
        }

        return nets;
    }

    private static Func<string, string, bool> Joined(IEnumerable<(string One, string Other)> wires)
    {
        var root = new Dictionary<string, string>();
        string Root(string end) => root.TryGetValue(end, out var next) && next != end ? Root(next) : end;
        foreach (var (one, other) in wires)
        {
            root[Root(one)] = Root(other);
        }

        return (one, other) => Root(one) == Root(other);
    }

    private static void Check(Func<string, string, bool> joined, ControllerPlan plan)
    {
        foreach (var chip in Enumerable.Range(1, plan.Inputs?.ChipCount ?? 0))
        {
            string Pin(int pin, int of = 0) => $"74HC165 no {chip + of}, pin {pin}";
            Assert.True(joined(Pin(16), "5V"));
            Assert.True(joined(Pin(8), "GND") && joined(Pin(15), "GND") && !joined("GND", "5V"));
            Assert.True(joined(Pin(1), plan.Inputs!.Load.Header) && joined(Pin(2), plan.Inputs.Clock.Header));

            // The first one's output is read; each takes in at SER what the next one gives; the last takes 0.
            Assert.True(joined(Pin(9), chip == 1 ? plan.Inputs.Data.Header : Pin(10, -1)));
            Assert.Equal(chip == plan.Inputs.ChipCount, joined(Pin(10), "GND"));
        }

        foreach (var chip in Enumerable.Range(1, plan.Outputs?.ChipCount ?? 0))
        {
            string Pin(int pin, int of = 0) => $"74HC595 no {chip + of}, pin {pin}";
            Assert.True(joined(Pin(16), "5V") && joined(Pin(10), "5V"));
            Assert.True(joined(Pin(8), "GND") && joined(Pin(13), "GND") && !joined("GND", "5V"));
            Assert.True(joined(Pin(11), plan.Outputs!.Clock.Header) && joined(Pin(12), plan.Outputs.Latch.Header));
            Assert.True(joined(Pin(14), chip == 1 ? plan.Outputs.Data.Header : Pin(9, -1)));
        }
    }
}
