using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Parts;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>The box behind the panels, the emitters in it, and what feeds them.</summary>
internal static class LampsChapter
{
    private const string LitTitle = "Light the desk";

    // Up to here most people call lights that stand apart alike. From memory.
    private const double EvenFactor = 2;

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
                BoxStep.Of(facts),
                .. facts.Laid.Panels.Select(panel => Place(panel.Panel.Id, panel.Panel.Title, facts)).OfType<BookStep>(),
                .. facts.Circuit is { } circuit ? [FeedStep.Of(circuit, facts)] : ImmutableArray<BookStep>.Empty,
                LayIn(facts, facts.LampBoards),
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
            LitTitle,
            BookTimes.LookLit,
            [
                new Doings(
                [
                    facts.Wiring is not { IsCalled: true } ? "Switch the lamps' supply on." : $"Panels laid on their boxes, the controller on its USB, every control called: switch the lamps' supply on. Call the roll's rows of lamps again, with {Code("lampblack rollcall PORT DESK")} {InWorkshop.At("Roll-call", "Call the roll")}{(facts.Wiring!.Wires.Nets.Adapters.IsEmpty ? string.Empty : " (PORT is the adapter’s)")}: the program turns each fully on and asks whether you see it.",
                    "Look at it from where you sit, in the room as it will be, then in the dark: half close your eyes, and see which legends go first.",
                    .. hidden.IsEmpty ? ImmutableArray<string>.Empty : [facts.Wiring is not { IsCalled: true } ? "Legends that are hidden show nothing while their own lamp is off; feed it, and look again: then they stand out as in the last pictures." : "Legends that are hidden show nothing while their output is off. As each is called it stands out as in the last pictures, and nothing of it is left when it goes out."],
                ]),
                .. facts.Laid.Panels.Select(panel => facts.Picture($"{panel.Panel.Id}/lit")).OfType<BookBlock>(),
                .. hidden,
                .. Shadows(facts),
                new Paragraph(Evenness(facts)) { IsExplanation = true },
            ],
            new(
                "In the dark, from your seat, you read every legend without looking for it; with your eyes half closed none is gone while others of its colour still stand there, but for letters that are named above; nothing flickers as your eyes move across it.",
                "A dark legend that is not named above: an emitter that does not light, or a wire before it. A bright spot: an emitter too near; look whether the box is as deep as planned. Hot or a smell: switch off at once, look for a short."))
        {
            Tools = facts.Wiring is { IsCalled: true } ? [Tool.UsbCable, Tool.Computer] : [],
            Cautions = [Caution.Supply, Caution.Volts],
            Needs = needs,
            Makes = [Made.Lit],
        };
    }

    private static string Evenness(BookFacts facts)
    {
        const string Named = "the findings of the build name the dimmest legend, and what makes it brighter.";
        if (!double.IsFinite(facts.EvennessFactor))
        {
            return $"By plan no light comes to the dimmest legend: {Named}";
        }

        var whose = facts.Shadows.Any(one => one.IsDark) ? " of those that get light" : string.Empty;
        return string.Create(CultureInfo.InvariantCulture, $"By plan the brightest legend is {facts.EvennessFactor:0.#} times as bright as the dimmest{whose}.")
            + (facts.EvennessFactor <= EvenFactor ? " Most people take so small a difference for alike; it is no measure of the letters named above, of which parts lie in a shadow." : $" That difference is seen; {Named}");
    }

    /// <summary>What is dimmer by plan, and why.</summary>
    /// <param name="facts">The book's facts.</param>
    /// <param name="most">How many are named.</param>
    public static IEnumerable<BookBlock> Shadows(BookFacts facts, int most = int.MaxValue)
    {
        var (dark, dim) = (facts.Shadows.Where(one => one.IsDark).ToList(), facts.Shadows.Where(one => !one.IsDark).ToList());
        if (dark.Count > 0)
        {
            yield return new Paragraph($"Right before a body behind the panel no light comes, and these stay dark there by plan: {Named(dark, most)}. To light them, move them off the body (states of a switch: a larger {Code("state-gap")}) or make the item {Code("light = \"own\"")}, before anything is printed; or make them {Code("light = \"unlit\"")}, and nobody will miss them.");
        }

        if (dim.Count > 0)
        {
            yield return new Paragraph($"Letters that stand in the shadow of a part's body, or of a screw's block, are dim in the picture as they will be on the panel: of {Named(dim, most)}. That is so by plan and no fault of yours: it passes as long as you can read the word. Who wants it brighter moves the words away from what stands in their light, or writes {Code("light = \"own\"")} at the item, before anything is printed.");
        }
    }

    private static string Named(List<BookShadow> shadows, int most)
    {
        var more = shadows.Count - most;
        return string.Join(", ", shadows.Take(most).Select(one => $"“{Text(one.Words)}” at {Code(one.Item)}")) + (more > 0 ? $" and {more.ToString(CultureInfo.InvariantCulture)} more, named in the step “{LitTitle}”" : string.Empty);
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
                new Doings([$"The lamp board lies on the bench. Print {Code($"light/{panel}-emitters.pdf")} at actual size (100 %), measure its bar, cut it out along its dashed line of the box's inside, and tape it on the board's white face (glue would take the paint along): it is drawn as seen from the front, and stands out by {facts.Ruler(BoxPieces.LooseMm / 2)} at each edge, everywhere alike.{(facts.Cells.Any(cell => cell.Panel == panel) ? " Prick the corners of each cell’s frame through, too: the cell will stand there." : string.Empty)} One emitter ({Text(facts.LampKind)}) goes on every cross.", .. Mount(facts.LampType)]),
                new PictureRow([LampBoardDrawing.Front(facts.LampBoards.First(board => board.Box.Id == panel), facts)]),
                new BookTable(
                    $"Emitters of {Text(title)}: places from the panel's lower left corner, seen from the front",
                    ["No", $"x, {unit}", $"y, {unit}", "Fed by"],
                    [.. lamps.Select(lamp => new BookRow("lamp", $"{panel}:{lamp.Number}", [$"{lamp.Number}", facts.Number(Tenth(lamp.XMm)), facts.Number(Tenth(lamp.YMm)), Text(lamp.Channel)]))],
                    IsTicked: true),
            ],
            new($"{lamps.Length} {(one ? "emitter stands" : "emitters stand")} on {(one ? "its cross" : "their crosses")} within {facts.Ruler(2)}, {(one ? "its" : "each with its")} number written beside it on the board's back{(isSingle ? $"; from behind the long {(isLegged ? "leg" : "wire")} of each is at the left" : string.Empty)}.", "On the wrong place: move it, a dark spot on the panel will not go away later. The other way round: turn it now."))
        {
            Tools = [Tool.Computer, Tool.Scissors, Tool.Ruler, Tool.LabelPen, Tool.Awl, .. isSingle ? [Tool.Drill, LegDrill] : ImmutableArray<BookTool>.Empty, .. isSingle && !isLegged ? [Tool.Iron, Tool.Cutter, Tool.Tweezers] : ImmutableArray<BookTool>.Empty],
            Materials = [Text(facts.LampKind), "the lamp board", "tape", "plain paper", .. isSingle && !isLegged ? ["bare wire, 0.6 mm", "solder"] : ImmutableArray<string>.Empty],
            Cautions = [.. isSingle ? [Caution.Wood] : ImmutableArray<Caution>.Empty, .. isSingle && !isLegged ? [Caution.Solder] : ImmutableArray<Caution>.Empty],
            Needs = [Made.Box],
            Makes = [Made.LampsPlaced],
        };
    }

    /// <summary>A pencil's mark is no finer.</summary>
    private static double Tenth(double mm) => System.Math.Round(mm, 1, System.MidpointRounding.AwayFromZero);

    /// <summary>What holds an emitter. Common practice, no source.</summary>
    private static ImmutableArray<string> Mount(EmitterType? type)
    {
        const string Bare = "Take the paper off: the board is to be white.";
        const string Numbers = "Write each emitter's number beside its holes on the board's back: from there all is mirrored.";
        return type switch
        {
            { Form: not EmitterForm.Single } => ["Prick the crosses through into the board as marks.", Bare, "Cut the strip at its marks and press its pieces down on their glue, each in the middle of its mark, plus to one side alike; their joints come with the circuit.", "Write each one's number on the board's back, behind it: from there all is mirrored."],
            { HasLegs: true } => ["At every cross prick two places side by side, left and right of its middle, as far apart as the legs, and drill them through: 1 mm.", Bare, Numbers, "Put the legs through, the LONG one (plus) at the right as you look at the white face, the same at every cross: from behind it is then at the left. Bend them apart behind: that holds them until they are joined. The circuit comes in its own step."],
            _ => ["At every cross prick two places side by side, left and right of its middle, as far apart as the emitter's ends, and drill them through: 1 mm.", Bare, Numbers, "Hold each with tweezers and solder it to two bare wires of 25 mm, the one at its minus mark cut shorter; put them through, the LONG one (plus) at the right as you look at the white face, the same at every cross: from behind it is then at the left. Bend them apart behind. The circuit comes in its own step."],
        };
    }

    private static BookStep LayIn(BookFacts facts, ImmutableArray<LampBoard> boards) => new(
        "lamps-in",
        facts.Boxes.Length == 1 ? "Fix the lamp board in the box" : "Fix the lamp boards in their boxes",
        BookTimes.LayLampBoard * facts.Boxes.Length,
        [
            new PictureRow([LampDrawings.LayIn(facts)]),
            new Doings(
            [
                $"Everything unplugged. Let each lamp board down past the blocks onto its pieces of strip, emitters up{(facts.Circuit is null ? string.Empty : "; each wire that leads out of a box goes into its slot in the wall's lower edge, the others stay inside")}.",
                "Fasten it through its holes with wood screws of 3 x 10 mm, into the holes of the strips, not with glue: an emitter that fails is reached again.",
                .. boards.Where(board => board.Rests.Any(rest => !board.TakesScrew(rest))).Select(board => $"Without a screw, as a strip of emitters lies there, the board of {Text(board.Box.Panel)} lies on the pieces of {string.Join(", ", board.Rests.Where(rest => !board.TakesScrew(rest)).Select(rest => $"the {rest.Wall} wall at {facts.Ruler(rest.IsLevel ? rest.Area.LeftMm - board.Box.Inside.LeftMm : rest.Area.BottomMm - board.Box.Inside.BottomMm)}"))}."),
                .. boards.SelectMany(board => LampRests.BareCorners(board.Box.Inside, board.Rests).Select(corner => $"Near the {corner} corner of {Text(board.Box.Panel)} joints leave no room for a strip on the wall: glue a piece of strip, {facts.Ruler(LampDrawings.RoomMm(facts))} long, upright on the floor, so that its end comes under the lamp board within {facts.Ruler(LampRests.CornerMm)} of that corner, where nothing is soldered.")),
            ]),
        ],
        new(
            $"The ruler, laid across the walls' lower edges, is at least {facts.Ruler(LampDrawings.RoomMm(facts) / 4)} away from every joint, and the board does not give under a finger at any wall.{(facts.Cells.IsEmpty ? " The panel, laid on, does not rock: no body stands on an emitter." : string.Empty)}",
            "A joint too near: bend it flat, cut its ends. A board that gives: one more piece of strip, where nothing is soldered. A panel that rocks: the box is not as deep as planned; measure it, write its depth into the desk file, and build again."))
    {
        Tools = [Tool.Screwdriver, Tool.Ruler],
        Materials = ["small wood screws"],
        Needs = [Made.Box, Made.LampsPlaced, .. facts.Circuit is null ? ImmutableArray<Made>.Empty : [Made.LampsFed]],
        Makes = [Made.LampsIn],
    };

    /// <summary>Where wires of the panel's back come through walls of cells.</summary>
    private static IEnumerable<BookBlock> Notches(ImmutableArray<CellNotch> notches, BookFacts facts)
    {
        if (!notches.IsEmpty)
        {
            yield return new BookTable(
                $"Notches for wires, {facts.Ruler(notches[0].DeepMm)} deep into the edge that touches the panel; from the wall’s left or lower end inside, seen from the front, {Quantities.LengthWords.Name(facts.Maker.Unit)}",
                ["Cell", "Wall", "Middle at", "Wide", "For wires"],
                [.. notches.Select((notch, index) => new BookRow("cell-notch", $"{notch.Cell.Panel}:{(index + 1).ToString(CultureInfo.InvariantCulture)}", [Text(notch.Cell.Words), notch.Wall, facts.Number(notch.AtMm), facts.Number(notch.WideMm), string.Join(", ", notch.Wires)]))],
                IsTicked: true);
        }
    }

    private static BookStep Cells(BookFacts facts) => new(
        "cells",
        "Set the cells round their emitters",
        facts.Cells.Length * BookTimes.FoldCell,
        [
            new PictureRow([LampDrawings.Cell(facts)]),
            new Doings(
            [
                $"Print {Code("light/cells.pdf")} at actual size, stick it on the card, cut the walls out, fold and glue them, white inside.",
                "Stand each on the lamp board round its emitter, where you pricked the corners of its frame. Lay the panel on: the walls just touch it. Then glue them down with a thread of wood glue along their lower edges.",
            ]),
            new BookTable("Cells, each with a light of its own", ["Panel", "Legend", "Inside"], [.. facts.Cells.Select(cell => new BookRow("cell", $"{cell.Panel}:{cell.Words}", [Text(facts.Laid.Panels.First(panel => panel.Panel.Id == cell.Panel).Panel.Title), Text(cell.Words), $"{facts.Number(cell.WidthMm)} x {facts.Exact(cell.HeightMm)}"]))], IsTicked: true),
            .. Notches(CellNotches.Of(facts), facts),
        ],
        new("A steel rule, laid across the box’s walls, touches the upper edge of each cell all along, and no paper can be drawn through between them; the panel, laid on, does not rock.", "A gap: a strip of black tape along the cell’s edge, folded over it, or a new card. It rocks: cut the card lower, a little at a time."))
    {
        Tools = [Tool.Computer, Tool.Scissors, Tool.Knife, Tool.SteelRule],
        WaitMinutes = BookTimes.WoodGlueDries,
        Materials = ["plain paper", "card, black outside and white inside", "glue stick", "wood glue"],
        Cautions = [Caution.Knife],
        Needs = [Made.LampsIn],
        Makes = [Made.Cells],
    };
}
