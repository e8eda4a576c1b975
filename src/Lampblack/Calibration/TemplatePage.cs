using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Calibration;

/// <summary>Draws a hole template.</summary>
public static class TemplatePage
{
    private const double RingMm = 0.3;
    private const double TickMm = 2;
    private const double WordsMm = 1.9;
    private const double LabelMm = 1.6;
    private const double LineMm = 3.2;

    /// <summary>The page as the printer gets it.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="ink">The one ink.</param>
    /// <param name="printer">What is known of the printer; what it does to side 1 is undone, as on a front.</param>
    public static PdfPage Of(TemplatePlan plan, Ink ink, PrinterProperties printer)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var whole = new Box<PageSpace>(0, 0, plan.Paper.WidthMm, plan.Paper.HeightMm);
        var map = PageMapping.Front(printer);
        return new(plan.Paper.WidthMm, plan.Paper.HeightMm, whole, whole, [.. Draw(plan).Select(shape => new Painted<PageSpace>(shape.Map(map), ink))]);
    }

    /// <summary>All shapes of a page, all in one ink.</summary>
    /// <param name="plan">The plan.</param>
    public static ImmutableArray<Region<SheetSpace>> Draw(TemplatePlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var smaller = Affine<SheetSpace, SheetSpace>.Scale(TemplatePlan.MarkShare, TemplatePlan.MarkShare);
        var bar = Region<SheetSpace>.Rectangle(plan.CodeRow.Grow(SheetCode.AirMm)).Except(CalibrationMarks.Row(plan.CodeRow, plan.Code.ToCells()));
        var marks = Region<SheetSpace>.Union(plan.Marks.Select(mark => MarkDrawing.Front(mark).Map(smaller)).Append(bar.Map(smaller)));
        var squares = Region<SheetSpace>.Union(plan.Marks.Select(mark => Region<SheetSpace>.Rectangle(new Box<SheetSpace>(mark.Place.XMm, mark.Place.YMm, 0, 0).Grow(RegisterMark.HalfSquareMm + 1)).Map(smaller)));
        var outline = TrialDrawing.Lines(plan.Panel.Outline.Map(plan.Map)).Except(squares);
        return [marks, outline, .. Holes(plan, squares), .. Words(plan)];
    }

    /// <summary>Black, or a ring with four ticks around what is clear; and each hole's name beside it where there is room.</summary>
    private static IEnumerable<Region<SheetSpace>> Holes(TemplatePlan plan, Region<SheetSpace> squares)
    {
        var holes = plan.Panel.Holes.Select(hole => (hole.Item, Centre: plan.Map.Apply(hole.Centre), Mm: hole.RadiusMm + TemplatePlan.ClearMm)).ToList();
        var clear = Region<SheetSpace>.Union(holes.Select(hole => Region<SheetSpace>.Disc(hole.Centre, hole.Mm)));
        if (plan.IsDark)
        {
            yield return clear;
            yield break;
        }

        var lines = holes.SelectMany(hole => new[]
        {
            Region<SheetSpace>.Disc(hole.Centre, hole.Mm + RingMm),
            Region<SheetSpace>.Rectangle(new(hole.Centre.XMm - hole.Mm - TickMm, hole.Centre.YMm - (RingMm / 2), 2 * (hole.Mm + TickMm), RingMm)),
            Region<SheetSpace>.Rectangle(new(hole.Centre.XMm - (RingMm / 2), hole.Centre.YMm - hole.Mm - TickMm, RingMm, 2 * (hole.Mm + TickMm))),
        });
        yield return Region<SheetSpace>.Union(lines).Except(clear).Except(squares);
        var taken = holes.Select(hole => new Box<SheetSpace>(hole.Centre.XMm, hole.Centre.YMm, 0, 0).Grow(hole.Mm + TickMm)).Concat(squares.Pieces.Select(piece => piece.Bounds)).ToList();
        foreach (var (item, centre, mm) in holes)
        {
            var name = item[(item.IndexOf('/', StringComparison.Ordinal) + 1)..];
            var label = SheetText.Centred(name, LabelMm, new(centre.XMm, centre.YMm - mm - TickMm - LabelMm), Side.Front);
            if (!taken.Exists(box => box.Overlaps(label.Bounds)) && plan.Panel.Outline.Map(plan.Map).Bounds.Contains(label.Bounds))
            {
                taken.Add(label.Bounds);
                yield return label;
            }
        }
    }

    private static IEnumerable<Region<SheetSpace>> Words(TemplatePlan plan)
    {
        var (paper, widthMm) = (plan.Paper, plan.Paper.WidthMm - (2 * TemplatePlan.MarginMm));
        var top = paper.HeightMm - TemplatePlan.MarginMm - WordsMm;
        var how = plan.IsDark
            ? "For a plate with its light film on: lay the drilled plate on the outline, front up, its upper edge as below; photograph all of it from straight above, from far."
            : "Lay the drilled plate on the outline, front up, its upper edge as below. Fill every hole with a black felt pen, right to its edge. Take the plate away; photograph the page.";
        string[] lines =
        [
            SheetText.Fitting($"{plan.Panel.Title}  ·  hole template {(plan.IsDark ? "with the plate" : "for a felt pen")}  ·  actual size (100 %), plain paper, one side", WordsMm, widthMm),
            how,
            $"Then: lampblack drilled DESK PHOTO",
        ];
        foreach (var line in lines)
        {
            var heightMm = SheetText.FittingMm(line, WordsMm, widthMm);
            yield return SheetText.Centred(line, heightMm, new(paper.WidthMm / 2, top), Side.Front);
            top -= LineMm;
        }

        yield return TrialDrawing.Bar(paper.WidthMm / 2, TemplatePlan.MarginMm + 1, Side.Front);

        // An arrow outside of the plate's upper edge, or its word within where there is no room.
        var up = plan.Map.Apply(new(plan.Panel.WidthMm / 2, plan.Panel.HeightMm));
        var inwards = plan.Map.Apply(new(plan.Panel.WidthMm / 2, plan.Panel.HeightMm - 3)) - up;
        yield return SheetText.Centred("UP", WordsMm, new(up.XMm + inwards.DxMm, up.YMm + inwards.DyMm), Side.Front, inwards.DyMm < -1 ? 0 : 1);
    }
}
