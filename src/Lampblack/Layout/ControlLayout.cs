using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Geometry;

namespace Lampblack.Layout;

/// <summary>Puts a control's part, dial, states and legend in their places, from the inside outwards.</summary>
internal sealed class ControlLayout(FontShelf fonts, ICollection<Finding> findings)
{

    public void Place(Control control, int copy, Point<PanelSpace> centre, Origin origin, PanelBuilder into)
    {
        if (control.Drilled is { } drilled)
        {
            // Everything around the hole goes where the hole is, so that the next print fits the plate there is.
            centre += new Vector<PanelSpace>(drilled.DxMm, drilled.DyMm);
        }

        var part = PlacePart(control.Part, centre, control.TurnDegrees, origin);
        into.Parts.Add(part);
        var reach = Reach(part);
        if (control.Dial is { } dial)
        {
            var usualRadius = Math.Max(Math.Max(reach.WidthMm, reach.HeightMm) / 2 + 2, 8);
            var (placed, numerals) = DialLayout.Place(Turned(dial, control.TurnDegrees), centre, usualRadius, origin, control.Style, fonts, findings);
            into.Dials.Add(placed);
            into.Texts.AddRange(numerals);
            reach = numerals.Aggregate(Join(reach, DialBounds(placed)), (box, text) => Join(box, text.Box));
        }

        reach = States(control, centre, origin, reach, into);
        Legend(control, copy, centre, origin, reach, into);
    }

    /// <summary>A part with its holes at a place.</summary>
    public static PlacedPart PlacePart(Parts.Part part, Point<PanelSpace> centre, double turnDegrees, Origin origin)
    {
        var map = PlacedPart.MapOf(centre, turnDegrees);
        var form = PartForm.Of(part);
        return new(origin, part, centre, turnDegrees, [.. form.Holes.Select(hole => hole.Map(map))], form.Covered.Map(map));
    }

    /// <summary>What a hand or a bezel hides: nothing may be written there.</summary>
    private static Box<PanelSpace> Reach(PlacedPart part)
    {
        var front = PartForm.Of(part.Part).Front;
        var boxes = part.Holes.Select(hole => hole.Bounds);
        return front.IsEmpty ? boxes.Aggregate(Join) : boxes.Aggregate(front.Map(part.Map).Bounds, Join);
    }

    private static Dial Turned(Dial dial, double degrees) => dial with
    {
        StartDegrees = dial.StartDegrees + degrees,
        EndDegrees = dial.EndDegrees + degrees,
        TableDegrees = [.. dial.TableDegrees.Select(row => (row.Value, row.Degrees + degrees))],
    };

    private static Box<PanelSpace> DialBounds(PlacedDial dial)
    {
        var ends = dial.Marks.Select(mark => dial.Centre.Polar(mark.OuterRadiusMm, 90 - mark.ClockDegrees)).ToList();
        return ends.Count == 0
            ? new(dial.Centre.XMm, dial.Centre.YMm, 0, 0)
            : Box<PanelSpace>.Between(
                new(ends.Min(end => end.XMm), ends.Min(end => end.YMm)), new(ends.Max(end => end.XMm), ends.Max(end => end.YMm)));
    }

    private static Box<PanelSpace> Join(Box<PanelSpace> first, Box<PanelSpace> second) => Box<PanelSpace>.Between(
        new(Math.Min(first.LeftMm, second.LeftMm), Math.Min(first.BottomMm, second.BottomMm)),
        new(Math.Max(first.RightMm, second.RightMm), Math.Max(first.TopMm, second.TopMm)));

    private Box<PanelSpace> States(Control control, Point<PanelSpace> centre, Origin origin, Box<PanelSpace> reach, PanelBuilder into)
    {
        var angles = control.Part.PositionDegrees;
        var all = reach;
        for (var index = 0; index < Math.Min(control.States.Length, angles.Length); index++)
        {
            var word = control.States[index];
            if (string.IsNullOrWhiteSpace(word))
            {
                continue;
            }

            var block = TextBlock.Set([.. word.Split('\n')], control.StateText, HorizontalAlign.Centre, VerticalAnchor.Middle, fonts, origin, findings);
            var clock = 90 - angles[index] + control.TurnDegrees;
            var placed = block.At(StatePlace(control, centre, reach, clock, block.Box), 0, origin, control.Style, word);
            into.Texts.Add(placed);
            all = Join(all, placed.Box);
            if (control.StateLeadersMm > 0)
            {
                var radius = (reach.WidthMm / 2) + 0.6;
                into.Leaders.Add(new(
                    origin, control.Style, centre.Polar(radius, 90 - clock), centre.Polar(radius + control.StateLeadersMm, 90 - clock), LeaderWidthMm(control)));
            }
        }

        return all;
    }

    private static double LeaderWidthMm(Control control) => Math.Clamp(control.StateText.HeightMm * 0.14, 0.25, 0.5);

    private static Point<PanelSpace> StatePlace(Control control, Point<PanelSpace> centre, Box<PanelSpace> reach, double clockDegrees, Box<ItemSpace> box)
    {
        var gap = control.StateGapMm + (control.StateLeadersMm > 0 ? control.StateLeadersMm + 0.4 : 0);
        var way = new Point<PanelSpace>(0, 0).Polar(1, 90 - clockDegrees);
        if (Math.Abs(way.XMm) < 0.02)
        {
            return way.YMm > 0
                ? new(centre.XMm, reach.TopMm + gap + (box.HeightMm / 2))
                : new(centre.XMm, reach.BottomMm - gap - (box.HeightMm / 2));
        }

        if (Math.Abs(way.YMm) < 0.02)
        {
            return way.XMm > 0
                ? new(reach.RightMm + gap + (box.WidthMm / 2), centre.YMm)
                : new(reach.LeftMm - gap - (box.WidthMm / 2), centre.YMm);
        }

        return DialLayout.Around(centre, (reach.WidthMm / 2) + gap, clockDegrees, box);
    }

    private void Legend(Control control, int copy, Point<PanelSpace> centre, Origin origin, Box<PanelSpace> reach, PanelBuilder into)
    {
        var lines = control.Legends.IsEmpty ? [] : control.Legends[Math.Min(copy, control.Legends.Length - 1)];
        if (lines.IsEmpty || lines.All(string.IsNullOrWhiteSpace))
        {
            return;
        }

        var (align, anchor, place) = control.Side switch
        {
            LegendSide.Above => (HorizontalAlign.Centre, VerticalAnchor.Bottom, new Point<PanelSpace>(centre.XMm, reach.TopMm + control.GapMm)),
            LegendSide.Below => (HorizontalAlign.Centre, VerticalAnchor.Top, new Point<PanelSpace>(centre.XMm, reach.BottomMm - control.GapMm)),
            LegendSide.Left => (HorizontalAlign.Right, VerticalAnchor.Middle, new Point<PanelSpace>(reach.LeftMm - control.GapMm, centre.YMm)),
            _ => (HorizontalAlign.Left, VerticalAnchor.Middle, new Point<PanelSpace>(reach.RightMm + control.GapMm, centre.YMm)),
        };
        var block = TextBlock.Set(lines, control.LegendText, align, anchor, fonts, origin, findings);
        into.Texts.Add(block.At(place, 0, origin, control.Style, string.Join(' ', lines)));
    }
}
