using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Fabrication;
using Lampblack.Geometry;
using Lampblack.Lighting;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>The frames of the brightest and the dimmest legend in a drawing of the light, and where their words stand.</summary>
internal static class LightFrames
{
    private const double NameMm = 1.9;
    private const double FrameMm = 1.2;
    private const double LeaderMm = 0.15;

    // An arc or a ring fills little of the box around it: its frame goes along its own edge.
    private const double SlimShare = 0.6;

    /// <summary>The frames with their words; none where nothing shines by the common light.</summary>
    /// <param name="panel">The panel.</param>
    /// <param name="taken">What words should not lie on.</param>
    public static IEnumerable<(Region<PanelSpace> Frame, Region<PanelSpace> Name)> Of(PanelLighting panel, IEnumerable<Region<PanelSpace>> taken)
    {
        if (!panel.HasGeneral)
        {
            yield break;
        }

        var (brightest, dimmest) = (panel.Brightest, panel.Dimmest);
        var framed = new[] { (Legend: brightest, Word: "brightest", IsFull: true), (Legend: dimmest, Word: "dimmest", IsFull: false) }.Take(ReferenceEquals(brightest, dimmest) ? 1 : 2)
            .Select(one => (one.Legend, one.Word, one.IsFull, Frame: Frame(one.Legend.Piece))).ToList();
        var boxes = taken.SelectMany(region => region.Pieces).Select(piece => piece.Bounds).Concat(framed.Select(one => one.Frame.Bounds)).ToList();
        foreach (var (legend, word, isFull, frame) in framed)
        {
            var says = $"{word}, {LightingFindings.Figure(legend.CandelaPerM2)} cd/m2";
            var at = NamePlace(frame.Bounds, SheetText.WidthMm(says, NameMm), panel.Light.Box.Inside, boxes);
            var name = TemplateDrawing.Text(says, NameMm, at);
            boxes.Add(name.Bounds);
            yield return ((isFull ? TrialDrawing.Lines(frame, 0.3) : TrialDrawing.Dashes(frame)).Union(Leader(name.Bounds, frame.Bounds)), name);
        }
    }

    private static Region<PanelSpace> Frame(LitPiece piece)
    {
        var box = Region<PanelSpace>.Rectangle(piece.Box.Grow(FrameMm));
        if (piece.Mark is not { } mark)
        {
            return box;
        }

        var along = mark.Intersect(Region<PanelSpace>.Rectangle(piece.Box.Grow(0.05))).Grow(FrameMm);
        return !along.IsEmpty && along.Pieces.Length == 1 && along.AreaMm2 < SlimShare * box.AreaMm2 ? along : box;
    }

    /// <summary>A thin line from words that stand away from their frame; nothing where they stand at it.</summary>
    private static Region<PanelSpace> Leader(Box<PanelSpace> name, Box<PanelSpace> frame)
    {
        var from = new Point<PanelSpace>(Math.Clamp(frame.Centre.XMm, name.LeftMm, name.RightMm), Math.Clamp(frame.Centre.YMm, name.BottomMm, name.TopMm));
        var to = new Point<PanelSpace>(Math.Clamp(from.XMm, frame.LeftMm, frame.RightMm), Math.Clamp(from.YMm, frame.BottomMm, frame.TopMm));
        var far = from.DistanceMm(to);
        if (far < 2.5 * NameMm)
        {
            return Region<PanelSpace>.Empty;
        }

        var (x, y) = (LeaderMm / 2 * (to.YMm - from.YMm) / far, -LeaderMm / 2 * (to.XMm - from.XMm) / far);
        return Region<PanelSpace>.FromCorners([new(from.XMm + x, from.YMm + y), new(to.XMm + x, to.YMm + y), new(to.XMm - x, to.YMm - y), new(from.XMm - x, from.YMm - y)]);
    }

    /// <summary>Where a frame's words stand: above, below or beside it, farther off where that is full, where they cover the least; within the panel.</summary>
    private static Point<PanelSpace> NamePlace(Box<PanelSpace> frame, double widthMm, Box<PanelSpace> bounds, List<Box<PanelSpace>> taken)
    {
        var (half, gap) = (widthMm / 2, NameMm * 1.2);
        var places = from far in new[] { 1.0, 2.5, 4, 6, 9, 13 }
                     from place in new Point<PanelSpace>[]
                     {
                         new(frame.Centre.XMm, frame.TopMm + (far * gap)), new(frame.Centre.XMm, frame.BottomMm - (far * gap)),
                         new(frame.RightMm + half + (far * gap), frame.Centre.YMm), new(frame.LeftMm - half - (far * gap), frame.Centre.YMm),
                         new(frame.RightMm + half, frame.TopMm + (far * gap)), new(frame.LeftMm - half, frame.TopMm + (far * gap)),
                         new(frame.RightMm + half, frame.BottomMm - (far * gap)), new(frame.LeftMm - half, frame.BottomMm - (far * gap)),
                     }
                     select new Point<PanelSpace>(
                         Math.Clamp(place.XMm, bounds.LeftMm + Math.Min(half, bounds.WidthMm / 2), bounds.RightMm - Math.Min(half, bounds.WidthMm / 2)),
                         Math.Clamp(place.YMm, bounds.BottomMm + NameMm, bounds.TopMm - NameMm));
        return places.MinBy(place => taken.Append(frame).Sum(Room(place).SharedMm2));

        Box<PanelSpace> Room(Point<PanelSpace> place) => new(place.XMm - half, place.YMm - (NameMm * 0.7), widthMm, NameMm * 1.4);
    }
}
