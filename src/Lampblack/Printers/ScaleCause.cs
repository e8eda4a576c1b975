using System;
using System.Globalization;
using Lampblack.Findings;

namespace Lampblack.Printers;

/// <summary>Why a sheet came out at another scale.</summary>
internal static class ScaleCause
{
    /// <summary>What is wrong with a back that is larger or smaller than the front by more than a printer's own difference; null where it isn't.</summary>
    public static Finding? Scaled(RegisterEntry entry) =>
        RegisterEstimate.WidestStretchPercent(entry) is var widest && Math.Abs(widest) > RegisterEstimate.LargestStretchPercent ? Scaled(widest) : null;

    /// <summary>The finding for a back that is larger or smaller by so much.</summary>
    /// <param name="percent">How much larger; negative where smaller.</param>
    public static Finding Scaled(double percent) => Finding.Stop(
        "readings-scaled",
        FormattableString.Invariant($"by these readings side 2 is {Math.Abs(percent):0.0} % {(percent > 0 ? "larger" : "smaller")} than side 1; a printer's own difference is below {RegisterEstimate.LargestStretchPercent} %"),
        $"{Of(percent / 100)} on one side only; print both sides at actual size (100 %) with the same paper chosen");

    /// <summary>The likely cause, as the beginning of a hint.</summary>
    /// <param name="stretchShare">How much larger than meant; negative where smaller.</param>
    public static string Of(double stretchShare)
    {
        var size = string.Create(CultureInfo.InvariantCulture, $"{100 * (1 + stretchShare):0.#} %");

        // A4 is 297 mm tall, Letter 279.4 mm: 94 %; Letter's 215.9 mm across A4's 210 mm: 97 %.
        return stretchShare switch
        {
            < -0.045 and > -0.085 => $"it was printed at about {size}: A4 fitted to Letter gives 94 % or a little less",
            < -0.015 and >= -0.045 => $"it was printed at about {size}: Letter fitted to A4 gives 97 %, and so do dialogs that shrink a page into its margins",
            < 0 => $"it was printed at about {size}: the page was probably fitted to another paper or shrunk into its margins",
            _ => $"it was printed at about {size}: the page was probably enlarged to fill another paper",
        };
    }
}
