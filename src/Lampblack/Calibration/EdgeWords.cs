using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Printers;

namespace Lampblack.Calibration;

/// <summary>What was learned of edges, in a sentence each: how much toner grows, where the colours lie.</summary>
internal static class EdgeWords
{
    /// <summary>The sentences of what a file knows now and did not before.</summary>
    public static IEnumerable<string> Of(PrinterFile before, PrinterFile taught)
    {
        if (taught.Gains.Length > before.Gains.Length)
        {
            var gain = GainEstimate.Of(taught);
            var next = gain.PullBackMm > 0 ? Invariant($"the next build pulls black edges back by {gain.PullBackMm:0.000} mm")
                : gain.GrowthMm < -GainEstimate.LeastPullBackMm ? "black is not made wider for that" : "that is too little to undo";
            yield return Invariant($"Toner grows by {Told(gain)} at each edge of black; {next}.");
        }

        if (taught.Planes.Length > before.Planes.Length)
        {
            var planes = PlanesEstimate.Of(taught);
            yield return Invariant($"The colours lie off their black: {Told(planes)}; in the next build they end {planes.StandBackMm():0.00} mm inside its edges.");
        }
    }

    /// <summary>The growth in numbers.</summary>
    public static string Told(GainEstimate gain) =>
        Invariant($"{gain.GrowthMm:0.000} ± {gain.SdMm:0.000} mm ({gain.AcrossMm:0.000} across the sheet, {gain.AlongMm:0.000} along it)");

    /// <summary>The places in numbers.</summary>
    public static string Told(PlanesEstimate planes) => string.Join(", ", planes.Known.Select(letter =>
    {
        var (right, up, sd) = planes.Off(letter);
        return Invariant($"{letter} {Math.Abs(right):0.00} mm {(right < 0 ? "left" : "right")} and {Math.Abs(up):0.00} mm {(up < 0 ? "down" : "up")} ± {sd:0.00}");
    }));

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
