using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Numerics;
using Lampblack.Quantities;

namespace Lampblack.Printers;

/// <summary>How much wider and taller than meant a printer prints side 1, from bars that were measured with a ruler, and how well that is known.</summary>
/// <param name="StretchXPercent">How much wider; negative where it is narrower.</param>
/// <param name="StretchXSdPercent">Its standard deviation.</param>
/// <param name="Sheets">How many measured bars it rests on.</param>
public sealed record ScaleEstimate(double StretchXPercent, double StretchXSdPercent, int Sheets)
{
    /// <summary>A stretch that nobody has measured: standard deviation in percent. From memory, no source.</summary>
    public const double PriorSdPercent = 0.1;

    /// <summary>How well the length of a bar is read with a ruler: standard deviation. Common practice, no source.</summary>
    public const double ReadingSdMm = 0.2;

    /// <summary>How much taller it prints; negative where it is shorter.</summary>
    public double StretchYPercent { get; init; }

    /// <summary>Its standard deviation.</summary>
    public double StretchYSdPercent { get; init; } = PriorSdPercent;

    /// <summary>How many upright bars that rests on.</summary>
    public int UprightBars { get; init; }

    /// <summary>The estimate from all bars of a printer file.</summary>
    public static ScaleEstimate Of(PrinterFile file)
    {
        ArgumentNullException.ThrowIfNull(file);
        return Of(file, file.Revision);
    }

    /// <summary>The estimate as it was up to a number: what was undone on sheets that say <c>register N</c>.</summary>
    /// <param name="file">The printer file.</param>
    /// <param name="revision">The number.</param>
    public static ScaleEstimate Of(PrinterFile file, int revision)
    {
        ArgumentNullException.ThrowIfNull(file);
        var known = file.Bars.Where(bar => bar.Number <= revision).ToList();
        ImmutableArray<Observation> level =
        [
            .. known.Select(bar => bar.FrontMm).OfType<double>().Select(mm => Read(mm, BarLimits.BarMm)),
            .. known.Select(bar => bar.AcrossMm).OfType<double>().Select(mm => Read(mm, BarLimits.AcrossMm)),
        ];
        ImmutableArray<Observation> upright = [.. known.Select(bar => bar.AlongMm).OfType<double>().Select(mm => Read(mm, BarLimits.AlongMm))];
        var (x, y) = (Fit(level), Fit(upright));
        return new(x.Mean[0], x.Sd(0), level.Length) { StretchYPercent = y.Mean[0], StretchYSdPercent = y.Sd(0), UprightBars = upright.Length };
    }

    private static Observation Read(double mm, double meantMm) => new([1], 100 * ((mm / meantMm) - 1), 100 * ReadingSdMm / meantMm);

    private static LinearFit Fit(ImmutableArray<Observation> read) => LeastSquares.Fit([new([1], 0, PriorSdPercent), .. read]);

    /// <summary>What the printer does to side 1 on a paper.</summary>
    public Affine<SheetSpace, SheetSpace> On(PaperSize paper)
    {
        ArgumentNullException.ThrowIfNull(paper);
        var factor = 1 + (StretchXPercent / 100);
        var up = 1 + (StretchYPercent / 100);
        return new(factor, 0, paper.WidthMm / 2 * (1 - factor), 0, up, paper.HeightMm / 2 * (1 - up));
    }
}
