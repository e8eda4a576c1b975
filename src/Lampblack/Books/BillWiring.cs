using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Circuits;
using Lampblack.Parts;
using Lampblack.Quantities;
using Lampblack.Wiring;

namespace Lampblack.Books;

/// <summary>What the wiring and the lamps' circuit are made of.</summary>
internal static class BillWiring
{
    private const int PullUpsOfChip = 8;
    private const string Diode = "lamp diode";

    public static IEnumerable<BillLine> Of(BookFacts facts) => [.. facts.Wiring is { } wiring ? OfWires(wiring, facts) : [], .. facts.Circuit is { } circuit ? OfCircuit(circuit, facts) : []];

    private static IEnumerable<BillLine> OfWires(BookWiring wiring, BookFacts facts)
    {
        foreach (var chip in wiring.Pins.Controllers.GroupBy(plan => plan.Chip))
        {
            yield return new($"controller-{chip.Key}".ToLowerInvariant(), $"board with an {chip.Key}, 5 V and 16 MHz, with a boot loader", chip.Count(), string.Empty, "reads and lights the panels", string.Empty) { Kind = "controller" };
            if (chip.Key == ControllerChip.ATmega32U4)
            {
                yield return new("serial-adapter", "USB-to-serial adapter of 5 V", chip.Count(), string.Empty, "the panel's talk with the computer", string.Empty);
                yield return new("adapter-socket", "socket row for the adapter's pins", chip.Count(), string.Empty, "ends of its three wires", string.Empty);
                yield return new("adapter-cable", "USB cable that carries data, for the adapter, unless it has its own", chip.Count(), string.Empty, "adapter to computer", string.Empty);
            }
        }

        yield return new("usb-cable", "USB cable that carries data, for the board", wiring.Pins.Controllers.Length, string.Empty, "board to computer", string.Empty);
        var wires = wiring.Wires.Panels.SelectMany(panel => panel.Wires).Select(wire => (wire.Colour, wire.Awg, wire.LengthMm));
        var cables = wiring.Wires.Panels.Where(panel => panel.Plug is not null).SelectMany(panel => panel.Plug!.Contacts.Select(contact => (Colour: CableColour(contact.Net, panel), panel.Wires[0].Awg, LengthMm: panel.CableMm)));
        var registers = RegisterWires.Of(wiring.Pins).Select(wire => (wire.Colour, AdapterWire.Awg, wire.LengthMm));
        var adapters = wiring.Wires.Nets.Adapters.Select(wire => (wire.Colour, AdapterWire.Awg, wire.LengthMm));
        foreach (var line in Stranded([.. wires, .. cables, .. registers, .. adapters, .. OfLamps(facts)], facts))
        {
            yield return line;
        }

        foreach (var plug in wiring.Wires.Panels.Select(panel => panel.Plug).OfType<PanelPlug>().GroupBy(plug => plug.Contacts.Length).OrderBy(group => group.Key))
        {
            yield return new($"plug-{Digits(plug.Key)}", $"plug and socket of {Digits(plug.Key)} contacts or more", plug.Count(), string.Empty, string.Join(", ", plug.Select(one => one.Name)), $"one that goes together one way only{(facts.LampBoards.FirstOrDefault(board => board.Notch is not null) is { } notched ? $"; its socket must pass a notch of {facts.Size(Math.Max(notched.Notch!.Area.WidthMm, notched.Notch.Area.HeightMm), Math.Min(notched.Notch.Area.WidthMm, notched.Notch.Area.HeightMm))}" : string.Empty)}") { Kind = "plug-pair" };
        }

        var ends = wiring.Wires.Nets.Nets.SelectMany(net => net.Terminals).ToList();
        var diodes = ends.Count(end => end.Inline is InlinePart.DiodeToTerminal or InlinePart.DiodeToWire);
        if (diodes > 0)
        {
            yield return new("diode-1n4148", "diode 1N4148", diodes, string.Empty, "at contacts that share their wires with others", "any small silicon diode");
        }

        var inputs = wiring.Pins.Controllers.Sum(plan => plan.Inputs?.ChipCount ?? 0);
        var outputs = wiring.Pins.Controllers.Sum(plan => plan.Outputs?.ChipCount ?? 0);
        var resistors = ends.Where(end => end.Inline == InlinePart.Resistor).Select(end => (Ohms: end.InlineOhms, Where: "between tags and wires"))
            .Concat(wiring.Wires.Nets.Resistors.Select(one => (Ohms: one.Ohms, Where: "from tag to tag")))
            .Concat(Enumerable.Repeat((Ohms: LadderDesign.PullUpOhms, Where: "at the controller"), wiring.Pins.Controllers.Sum(plan => plan.Ladders.Length)))
            .Concat(Enumerable.Repeat((Ohms: 10_000.0, Where: "at the shift registers"), inputs * PullUpsOfChip));
        foreach (var value in resistors.GroupBy(one => one.Ohms).OrderBy(group => group.Key))
        {
            yield return new($"resistor-{Digits(value.Key)}", $"resistor {CircuitWords.Ohms(value.Key)}, 1 %, 0.25 W", value.Count(), string.Empty, string.Join(", ", value.Select(one => one.Where).Distinct()), string.Empty) { Kind = "resistor" };
        }

        foreach (var (name, count) in new[] { ("74HC165", inputs), ("74HC595", outputs) }.Where(pair => pair.Item2 > 0))
        {
            yield return new($"register-{name}".ToLowerInvariant(), $"shift register {name}", count, string.Empty, "at the controller", string.Empty) { Kind = "register" };
        }

        if (inputs + outputs > 0)
        {
            yield return new("register-socket", "socket for a chip of 16 pins", inputs + outputs, string.Empty, "at the controller, one for each shift register", string.Empty);
            yield return new("register-board", $"perforated board, {facts.Size(RegisterBoard.SizeMm(facts).LongMm, RegisterBoard.SizeMm(facts).HighMm)}", 1, string.Empty, "carries the sockets, on the floor beside the controller", string.Empty);
            yield return new("capacitor-100n", "capacitor 100 nF", inputs + outputs, string.Empty, "one at each shift register", string.Empty);
        }
    }

    private static IEnumerable<BillLine> OfCircuit(CircuitPlan circuit, BookFacts facts) =>
    [
        .. facts.Wiring is null ? Stranded([.. OfLamps(facts)], facts) : [],
        .. OfParts(circuit, facts),
        new("joint-board", "perforated board", facts.LampBoards.Length, "strips", string.Join("; ", facts.LampBoards.Select(board => $"{board.Box.Panel}: {JointsSize(board, facts)}")), $"with single copper rings, no strips; for {(circuit.HasGates ? $"resistors and transistors{(circuit.HasPixels ? ", and what stands before the pixels" : string.Empty)}" : "what stands before the pixels")}, on the lamp boards' backs"),
        Long("bare-wire", "bare wire, 0.6 mm", facts.LampBoards.Sum(board => 4 * JointsPlace.LongMm(board)) + EndsMm(facts), $"rails of the perforated boards, from ring to ring{(EndsMm(facts) > 0 ? ", emitters' ends" : string.Empty)}", "bare-wire", facts.Maker.Unit),
        .. circuit.Wire.FuseAmperes is null ? ImmutableArray<BillLine>.Empty : [new("fuse-holder", "fuse holder for a wire", 1, string.Empty, "close to the supply", string.Empty)],
    ];

    /// <summary>Long side by short side of the strip that a board's resistors, transistors and what else stands before lamps are soldered to.</summary>
    public static string JointsSize(LampBoard board, BookFacts facts) => board.Stand == JointsStand.Outside
        ? facts.Size(JointsPlace.LongMm(board), JointsPlace.RowMm)
        : facts.Size(Math.Max(board.Joints.WidthMm, board.Joints.HeightMm), Math.Min(board.Joints.WidthMm, board.Joints.HeightMm));

    /// <summary>The lamps' wires but the pair.</summary>
    private static IEnumerable<(string Colour, int Awg, double LengthMm)> OfLamps(BookFacts facts) => facts.LampWires.All.Where(wire => !wire.IsPair).Select(wire => (wire.Colour, wire.Awg, wire.LengthMm));

    private static IEnumerable<BillLine> Stranded(ImmutableArray<(string Colour, int Awg, double LengthMm)> wires, BookFacts facts) =>
        from kind in wires.GroupBy(wire => (wire.Colour, wire.Awg)).OrderBy(kind => kind.Key.Awg).ThenBy(kind => kind.Key.Colour, StringComparer.Ordinal)
        let isUsual = kind.Key.Awg == RegisterWires.Awg
        select Long(string.Create(CultureInfo.InvariantCulture, $"wire-{kind.Key.Colour}{(isUsual ? string.Empty : $"-{kind.Key.Awg}")}"), string.Create(CultureInfo.InvariantCulture, $"{kind.Key.Colour} wire, stranded, AWG {kind.Key.Awg}"), kind.Sum(wire => wire.LengthMm), "wires and cables, slack included", "wire", facts.Maker.Unit);

    private static IEnumerable<BillLine> OfParts(CircuitPlan circuit, BookFacts facts) =>
        from part in CircuitParts.Of(circuit)
        group part by part.What == Diode ? (part.What, Value: LampName(facts), Rating: string.Empty) : (part.What, part.Value, part.Rating) into kind
        let key = Key(kind.Key.What, kind.Key.Value)
        select kind.Key.What == "wire, a pair"
            ? Long("wire-pair", $"wire, a pair, {kind.Key.Value}", facts.LampWires.Away.Where(wire => wire is { IsPair: true, Net: "plus" }).Select(wire => wire.LengthMm).DefaultIfEmpty(circuit.Wish.WireLengthMm).Sum(), "from the supply to the lamp boards", "wire-pair", facts.Maker.Unit)
            : kind.Key.What is "strip" or "pixel"
            ? OfStrip(kind.Key.What, kind.Sum(part => part.Count), string.Join("; ", Uses(kind)), $"rated {kind.Key.Rating}", facts)
            : new BillLine(key, $"{kind.Key.What}, {kind.Key.Value}", kind.Sum(part => part.Count), string.Empty, string.Join("; ", Uses(kind)), kind.Key.Rating.Length > 0 ? $"rated {kind.Key.Rating}" : string.Empty) { Kind = KindOf(kind.Key.What) };

    /// <summary>One kind of lamp is bought, however bright each channel drives it.</summary>
    private static string LampName(BookFacts facts) =>
        $"{(facts.LampType is { Form: EmitterForm.Single } single ? single.Name : EmitterTypes.InCells.Name)}, {Colour(facts.Laid.Desk.Light)}";

    /// <summary>Strips are bought by the metre, of which the bill counts pieces or pixels.</summary>
    private static BillLine OfStrip(string kind, int count, string usedFor, string rated, BookFacts facts)
    {
        var (name, isPixels) = (facts.LampType!.Name, kind == "pixel");
        var unit = isPixels ? "pixels" : "pieces";
        return new(kind, $"{char.ToLowerInvariant(name[0])}{name[1..]}{(isPixels ? string.Empty : $", {Colour(facts.Laid.Desk.Light)}")}", count, unit, usedFor, rated) { Count = string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? unit[..^1] : unit)}") };
    }

    private static string Colour(EmitterColour colour) => colour switch
    {
        EmitterColour.WarmWhite => "warm white",
        EmitterColour.CoolWhite => "cool white",
        var one => one.ToString().ToLowerInvariant(),
    };

    /// <summary>What is used alike is told once, by all its names: a channel stands before the colon of each note.</summary>
    private static IEnumerable<string> Uses(IEnumerable<CircuitPart> parts) =>
        parts.GroupBy(part => part.Note[(part.Note.IndexOf(": ", StringComparison.Ordinal) is >= 0 and var colon ? colon + 2 : 0)..], StringComparer.Ordinal)
            .Select(same => same.Count() > 1 && same.Select(part => part.Label).Where(label => label.Length > 0).Distinct().ToList() is { Count: > 0 } labels ? $"{string.Join(", ", labels)}: {same.Key}" : Use(same.First()));

    private static string Use(CircuitPart part) => part.Label.Length > 0 ? $"{part.Label}: {part.Note}" : part.Note;

    private static string Key(string what, string value) => what == "resistor" ? $"lamp-resistor-{Plain(value)}" : KindOf(what);

    private static string KindOf(string what) => what switch
    {
        Diode => "lamp-diode",
        "transistor, N-channel MOSFET" => "transistor",
        "capacitor, electrolytic" => "capacitor-electrolytic",
        "fuse, slow" => "fuse",
        "level shifter" => "level-shifter",
        var plain => plain,
    };

    private static string Plain(string value) => value.Replace(" ", string.Empty, StringComparison.Ordinal).Replace("Ω", string.Empty, StringComparison.Ordinal).ToLowerInvariant();

    private static BillLine Long(string key, string what, double mm, string usedFor, string kind, LengthUnit unit) =>
        new(key, what, Math.Ceiling(mm / 100) / 10, "m", usedFor, string.Empty) { Kind = kind, Count = LengthWords.Long(mm, unit) };

    /// <summary>Emitters without legs get two wires each, of 25 mm.</summary>
    private static double EndsMm(BookFacts facts) => LampWires.IsLegged(facts) || facts.LampType is { Form: not EmitterForm.Single } ? 0 : 50 * facts.Lamps.Length;

    /// <summary>A cable has the colours of the wires that it goes on from.</summary>
    internal static string CableColour(string net, PanelWires panel) => panel.Wires.FirstOrDefault(wire => wire.Net == net)?.Colour ?? "any";

    private static string Digits(double number) => number.ToString("0.#", CultureInfo.InvariantCulture);
}
