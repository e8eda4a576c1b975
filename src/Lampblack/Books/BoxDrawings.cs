using System;

namespace Lampblack.Books;

/// <summary>The box behind a panel, how the panel sits on it, and how it is closed.</summary>
internal static class BoxDrawings
{
    /// <summary>The box of one panel: its inner sizes from above, its depth from the side.</summary>
    public static BookPicture Box(BookFacts facts, BookBox box, bool isScrewed)
    {
        var pen = new ActPen(118, 60);
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
            .Words(4, 58, "From above", isBold: true);
        const double LeftMm = 66;
        pen.Box(LeftMm, 12, 44, 2.4, ActPen.Acrylic).Words(LeftMm + 22, 9.5, ActPen.Fitting(box.Panel, 48), anchor: "middle").Box(LeftMm + 4, 12.9, 5, 4.5, ActPen.Metal).Box(LeftMm + 22, 12.9, 7, 7, ActPen.Metal)
            .Box(LeftMm, 14.4, 2.4, 30, ActPen.Wood).Box(LeftMm + 41.6, 14.4, 2.4, 30, ActPen.Wood).Box(LeftMm, 44.4, 44, 2.4, ActPen.Wood);
        if (isScrewed)
        {
            pen.Box(LeftMm + 2.4, 14.4, 4, 7, ActPen.Wood).Box(LeftMm + 37.6, 14.4, 4, 7, ActPen.Wood).Line(LeftMm + 39.6, 10.6, LeftMm + 39.6, 19, 0.8).Line(LeftMm + 38.2, 10.8, LeftMm + 41, 10.8, 0.8);
        }

        foreach (var x in new[] { 10.0, 19, 33 })
        {
            pen.Trace($"M{LeftMm + x:0.##} 44.4v-2a1.6 1.6 0 0 1 3.2 0v2z", ActPen.Lamp);
        }

        pen.Measure(LeftMm + 16, 14.6, LeftMm + 16, 44.2).Words(LeftMm + 18, 32, facts.Ruler(facts.BoxDepthMm)).Words(LeftMm + 34, 37, "white", anchor: "middle", sizeMm: 3)
            .Trace($"M{LeftMm + 41.4:0.##} 41h4", "none", 1.4).Words(LeftMm + 44.8, 39.2, "loom", sizeMm: 2.8).Words(LeftMm, 58, "From the side", isBold: true).Words(LeftMm + 2, 51, "emitters stand on the floor", sizeMm: 3.2);
        return pen.Picture(
            $"The box of {box.Panel}: inside {facts.Size(box.WidthMm, box.HeightMm)}, its floor {facts.Ruler(facts.BoxDepthMm)} behind the plate; the panel lies on the walls",
            $"The box of {Formats.HtmlMarkup.Text(box.Panel)}: the panel lies on its walls, the depth is from the plate's back to the floor.");
    }

    /// <summary>The closed desk: tape over what glows.</summary>
    public static BookPicture Close(bool isLit, bool isScrewed)
    {
        var pen = new ActPen(118, 46);
        foreach (var left in new[] { 2.0, 62.0 })
        {
            var isRight = left < 60;
            pen.Box(left + 4, 12, 44, 2.4, ActPen.Acrylic).Box(left + 6, 14.6, 2.4, 18, ActPen.Wood).Box(left + 43.6, 14.6, 2.4, 18, ActPen.Wood).Box(left + 6, 32.6, 40, 2.4, ActPen.Wood);
            pen.Box(left + 18, 9, 5, 9, ActPen.Metal).Trace(isRight ? (FormattableString)$"M{left + 20.5:0.##} 18c0 6 6 4 8 8s6 4 8 3" : $"M{left + 20.5:0.##} 18c2 10 -10 2 -13 -3.4", "none", 0.9);
            if (isScrewed)
            {
                pen.Line(left + 40, 10, left + 40, 19, 0.8).Line(left + 38.4, 10.2, left + 41.6, 10.2, 0.8);
            }

            if (isRight)
            {
                pen.Box(left + 3.6, 13, 2.4, 6, ActPen.Ink, 0.2).Words(left + 10, 31, "black tape outside", sizeMm: 2.8).Line(left + 9.6, 30, left + 5, 19.6, 0.25);
            }
            else if (isLit)
            {
                pen.Line(left + 3, 15, left, 13.4, 0.4).Line(left + 3, 16.4, left - 0.6, 16.4, 0.4).Line(left + 3, 17.8, left, 19.4, 0.4);
            }
        }

        return pen.Right(2, 42, "the loom lies free").Wrong(62, 42, isLit ? "loom caught, seam glows" : "a wire under the panel")
            .Picture("The closed box from the side: right, the loom lies free and black tape covers the seam; wrong, the loom is caught under the panel", "The closed box from the side.");
    }
}
