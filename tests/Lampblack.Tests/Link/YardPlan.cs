using System.Linq;
using Lampblack.Parts;
using Lampblack.Wiring;

namespace Lampblack.Tests.Link;

/// <summary>A small railway yard's desk, wired by hand: one of everything.</summary>
internal static class YardPlan
{
    public static PinPlan Plan { get; } = new(
        [
            new()
            {
                Index = 0,
                Chip = ControllerChip.ATmega2560,
                Columns = [new('C', 0, "D37"), new('C', 1, "D36")],
                Rows = [new('A', 0, "D22"), new('A', 1, "D23"), new('A', 2, "D24")],
                Contacts =
                [
                    new("yard/points", new MatrixInput(0, 0)),
                    new("yard/points", new MatrixInput(1, 0)),
                    new("yard/call", new DirectInput(new('D', 0, "D21"))),
                    new("yard/road", new MatrixInput(0, 1)),
                    new("yard/road", new MatrixInput(1, 1)),
                    new("yard/road", new MatrixInput(0, 2)),
                ],
                Encoders = [new("yard/speed", new('L', 0, "D49"), new('L', 1, "D48"), 4)],
                Wipers = [new("yard/volume", new('F', 0, "A0"), 0)],
                Ladders = [new("yard/scene", new('F', 1, "A1"), 1, [new(0, 100), new(400, 600), new(900, 1023)])],
                Indicators = [new("yard/call.lamp", new DirectOutput(new('G', 0, "D41")))],
                Dimmers = [new("legends", new('H', 3, "D6"), 1000)],
            },
        ],
        [
            new() { Id = "yard/points", Name = "POINTS", Kind = WiredKind.States, Controller = 0, Contacts = [0, 1], States = [new("MAIN", [true, false]), new("OFF", [false, false]), new("LOOP", [false, true])] },
            new() { Id = "yard/call", Name = "CALL", Kind = WiredKind.States, Controller = 0, Contacts = [2], States = [new("out", [false]), new("in", [true])], Momentary = true },
            new()
            {
                Id = "yard/road", Name = "ROAD", Kind = WiredKind.States, Controller = 0, Contacts = [3, 4, 5], BreaksBetween = true,
                States = [.. Enumerable.Range(0, 3).Select(state => new WiredState($"{state + 1}", [.. Enumerable.Range(0, 3).Select(contact => contact == state)]))],
            },
            new() { Id = "yard/speed", Name = "SPEED", Kind = WiredKind.Encoder, Controller = 0, Number = 0 },
            new() { Id = "yard/volume", Name = "VOLUME", Kind = WiredKind.Analog, Controller = 0, Number = 0 },
            new() { Id = "yard/scene", Name = "SCENE", Kind = WiredKind.States, Controller = 0, Number = 0, BreaksBetween = true, States = [new("DAY", []), new("DUSK", []), new("NIGHT", [])] },
            new() { Id = "yard/call.lamp", Name = "CALL", Kind = WiredKind.Indicator, Controller = 0, Number = 0 },
        ]);
}
