using System;

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
            pen.Trace($"M{LeftMm + x:0.##} 42v-2a1.6 1.6 0 0 1 3.2 0v2z", ActPen.Lamp);
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
