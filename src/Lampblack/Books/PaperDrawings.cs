using System;
using System.Globalization;
using System.Linq;

namespace Lampblack.Books;

/// <summary>What is done to paper: the trial sheet, the rubbed corner, the holes in a print.</summary>
internal static class PaperDrawings
{
    private const double BarMm = 100;

    /// <summary>The bar under a ruler, and the panel cut out with parts on its crosshairs.</summary>
    public static BookPicture Trial(BookFacts facts)
    {
        var pen = new ActPen(118, 66);
        Bar(pen, 4, 1, facts);
        pen.Right(4, 23, $"the bar is {facts.Exact(BarMm)}");
        Bar(pen, 64, 0.88, facts);
        pen.Wrong(64, 23, "the page was scaled");
        var panel = facts.Laid.Panels[0].Panel;
        var scale = Math.Min(70 / panel.WidthMm, 31 / panel.HeightMm);
        var (left, top) = (4.0, 64 - (panel.HeightMm * scale));
        pen.Box(left, top, panel.WidthMm * scale, panel.HeightMm * scale, ActPen.Paper, cornerMm: panel.CornerMm * scale);
        foreach (var (index, hole) in facts.Charts[0].Holes.Index())
        {
            var (x, y, radius) = (left + (hole.Centre.XMm * scale), top + ((panel.HeightMm - hole.Centre.YMm) * scale), Math.Max(0.8, (hole.DiameterMm ?? 8) * scale / 2));
            pen.Cross(x, y, radius + 1.2);
            if (index % 2 == 0)
            {
                pen.Circle(x, y, radius * 1.6, ActPen.Metal);
            }
        }

        var words = left + (panel.WidthMm * scale) + 3;
        pen.Words(words, top + 5, ActPen.Fitting(panel.Title, 116 - words), isBold: true).Words(words, top + 10, "parts (gray) on").Words(words, top + 14.6, "their crosshairs");
        return pen.Picture($"A ruler along the bar, which is right at {facts.Exact(BarMm)} and wrong where it is shorter; below, {panel.Title} cut out of paper with parts on its crosshairs", "The ruler at the bar, and the panel cut out with parts laid on.");
    }

    /// <summary>A row of dots that just passes, and one with two dots too many, as bright as they look against a lamp.</summary>
    public static BookPicture Dots(int most)
    {
        const int All = 6;
        var pen = new ActPen(118, 34);
        foreach (var (left, count) in new[] { (2.0, most), (62.0, Math.Min(All, most + 2)) })
        {
            pen.Words(left, 13.4, "N", isBold: true).Box(left + 4, 6, 48, 12, ActPen.Black);
            foreach (var dot in Enumerable.Range(0, All))
            {
                var x = left + 8 + (dot * 8);
                if (dot < count)
                {
                    // The first dot opens widest: a sliver at the side of the row's letter, drawn wider than it is.
                    var high = 1.2 + (0.55 * (count - dot));
                    pen.Trace($"M{x - 2.6:0.##} 12a2.6 2.6 0 0 1 5.2 0a2.6 {Math.Max(0.2, 2.6 - high):0.##} 0 0 0 -5.2 0z", ActPen.Lamp, 0.3);
                    pen.Line(x, 8.4, x, 6.8, 0.3).Line(x - 2.4, 9, x - 3.2, 7.8, 0.3).Line(x + 2.4, 9, x + 3.2, 7.8, 0.3);
                    pen.Words(x, 4.6, (dot + 1).ToString(CultureInfo.InvariantCulture), anchor: "middle", sizeMm: 3);
                }
                else
                {
                    pen.Path(string.Create(CultureInfo.InvariantCulture, $"M{x - 2.6:0.##} 12a2.6 2.6 0 1 0 5.2 0a2.6 2.6 0 1 0 -5.2 0z"), "none", 0.25, ink: "#7a756c");
                }
            }
        }

        static string Count(int dots) => dots switch { 0 => "no dot shines", 1 => "1 dot shines", var many => string.Create(CultureInfo.InvariantCulture, $"{many} dots shine") };
        return pen.Right(2, 25.5, $"{Count(most)}: it just passes").Wrong(62, 25.5, $"{Count(Math.Min(All, most + 2))}: do not glue it")
            .Picture($"The row N against a lamp: right, {Count(most)}; wrong, {Count(Math.Min(All, most + 2))}", "Row N against a lamp: a dot shines as a sliver at the side of the row's letter, drawn wider here than it is. Count those that shine.");
    }

    /// <summary>A rubbed, folded and taped black that holds, and one that does not.</summary>
    public static BookPicture Rub()
    {
        var pen = new ActPen(118, 46);
        foreach (var left in new[] { 2.0, 62.0 })
        {
            var isRight = left < 60;
            pen.Box(left, 2, 52, 26, ActPen.Paper).Box(left + 2, 4, 48, 22, ActPen.Black);
            foreach (var (at, what) in new[] { (left + 10, "rub"), (left + 26, "fold"), (left + 42, "tape") })
            {
                pen.Words(at, 33, what, anchor: "middle");
            }

            pen.Path(string.Create(CultureInfo.InvariantCulture, $"M{left + 26:0.##} 4v22"), "none", isRight ? 0.2 : 1.6, ink: ActPen.Paper);
            pen.Box(left + 36, 12, 12, 7, isRight ? "#f7f3e4" : ActPen.Paper, 0.3);
            if (isRight)
            {
                pen.Path(string.Create(CultureInfo.InvariantCulture, $"M{left + 5:0.##} 20c2 -6 3 4 5 -3s3 3 5 -4"), "none", 0.3, ink: "#9a948a");
                continue;
            }

            foreach (var (x, y) in new[] { (5, 18), (7, 13), (9, 19), (11, 11), (12, 17), (14, 14), (24, 9), (28, 20), (24, 16), (28, 12) })
            {
                pen.Path(string.Create(CultureInfo.InvariantCulture, $"M{left + x:0.##} {y}l1.4 0.4l-0.5 1.2z"), ActPen.Paper, 0.2, ink: ActPen.Paper);
            }

            foreach (var (x, y) in new[] { (38.0, 14.0), (40, 17), (43, 13.5), (45, 16.5), (41.5, 15) })
            {
                pen.Circle(left + x, y, 0.6, ActPen.Black, 0.2);
            }
        }

        return pen.Right(2, 41.5, "nothing comes off").Wrong(62, 41.5, "flakes, a white fold")
            .Picture("Two black spots after rubbing, folding and taping: the right one is whole with a hair line at the fold; the wrong one has flakes, a white fold, and black specks on the tape", "The same black spot after the finger, the fold and the tape.");
    }

    /// <summary>A hole in the print: pricked, punched; opened to its circle, or torn beyond it.</summary>
    public static BookPicture Open(BookFacts facts)
    {
        var hole = facts.Charts.SelectMany(chart => chart.Holes).OrderByDescending(one => one.HandPunchMm(facts.Maker.Unit) is not null).First();
        var pen = new ActPen(118, 36);
        foreach (var (index, title) in new[] { "1 prick", hole.HandPunchMm(facts.Maker.Unit) is { } punch ? $"2 punch {(facts.Maker.Unit == Quantities.LengthUnit.Inch ? facts.Ruler(punch) : facts.Exact(punch))}" : "2 cut" }.Index())
        {
            var x = 13.0 + (index * 29);
            pen.Box(x - 11, 4, 22, 22, ActPen.Black).Circle(x, 15, 6.5, ActPen.Paper).Cross(x, 15, 8).Words(x, 31, title, anchor: "middle");
            if (index == 0)
            {
                pen.Trace($"M{x:0.##} 15l5 -12l1.4 0.6z", ActPen.Metal).Circle(x, 15, 0.6, ActPen.Ink);
            }
            else
            {
                pen.Circle(x, 15, 7.4, "none", 1.2).Trace($"M{x + 8:0.##} 12a8.6 8.6 0 0 1 -3 9.4", "none", 0.5).Arrow(x + 6.2, 20.6, x + 3.6, 22.4, 0.5);
            }
        }

        pen.Box(60, 4, 26, 22, ActPen.Black).Circle(73, 15, 7.4, ActPen.Acrylic).Circle(73, 15, 0.6, ActPen.Ink)
            .Box(90, 4, 26, 22, ActPen.Black).Trace($"M95.6 15a7.4 7.4 0 0 1 9 -7.2l3 -2.6l1 5l4.6 3l-3.4 2a7.4 7.4 0 0 1 -14.2 -0.2z", ActPen.Acrylic).Circle(103, 15, 0.6, ActPen.Ink);
        return pen.Right(60, 31.5, "a clean circle").Wrong(90, 31.5, "torn")
            .Picture($"Hole {hole.Label}: its cross is pricked, then punched; right is a clean circle with the prick mark in its middle, wrong a tear beyond it", $"Hole {Formats.HtmlMarkup.Text(hole.Label)} of this print, from the pricked cross to the open paper.");
    }

    /// <summary>The print is opened from behind, along the wall of the drilled plate.</summary>
    public static BookPicture FromBehind()
    {
        var pen = new ActPen(118, 44);
        foreach (var left in new[] { 2.0, 62.0 })
        {
            var isRight = left < 60;
            pen.Box(left, 14, 18, 8, ActPen.Acrylic).Box(left + 36, 14, 18, 8, ActPen.Acrylic).Box(left, 22, isRight ? 17.5 : 18, 1.6, ActPen.Black, 0.3).Box(left + 36, 22, 18, 1.6, ActPen.Black, 0.3);
            pen.Line(left + 36, 22.8, left + 18, 22.8, 0.6, isDashed: true);
            pen.Trace(isRight ? (FormattableString)$"M{left + 18.4:0.##} 25l2.4 -8v-15h-2.4z" : $"M{left + 25:0.##} 25l6 -7l8 -14l-2.4 -1.2z", ActPen.Metal);
            pen.Words(left + 45, 12, "plate", anchor: "middle");
        }

        pen.Words(2, 30, "print, its face down").Right(2, 40, "along the hole's wall").Wrong(62, 40, "in the middle: it tears");
        return pen.Picture("The plate from the side, back up, the print beneath it: the right blade runs down the wall of the hole, the wrong one cuts free in the middle", "A hole from the side, the panel lying face down: the wall guides the knife.");
    }

    /// <summary>A ruler along a bar that is so long.</summary>
    private static void Bar(ActPen pen, double leftMm, double barShare, BookFacts facts)
    {
        const double RulerMm = 48;
        pen.Box(leftMm, 9, RulerMm + 4, 8, ActPen.Wood);
        for (var tick = 0; tick <= 10; tick++)
        {
            pen.Line(leftMm + 2 + (tick * RulerMm / 10), 9, leftMm + 2 + (tick * RulerMm / 10), tick % 5 == 0 ? 13 : 11, 0.3);
        }

        var end = leftMm + 2 + (RulerMm * barShare);
        pen.Line(leftMm + 2, 5, end, 5, 1.4).Line(leftMm + 2, 2.5, leftMm + 2, 8, 0.5).Line(end, 2.5, end, 8, 0.5).Words(leftMm + 2.6, 16, "0", sizeMm: 3).Words(leftMm + RulerMm + 3.4, 16, facts.Exact(BarMm), anchor: "end", sizeMm: 3);
    }
}
