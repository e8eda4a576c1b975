using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Circuits;
using Lampblack.Parts;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>The lamps' circuit is soldered on the back of each lamp board, by pictures and rows, and tried by itself.</summary>
internal static class FeedStep
{
    // A supply of 12 V, a strip's tolerance and a cheap meter together. From memory, no source.
    private const double MeterShare = 0.1;

    // A pixel that is told nothing takes 1 mA or less. From memory; twice that is let pass.
    private const double DarkPixelAmperes = 0.002;

    public static BookStep Of(CircuitPlan circuit, BookFacts facts)
    {
        var (wires, isLegged) = (facts.LampWires, LampWires.IsLegged(facts));
        var isSingle = facts.LampType is { Form: EmitterForm.Single } || !facts.Cells.IsEmpty;
        var (end, many) = (isLegged ? "leg" : "wire", wires.Boards.Length > 1);
        var count = wires.All.Count();
        var isGlued = wires.Boards.Any(board => board.Board.Stand is not (JointsStand.Raised or JointsStand.Outside));
        return new(
            "feed",
            "Solder the lamps' circuit and try it by itself",
            BookTimes.FirstLight + (circuit.Channels.Length * BookTimes.Channel) + (count * BookTimes.Wire),
            [
                new Doings(
                [
                    "Saw the perforated board to its size along a row of holes, and take its burr off with the file.",
                    $"{(many ? "The lamp boards still lie" : "The lamp board still lies")} on the bench, {(many ? "their backs" : "its back")} up: all joints are there. {string.Join(" ", wires.Boards.Select(board => Strip(board.Board, facts, many)))}{(isGlued ? " Let the wood glue dry before anything is soldered." : string.Empty)}",
                    "Of the perforated board the copper is up: bend each part’s legs, lay them on the copper rings, and solder them there; a bit of bare wire leads from one ring to the next. The rows of its picture lie side by side on it, from left to right.",
                    .. circuit.HasGates ? ["Static destroys a transistor that hangs on no wire: take each out of its bag last, touch the bare metal of a water tap or radiator before, and hold it by its middle."] : ImmutableArray<string>.Empty,
                    $"On the perforated board solder two bare wires as rails, plus and 0 V, and between them, part by part, what the {(circuit.HasGates ? $"picture of the perforated board shows{(circuit.HasPixels ? ", and before pixels what the circuit drawing shows" : string.Empty)}. Everything has its name there: {Code("light/circuit.svg")} is the same as a circuit drawing" : $"circuit drawing below shows before the pixels ({Code("light/circuit.svg")})")}.",
                    $"Then wire by wire, by the table: cut it as long as the table says, strip its ends, write its number on both, and solder it from one end to the other.{(isSingle ? $" From behind each emitter's long {end} (plus) is at the LEFT, as in the picture: look at every one. Cut the {end}s short when all of its wires are on." : string.Empty)} Sleeves over what is bare, shrunk with hot air.",
                    $"Last what leads away: {(facts.Wiring is null ? "the supply's pair" : $"a wire from {Ends(circuit)} for the controller, its channel written on it, 0 V for the controller, and the supply's pair")}, {CircuitWords.Wire(circuit.Wire.Gauge)} or thicker (thinner strands slip out of a clamp and break beside a joint){(circuit.Wire.FuseAmperes is { } amperes ? Text($", with the fuse of {CircuitWords.Amperes(amperes)} in its holder close to the supply") : string.Empty)}. Leave one joint of the plus wire open, the one at the board’s plus rail: the meter goes into that gap.",
                    Supply(circuit),
                ]),
                new PictureRow([LampJointsDrawing.Legs(facts.LampType is { Form: EmitterForm.Single }, isLegged, facts.LampType is { } type && LampDrawings.IsRound(type), circuit.HasGates, circuit.HasPixels)]),
                .. wires.Boards.SelectMany(board => Board(board.Board, board.Wires, wires.Away, facts)),
                .. Pixels(circuit, facts),
                LampWireTables.Away(wires.Away, facts),
                LampWireTables.Bench(wires, facts),
                new Doings([.. Trial(circuit)]),
                new BookTable(
                    "What each channel takes",
                    ["Channel", "Made of", "At full", MostHead(circuit)],
                    [.. circuit.Channels.Zip(circuit.Names, (channel, name) => new BookRow("channel", name, [Text(name), Text(MadeOf(channel)), CircuitWords.Amperes(channel.NominalAmperes), Most(channel, circuit)]))],
                    IsTicked: true),
            ],
            new(
                $"Each channel takes no more than the table's last column at {CircuitWords.Volts(circuit.Wish.SupplyVolts)}; {(circuit.HasGates ? circuit.HasPixels ? "every emitter of a channel with a gate lights; " : "every emitter lights; " : string.Empty)}nothing gets too hot to touch.",
                $"More than that: switch off, look for a solder bridge or a {(circuit.HasGates ? "resistor of the wrong value" : "piece whose plus and 0 V are exchanged")}.{(circuit.HasGates ? " One string dark: a lamp the wrong way round. A channel that is never dark: its transistor's legs are exchanged. All dark: the fuse, the polarity of the supply." : " Nothing at all on the meter: the fuse, the polarity of the supply.")}"))
        {
            WaitMinutes = isGlued ? BookTimes.WoodGlueDries : 0,
            Tools = [Tool.WoodSaw, Tool.File, Tool.Iron, Tool.Cutter, Tool.Stripper, Tool.HotAir, Tool.LabelPen, Tool.Meter, .. circuit.HasGates ? [Tool.Cells] : ImmutableArray<BookTool>.Empty],
            Materials = ["what the bill lists for the circuit", "perforated board", .. isGlued ? ["wood glue"] : ImmutableArray<string>.Empty, "bare wire, 0.6 mm", "wire in the colours of the table", "solder", "sleeves that shrink", "black tape"],
            Cautions = [Caution.Dust, Caution.Solder, Caution.Heat, Caution.Supply],
            Needs = [Made.LampsPlaced],
            Makes = [Made.LampsFed],
        };
    }

    /// <summary>Which of its two wires is plus is measured, before anything hangs on them: what colours and stripes mean differs. Common practice, no source.</summary>
    private static string Supply(CircuitPlan circuit) =>
        $"The supply’s own lead, unplugged: cut its small plug off, strip both wires, and bend them apart. Plug the supply in, touch nothing bare, and hold the meter at volts to them: it shows about {CircuitWords.Volts(circuit.Wish.SupplyVolts)}, and without a minus sign its red lead is at plus. Mark that wire red, pull the plug out, and join them: plus to {(circuit.Wire.FuseAmperes is null ? "the plus of the pair" : "the fuse’s holder")}, the other to the pair’s 0 V, a sleeve over each.";

    /// <summary>The supply comes on for the first time.</summary>
    private static IEnumerable<string> Trial(CircuitPlan circuit)
    {
        const string VoltsAgain = "Then pull the supply’s plug, and put the red lead back into the socket for volts: a meter left at amperes is a short to whatever it touches next.";
        string?[] why = [circuit.HasGates ? "the resistors from gate to 0 V see to it" : null, circuit.HasPixels ? "pixels wait for data" : null];
        yield return $"When every row of the meter is ticked: put the meter into the gap that you left in the plus wire, between the wire and the board's plus rail, never across plus and 0 V; {(circuit.HasPixels ? "at its range for amperes, as a large capacitor fills through it, and only when it shows less than its range for milliamperes holds, at that" : "at its range for milliamperes where the table says mA")}, its red lead in the socket of that range, and switch the supply on. All is dark: {string.Join(", and ", why.OfType<string>())}.";
        if (circuit.HasGates)
        {
            yield return $"Touch one gate wire after the other with the plus of three fresh AA cells (4.5 V), their minus on 0 V: its channel lights, and the meter says how much it takes. {(circuit.HasPixels ? string.Empty : VoltsAgain)}".TrimEnd();
        }

        if (circuit.HasPixels)
        {
            yield return $"Leave every data wire alone: pixels have no gate, and cells at a data wire light none of them. What the meter says is what they take in the dark; they light when a controller sends them data. {VoltsAgain}";
        }

        yield return "When the table below is ticked: with the supply’s plug pulled, solder the plus wire to its rail, and shrink a sleeve over the joint.";
    }

    private static string MostHead(CircuitPlan circuit)
    {
        string?[] more =
        [
            circuit.HasGates ? $"{MeterShare * 100:0} % more than the circuit's own tolerances" : null,
            circuit.HasGates && circuit.HasPixels ? "and what all pixels take in the dark" : null,
        ];
        return more.OfType<string>().Any() ? $"At most on the meter ({string.Join(", ", more.OfType<string>())})" : "At most on the meter";
    }

    /// <summary>What the meter may say on the bench. It stands before all boards: pixels take their dark current whatever is tried, and nothing parts those of one panel from the rest.</summary>
    private static string Most(ChannelPlan channel, CircuitPlan circuit)
    {
        var pixels = circuit.Channels.Where(one => one.Pixels is not null).ToList();
        var dark = DarkPixelAmperes * pixels.Sum(one => one.Channel.Count);
        return channel.Pixels is null
            ? CircuitWords.Amperes((channel.HighestAmperes * (1 + MeterShare)) + dark)
            : $"{CircuitWords.Amperes(dark)}, dark, without data{(pixels.Count > 1 ? ", all pixels of the desk together" : string.Empty)}";
    }

    /// <summary>What the controller's wires come from.</summary>
    private static string Ends(CircuitPlan circuit)
    {
        string?[] ends =
        [
            circuit.HasGates ? "each gate resistor" : null,
            circuit.Channels.Any(channel => channel.Pixels is { NeedsShifter: true }) ? "each level shifter" : null,
            circuit.Channels.Any(channel => channel.Pixels is { NeedsShifter: false }) ? "each data resistor" : null,
        ];
        return string.Join(" and ", ends.OfType<string>());
    }

    private static string Strip(LampBoard board, BookFacts facts, bool isNamed)
    {
        var size = BillWiring.JointsSize(board, facts);
        var on = isNamed ? $" of {Text(board.Box.Panel)}" : string.Empty;
        return board.Stand switch
        {
            JointsStand.Raised => $"The back{on} has no free place for the strip of perforated board, {size}: stand it on spacers, over joints that are soldered and tried before.",
            JointsStand.Outside => $"The strip of perforated board{on}, {size}, is larger than the box: it lies outside in a small case of its own, between the supply and the box, and its wires leave the box by the supply's slot. They are so much longer.",
            _ => $"Glue the strip of perforated board{on}, {size}, flat where the picture of the board’s back has it, its copper towards you.",
        };
    }

    private static IEnumerable<BookBlock> Board(LampBoard board, ImmutableArray<LampWire> wires, ImmutableArray<LampWire> away, BookFacts facts)
    {
        foreach (var picture in LampBoardDrawing.Of(board, wires, LampWires.IsLegged(facts)))
        {
            yield return new PictureRow([picture]);
        }

        foreach (var picture in LampJointsDrawing.Of(board, wires, away))
        {
            yield return new PictureRow([picture]);
        }

        yield return LampWireTables.Board(board, wires, facts);
    }

    /// <summary>What stands before pixels is drawn as a circuit alone.</summary>
    private static IEnumerable<BookBlock> Pixels(CircuitPlan circuit, BookFacts facts) =>
        Enumerable.Range(1, circuit.Channels.Length).Select(page => facts.Picture(string.Create(CultureInfo.InvariantCulture, $"circuit/{page}"))).OfType<BookBlock>();

    private static string MadeOf(ChannelPlan channel) => channel.Pixels is not null
        ? CircuitWords.Count(channel.Channel.Count, "pixel", "pixels")
        : channel.Strings.IsEmpty
        ? CircuitWords.Count(channel.Channel.Count, "emitter", "emitters")
        : string.Join(", ", channel.Strings.Select(each => string.Create(CultureInfo.InvariantCulture, $"{each.StringCount} x {each.String.DiodeCount} in series with {CircuitWords.Ohms(each.String.ResistorOhms)}")));
}
