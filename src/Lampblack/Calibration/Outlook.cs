using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Calibration;

/// <summary>What is left over of misregister once a printer file's estimate is undone, as far as the estimate itself is unsure.</summary>
internal static class Outlook
{
    /// <summary>What a maker can live with everywhere on a panel.</summary>
    public const double GoodMm = 0.15;

    /// <summary>Another sheet that gains less than this is not worth its toner. Ours.</summary>
    public const double WorthMm = 0.03;

    /// <summary>How well a scale is read: 0.1 mm, typed to the nearest tenth. Common practice, no source.</summary>
    public static readonly double ReadingSdMm = Math.Sqrt((0.1 * 0.1) + (0.1 * 0.1 / 12));

    // From the border to where panels may reach on A4: 180 x 250 mm in the middle.
    private const double SideMm = 15;
    private const double EndMm = 23.5;

    // Radius of a round normal distribution that holds 95 %, in standard deviations: the root of 2 ln 20.
    private static readonly double Radius95 = Math.Sqrt(2 * Math.Log(20));

    /// <summary>The misregister at the worst corner that is not exceeded 19 times out of 20.</summary>
    public static double LeftMm(PrinterFile file, PaperSize paper)
    {
        var estimate = RegisterEstimate.Of(file);
        var (x, y) = ((paper.WidthMm / 2) - SideMm, (paper.HeightMm / 2) - EndMm);
        return Radius95 * new[] { (x, y), (-x, y), (x, -y), (-x, -y) }
            .Select(corner => estimate.At(corner.Item1, corner.Item2))
            .Max(off => Math.Sqrt(((off.RightSdMm * off.RightSdMm) + (off.UpSdMm * off.UpSdMm)) / 2));
    }

    /// <summary>The same after one more sheet, read at all four scales.</summary>
    public static double LeftAfterAnotherMm(PrinterFile file, PaperSize paper)
    {
        // How well something is known doesn't depend on what will be read, so any number serves.
        ImmutableArray<RegisterReading> readings =
        [
            .. SheetRoom.Of(paper, PrinterProperties.Of(file, paper)).ReadingScales
                .Select(scale => new RegisterReading(scale.Middle.XMm - (paper.WidthMm / 2), scale.Middle.YMm - (paper.HeightMm / 2), 0, 0, ReadingSdMm)),
        ];
        return LeftMm(file with { Register = file.Register.Add(new("readings", readings)) }, paper);
    }
}
