using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Parts;
using Lampblack.Tests.Link;
using Lampblack.Wiring;

namespace Lampblack.Tests.RollCalls;

/// <summary>Desks by chance: switches, buttons, selectors, encoders, potentiometers, ladders and lamps, on a matrix and on pins of their own.</summary>
internal static class RandomDesk
{
    public static PinPlan Make(XorShift chance)
    {
        Queue<ControllerPin> digital = new("ABCDGHJL".SelectMany(port => Enumerable.Range(0, 8).Select(bit => new ControllerPin(port, bit, $"D{(port * 8) + bit - 500}"))));
        Queue<(ControllerPin Pin, int Channel)> analog = new(Enumerable.Range(0, 16).Select(channel => (new ControllerPin(channel < 8 ? 'F' : 'K', channel % 8, $"A{channel}"), channel)));
        List<ControllerPin> columns = [.. Enumerable.Range(0, 3 + chance.Below(5)).Select(_ => digital.Dequeue())];
        List<ControllerPin> rows = [.. Enumerable.Range(0, 3 + chance.Below(6)).Select(_ => digital.Dequeue())];
        Queue<InputPlace> crossings = new(columns.Index().SelectMany(column => rows.Index().Select(row => (InputPlace)new MatrixInput(column.Index, row.Index))));
        List<PlannedContact> contacts = [];
        List<PlannedEncoder> encoders = [];
        List<PlannedWiper> wipers = [];
        List<PlannedLadder> ladders = [];
        List<PlannedIndicator> lamps = [];
        List<WiredControl> controls = [];
        var wanted = 8 + chance.Below(25);
        for (var number = 0; number < wanted; number++)
        {
            var id = $"yard/c{number}";
            var name = $"NO{number}X";
            var kind = chance.Below(12);
            ImmutableArray<WiredState> states = kind switch
            {
                0 or 1 => [new("ON", [true]), new("OFF", [false])],
                2 => [new("LEFT", [true, false]), new("RIGHT", [false, true])],
                3 => [new("UP", [true, false]), new("MIDDLE", [false, false]), new("DOWN", [false, true])],
                4 => [new("FAST", [true, false, true, false]), new("SLOW", [false, true, false, true])],
                5 or 6 => [new("out", [false]), new("in", [true])],
                7 => Selector(3 + chance.Below(4)),
                _ => [],
            };
            if (states.Length > 0)
            {
                var first = contacts.Count;
                foreach (var _ in states[0].Closed)
                {
                    // Now and then a pin of its own.
                    InputPlace? place = crossings.Count > 0 && chance.Below(5) > 0 ? crossings.Dequeue() : digital.Count > 12 ? new DirectInput(digital.Dequeue()) : null;
                    if (place is not null)
                    {
                        contacts.Add(new(id, place));
                    }
                }

                if (contacts.Count - first < states[0].Closed.Length)
                {
                    contacts.RemoveRange(first, contacts.Count - first);
                    continue;
                }

                controls.Add(new()
                {
                    Id = id, Name = name, Kind = WiredKind.States, Controller = 0, States = states, Momentary = kind is 5 or 6, BreaksBetween = kind == 7,
                    Contacts = [.. Enumerable.Range(first, states[0].Closed.Length)],
                });
            }
            else if (kind is 8 or 9 && digital.Count > 12 && encoders.Count < 5)
            {
                controls.Add(new() { Id = id, Name = name, Kind = WiredKind.Encoder, Controller = 0, Number = encoders.Count });
                encoders.Add(new(id, digital.Dequeue(), digital.Dequeue(), chance.Of([1, 2, 4])));
            }
            else if (kind == 10 && analog.Count > 2)
            {
                controls.Add(new() { Id = id, Name = name, Kind = WiredKind.Analog, Controller = 0, Number = wipers.Count });
                var (pin, channel) = analog.Dequeue();
                wipers.Add(new(id, pin, channel));
            }
            else if (kind == 11 && analog.Count > 2)
            {
                controls.Add(new() { Id = id, Name = name, Kind = WiredKind.States, Controller = 0, Number = ladders.Count, BreaksBetween = true, States = [new("1", []), new("2", []), new("3", []), new("4", [])] });
                var (pin, channel) = analog.Dequeue();
                ladders.Add(new(id, pin, channel, [new(0, 120), new(300, 420), new(600, 720), new(900, 1023)]));
            }
        }

        for (var lamp = chance.Below(3); lamp > 0; lamp--)
        {
            controls.Add(new() { Id = $"yard/lamp{lamp}", Name = $"LAMP{lamp}X", Kind = WiredKind.Indicator, Controller = 0, Number = lamps.Count });
            lamps.Add(new($"yard/lamp{lamp}", new DirectOutput(digital.Dequeue())));
        }

        return new(
            [
                new()
                {
                    Index = 0, Chip = ControllerChip.ATmega2560, Columns = [.. columns], Rows = [.. rows], Contacts = [.. contacts],
                    Encoders = [.. encoders], Wipers = [.. wipers], Ladders = [.. ladders], Indicators = [.. lamps],
                },
            ],
            [.. controls]);
    }

    private static ImmutableArray<WiredState> Selector(int positions) =>
        [.. Enumerable.Range(0, positions).Select(state => new WiredState($"P{state}", [.. Enumerable.Range(0, positions).Select(contact => contact == state)]))];
}
