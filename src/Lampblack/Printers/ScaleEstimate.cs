using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Numerics;
using Lampblack.Quantities;

namespace Lampblack.Printers;

/// <summary>How much wider than meant a printer prints side 1, from the bars of 100 mm across the sheet, and how well that is known.</summary>
/// <param name="StretchXPercent">How much wider; negative where it is narrower.</param>
/// <param name="StretchXSdPercent">Its standard deviation.</param>
/// <param name="Sheets">How many measured bars it rests on.</param>
public sealed record ScaleEstimate(double StretchXPercent, double StretchXSdPercent, int Sheets)
{
    /// <summary>A stretch that nobody has measured: standard deviation in percent. From memory, no source.</summary>
    public const double PriorSdPercent = 0.1;

    /// <summary>How well a bar of 100 mm is read with a ruler: standard deviation in percent, which is also mm. Common practice, no source.</summary>
    public const double ReadingSdPercent = 0.2;

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
        ImmutableArray<Observation> read = [.. file.Bars.Where(bar => bar.FrontMm is not null && bar.Number <= revision)
            .Select(bar => new Observation([1], 100 * ((bar.FrontMm!.Value / BarLimits.BarMm) - 1), ReadingSdPercent))];
        var fit = LeastSquares.Fit([new([1], 0, PriorSdPercent), .. read]);
        return new(fit.Mean[0], fit.Sd(0), read.Length);
    }

    /// <summary>What the printer does to side 1 on a paper.</summary>
    public Affine<SheetSpace, SheetSpace> On(PaperSize paper)
    {
        ArgumentNullException.ThrowIfNull(paper);
        var factor = 1 + (StretchXPercent / 100);
        return new(factor, 0, paper.WidthMm / 2 * (1 - factor), 0, 1, 0);
    }
}
