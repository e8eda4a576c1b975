using System;
using System.Collections.Immutable;
using Lampblack.Geometry;

namespace Lampblack.Sheets;

/// <summary>
/// A register mark in the waste of a sheet, smaller than those of a calibration sheet: a photo of the sheet against a light shows by them where side 2 lies.
/// </summary>
/// <param name="Number">Its number; none that a calibration sheet or a hole template has.</param>
internal sealed record RegisterGauge(int Number) : Gauge(FormattableString.Invariant($"{WasteMarks.Prefix}{Number}"))
{
    // A little clear paper parts it from its neighbour.
    private const double SideMm = (2 * RegisterMark.HalfSquareMm * WasteMarks.Share) + 0.6;

    public override ImmutableArray<(double WidthMm, double HeightMm)> Sizes => [(SideMm, SideMm)];

    public override GaugeDrawing Draw(Box<SheetSpace> box, GaugeInks inks)
    {
        var mark = new RegisterMark(Number, new(box.Centre.XMm / WasteMarks.Share, box.Centre.YMm / WasteMarks.Share));
        var smaller = Affine<SheetSpace, SheetSpace>.Scale(WasteMarks.Share, WasteMarks.Share);
        return new([new(MarkDrawing.Front(mark).Map(smaller), inks.Mark)], [new(MarkDrawing.Back(mark).Map(smaller), inks.Mark)]);
    }
}
