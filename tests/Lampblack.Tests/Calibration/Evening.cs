using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Findings;
using Lampblack.Printers;
using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Calibration;

/// <summary>A printer that puts side 2 off, and a maker who reads its sheets: written from what is printed on a sheet, without the core's own geometry.</summary>
/// <param name="Right">Shift to the right at the sheet's middle, in mm.</param>
/// <param name="Up">Shift upwards, in mm.</param>
/// <param name="Turn">Turn, counter-clockwise, in radians.</param>
/// <param name="StretchX">Stretch of x, as a share.</param>
/// <param name="StretchY">Stretch of y, as a share.</param>
internal sealed record Evening(double Right, double Up, double Turn, double StretchX = 0, double StretchY = 0)
{
    public static readonly PaperSize A4 = PaperSize.Find("A4")!;

    public static readonly PrinterFile NewFile = PrinterFile.New(
        "test", new(true, null, "A4", null, FirstEdge.Short, Turning.ByHand, SideOrder.FrontFirst, null, 5, 10));

    /// <summary>Middles of the scales, from the sheet's middle: 24 mm from the left and right edges, 8.5 mm from the others (margin 5, half a strip, past a turn box).</summary>
    public static readonly ImmutableArray<(string Name, double X, double Y)> Scales = [("NE", 81, 140), ("NW", -81, 140), ("SE", 81, -140), ("SW", -81, -140)];

    /// <summary>Where a point of the mask lands that is printed at a place.</summary>
    public (double X, double Y) Lands(double x, double y) => (x + Right - (Turn * y) + (StretchX * x), y + Up + (Turn * x) + (StretchY * y));

    /// <summary>How far the mask lies off at a place, if the file's estimate was undone.</summary>
    public (double Right, double Up) Off(PrinterFile file, double x, double y)
    {
        // Undone as a build does it: by the whole map's inverse, solved here by repeated correction.
        var made = RegisterEstimate.Of(file);
        var (qx, qy) = (x, y);
        for (var round = 0; round < 20; round++)
        {
            var off = made.At(qx, qy);
            (qx, qy) = (x - off.RightMm, y - off.UpMm);
        }

        var (landsX, landsY) = Lands(qx, qy);
        return (landsX - x, landsY - y);
    }

    /// <summary>The worst place of an area in the middle of the sheet: a straight map is worst at a corner.</summary>
    public double Worst(PrinterFile file, double width, double height) => new[] { (1, 1), (1, -1), (-1, 1), (-1, -1) }
        .Select(corner => Off(file, corner.Item1 * width / 2, corner.Item2 * height / 2))
        .Max(off => Math.Sqrt((off.Right * off.Right) + (off.Up * off.Up)));

    /// <summary>All four scales, each with a reading error, typed to the tenth.</summary>
    public ImmutableArray<string> Readings(PrinterFile file, Func<double> error) =>
        [.. Scales.Select(scale => Off(file, scale.X, scale.Y) is var off ? $"{scale.Name}:x={Tenth(off.Right + error())},y={Tenth(off.Up + error())}" : "")];

    /// <summary>A dot block: dot k of a row shines where the mask lies off towards the row's letter by more than 0.1 k mm.</summary>
    public string Dots(PrinterFile file, int acrossCm, int upCm)
    {
        var (right, up) = Off(file, (acrossCm * 10) - 105, (upCm * 10) - 148.5);
        return FormattableString.Invariant($"{acrossCm}-{upCm}:{Counts(right, up)}");
    }

    public static string Counts(double right, double up, double loose = 0) =>
        FormattableString.Invariant($"N={Shining(up + loose)},E={Shining(right + loose)},S={Shining(-up + loose)},W={Shining(-right + loose)}");

    public static Checked<Learned> Learn(PrinterFile file, TypedAnswers typed) => Learning.Learn(file, A4, typed);

    /// <summary>What was learned, where nothing may be wrong.</summary>
    public static Learned Fine(PrinterFile file, TypedAnswers typed)
    {
        var learned = Learn(file, typed);
        Assert.False(learned.HasStop, string.Join(" | ", learned.Findings.Select(finding => $"{finding.Code}: {finding.Message}")));
        return learned.Value;
    }

    /// <summary>The one stop of that code, where nothing may have been stored.</summary>
    public static Finding Stop(PrinterFile file, TypedAnswers typed, string code)
    {
        var learned = Learn(file, typed);
        var finding = Assert.Single(learned.Findings, one => one.Severity == Severity.Stop);
        Assert.Equal(code, finding.Code);
        Assert.Same(file, learned.Value.File);
        Assert.Empty(learned.Value.Words);
        return finding;
    }

    public static TypedAnswers Scale(params IEnumerable<string> readings) => TypedAnswers.Nothing with { Readings = [.. readings] };

    public static TypedAnswers Dot(params IEnumerable<string> dots) => TypedAnswers.Nothing with { Dots = [.. dots] };

    private static string Tenth(double mm) => mm.ToString("+0.0;-0.0;0.0", CultureInfo.InvariantCulture);

    private static int Shining(double mm) => Enumerable.Range(1, 6).Count(dot => mm > 0.1 * dot);
}
