using System.Globalization;
using Lampblack.Desks;

namespace Lampblack.Books;

/// <summary>What is done to the plate: snapped or sawn, rounded at its corners, glued, blackened, coated.</summary>
internal static class PlateDrawings
{
    /// <summary>The groove over the table's edge, or the saw beside the line.</summary>
    public static BookPicture Cut(BookMaker maker) => maker.Cutting == CuttingWay.Saw ? Saw() : Snap();

    private static BookPicture Snap()
    {
        var pen = new ActPen(118, 42);
        foreach (var left in new[] { 2.0, 62.0 })
        {
            var edge = left + 28;
            var groove = left < 60 ? edge : edge - 9;
            pen.Box(left, 18, 28, 14, ActPen.Wood).Words(left + 14, 27, "table", anchor: "middle")
                .Trace($"M{left + 2:0.##} 12h{groove - left - 2.8:0.##}l0.8 2.6l0.8 -2.6H{left + 52:0.##}v6H{left + 2:0.##}z", ActPen.Acrylic)
                .Words(groove, 6.5, "groove", anchor: "middle").Line(groove, 7.5, groove, 11.5, 0.25)
                .Arrow(left + 40, 3, left + 40, 11).Words(left + 41.5, 6, "press");
        }

        return pen.Right(2, 39, "over the table's edge").Wrong(62, 39, "beside it: it cracks askew")
            .Picture("The scored plate on a table from the side: right, the groove lies exactly over the table's edge; wrong, it lies behind the edge", "The plate from the side, the groove up: where it lies as you press.");
    }

    private static BookPicture Saw()
    {
        var pen = new ActPen(118, 42);
        foreach (var left in new[] { 2.0, 62.0 })
        {
            var cut = left + (left < 60 ? 30.2 : 24.8);
            pen.Box(left, 3, 54, 28, ActPen.Acrylic).Line(left + 28, 1, left + 28, 33, 0.3, isDashed: true).Words(left + 12, 18, "panel", anchor: "middle").Words(left + 43, 18, "waste", anchor: "middle")
                .Box(cut - 1, 12, 2, 19, ActPen.Paper).Trace($"M{cut - 0.5:0.##} 12l1 -3v-4h-1z", ActPen.Metal);
        }

        return pen.Right(2, 39, "beside the line, in the waste").Wrong(62, 39, "in the panel: it is too small")
            .Picture("The plate from above with its line dashed: right, the saw's cut lies beside the line in the waste; wrong, it lies in the panel", "The plate from above; the line is dashed, the saw's cut is white.");
    }

    /// <summary>This panel's corner, the template's arc, and which way the file goes.</summary>
    public static BookPicture Corner(BookFacts facts, Panel panel)
    {
        var pen = new ActPen(118, 46);
        foreach (var left in new[] { 4.0, 64.0 })
        {
            const double ShownMm = 16;
            var isRight = left < 60;
            pen.Trace($"M{left:0.##} 2V{32 - ShownMm:0.##}A{ShownMm} {ShownMm} 0 0 0 {left + ShownMm:0.##} 32H{left + 46:0.##}V2z", ActPen.Acrylic)
                .Trace($"M{left:0.##} {32 - ShownMm:0.##}V32H{left + ShownMm:0.##}", "none", 0.4, isDashed: true)
                .Words(left + 19, 12, $"radius {facts.Exact(panel.CornerMm)}").Line(left + ShownMm, 32 - ShownMm, left + ShownMm - 11.3, 32 - ShownMm + 11.3, 0.25).Circle(left + ShownMm, 32 - ShownMm, 0.5, ActPen.Ink);
            foreach (var at in new[] { 0.0, 3.4, 6.8 })
            {
                var (outX, outY, inX, inY) = (left + 1 + at, 37.5 - 7 + at, left + 7.5 + at, 24 + at);
                if (isRight)
                {
                    pen.Arrow(outX, outY, inX, inY, 0.5);
                }
                else
                {
                    pen.Arrow(inX, inY, outX, outY, 0.5);
                }
            }
        }

        return pen.Right(4, 43.5, "towards the plate's middle").Wrong(64, 43.5, "out of it: the edge chips")
            .Picture(string.Create(CultureInfo.InvariantCulture, $"The lower left corner of {panel.Title}, radius {facts.Exact(panel.CornerMm)}: right, the file's strokes go into the plate; wrong, out of it"), $"The lower left corner of {Formats.HtmlMarkup.Text(panel.Title)}: the dashed tip comes off, the arrows are the file's strokes.");
    }

    /// <summary>How the plate's film comes off, and from which face.</summary>
    public static BookPicture Film(WorkOrder order)
    {
        var isBoth = order == WorkOrder.PrintBehind;
        var pen = new ActPen(118, 44);
        foreach (var left in new[] { 2.0, 62.0 })
        {
            pen.Box(left, 22, 52, 4, ActPen.Acrylic);
            if (left < 60)
            {
                // Rolled back on itself, low over the plate.
                pen.Line(left, 21.2, left + 22, 21.2, 0.9).Trace($"M{left + 22:0.##} 21.2c6 0 7 -5.6 1 -5.6l-18 -2", "none", 0.9).Arrow(left + 5, 12.4, left - 1, 11.4, 0.5).Words(left + 8, 10, "low, slowly", sizeMm: 3);
                if (isBoth)
                {
                    pen.Words(left + 52, 31, "back: film off, too", anchor: "end", sizeMm: 3);
                }
                else
                {
                    pen.Line(left, 26.8, left + 52, 26.8, 0.9).Words(left + 52, 31.5, "back: film stays on", anchor: "end", sizeMm: 3);
                }
            }
            else
            {
                pen.Line(left, 21.2, left + 24, 21.2, 0.9).Trace($"M{left + 24:0.##} 21.2c4 -0.4 5 -3 5 -16", "none", 0.9).Arrow(left + 29, 8, left + 29, 1, 0.5)
                    .Trace($"M{left + 36:0.##} 21.2l3 -1.4l2 1.4M{left + 44:0.##} 21.2l2 -1.6l3 1.6", "none", 0.9).Words(left + 34, 14, "tears", sizeMm: 3);
            }
        }

        return pen.Right(2, 39.5, "folded back low, from a corner").Wrong(62, 39.5, "straight up: it tears")
            .Picture($"The plate from the side: right, the film of its front is folded back low over the plate{(isBoth ? string.Empty : " while the back's stays on")}; wrong, it is torn straight up", isBoth ? "The film comes off both faces of the plate." : "The film comes off the plate's front alone: the back's keeps off scratches until the controls are fitted.");
    }

    /// <summary>The print folded back on its hinge, sprayed, let down and stroked on. With order A the plate goes on under the hinge, with order B a scrap lies there.</summary>
    public static BookPicture Hinge(WorkOrder order)
    {
        var isScrap = order == WorkOrder.DrillThenGlue;
        var pen = new ActPen(118, 50);
        foreach (var left in new[] { 2.0, 62.0 })
        {
            pen.Box(left, 30, 54, 4, ActPen.Acrylic);
            if (isScrap)
            {
                pen.Line(left + 24, 30, left + 24, 34, 0.8);
            }

            pen.Words(left + 12, 38.6, isScrap ? "scrap" : "plate goes on", anchor: "middle", sizeMm: 2.8).Words(left + 39, 38.6, isScrap ? "panel" : "panel’s place", anchor: "middle", sizeMm: 2.8).Line(left + 24, 34.6, left + 24, 39, 0.25, isDashed: true);
        }

        // Folded back like a page: it lies on waste paper beyond the hinge, its back up.
        pen.Line(2, 29.2, 22, 29.2, 0.6).Words(2, 8.6, "print, its back up", sizeMm: 2.8).Line(6, 9.8, 8, 26.4, 0.2).Words(10, 24, "waste", sizeMm: 2.8)
            .Trace($"M3 27.2L20 27.2C24 27.2 25.6 27.6 25.6 28.4C25.6 29.2 24.6 29.2 24 29.2", "none", 1).Box(18, 28.6, 10, 1.2, ActPen.Lamp, 0.3).Words(30, 27, "tape hinge", sizeMm: 2.8)
            .Box(34, 4, 6, 9, ActPen.Metal).Trace($"M34 7L20 18M34 8L21.5 19.8M34 9L23 21.6", "none", 0.25, isDashed: true).Words(42, 9.5, "spray").Words(2, 46.5, "1 fold back, spray", isBold: true, sizeMm: 3.4);
        pen.Box(86, 28.8, 30, 1.2, ActPen.Black, 0.3).Box(78, 28, 10, 1.2, ActPen.Lamp, 0.3).Box(92, 23, 9, 4.8, ActPen.Paper, cornerMm: 2).Words(92, 20, "cloth", sizeMm: 2.8).Arrow(103, 25, 115, 25).Words(62, 25, "hinge", sizeMm: 2.8).Words(62, 46.5, "2 stroke from the hinge", isBold: true, sizeMm: 3.4);
        return pen.Picture(
            $"From the side: first the print is folded back over its tape hinge onto waste paper on the {(isScrap ? "scrap" : "plate")} beyond, its back up, and sprayed; then it is let down onto the {(isScrap ? "panel" : "panel's place")} and stroked on from the hinge outwards",
            $"The tape hinge from the side, whichever side of the panel it is at: beyond it the {(isScrap ? "scrap" : "plate")} goes on, and the folded-back print lies there on waste paper.");
    }

    /// <summary>Black edges keep light in, bare ones glow.</summary>
    public static BookPicture Edges()
    {
        var pen = new ActPen(118, 44);
        foreach (var left in new[] { 5.0, 62.0 })
        {
            var isRight = left < 60;
            foreach (var (x, width) in new[] { (left, 20.0), (left + 30, 20.0) })
            {
                pen.Box(x, 14, width, 6, ActPen.Acrylic);
                foreach (var wall in new[] { x, x + width })
                {
                    if (isRight)
                    {
                        pen.Line(wall, 13.6, wall, 20.4, 1.8);
                    }
                    else
                    {
                        var way = wall == x ? -1 : 1;
                        pen.Line(wall + (1.2 * way), 15, wall + (4 * way), 13, 0.4).Line(wall + (1.2 * way), 17, wall + (4.4 * way), 17, 0.4).Line(wall + (1.2 * way), 19, wall + (4 * way), 21, 0.4);
                    }
                }
            }

            pen.Words(left + 25, 9, "hole", anchor: "middle").Line(left + 25, 10, left + 25, 13, 0.25).Circle(left + 12, 27, 2.2, ActPen.Lamp).Arrow(left + 12, 24.2, left + 12, 20.6, 0.3).Words(left + 16, 28.3, "lamp");
        }

        return pen.Right(4, 40, "black: no edge glows").Wrong(64, 40, "bare: edges and holes glow")
            .Picture("The plate over a lamp from the side: right, its edges and the walls of its hole are black; wrong, they are bare and throw light out", "The plate from the side, over a lamp.");
    }

    /// <summary>Three thin coats, or one thick one that runs.</summary>
    public static BookPicture Coat()
    {
        var pen = new ActPen(118, 44);
        pen.Box(2, 22, 52, 3, ActPen.Acrylic).Box(2, 20.6, 52, 1.4, ActPen.Black, 0.3);
        foreach (var (coat, y) in new[] { (1, 19.0), (2, 16.2), (3, 13.4) })
        {
            pen.Line(2, y, 54, y, 0.5).Words(55.5, y + 1.1, coat.ToString(CultureInfo.InvariantCulture), sizeMm: 2.6);
        }

        pen.Box(8, 2, 5, 8, ActPen.Metal).Trace($"M13 4L24 12M13 4.6L19 13M13 5L15 13", "none", 0.25, isDashed: true).Arrow(26, 6, 44, 6, 0.5).Words(28, 4.4, "in one sweep")
            .Box(62, 22, 52, 3, ActPen.Acrylic).Box(62, 20.6, 52, 1.4, ActPen.Black, 0.3)
            .Trace($"M62 20.4v-2c6 -1 8 -4 12 -3.6s6 4 12 3.4s10 -6 16 -4s6 3 12 2.4v8c-1 3 -3 5 -4 1v-4.2z", ActPen.Lamp).Words(70, 11, "one thick coat");
        return pen.Right(2, 39, "three thin coats, each dry").Wrong(62, 39, "it runs and lifts the black")
            .Picture("The face from the side: right, three thin coats, each dry before the next; wrong, one thick coat that runs", "The face from the side.");
    }
}
