using System.Collections.Immutable;
using System.Linq;
using Lampblack.Parts;
using Lampblack.Wiring;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>Firmware, the roll-call with its record, the lit and closed desk, and how it is kept.</summary>
internal static class ProvingChapters
{
    public static BookChapter Flashing(BookWiring wiring)
    {
        var isBridge = wiring.Pins.Controllers.Any(plan => plan.Chip == ControllerChip.ATmega32U4);
        return new(
            "flash",
            "Load the firmware",
            [
                new(
                    "flash-board",
                    wiring.Pins.Controllers.Length == 1 ? "Flash the bare board" : "Flash the bare boards",
                    BookTimes.Flash * wiring.Pins.Controllers.Length,
                    [
                        new Paragraph("The firmware was made with this desk and has been run in a simulator for it. A used board's old program may drive pins that your contacts join to 0 V: that is why it is flashed before it is joined.") { IsExplanation = true },
                        new PictureRow([ProvingDrawings.Flash(wiring.Pins)]),
                        new Doings(
                        [
                            "Join the bare board to the computer with its USB cable; nothing else is on it.",
                            $"Type {Code("lampblack flash PORT DESK")}: PORT is what appeared when you plugged it in. (The workshop has no button for it: this one is typed.) {Code("lampblack flash PORT DESK --print")} shows the line for another program in its place.",
                            "Unplug it again.",
                        ]),
                    ],
                    new(
                        "The program says that the firmware was written and read back alike.",
                        isBridge ? "No answer: press the board's reset twice, quickly, and start again within eight seconds; its port may change its name." : "No answer: another port or cable (some carry no data); press the board's reset as the program starts."))
                {
                    Tools = [Tool.UsbCable, Tool.Computer],
                    Needs = [Made.Goods],
                    Makes = [Made.Flashed],
                },
            ]);
    }

    public static BookChapter Calling(BookWiring wiring, BookFacts facts)
    {
        var isBridge = wiring.Pins.Controllers.Any(plan => plan.Chip == ControllerChip.ATmega32U4);
        var names = SpokenNames.Of(wiring.Needs);
        return new(
            "call",
            "Call the roll",
            [
                .. RegisterStep.Of(wiring),
                new(
                    "roll-call",
                    "Have every control answer",
                    BookTimes.JoinPlugs + (wiring.Pins.Controls.Length * BookTimes.Call),
                    [
                        new PictureRow([ProvingDrawings.RollCall(wiring, facts)]),
                        new Doings(
                        [
                            $"Everything unplugged: join the cables and the board. {(isBridge ? "The adapter's three wires are on the board's pin row already, crosswise, its own 5 V left open: plug in the adapter's USB, and the board's own for its 5 V." : "Then plug in the board's USB alone, not the lamps' supply.")}",
                            $"Type {Code("lampblack rollcall PORT DESK")}{(isBridge ? ", where PORT is the adapter's now, not the board's" : string.Empty)} {InWorkshop.At("Roll-call", "Call the roll")}. It asks for one control after the other; do what it asks, to every position.",
                        ]),
                        new BookTable(
                            "The roll",
                            ["Control", "Name", "What it is asked for"],
                            [
                                // A light that only is switched, as no pin was left to dim it, is no control of the panel.
                                .. wiring.Pins.Controls.Select(control => names.TryGetValue(control.Id, out var name) ? new BookRow("call", control.Id, [Text(control.Id), Text(name), Text(Asked(control, wiring))]) : Unlit(control.Id)),
                                .. wiring.Pins.Controllers.SelectMany(plan => plan.Dimmers).Where(dimmer => !dimmer.IsMeter).Select(dimmer => Unlit(dimmer.Channel)),
                            ],
                            IsTicked: true),
                        new Paragraph($"Date and name: <span class=\"line\"></span> The program keeps the record beside the desk, too."),
                    ],
                    new("Every control answered, in every position; the program says so at its end, but for the lights behind the panels, which are called again when their supply is on.", "It names the wires that would explain what it heard: unplug both ends, resolder them, and go on where you stopped."))
                {
                    Tools = [Tool.UsbCable, .. isBridge ? ["USB-to-serial adapter with its cable"] : ImmutableArray<BookTool>.Empty, Tool.Computer],
                    Needs = [Made.WiresTested, Made.BoardWired, Made.Flashed, .. RegisterStep.Has(wiring) ? [Made.ChipsIn] : ImmutableArray<Made>.Empty],
                    Makes = [Made.RollCalled],
                    Cautions = [Caution.Volts],
                },
            ]);
    }

    public static BookChapter Ending(BookFacts facts)
    {
        var isLit = !facts.Lamps.IsEmpty;
        ImmutableArray<Made> proven = [.. isLit ? LampsChapter.Done(facts) : [], .. facts.Wiring is null ? ImmutableArray<Made>.Empty : [Proven(facts.Wiring), Made.Housed]];
        return new(
            "close-up",
            isLit ? "Light it and close it" : "Close it",
            [.. facts.Wiring is { } wiring ? [House(wiring, facts)] : ImmutableArray<BookStep>.Empty, .. isLit ? [LampsChapter.Lit(facts, proven)] : ImmutableArray<BookStep>.Empty, FittingChapter.Close(facts, isLit ? [Made.Lit, .. proven] : proven)]);
    }

    /// <summary>Where nothing answers to a roll, the meter has the last word.</summary>
    private static Made Proven(BookWiring wiring) => wiring.IsCalled ? Made.RollCalled : Made.WiresTested;

    private static BookStep House(BookWiring wiring, BookFacts facts)
    {
        var (isLit, isOne) = (!facts.Lamps.IsEmpty, wiring.Pins.Controllers.Length == 1);
        return new(
            "house",
            isOne ? "Put the controller in its place" : "Put the controllers in their place",
            BookTimes.House * wiring.Pins.Controllers.Length,
            [
                new PictureRow([LampDrawings.House(facts)]),
                new Doings(
                [
                    "Everything unplugged.",
                    isLit
                        ? $"Stand the {(isOne ? "board" : "boards")} on the floor of {(facts.Boxes.Length == 1 ? "the box" : $"the box of {Text(BoxSlots.Home(facts)!.Panel)}")} below the lamp board, its USB socket at its slot in the wall at the top. Mark on the loose floor where that slot is, and the board's holes; drill them on the bench (3.5 mm), and screw it on spacers.{Beside(wiring)}"
                        : $"Stand the {(isOne ? "board" : "boards")} behind the panels, on the floor of the frame, where no part comes down on it and its USB socket is reached. Mark its holes, drill them (3.5 mm), and screw it on spacers.{Beside(wiring)}",
                    isLit
                        ? $"Join the cables and the lamps' wires again, those that leave the box through their slots. Tie each cable down with a tie through the two holes beside its slot: a pull at it must not reach the board.{(facts.LampBoards.Any(board => board.Notch is not null) ? " Each panel's cable comes up through the notch of its lamp board to the plug of its loom; then black tape over what is left of the notch: no light goes down there." : string.Empty)}"
                        : "Join the cables again. Beside the board drill two holes of 3.5 mm through the floor of the frame, and tie the cables down with a tie through both: a pull at them must not reach the board.",
                ]),
            ],
            new("Nothing that is metal touches the board's back; every plug sits; a pull at the USB cable moves nothing inside.", "Longer spacers, or a card below the board; one more tie."))
        {
            Tools = [Tool.Screwdriver, Tool.Pencil, Tool.Drill, new(Tool.Drills) { Sizes = [new(3.5, "3.5 mm")] }],
            Materials = ["spacers and screws for the board", "cable ties", .. isLit && facts.LampBoards.Any(board => board.Notch is not null) ? ["black tape"] : ImmutableArray<string>.Empty],
            Cautions = [Caution.Wood, Caution.Volts],
            Needs = [Proven(wiring), .. isLit ? [Made.Box, Made.LampsIn] : ImmutableArray<Made>.Empty],
            Makes = [Made.Housed],
        };
    }

    /// <summary>What lives beside the controller.</summary>
    private static string Beside(BookWiring wiring)
    {
        ImmutableArray<string> others = [.. RegisterStep.Has(wiring) ? ["the board with the shift registers on spacers of its own"] : ImmutableArray<string>.Empty, .. wiring.Wires.Nets.Adapters.IsEmpty ? ImmutableArray<string>.Empty : ["the USB-to-serial adapter in a sleeve of tape, tied down in the same way as the cables"]];
        return others.IsEmpty ? string.Empty : $" Close beside it on the same floor goes {string.Join(", and ", others)}.";
    }

    public static BookChapter Keeping(BookFacts facts) => new(
        "keep",
        "Keep it",
        [
            new(
                "keep-files",
                "Keep what the next print needs",
                BookTimes.Keep,
                [
                    new PictureRow([ProvingDrawings.Keep(facts)]),
                    new Doings(
                    [
                        $"Keep {Code("desk.toml")}{(facts.Wiring is null ? string.Empty : $" and {Code("wiring/plan.json")}")}{(facts.Maker.Print == PrintWay.CopyShop ? string.Empty : $", and the printer's file ({Code("lampblack printer export")})")}: everything else can be made again.",
                        $"One legend wrong, or new? Change its words in the desk file and type {Code("lampblack build DESK --legend ITEM")} {InWorkshop.At("Book", "Two pages for changing one legend")}: two pages tell how to change that one alone.",
                        $"A part that is to move: its hole is drilled. {Code("lampblack check DESK")} says what a change costs; the workshop asks before it makes it.",
                    ]),
                ],
                new("A copy of these files lies somewhere else than on this computer.", "Make one now."))
            {
                Needs = [Made.Closed],
            },
        ]);

    private static BookRow Unlit(string channel) =>
        new("call", channel, [Text(channel), "light behind it", "answer no: the lamps' supply is off; it is called again when the desk is lit"]);

    private static string Asked(WiredControl control, BookWiring wiring) => control.Kind switch
    {
        WiredKind.Encoder => "a turn to the right, a turn to the left",
        WiredKind.Analog => "from one end to the other",
        WiredKind.Indicator => "does it light?",
        WiredKind.Meter => "its pointer at 0, in the middle, near the end",
        _ => string.Join(", ", control.States.Select(state => wiring.Needs.FirstOrDefault(need => need.Id == control.Id) is { } need ? SpokenNames.Standing(need, state.Name) : state.Name)),
    };
}
