using System;
using System.Collections.Generic;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Geometry;

namespace Lampblack.Layout;

/// <summary>Puts a title into the line of a box or bracket, and opens the line around it.</summary>
internal static class RuleTitle
{
    public static PlacedRule Place(
        Rule rule, Vector<PanelSpace> shift, Origin origin, FontShelf fonts, ICollection<Finding> findings, PanelBuilder into)
    {
        if (rule.Title.Length == 0 || Middle(rule.Form) is not { } middle)
        {
            return new(origin, rule, shift, null);
        }

        var block = TextBlock.Set([rule.Title], rule.TitleText, HorizontalAlign.Centre, VerticalAnchor.Middle, fonts, origin, findings);
        var title = block.At(middle.Point + shift, middle.TurnDegrees, origin, rule.Style, rule.Title);
        into.Texts.Add(title);

        // Half a capital's height on either side keeps the line from reading as part of the word.
        var gap = title.Box.Grow(rule.TitleText.HeightMm * 0.5);
        if (middle.RunMm < Math.Max(gap.WidthMm, gap.HeightMm))
        {
            findings.Add(Finding.Warn(
                "rule-title-long", $"the title {Shown.Code(rule.Title)} is longer than the line it stands in", "make the box or bracket longer, or the title smaller", origin.Span, origin.Item));
        }

        return new(origin, rule, shift, gap);
    }

    private static (Point<PanelSpace> Point, double TurnDegrees, double RunMm)? Middle(RuleForm form)
    {
        switch (form)
        {
            case FrameForm frame:
                return (new(frame.LeftMm + (frame.WidthMm / 2), frame.BottomMm + frame.HeightMm), 0, frame.WidthMm - (2 * frame.CornerMm));
            case BracketForm bracket:
                var from = new Point<PanelSpace>(bracket.FromXMm, bracket.FromYMm);
                var to = new Point<PanelSpace>(bracket.ToXMm, bracket.ToYMm);
                var way = to - from;

                // An upright bracket's title is read from below upwards; along any other line it stays upright.
                var turn = Math.Abs(way.DxMm) < Math.Abs(way.DyMm) ? -90 : 0;
                return (from + (0.5 * way), turn, way.LengthMm);
            default:
                return null;
        }
    }
}
