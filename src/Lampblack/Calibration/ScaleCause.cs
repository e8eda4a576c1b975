using System.Globalization;

namespace Lampblack.Calibration;

/// <summary>Why a sheet came out at another scale.</summary>
internal static class ScaleCause
{
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
