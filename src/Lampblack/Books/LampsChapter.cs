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
    private const double GateWireMm = 300;

    // Legs are 0.5 to 0.6 mm thick. From memory.
    private static readonly BookTool LegDrill = new(Tool.Drills) { Sizes = [new(1, "1 mm")] };

    /// <summary>
    /// The chapter; null where no light is planned. What is soldered is soldered on the bench: the lamp board is made and tried before it goes into the box, and
    /// the cells, which hide their emitters, come last.
    /// </summary>
    public static BookChapter? Of(BookFacts facts) => facts.Lamps.IsEmpty
        ? null
        : new(
            "lamps",
            "Lamps and their circuit",
            [
                Box(facts),
                .. facts.Laid.Panels.Select(panel => Place(panel.Panel.Id, panel.Panel.Title, facts)).OfType<BookStep>(),
                .. facts.Circuit is { } circuit ? [Feed(circuit, facts)] : ImmutableArray<BookStep>.Empty,
                LayIn(facts),
                .. facts.Cells.IsEmpty ? ImmutableArray<BookStep>.Empty : [Cells(facts)],
            ]);

    /// <summary>What must be done of the lamps before the desk is lit.</summary>
    public static ImmutableArray<Made> Done(BookFacts facts) =>
        [Made.LampsIn, .. facts.Circuit is null ? ImmutableArray<Made>.Empty : [Made.LampsFed], .. facts.Cells.IsEmpty ? ImmutableArray<Made>.Empty : [Made.Cells]];

    /// <summary>The finished desk is lit by its own supply.</summary>
    public static BookStep Lit(BookFacts facts, ImmutableArray<Made> needs)
    {
        var hidden = facts.Laid.Panels.Select(panel => facts.Picture($"{panel.Panel.Id}/lit-hidden")).OfType<BookBlock>().ToImmutableArray();
        return new(
            "look-lit",
            "Light the desk",
            BookTimes.LookLit,
            [
                new Doings(
                [
                    facts.Wiring is null ? "Switch the lamps' supply on." : "Panels laid on their boxes, the controller on its USB, every control called: switch the lamps' supply on. Call the roll's rows of lamps again: the program turns each fully on and asks whether you see it.",
                    "Look at it from where you sit, in the room as it will be, then in the dark.",
                    .. hidden.IsEmpty ? ImmutableArray<string>.Empty : [facts.Wiring is null ? "Legends that are hidden show nothing while their own lamp is off; feed it, and look again: then they stand out as in the last pictures." : "Legends that are hidden show nothing while their output is off. As each is called it stands out as in the last pictures, and nothing of it is left when it goes out."],
                ]),
                .. facts.Laid.Panels.Select(panel => facts.Picture($"{panel.Panel.Id}/lit")).OfType<BookBlock>(),
                .. hidden,
            ],
            new(
                string.Create(CultureInfo.InvariantCulture, $"Every legend is lit as in the picture, none more than about {facts.EvennessFactor:0.#} times as bright as another of its colour; nothing flickers."),
                "A dark legend: an emitter that does not light, or a wire before it. A bright spot: an emitter too near; look whether the box is as deep as planned. Hot or a smell: switch off at once, look for a short."))
        {
            Cautions = [Caution.Supply, Caution.Volts],
            Needs = needs,
            Makes = [Made.Lit],
        };
    }

    private static BookStep Box(BookFacts facts)
    {
        var isScrewed = facts.Laid.Panels.Any(panel => panel.Panel.Fixings is not null);
        var room = facts.Ruler(LampDrawings.RoomMm(facts));
        return new(
            "box",
            "Build the box and cut its lamp board",
            BookTimes.BuildBox,
            [
                new PictureRow([BoxDrawings.Box(facts, facts.Boxes[0], isScrewed)]),
                new Doings(
                [
                    $"Walls of board round the inside: {string.Join("; ", facts.Boxes.Select(box => $"{Text(box.Panel)} {facts.Size(box.WidthMm, box.HeightMm)}"))}. The panel lies on their upper edge. White inside, tight to light.",
                    $"For each box a lamp board as large as its inside, white above, with a notch at one wall where the panel's loom passes. Glue strips of wood to the walls for it to lie on, so that its white face comes {facts.Ruler(facts.BoxDepthMm)} below the walls' upper edge. Lay it in loose: it comes out again.",
                    facts.Wiring is null && facts.Circuit is null
                        ? $"Let the walls go on {room} below the lamp board, and cut a floor that closes them: joints and wires lie there, out of the light."
                        : $"Let the walls go on {room} below the lamp board, and cut a floor that is screwed on from below. That room is where the electronics live, out of the light: {(facts.Wiring is null ? string.Empty : "the controller on the floor of one box, ")}the resistors and transistors on the back of the lamp board. Cut holes there for {(facts.Wiring is null ? string.Empty : "the USB cable, ")}the pair from the lamps' supply{(facts.Boxes.Length > 1 ? ", and the cables from box to box" : string.Empty)}.",
                    .. isScrewed ? ["Glue a block of wood into each upper corner, with a nut let into it or a threaded insert for the panel's screw: a machine screw does not hold in wood alone."] : ImmutableArray<string>.Empty,
                ]),
            ],
            new($"The lamp board's white face lies {facts.Ruler(facts.BoxDepthMm)} below the walls' upper edge, within {facts.Ruler(2)}, all over; with a lamp inside and a board on top no seam glows.", "Too deep or too shallow: write the real depth into the desk file, build again: the emitters move. Seams: black tape."))
        {
            Tools = [Tool.WoodSaw, Tool.Knife, Tool.SteelRule, Tool.Ruler, Tool.Lamp, Tool.Clamps, Tool.Brush],
            Materials = ["board", "strips and blocks of wood", "wood glue", "white paint", .. isScrewed ? ["nuts or threaded inserts"] : ImmutableArray<string>.Empty],
            Cautions = [Caution.Paint, Caution.Knife],
            Needs = [Made.Goods],
            Makes = [Made.Box],
        };
    }

    private static BookStep? Place(string panel, string title, BookFacts facts)
    {
        ImmutableArray<BookLamp> lamps = [.. facts.Lamps.Where(lamp => lamp.Panel == panel)];
        if (lamps.IsEmpty)
        {
            return null;
        }

        var unit = Quantities.LengthWords.Name(facts.Maker.Unit);
        var (one, isSingle, isLegged) = (lamps.Length == 1, facts.LampType is { Form: EmitterForm.Single }, facts.LampType is { Form: EmitterForm.Single, HasLegs: true });
        return new(
            $"lamps-{panel}",
            $"Put the emitters on the lamp board of {title}",
            lamps.Length * BookTimes.PlaceLamp,
            [
                new Doings([$"The lamp board lies on the bench. Print {Code($"light/{panel}-emitters.pdf")} at actual size (100 %), measure its bar, and stick it on the board's white face: it is drawn as seen from the front. One emitter ({Text(facts.LampKind)}) goes on every cross.", .. Mount(facts.LampType)]),
                .. facts.Picture($"{panel}/emitters") is { } picture ? [picture] : ImmutableArray<BookBlock>.Empty,
                new BookTable(
                    $"Emitters of {Text(title)}: places from the panel's lower left corner, seen from the front",
                    ["No", $"x, {unit}", $"y, {unit}", "Fed by"],
                    [.. lamps.Select(lamp => new BookRow("lamp", $"{panel}:{lamp.Number}", [$"{lamp.Number}", facts.Number(lamp.XMm), facts.Number(lamp.YMm), Text(lamp.Channel)]))],
                    IsTicked: true),
            ],
            new($"{lamps.Length} {(one ? "emitter stands" : "emitters stand")} on {(one ? "its cross" : "their crosses")} within {facts.Ruler(2)}, {(one ? "its" : "each with its")} number written beside it on the board's back.", "On the wrong place: move it, a dark spot on the panel will not go away later."))
        {
            Tools = [Tool.Scissors, Tool.Ruler, Tool.LabelPen, Tool.Awl, .. isSingle ? [Tool.Drill, LegDrill] : ImmutableArray<BookTool>.Empty, .. isSingle && !isLegged ? [Tool.Iron, Tool.Cutter] : ImmutableArray<BookTool>.Empty],
            Materials = [Text(facts.LampKind), "the lamp board", "glue stick"],
            Cautions = [.. isSingle ? [Caution.Drill] : ImmutableArray<Caution>.Empty, .. isSingle && !isLegged ? [Caution.Solder] : ImmutableArray<Caution>.Empty],
            Needs = [Made.Box],
            Makes = [Made.LampsPlaced],
        };
    }

    /// <summary>What holds an emitter. Common practice, no source.</summary>
    private static ImmutableArray<string> Mount(EmitterType? type)
    {
        const string Bare = "Pull the paper off: the board is to be white.";
        const string Numbers = "Write each emitter's number beside its holes on the board's back: from there all is mirrored.";
        return type switch
        {
            { Form: not EmitterForm.Single } => ["Prick the crosses through into the board as marks.", Bare, "Cut the strip at its marks and press its pieces down on their glue, each in the middle of its mark, plus to one side alike; their joints come with the circuit.", "Write each one's number on the board's back, behind it: from there all is mirrored."],
            { HasLegs: true } => ["At every cross prick two places as far apart as the legs, and drill them through.", Bare, Numbers, "Put the legs through and bend them apart behind: that holds them until they are joined. The circuit comes in its own step."],
            _ => ["At every cross prick two places as far apart as the emitter's ends, and drill them through.", Bare, Numbers, "Solder each to two short bare wires, the one at its minus mark cut shorter; put them through and bend them apart behind. The circuit comes in its own step."],
        };
    }

    private static BookStep Feed(CircuitPlan circuit, BookFacts facts)
    {
        var fuse = circuit.Wire.FuseAmperes is { } amperes ? $" and the fuse of {CircuitWords.Amperes(amperes)} in its holder, close to the supply" : string.Empty;
        return new(
            "feed",
            "Solder the lamps' circuit and try it by itself",
            BookTimes.FirstLight + (circuit.Channels.Length * BookTimes.Channel),
            [
                new Doings(
                [
                    $"The lamp board still lies on the bench, its back up: all joints are there, and so are resistors and transistors, on a strip of perforated board glued on. Solder what the drawing shows ({Code("light/circuit.svg")} is the same as a file), channel by channel; {(facts.LampType is { Form: EmitterForm.Single, HasLegs: true } ? "the flat side or shorter leg of a lamp" : facts.LampType is { Form: EmitterForm.Single } ? "the shorter wire of a lamp" : "the minus of a strip's piece")} looks to 0 V.",
                    $"To each gate's resistor a wire of {facts.Ruler(facts.Wiring?.Wires.CableMm ?? GateWireMm)} for the controller, with its channel written on it. Sleeves over what is bare, shrunk with hot air. Last come the supply's pair, {CircuitWords.Wire(circuit.Wire.Gauge)} or thicker (thinner strands slip out of a clamp and break beside a joint){Text(fuse)}.",
                    "Look for shorts: the meter must not beep between plus and 0 V.",
                    "Open the plus wire and put the meter into the gap, between the supply and the board's plus, never across plus and 0 V; at its range for milliamperes where the table says mA, its red lead in the socket of that range, and switch the supply on. All is dark: the resistors from gate to 0 V see to it.",
                    "Touch one gate's resistor after the other with the plus of three fresh AA cells (4.5 V), their minus on 0 V: its channel lights, and the meter says how much it takes. Then put the red lead back into the socket for volts: a meter left at amperes is a short to whatever it touches next.",
                ]),
                new BookTable(
                    "What each channel takes",
                    ["Channel", "Made of", "At full", $"At most on the meter ({MeterShare * 100:0} % more than in the drawing)"],
                    [.. circuit.Channels.Select(channel => new BookRow("channel", channel.Channel.Name, [Text(channel.Channel.Name), Text(MadeOf(channel)), CircuitWords.Amperes(channel.NominalAmperes), CircuitWords.Amperes(channel.HighestAmperes * (1 + MeterShare))]))],
                    IsTicked: true),
                .. Enumerable.Range(1, circuit.Channels.Length).Select(page => facts.Picture(string.Create(CultureInfo.InvariantCulture, $"circuit/{page}"))).OfType<BookBlock>(),
            ],
            new(
                $"Each channel takes no more than the table's last column at {CircuitWords.Volts(circuit.Wish.SupplyVolts)}; every emitter lights; nothing gets too hot to touch.",
                "More than that: switch off, look for a solder bridge or a resistor of the wrong value. One string dark: a lamp the wrong way round. All dark: the fuse, the polarity of the supply."))
        {
            Tools = [Tool.Iron, Tool.Cutter, Tool.Stripper, Tool.HotAir, Tool.LabelPen, Tool.Meter, Tool.Cells],
            Materials = ["what the bill lists for the circuit", "perforated board", "solder", "sleeves that shrink"],
            Cautions = [Caution.Solder, Caution.Heat, Caution.Supply],
            Needs = [Made.LampsPlaced],
            Makes = [Made.LampsFed],
        };
    }

    private static BookStep LayIn(BookFacts facts) => new(
        "lamps-in",
        facts.Boxes.Length == 1 ? "Fix the lamp board in the box" : "Fix the lamp boards in their boxes",
        BookTimes.LayLampBoard * facts.Boxes.Length,
        [
            new PictureRow([LampDrawings.LayIn(facts)]),
            new Doings(
            [
                $"Everything unplugged. Lay each lamp board on its strips of wood, emitters up, and draw its wires{(facts.Circuit is null ? string.Empty : " and the supply's pair")} out below it.",
                "Fasten it with a screw into the strip at each corner, not with glue: an emitter that fails is reached again.",
                "Black tape over the notch as far as the loom leaves room: no light goes down there.",
            ]),
        ],
        new("With the panel laid on its box no part of it touches an emitter. (A body may end above one: the plan has counted with its shadow.) No joint below touches the floor.", "A part that touches: the box is not as deep as planned; measure it, write its depth into the desk file, and build again."))
    {
        Tools = [Tool.Screwdriver, Tool.Ruler],
        Materials = ["small wood screws", "black tape"],
        Needs = [Made.Box, Made.LampsPlaced, .. facts.Circuit is null ? ImmutableArray<Made>.Empty : [Made.LampsFed]],
        Makes = [Made.LampsIn],
    };

    private static BookStep Cells(BookFacts facts) => new(
        "cells",
        "Set the cells round their emitters",
        facts.Cells.Length * BookTimes.FoldCell,
        [
            new PictureRow([LampDrawings.Cell(facts)]),
            new Doings(
            [
                $"Print {Code("light/cells.pdf")} at actual size, stick it on the card, cut the walls out, fold and glue them, white inside.",
                "Stand each on the lamp board round its emitter, where the emitters' drawing has its frame. Lay the panel on: the walls just touch it. Then glue them down.",
            ]),
            new BookTable("Cells, each with a light of its own", ["Panel", "Legend", "Inside"], [.. facts.Cells.Select(cell => new BookRow("cell", $"{cell.Panel}:{cell.Words}", [Text(cell.Panel), Text(cell.Words), $"{facts.Number(cell.WidthMm)} x {facts.Exact(cell.HeightMm)}"]))], IsTicked: true),
        ],
        new("With the panel laid on, no paper can be drawn through between panel and cell, and the panel does not rock.", "A gap: black tape or a new card. It rocks: cut the card lower, a little at a time."))
    {
        Tools = [Tool.Scissors, Tool.Knife, Tool.SteelRule],
        Materials = ["card", "glue stick"],
        Cautions = [Caution.Knife],
        Needs = [Made.LampsIn],
        Makes = [Made.Cells],
    };

    private static string MadeOf(ChannelPlan channel) => channel.Strings.IsEmpty
        ? CircuitWords.Count(channel.Channel.Count, "emitter", "emitters")
        : string.Join(", ", channel.Strings.Select(each => string.Create(CultureInfo.InvariantCulture, $"{each.StringCount} x {each.String.DiodeCount} in series with {CircuitWords.Ohms(each.String.ResistorOhms)}")));
}
