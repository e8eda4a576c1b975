using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Firmware;
using Lampblack.Parts;
using Lampblack.Wiring;

namespace Lampblack.Tests.Peers.Avr;

/// <summary>Plans made by hand, one for each way of wiring, and plans made by chance.</summary>
internal static class BenchPlans
{
    private const string Ports = "ABCDEFGHJKL";

    public static ControllerPin Pin(string name) => new(name[1], name[2] - '0', string.Empty);

    public static ImmutableArray<ControllerPin> Pins(params string[] names) => [.. names.Select(Pin)];

    public static ImmutableArray<ControllerPin> Port(char port, int count = 8) => [.. Enumerable.Range(0, count).Select(bit => new ControllerPin(port, bit, string.Empty))];

    /// <summary>Contacts on pins of their own.</summary>
    public static ControllerPlan Direct(ControllerChip chip) => new()
    {
        Index = 0,
        Chip = chip,
        Contacts =
        [
            .. (chip == ControllerChip.ATmega2560 ? [.. Port('A'), .. Port('L'), .. Pins("PG0", "PG5", "PE4")] : chip == ControllerChip.ATmega328P ? [.. Pins("PD2", "PD4", "PD7", "PB0", "PB5"), .. Port('C', 6)]
                : (ImmutableArray<ControllerPin>)[.. Port('B'), .. Pins("PC6", "PD0", "PD7", "PE6", "PF0", "PF7")])
                .Select((pin, index) => new PlannedContact($"dome/switch-{index}", new DirectInput(pin), Steady: index % 5 == 4)),
        ],
    };

    /// <summary>A matrix of columns and rows with diodes.</summary>
    public static ControllerPlan Matrix(ControllerChip chip, ImmutableArray<ControllerPin> columns, ImmutableArray<ControllerPin> rows, Func<int, int, bool>? isThere = null) => new()
    {
        Index = 0,
        Chip = chip,
        Columns = columns,
        Rows = rows,
        Contacts =
        [
            .. from column in Enumerable.Range(0, columns.Length)
               from row in Enumerable.Range(0, rows.Length)
               where isThere?.Invoke(column, row) ?? true
               select new PlannedContact($"yard/point-{column}-{row}", new MatrixInput(column, row), Steady: (column + row) % 7 == 6),
        ],
    };

    /// <summary>25 columns, and 8 rows that are one whole port: 200 contacts.</summary>
    public static ControllerPlan WholePorts() => Matrix(ControllerChip.ATmega2560, [.. Port('C'), .. Port('L'), .. Port('J'), Pin("PG0")], Port('A'));

    /// <summary>Chains of shift registers both ways.</summary>
    public static ControllerPlan Chains(ControllerChip chip, int inputChips, int outputChips) => new()
    {
        Index = 1,
        Chip = chip,
        Inputs = new(Pin("PB0"), Pin("PB1"), Pin("PB2"), inputChips),
        Outputs = new(Pin("PB3"), Pin("PB4"), Pin("PB5"), outputChips),
        Contacts = [.. Enumerable.Range(0, inputChips * 8).Select(index => new PlannedContact($"yard/lever-{index}", new ChainInput(index / 8, index % 8)))],
        Indicators = [.. Enumerable.Range(0, outputChips * 8).Select(index => new PlannedIndicator($"yard/lamp-{index}", new ChainOutput(index / 8, index % 8)))],
    };

    /// <summary>Everything that a chip can have at once, on a small scale.</summary>
    public static ControllerPlan Everything(ControllerChip chip)
    {
        var (columns, rows, direct, phases, wipers, ladder, lamps, dimmers) = chip switch
        {
            ControllerChip.ATmega2560 => (Port('A', 6), Port('C'), Pins("PG0", "PG1"), Pins("PL0", "PL1", "PL6", "PL7", "PD0", "PD1", "PB0", "PB1"), 6, 6, Pins("PJ0", "PJ1"), Pins("PB5", "PH6", "PL3", "PG5", "PB7")),
            ControllerChip.ATmega328P => (Pins("PD2"), Pins("PD6", "PD7"), Pins("PB0"), Pins("PD4", "PB4"), 3, 3, Pins("PB5"), Pins("PB1", "PB3", "PD5")),
            _ => (Pins("PB0", "PB1"), Pins("PB2", "PB3"), Pins("PE6"), Pins("PD1", "PD4", "PD6", "PD7"), 2, 4, Pins("PE2"), Pins("PB5", "PC6", "PD0")),
        };
        return Matrix(chip, columns, rows) with
        {
            Contacts = [.. Matrix(chip, columns, rows).Contacts, .. direct.Select((pin, index) => new PlannedContact($"kiln/push-{index}", new DirectInput(pin)))],
            Encoders = [.. phases.Chunk(2).Select((pair, index) => new PlannedEncoder($"dome/focus-{index}", pair[0], pair[1], 4))],
            Wipers = [.. Enumerable.Range(0, wipers).Select(channel => new PlannedWiper($"dome/dew-{channel}", Pin(EnginePins.AnalogPin(chip, channel)), channel))],
            Ladders = [new("dome/filter", Pin(EnginePins.AnalogPin(chip, ladder)), ladder, [new(0, 40), new(150, 220), new(330, 400), new(500, 580), new(700, 780), new(880, 940)])],
            Indicators = [.. lamps.Select((pin, index) => new PlannedIndicator($"kiln/lamp-{index}", new DirectOutput(pin)))],
            Dimmers = [.. dimmers.Select((pin, index) => new PlannedDimmer($"channel {index}", pin, 3125))],
        };
    }

    /// <summary>A plan of any kind, with at most 200 contacts.</summary>
    public static ControllerPlan ByChance(Random random)
    {
        var chip = (ControllerChip)random.Next(3);
        var limits = EngineLimits.Of(chip);
        List<ControllerPin> free =
        [
            .. from port in Ports
               from bit in Enumerable.Range(0, 8)
               let pin = new ControllerPin(port, bit, string.Empty)
               where EnginePins.Exists(chip, pin) && EnginePins.KeptFor(chip, pin) is null
               select pin,
        ];
        var plan = new ControllerPlan { Index = random.Next(3), Chip = chip, Baud = 250_000 };
        plan = WithAnalog(plan, free, random);
        plan = WithDimmers(plan, free, random);
        ControllerPin[] mixed = [.. free];
        random.Shuffle(mixed);
        var pins = new Queue<ControllerPin>(mixed);
        plan = plan with
        {
            Encoders = [.. Enumerable.Range(0, random.Next(Math.Min(limits.Encoders, pins.Count / 6) + 1)).Select(index => new PlannedEncoder($"dome/knob-{index}", pins.Dequeue(), pins.Dequeue(), 4))],
        };
        if (pins.Count >= 8 && random.Next(2) == 0)
        {
            plan = plan with { Inputs = new(pins.Dequeue(), pins.Dequeue(), pins.Dequeue(), random.Next(1, 7)) };
        }

        if (pins.Count >= 8 && random.Next(2) == 0)
        {
            plan = plan with { Outputs = new(pins.Dequeue(), pins.Dequeue(), pins.Dequeue(), random.Next(1, 5)) };
        }

        var direct = Take(pins, random.Next(Math.Min(pins.Count / 2, 12) + 1));
        var lamps = Take(pins, random.Next(Math.Min(pins.Count / 3, 6) + 1));
        if (pins.Count >= 4)
        {
            plan = plan with { Columns = [.. Take(pins, random.Next(1, Math.Min(pins.Count / 2, 16) + 1))] };
            plan = plan with { Rows = [.. Take(pins, random.Next(1, Math.Min(pins.Count, chip == ControllerChip.ATmega2560 ? 12 : 6) + 1))] };
        }

        return WithContacts(plan, direct, lamps, random);
    }

    private static ControllerPlan WithContacts(ControllerPlan plan, List<ControllerPin> direct, List<ControllerPin> lamps, Random random)
    {
        InputPlace[] places =
        [
            .. direct.Select(pin => new DirectInput(pin)),
            .. from column in Enumerable.Range(0, plan.Columns.Length) from row in Enumerable.Range(0, plan.Rows.Length) where random.Next(8) != 0 select new MatrixInput(column, row),
            .. Enumerable.Range(0, (plan.Inputs?.ChipCount ?? 0) * 8).Where(_ => random.Next(8) != 0).Select(index => new ChainInput(index / 8, index % 8)),
        ];
        random.Shuffle(places);
        return plan with
        {
            Contacts = [.. places.Take(200).Select((place, index) => new PlannedContact($"yard/{index}", place, random.Next(6) == 0))],
            Indicators =
            [
                .. lamps.Select((pin, index) => new PlannedIndicator($"yard/lamp-{index}", new DirectOutput(pin))),
                .. Enumerable.Range(0, (plan.Outputs?.ChipCount ?? 0) * 8).Select(index => new PlannedIndicator($"yard/out-{index}", new ChainOutput(index / 8, index % 8))),
            ],
        };
    }

    /// <summary>Channels below 8 only: libsimavr 1.6 has the others wrong.</summary>
    private static ControllerPlan WithAnalog(ControllerPlan plan, List<ControllerPin> free, Random random)
    {
        List<(ControllerPin Pin, int Channel)> analog = [.. Enumerable.Range(0, 8).Select(channel => (EnginePins.AnalogPin(plan.Chip, channel), channel)).Where(pair => pair.Item1.Length > 0 && random.Next(2) == 0).Select(pair => (Pin(pair.Item1), pair.channel))];
        free.RemoveAll(pin => analog.Any(pair => pair.Pin.Name == pin.Name));
        var ladders = Math.Min(analog.Count, random.Next(3));
        return plan with
        {
            Wipers = [.. analog.Skip(ladders).Select(pair => new PlannedWiper($"kiln/knob-{pair.Channel}", pair.Pin, pair.Channel))],
            Ladders = [.. analog.Take(ladders).Select(pair => new PlannedLadder($"kiln/selector-{pair.Channel}", pair.Pin, pair.Channel, Windows(random.Next(2, 13))))],
        };
    }

    private static ImmutableArray<LadderWindow> Windows(int count) =>
        [.. Enumerable.Range(0, count).Select(index => (Low: 1000 * index / count, Width: 500 / count)).Select(window => new LadderWindow(window.Low, window.Low + window.Width))];

    private static ControllerPlan WithDimmers(ControllerPlan plan, List<ControllerPin> free, Random random)
    {
        List<ControllerPin> pins = [.. EnginePins.Dimmable(plan.Chip).Where(name => free.Any(pin => pin.Name == name) && random.Next(4) == 0).Select(Pin)];
        free.RemoveAll(pin => pins.Any(used => used.Name == pin.Name));
        return plan with { Dimmers = [.. pins.Select((pin, index) => new PlannedDimmer($"channel {index}", pin, random.Next(2) == 0 ? 1250 : 3125))] };
    }

    private static List<ControllerPin> Take(Queue<ControllerPin> pins, int count) => [.. Enumerable.Range(0, Math.Min(count, pins.Count)).Select(_ => pins.Dequeue())];
}
