using Lampblack.Fabrication;

namespace Lampblack.Books;

/// <summary>How it is told where a hole came out.</summary>
internal static class HoleDrawings
{
    /// <summary>A hole off its cross by the example's figures, and which way counts as plus.</summary>
    /// <param name="hole">The hole.</param>
    public static BookPicture Off(ChartHole hole)
    {
        var pen = new ActPen(118, 50);
        pen.Box(4, 3, 50, 38, ActPen.Acrylic).Circle(29, 22, 11, "none", 0.3, isDashed: true).Cross(29, 22, 16)
            .Circle(33, 24, 11, ActPen.Paper, 0.8).Cross(29, 22, 3).Circle(33, 24, 0.7, ActPen.Ink)
            .Line(29, 22, 29, 45, 0.2).Line(33, 24, 33, 45, 0.2).Arrow(22, 43.5, 28.8, 43.5, 0.3).Arrow(40, 43.5, 33.2, 43.5, 0.3).Words(42, 44.8, "0.4 right: 0.4", sizeMm: 3.4)
            .Line(29, 22, 60, 22, 0.2).Line(33, 24, 60, 24, 0.2).Arrow(58, 16, 58, 21.8, 0.3).Arrow(58, 30, 58, 24.2, 0.3).Words(61, 24.4, "0.2 down: -0.2", sizeMm: 3.4);
        pen.Arrow(94, 40, 110, 40).Words(111.5, 41.2, "+").Arrow(94, 40, 94, 24).Words(92.8, 22, "+").Words(94, 46.5, "right and up count as plus", anchor: "middle", sizeMm: 3.2)
            .Words(62, 6, "dashed: where it was to be", sizeMm: 3.4).Words(62, 11, "whole: where it came out", sizeMm: 3.4);
        return pen.Picture(
            $"Hole {hole.Label} from the front: it came out 0.4 mm to the right of its cross and 0.2 mm below; right and up count as plus",
            $"Hole {Formats.HtmlMarkup.Text(hole.Label)}, larger than it is, as in the example: its middle lies 0.4 mm to the right of the cross and 0.2 mm below.");
    }
}
