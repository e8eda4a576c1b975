using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Circuits;
using Lampblack.Parts;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>The box behind the panels, the emitters in it, and what feeds them.</summary>
internal static class LampsChapter
{
    // A supply of 12 V, a strip's tolerance and a cheap meter together. From memory, no source.
    private const double MeterShare = 0.1;

    /// <summary>The chapter; null where no light is planned.</summary>
    public static BookChapter? Of(BookFacts facts) => facts.Lamps.IsEmpty
        ? null
        : new("lamps", "Lamps and their circuit", [Box(facts), .. facts.Laid.Panels.Select(panel => Place(panel.Panel.Id, panel.Panel.Title, facts)).OfType<BookStep>(), .. facts.Circuit is { } circuit ? [Feed(circuit, facts)] : ImmutableArray<BookStep>.Empty]);

    /// <summary>The finished desk is lit by its own supply.</summary>
    public static BookStep Lit(BookFacts facts, ImmutableArray<Made> needs) => new(
        "look-lit",
        "Light the desk",
        BookTimes.LookLit,
        [
            new Doings([facts.Wiring is null ? "Switch the lamps' supply on." : "Panels laid on their boxes, the controller on its USB, every control called: switch the lamps' supply on. Call the roll's rows of lamps again: the program turns each fully on and asks whether you see it.", "Look at it from where you sit, in the room as it will be, then in the dark.", .. facts.Cells.IsEmpty ? ImmutableArray<string>.Empty : ["Legends with a light of their own shine only while their output is on: the picture shows them dark."]]),
            .. facts.Laid.Panels.Select(panel => facts.Picture($"{panel.Panel.Id}/lit")).OfType<BookBlock>(),
        ],
        new(
            string.Create(CultureInfo.InvariantCulture, $"Every legend is lit as in the picture, none more than about {facts.EvennessFactor:0.#} times as bright as another of its colour; nothing flickers."),
            "A dark legend: an emitter that does not light, or a wire before it. A bright spot: an emitter too near; look whether the box is as deep as planned. Hot or a smell: switch off at once, look for a short."))
    {
        Cautions = [Caution.Supply, Caution.Volts],
        Needs = needs,
        Makes = [Made.Lit],
    };

    private static BookStep Box(BookFacts facts) => new(
        "box",
        "Build the box",
        BookTimes.BuildBox + (facts.Cells.Length * BookTimes.FoldCell),
        [
            new PictureRow([BoxDrawings.Box(facts, facts.Boxes[0], facts.Laid.Panels.Any(panel => panel.Panel.Fixings is not null))]),
            new Doings(
            [
                $"A floor {facts.Ruler(facts.BoxDepthMm)} behind the plate's back, walls round it, white inside and tight to light: inside {string.Join("; ", facts.Boxes.Select(box => $"{Text(box.Panel)} {facts.Size(box.WidthMm, box.HeightMm)}"))}. Leave a way out for the loom and the lamps' wire.",
                "Where the panels are screwed down, glue a block of wood into each corner, with a nut let into it or a threaded insert for the panel's screw: a machine screw does not hold in wood alone.",
                .. facts.Cells.IsEmpty ? ImmutableArray<string>.Empty : [$"Cut the cells' walls out of card by {Code("light/cells.pdf")} (true size), fold, glue, and stand them on the floor where the next step's drawing shows them; they just touch the panel."],
            ]),
            .. facts.Cells.IsEmpty
                ? ImmutableArray<BookBlock>.Empty
                : [new BookTable("Cells, each with a light of its own", ["Panel", "Legend", "Inside"], [.. facts.Cells.Select(cell => new BookRow("cell", $"{cell.Panel}:{cell.Words}", [Text(cell.Panel), Text(cell.Words), $"{facts.Number(cell.WidthMm)} x {facts.Exact(cell.HeightMm)}"]))], IsTicked: true)],
        ],
        new($"The floor lies {facts.Ruler(facts.BoxDepthMm)} behind the plate, within {facts.Ruler(2)}, all over; with a lamp inside and the lid on no seam glows.", "Too deep or too shallow: write the real depth into the desk file, build again: the emitters move. Seams: black tape."))
    {
        Tools = ["saw or knife for the board", "glue", "ruler"],
        Materials = ["board", .. facts.Cells.IsEmpty ? ImmutableArray<string>.Empty : ["card"], "white paint"],
        Cautions = [Caution.Paint, Caution.Knife],
        Needs = [Made.Goods],
        Makes = [Made.Box],
    };

    private static BookStep? Place(string panel, string title, BookFacts facts)
    {
        ImmutableArray<BookLamp> lamps = [.. facts.Lamps.Where(lamp => lamp.Panel == panel)];
        if (lamps.IsEmpty)
        {
            return null;
        }

        var unit = Quantities.LengthWords.Name(facts.Maker.Unit);
        return new(
            $"lamps-{panel}",
            $"Put the emitters behind {title}",
            lamps.Length * BookTimes.PlaceLamp,
            [
                new Doings([$"Print {Code($"light/{panel}-emitters.pdf")} at actual size and lay it on the floor: it is drawn as seen from the front. One emitter ({Text(facts.LampKind)}) goes on every cross.", Mount(facts.LampType)]),
                .. facts.Picture($"{panel}/emitters") is { } picture ? [picture] : ImmutableArray<BookBlock>.Empty,
                new BookTable(
                    $"Emitters of {Text(title)}: places from the panel's lower left corner, seen from the front",
                    ["No", $"x, {unit}", $"y, {unit}", "Fed by"],
                    [.. lamps.Select(lamp => new BookRow("lamp", $"{panel}:{lamp.Number}", [$"{lamp.Number}", facts.Number(lamp.XMm), facts.Number(lamp.YMm), Text(lamp.Channel)]))],
                    IsTicked: true),
            ],
            new($"{lamps.Length} {(lamps.Length == 1 ? "emitter lies" : "emitters lie")} on {(lamps.Length == 1 ? "its cross" : "their crosses")} within {facts.Ruler(2)}; with the panel laid on its box no part of it touches one. (A body may end above an emitter: the plan has counted with its shadow.)", "On the wrong place: move it, a dark spot on the panel will not go away later. A part that touches: the box is not as deep as planned; measure it, write its depth into the desk file, and build again."))
        {
            Tools = ["soldering iron", "scissors"],
            Materials = [Text(facts.LampKind)],
            Cautions = [Caution.Solder],
            Needs = [Made.Box],
            Makes = [Made.LampsPlaced],
        };
    }

    /// <summary>What holds an emitter. Common practice, no source.</summary>
    private static string Mount(EmitterType? type) => type is { Form: not EmitterForm.Single }
        ? "Cut the strip at its marks, press its pieces down on their glue, and join them with short wires, plus to plus."
        : type is { HasLegs: true } ? "Stick the drawing on a piece of hard board or perforated board and prick its crosses through; put the legs through, bend them behind, join them there as the circuit shows, and glue the board on the floor, white side up."
        : "Solder each to a scrap of perforated board with copper dots, or to two short bare wires, glue it on its cross, and join them as the circuit shows.";

    private static BookStep Feed(CircuitPlan circuit, BookFacts facts)
    {
        var fuse = circuit.Wire.FuseAmperes is { } amperes ? $" and the fuse of {CircuitWords.Amperes(amperes)}, close to the supply" : string.Empty;
        return new(
            "feed",
            "Solder the lamps' circuit and try it by itself",
            BookTimes.FirstLight + (circuit.Channels.Length * BookTimes.Channel),
            [
                new Doings(
                [
                    $"{Code("light/circuit.svg")} is the same drawing as a file: open it on a screen, or print it on a larger sheet, where this one is too small. Solder what it shows, channel by channel; the flat side or shorter leg of a lamp looks to 0 V. Last come the supply's pair, {CircuitWords.Wire(circuit.Wire.Gauge)} or thicker (thinner strands slip out of a clamp and break beside a joint){Text(fuse)}.",
                    "Look for shorts: the meter must not beep between plus and 0 V.",
                    "Put the meter between supply and plus, at its range for milliamperes where the table says mA, its red lead in the socket of that range, and switch the supply on. All is dark: the resistors from gate to 0 V see to it.",
                    "Touch one gate's resistor after the other with the plus of three fresh AA cells (4.5 V), their minus on 0 V: its channel lights, and the meter says how much it takes. Then put the red lead back into the socket for volts: a meter left at amperes is a short to whatever it touches next.",
                ]),
                new BookTable(
                    "What each channel takes",
                    ["Channel", "Made of", "At full", "At most"],
                    [.. circuit.Channels.Select(channel => new BookRow("channel", channel.Channel.Name, [Text(channel.Channel.Name), Text(MadeOf(channel)), CircuitWords.Amperes(channel.NominalAmperes), CircuitWords.Amperes(channel.HighestAmperes * (1 + MeterShare))]))],
                    IsTicked: true),
                .. facts.PageOf("circuit") is { } picture ? [picture] : ImmutableArray<BookBlock>.Empty,
            ],
            new(
                $"Each channel takes no more than the table's last column at {CircuitWords.Volts(circuit.Wish.SupplyVolts)}; every emitter lights; nothing gets too hot to touch.",
                "More than that: switch off, look for a solder bridge or a resistor of the wrong value. One string dark: a lamp the wrong way round. All dark: the fuse, the polarity of the supply."))
        {
            Tools = ["soldering iron", "meter", "three AA cells"],
            Materials = ["what the bill lists for the circuit"],
            Cautions = [Caution.Solder, Caution.Supply],
            Needs = [Made.LampsPlaced],
            Makes = [Made.LampsFed],
        };
    }

    private static string MadeOf(ChannelPlan channel) => channel.Strings.IsEmpty
        ? CircuitWords.Count(channel.Channel.Count, "emitter", "emitters")
        : string.Join(", ", channel.Strings.Select(each => string.Create(CultureInfo.InvariantCulture, $"{each.StringCount} x {each.String.DiodeCount} in series with {CircuitWords.Ohms(each.String.ResistorOhms)}")));
}
