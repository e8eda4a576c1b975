using System;
using System.Globalization;
using Lampblack.Findings;

namespace Lampblack.Printers;

/// <summary>What is believed of a measured bar of 100 mm: the same wherever one is told, typed at a terminal or written in a printer file.</summary>
internal static class BarLimits
{
    /// <summary>How long the bars are meant to be.</summary>
    public const double BarMm = 100;

    /// <summary>How long a calibration sheet's upright bar is meant to be.</summary>
    public const double AlongMm = 250;

    /// <summary>How long its level bar is meant to be.</summary>
    public const double AcrossMm = 180;

    /// <summary>Shorter is no bar of 100 mm but a slip of the pen.</summary>
    public const double ShortestMm = 50;

    /// <summary>Longer is none either.</summary>
    public const double LongestMm = 150;

    /// <summary>How far a bar may be off with the printer itself at fault.</summary>
    public const double LargestErrorMm = BarMm * RegisterEstimate.LargestStretchPercent / 100;

    // Typed lengths and limits are decimals: a rounding is no error of a bar.
    private const double RoundingMm = 1e-6;

    /// <summary>What is wrong with bars that were printed at another scale; null where none was.</summary>
    /// <param name="frontMm">The front's; null where it was not measured.</param>
    /// <param name="backMm">The back's; null where it was not measured.</param>
    /// <param name="before">What the message begins with.</param>
    public static Finding? Scaled(double? frontMm, double? backMm, string before) =>
        One("the front's bar", frontMm, BarMm, before) ?? One("the back's bar", backMm, BarMm, before);

    /// <summary>The same of a calibration sheet's bars.</summary>
    /// <param name="alongMm">The upright one; null where it was not measured.</param>
    /// <param name="acrossMm">The level one; null where it was not measured.</param>
    /// <param name="before">What the message begins with.</param>
    public static Finding? ScaledSheet(double? alongMm, double? acrossMm, string before) =>
        One("the upright bar", alongMm, AlongMm, before) ?? One("the level bar", acrossMm, AcrossMm, before);

    private static Finding? One(string which, double? mm, double meantMm, string before) =>
        mm is { } length && Math.Abs(length - meantMm) > (meantMm * RegisterEstimate.LargestStretchPercent / 100) + RoundingMm ? Finding(which, length, meantMm, before) : null;

    private static Finding Finding(string which, double mm, double meantMm, string before) => Findings.Finding.Stop(
        "bar-scaled",
        string.Create(CultureInfo.InvariantCulture, $"{before}{which} is {mm - meantMm:+0.##;-0.##} mm off its {meantMm} mm; a printer's own error is below {meantMm * RegisterEstimate.LargestStretchPercent / 100} mm"),
        $"{ScaleCause.Of((mm / meantMm) - 1)}; print again at actual size (100 %), without fitting to the page, and choose the paper that is in the slot");
}
