using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Layout;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>The boxes behind the panels: cut list, blocks, screws, and what each lamp board lies on.</summary>
internal static class BoxStep
{
    /// <summary>What the step is called, here and where it is named.</summary>
    public static string Title(BookFacts facts) => facts.Boxes.Length == 1 ? "Build the box and cut its lamp board" : "Build the boxes and cut their lamp boards";

    public static BookStep Of(BookFacts facts)
    {
        var isScrewed = facts.LampBoards.Any(board => !board.Blocks.IsEmpty);
        var places = Places(facts).ToList();
        var (room, boards) = (facts.Ruler(LampDrawings.RoomMm(facts)), facts.LampBoards);
        var (wall, screws) = (facts.Exact(BoxPieces.WallMm(facts)), BoxBlocks.ScrewsMm(facts.Laid.Desk.Stack));
        var (home, slots) = (BoxSlots.Home(facts), BoxSlots.Of(facts));
        var hasElectronics = facts.Wiring is not null || facts.Circuit is not null;
        return new(
            "box",
            Title(facts),
            BookTimes.BuildBox * facts.Boxes.Length,
            [
                new PictureRow([BoxDrawings.Box(facts, facts.Boxes[0], isScrewed)]),
                .. isScrewed ? [new PictureRow([BoxDrawings.Blocks(facts, boards.First(board => !board.Blocks.IsEmpty))])] : ImmutableArray<BookBlock>.Empty,
                new Doings(
                [
                    $"Draw the pieces of the cut list on the board with pencil and ruler, {facts.Ruler(BoxPieces.KerfMm)} apart: that is the saw's cut and a stroke of the file. The sizes are those of the finished pieces. Saw them.",
                    .. slots.IsEmpty ? ImmutableArray<string>.Empty : ["Choose the wall that will be at the top as you sit before the panel, and the long edge of it that will lie on the floor; mark its outer face and that edge. With the outer face away from you and the marked edge down, “left” in the last table is at your left. Saw the slots of that table into the marked edge now, while the wall lies flat: what is soldered at both ends is laid into a slot, and could not be threaded through a hole. Beside each slot drill two holes of 3.5 mm through the wall, one above the other: a tie through both will hold the cable."],
                    $"Glue the walls together on their edges, those at the sides between the other two, clamped, until the glue is dry: {string.Join("; ", facts.Boxes.Select(box => $"{Text(box.Panel)} {facts.Size(box.WidthMm, box.HeightMm)} inside"))}. The panel lies on their upper edge.",
                    $"Drill each piece of strip through, 2 mm, in the middle of one face. Glue the pieces to the walls where their table says, that face up, their upper face {facts.Ruler(facts.BoxDepthMm + BoxPieces.LampBoardMm)} below the walls' upper edge: short pieces, and none round the whole box, because emitters come close to the walls. Paint the inside white above them, and one face of the lamp board. Let the paint dry.",
                    .. isScrewed
                        ?
                        [
                            $"Glue each block where its table says, level with the walls' upper edge, and paint it white. When the glue is dry, drill it for a threaded insert in the screw's place (the picture; the insert's bag names the drill, which is one of the tools): the walls hold the block together, a loose one would split. The panel's screws are then {facts.Exact(screws.InsertMm)} long; with a nut glued below a block that is drilled through, {facts.Exact(screws.NutMm)}. A machine screw does not hold in wood alone.",
                        ]
                        : ImmutableArray<string>.Empty,
                    $"Of the lamp board cut off each corner{(places.Any(place => place.Corner is null) ? ", and each piece of its edge," : string.Empty)} that a block stands in, {facts.Ruler(ScrewBlock.PastMm)} wider than the block{(boards.Any(board => board.Notch is not null) ? ", and the notch for the loom where the table says" : string.Empty)}. Lay it in loose: it must go down past the blocks. Turn the box over, hold the board, and prick a mark into it through the hole of each piece of strip with the awl; take it out and drill it there, 3.5 mm{(boards.Any(board => board.Rests.Any(rest => !board.TakesScrew(rest))) ? ", but for the pieces that get no screw by the table" : string.Empty)}.",
                    .. facts.Boxes.SelectMany(box => box.Blocks.Where(block => block.Blocker is not null).Select(block => $"The screw at {facts.Number(block.Screw.XMm)} and {facts.Exact(block.Screw.YMm)} of {Text(box.Panel)} has no block, as {Text(block.Blocker!.Replace("`", string.Empty, System.StringComparison.Ordinal))}. Put a short screw with a nut into its hole, and tape the panel down there; or move the screw in the desk file before anything is printed.")),
                    hasElectronics
                        ? $"The walls go on {room} below the lamp board: there the electronics live, out of the light: {(home is null ? string.Empty : $"the controller on the floor of {(facts.Boxes.Length == 1 ? "the box" : $"the box of {Text(home.Panel)}")}, ")}the resistors and transistors on the back of the lamp board. The wall with the slots stands away from you, its slots at the floor, which closes them."
                        : $"The walls go on {room} below the lamp board: joints and wires lie there, out of the light.",
                    "Glue the floor's blocks into the lower corners, and drill the floor for its screws, one into each (2 mm in the block, 3.5 mm in the floor). It is screwed on at the very end.",
                ]),
                Pieces(boards, facts),
                .. isScrewed ? [Blocks(places, facts)] : ImmutableArray<BookBlock>.Empty,
                Rests(boards, facts),
                .. slots.IsEmpty ? ImmutableArray<BookBlock>.Empty : [Slots(slots, facts)],
                .. facts.Boxes.Length > 1 && !slots.IsEmpty ? [new Paragraph($"Cables from box to box are cut for boxes that stand side by side, from left to right: {string.Join(", ", facts.Boxes.Select(box => Text(box.Panel)))}. For another place cut them longer.")] : ImmutableArray<BookBlock>.Empty,
            ],
            new($"The lamp board's white face lies {facts.Ruler(facts.BoxDepthMm)} below the walls' upper edge, within {facts.Ruler(2)}, all over; with a lamp inside, the open sides on two boards, no seam between the walls glows.", "Too deep or too shallow: write the real depth into the desk file, build again: the emitters move. Seams: black tape."))
        {
            WaitMinutes = BookTimes.WoodGlueDries + BookTimes.PaintDries,
            Tools = [Tool.WoodSaw, Tool.SteelRule, Tool.Ruler, Tool.Pencil, Tool.Lamp, Tool.Clamps, Tool.Brush, Tool.File, Tool.Awl, Tool.Drill, new(Tool.Drills) { Sizes = [new(2, "2 mm"), new(3.5, "3.5 mm"), .. isScrewed ? [new ToolSize(5, "that of the inserts, about 4 to 5 mm")] : ImmutableArray<ToolSize>.Empty] }],
            Materials = [$"board, {wall} thick", "strip of wood", "blocks of wood", "wood glue", "white paint", "black tape", .. isScrewed ? ["threaded inserts or nuts"] : ImmutableArray<string>.Empty],
            Cautions = [Caution.Wood, Caution.Paint],
            Needs = [Made.Goods],
            Makes = [Made.Box],
        };
    }

    /// <summary>Where each block goes: a corner, or how far along a wall.</summary>
    private static IEnumerable<(BookBox Box, ScrewBlock Block, string? Corner, string Wall)> Places(BookFacts facts)
    {
        const double Touching = 0.5;
        foreach (var (box, block) in facts.Boxes.SelectMany(box => box.Blocks.Where(block => block.Blocker is null).Select(block => (box, block))))
        {
            var (inside, area) = (box.Inside, block.Area);
            var across = area.LeftMm - inside.LeftMm < Touching ? "left" : inside.RightMm - area.RightMm < Touching ? "right" : null;
            var upwards = area.BottomMm - inside.BottomMm < Touching ? "lower" : inside.TopMm - area.TopMm < Touching ? "upper" : null;
            yield return (box, block, across is not null && upwards is not null ? $"{upwards} {across} corner" : null,
                $"{upwards ?? across ?? "no"} wall, begins at {facts.Ruler(upwards is not null ? area.LeftMm - inside.LeftMm : area.BottomMm - inside.BottomMm)}");
        }
    }

    private static BookTable Blocks(IReadOnlyList<(BookBox Box, ScrewBlock Block, string? Corner, string Wall)> places, BookFacts facts) => new(
        $"Where the blocks for the panel's screws go, seen from the front, {Quantities.LengthWords.Name(facts.Maker.Unit)}",
        ["Box", "Where", "Wide", "High"],
        [
            .. places.Select((place, index) => new BookRow(
                "block",
                $"{place.Box.Id}:{(index + 1).ToString(CultureInfo.InvariantCulture)}",
                [Text(place.Box.Panel), place.Corner ?? place.Wall, facts.Number(place.Block.Area.WidthMm), facts.Number(place.Block.Area.HeightMm)])),
        ],
        IsTicked: true);

    private static BookTable Pieces(ImmutableArray<LampBoard> boards, BookFacts facts) => new(
        $"Cut list: finished sizes, {Quantities.LengthWords.Name(facts.Maker.Unit)}",
        ["Box", "Pieces", "What", "Size", "Thick"],
        [
            .. boards.SelectMany(board => BoxPieces.Of(board, facts).Select((piece, index) => new BookRow(
                "box-piece",
                $"{board.Box.Id}:{(index + 1).ToString(CultureInfo.InvariantCulture)}",
                [Text(board.Box.Panel), piece.Count.ToString(CultureInfo.InvariantCulture), Text(piece.What), facts.Size(piece.WidthMm, piece.HeightMm), facts.Number(piece.ThickMm)]))),
        ],
        IsTicked: true);

    private static BookTable Slots(ImmutableArray<BoxSlot> slots, BookFacts facts) => new(
        $"Slots in the edge at the floor of the wall at the top, from its own left end, seen from the front, {Quantities.LengthWords.Name(facts.Maker.Unit)}",
        ["Box", "For", "Middle at", "Wide", "High"],
        [
            .. slots.Select((slot, index) => new BookRow(
                "slot",
                $"{slot.Box.Id}:{(index + 1).ToString(CultureInfo.InvariantCulture)}",
                [Text(slot.Box.Panel), Text(slot.What), facts.Number(slot.MiddleMm + BoxPieces.WallMm(facts)), facts.Number(slot.WideMm), facts.Number(slot.HighMm)])),
        ],
        IsTicked: true);

    private static BookTable Rests(ImmutableArray<LampBoard> boards, BookFacts facts) => new(
        $"Where the lamp board lies: pieces of strip on the walls{(boards.Any(board => board.Notch is not null) ? ", and its notch" : string.Empty)}, from the left or lower corner inside, seen from the front, {Quantities.LengthWords.Name(facts.Maker.Unit)}",
        ["Box", "Wall", "What", "Begins at", "Long"],
        [
            .. boards.SelectMany(board => board.Rests.Select(rest => (board, rest, What: board.TakesScrew(rest) ? "piece of strip" : "piece of strip, without a screw")).Concat(board.Notch is { } notch ? [(board, notch, $"notch, {facts.Ruler(notch.IsLevel ? notch.Area.HeightMm : notch.Area.WidthMm)} deep")] : []))
                .Select((one, index) => new BookRow(
                    "rest",
                    $"{one.board.Box.Id}:{(index + 1).ToString(CultureInfo.InvariantCulture)}",
                    [
                        Text(one.board.Box.Panel), one.Item2.Wall, Text(one.What),
                        facts.Number(one.Item2.IsLevel ? one.Item2.Area.LeftMm - one.board.Box.Inside.LeftMm : one.Item2.Area.BottomMm - one.board.Box.Inside.BottomMm),
                        facts.Number(one.Item2.IsLevel ? one.Item2.Area.WidthMm : one.Item2.Area.HeightMm),
                    ])),
        ],
        IsTicked: true);
}
