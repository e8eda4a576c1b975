using System;
using System.Linq;

namespace Lampblack.Printers;

/// <summary>How much a printer's toner grows at every edge of black, from all calibration sheets that told it.</summary>
/// <param name="GrowthMm">How much further each edge lies than it was meant; negative where toner falls short.</param>
/// <param name="SdMm">Its standard deviation.</param>
/// <param name="AcrossMm">At edges that run up the sheet.</param>
/// <param name="AlongMm">At edges that run across the sheet.</param>
/// <param name="Sheets">On how many sheets it rests.</param>
public sealed record GainEstimate(double GrowthMm, double SdMm, double AcrossMm, double AlongMm, int Sheets)
{
    /// <summary>Edges are never pulled back further: what is more is no growth of toner but a sheet that was badly seen. Ours.</summary>
    public const double MostPullBackMm = 0.2;

    /// <summary>What is less than this no printer can print; a third of a dot at 1200 to the inch. Ours.</summary>
    public const double LeastPullBackMm = 0.007;

    // What the cameras of all photos have in common, and no number of sheets takes away.
    private const double CommonSdMm = 0.002;

    // So many standard deviations above nothing: 97.5 %.
    private const double Surely = 1.96;

    private static readonly GainEstimate Unknown = new(0, 0, 0, 0, 0);

    /// <summary>How far edges of black are pulled back, so that they come out as drawn: by the growth, where it is surely more than nothing.</summary>
    public double PullBackMm => Sheets > 0 && GrowthMm >= Math.Max(LeastPullBackMm, Surely * SdMm) ? Math.Round(Math.Min(GrowthMm, MostPullBackMm), 3, MidpointRounding.AwayFromZero) : 0;

    /// <summary>The estimate: the mean of all sheets, weighted by how well each tells it; sheets that differ by more than that widen it.</summary>
    /// <param name="file">The printer file.</param>
    public static GainEstimate Of(PrinterFile file)
    {
        ArgumentNullException.ThrowIfNull(file);
        var gains = OncePerSheet.Gains(file);
        if (gains.IsEmpty)
        {
            return Unknown;
        }

        var weights = gains.Select(gain => 1 / (gain.SdMm * gain.SdMm)).ToList();
        double Weighted(Func<GainEntry, double> value) => gains.Zip(weights, (gain, weight) => value(gain) * weight).Sum() / weights.Sum();
        var (across, along) = (Weighted(gain => gain.AcrossMm), Weighted(gain => gain.AlongMm));
        var mean = (across + along) / 2;
        var apart = gains.Zip(weights, (gain, weight) => weight * Math.Pow(((gain.AcrossMm + gain.AlongMm) / 2) - mean, 2)).Sum() / Math.Max(1, gains.Length - 1);
        return new(mean, Math.Sqrt((Math.Max(1, apart) / weights.Sum()) + (CommonSdMm * CommonSdMm)), across, along, gains.Length);
    }
}
