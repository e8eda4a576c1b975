using System;
using System.Linq;
using Lampblack.Layout;

namespace Lampblack.Books;

/// <summary>The box behind a panel, how the panel sits on it, and how it is closed.</summary>
internal static class BoxDrawings
{
    /// <summary>The box of one panel: its inner sizes from above, its depth from the side.</summary>
    public static BookPicture Box(BookFacts facts, BookBox box, bool isScrewed)
    {
        var pen = new ActPen(118, 70);
        var scale = Math.Min(30 / box.WidthMm, 30 / box.HeightMm);
        var (width, height) = (box.WidthMm * scale, box.HeightMm * scale);
        const double WallMm = 2;
        pen.Box(4, 9, width + (2 * WallMm), height + (2 * WallMm), ActPen.Wood).Box(4 + WallMm, 9 + WallMm, width, height, ActPen.Paper);
        if (isScrewed)
        {
            foreach (var (x, y) in new[] { (0.0, 0.0), (width - 4, 0), (0, height - 4), (width - 4, height - 4) })
            {
                pen.Box(4 + WallMm + x, 9 + WallMm + y, 4, 4, ActPen.Wood).Circle(6 + WallMm + x, 11 + WallMm + y, 0.6, ActPen.Ink);
            }
        }

        var middle = 4 + WallMm + (width / 2);
        pen.Measure(4 + WallMm, 6, 4 + WallMm + width, 6).Words(middle, 4, facts.Ruler(box.WidthMm), anchor: "middle")
            .Words(middle, 9 + WallMm + (height / 2) + 1, "inside", anchor: "middle")
            .Measure(8.5 + (2 * WallMm) + width - 2, 9 + WallMm, 8.5 + (2 * WallMm) + width - 2, 9 + WallMm + height)
            .Words(9 + (2 * WallMm) + width, 10 + WallMm + (height / 2), facts.Ruler(box.HeightMm), sizeMm: 3)
            .Words(4, 68, "From above", isBold: true);
        const double LeftMm = 62;
        pen.Box(LeftMm, 12, 44, 2.4, ActPen.Acrylic).Words(LeftMm + 22, 9.5, ActPen.Fitting(box.Panel, 48), anchor: "middle").Box(LeftMm + 8, 12.9, 5, 4.5, ActPen.Metal).Box(LeftMm + 22, 12.9, 7, 7, ActPen.Metal)
            .Box(LeftMm, 14.4, 2.4, 45, ActPen.Wood).Box(LeftMm + 41.6, 14.4, 2.4, 45, ActPen.Wood).Box(LeftMm, 59.4, 44, 2.4, ActPen.Wood);
        if (isScrewed)
        {
            Corner(pen, LeftMm + 2.4, 14.4, 10.6);
            Corner(pen, LeftMm + 37.6, 14.4, 10.6);
        }

        // The lamp board on its strips, its notch at the right for the loom.
        pen.Box(LeftMm + 2.4, 42, 34, 1.8, ActPen.Wood).Box(LeftMm + 2.4, 43.8, 2.6, 2.6, ActPen.Wood).Box(LeftMm + 39, 43.8, 2.6, 2.6, ActPen.Wood);
        foreach (var x in new[] { 9.0, 18, 29 })
        {
            LampDrawings.Lamp(pen, LeftMm + x, 42, facts.LampType);
        }

        var room = LampDrawings.RoomMm(facts);
        pen.Measure(LeftMm + 15.4, 14.6, LeftMm + 15.4, 41.8).Words(LeftMm + 17, 31, facts.Ruler(facts.BoxDepthMm)).Words(LeftMm + 23, 36, "white", anchor: "middle", sizeMm: 3)
            .Measure(LeftMm + 15.4, 44, LeftMm + 15.4, 59.2).Words(LeftMm + 17, 50, facts.Ruler(room)).Words(LeftMm + 17, 55.4, room > 20 ? "electronics" : "joints", sizeMm: 3)
            .Trace($"M{LeftMm + 25.5:0.##} 19.9c0 6 6 4 9 9s4 9 4 15s-2 8 -6 8", "none", 1).Words(LeftMm + 45.5, 36, "loom", sizeMm: 2.8).Line(LeftMm + 45, 35, LeftMm + 37.6, 34.6, 0.2)
            .Words(LeftMm + 45.5, 43.6, "lamp", sizeMm: 2.8).Words(LeftMm + 45.5, 46.6, "board", sizeMm: 2.8).Line(LeftMm + 45, 43, LeftMm + 35, 43, 0.2)
            .Words(LeftMm, 68, "From the side", isBold: true);
        return pen.Picture(
            $"The box of {box.Panel}: inside {facts.Size(box.WidthMm, box.HeightMm)}, its lamp board {facts.Ruler(facts.BoxDepthMm)} behind the plate; the panel lies on the walls, the room below the lamp board is {facts.Ruler(room)} high",
            $"The box of {Formats.HtmlMarkup.Text(box.Panel)}: the panel lies on its walls, the depth is from the plate's back to the lamp board's white face.");
    }

    /// <summary>A block in its corner from above and from the side, with the place of the screw; the lamp board that passes it.</summary>
    public static BookPicture Blocks(BookFacts facts, LampBoard board)
    {
        // Drawn as if it stood in the lower left corner: all corners are alike.
        var (inside, one) = (board.Box.Inside, board.Box.Blocks.Where(block => block.Blocker is null).MinBy(block => block.Screw.XMm + block.Screw.YMm)!);
        var block = one.Area;
        var (x, y) = (Math.Min(one.Screw.XMm - inside.LeftMm, inside.RightMm - one.Screw.XMm), Math.Min(one.Screw.YMm - inside.BottomMm, inside.TopMm - one.Screw.YMm));
        const double Scale = 1.9;
        var pen = new ActPen(118, 62);
        var (side, up, high, wall) = (Math.Min(24, block.WidthMm * Scale), Math.Min(24, block.HeightMm * Scale), ScrewBlock.HighMm * Scale, 4.0);
        const double TopMm = 10;
        var corner = TopMm + 34;

        // From above: the lower left corner, walls at left and below.
        pen.Words(4, 5, "From above", isBold: true, sizeMm: 3).Box(6, TopMm, wall, 34 + wall, ActPen.Wood).Box(6, corner, 52, wall, ActPen.Wood)
            .Box(6 + wall, corner - up, side, up, ActPen.Wood)
            .Trace($"M{6 + wall + 1:0.##} {TopMm:0.##}V{corner - up - 2:0.##}H{6 + wall + side + 2:0.##}V{corner - 0.6:0.##}H58", "none", 0.5, isDashed: true)
            .Words(6 + wall + side + 4, corner - up - 4, "lamp board,", sizeMm: 3).Words(6 + wall + side + 4, corner - up - 0.4, "corner off", sizeMm: 3);
        var (holeX, holeY) = (6 + wall + (x * Scale), corner - (y * Scale));
        pen.Circle(holeX, holeY, 1.7 * Scale, ActPen.Paper).Cross(holeX, holeY, 4)
            .Words(6 + wall + side + 4, corner - 9, "screw: from", sizeMm: 3).Words(6 + wall + side + 4, corner - 5.4, $"the walls {facts.Number(x)}", sizeMm: 3).Words(6 + wall + side + 4, corner - 1.8, $"and {facts.Exact(y)}", sizeMm: 3)
            .Words(6, corner + 9, $"block {facts.Size(block.WidthMm, block.HeightMm)}", sizeMm: 3).Words(6, corner + 13, $"{facts.Exact(ScrewBlock.HighMm)} high", sizeMm: 3);

        // From the side: plate, washer, screw, insert.
        const double LeftMm = 70;
        pen.Words(LeftMm, 5, "From the side", isBold: true, sizeMm: 3).Box(LeftMm, 14, 44, 5, ActPen.Acrylic).Box(LeftMm, 19, wall, 40, ActPen.Wood).Box(LeftMm + wall, 19, side, high, ActPen.Wood);
        var screw = LeftMm + wall + (side / 2);
        var words = LeftMm + wall + side + 5;
        pen.Box(screw - 3, 19, 6, 11, ActPen.Metal).Line(screw, 12, screw, 33, 2).Box(screw - 5, 12.8, 10, 1.2, ActPen.Paper).Box(screw - 3, 10.4, 6, 2.4, ActPen.Metal)
            .Words(words, 11.5, "washer", sizeMm: 3).Line(screw + 5, 13.2, words - 0.6, 11, 0.2).Words(words, 17.6, "plate", sizeMm: 3)
            .Words(words, 24, "insert", sizeMm: 3).Line(screw + 3, 24, words - 0.6, 23, 0.2)
            .Measure(LeftMm + wall + side + 3, 19, LeftMm + wall + side + 3, 19 + high).Words(LeftMm + wall + side + 5, 19 + (high / 2) + 6, facts.Exact(ScrewBlock.HighMm), sizeMm: 3)
            .Words(LeftMm + wall + 2, 56, $"screw {facts.Exact(BoxBlocks.ScrewsMm(facts.Laid.Desk.Stack).InsertMm)} long", sizeMm: 3);
        return pen.Picture(
            $"A block of {facts.Size(block.WidthMm, block.HeightMm)} in the box's corner from above and from the side: the screw's place, the insert, the lamp board with its corner cut off",
            $"A block in a corner of {Formats.HtmlMarkup.Text(board.Box.Panel)}, level with the walls’ upper edge. The dashed line is the lamp board below, that goes down past it.");
    }

    /// <summary>The closed desk: tape over what glows.</summary>
    public static BookPicture Close(bool isLit, bool isScrewed)
    {
        var pen = new ActPen(118, 50);
        foreach (var left in new[] { 2.0, 62.0 })
        {
            var isRight = left < 60;

            // A wire caught under the panel lifts it from its wall.
            pen.Box(left + 4, 12, 46, 2.4, ActPen.Acrylic).Box(left + 4, isRight ? 14.4 : 15.6, 2.4, 20, ActPen.Wood).Box(left + 47.6, 14.4, 2.4, 21.2, ActPen.Wood).Box(left + 4, 35.6, 46, 2.4, ActPen.Wood);
            pen.Box(left + 18, 9, 5, 9, ActPen.Metal).Trace(isRight ? (FormattableString)$"M{left + 20.5:0.##} 18c0 6 5 5 8 8s4 6 9 6" : $"M{left + 20.5:0.##} 18c2 8 -6 2 -11 -1s-5 -2 -7.5 -2", "none", 0.9);
            if (isScrewed)
            {
                Corner(pen, left + 43.6, 14.4, 10.2);
            }

            if (isRight)
            {
                pen.Box(left + 1.6, 12.6, 2.4, 6, ActPen.Ink, 0.2).Words(left + 8, 5, "black tape outside", sizeMm: 2.8).Line(left + 7.6, 5, left + 3, 12.2, 0.25);
            }
            else if (isLit)
            {
                pen.Line(left + 2.6, 13.6, left - 0.6, 12, 0.4).Line(left + 2.6, 15, left - 1.2, 15, 0.4).Line(left + 2.6, 16.4, left - 0.6, 18, 0.4);
            }
        }

        return pen.Right(2, 46, "the loom lies free").Wrong(62, 46, isLit ? "loom caught, seam glows" : "a wire under the panel")
            .Picture("The closed box from the side: right, the loom lies free and black tape covers the seam; wrong, the loom is caught under the panel", "The closed box from the side.");
    }

    /// <summary>A block of wood below the panel with its screw in the middle.</summary>
    private static void Corner(ActPen pen, double leftMm, double topMm, double headMm) =>
        pen.Box(leftMm, topMm, 4, 7, ActPen.Wood).Line(leftMm + 2, headMm, leftMm + 2, topMm + 5, 0.8).Line(leftMm + 0.4, headMm + 0.2, leftMm + 3.6, headMm + 0.2, 0.8);
}
