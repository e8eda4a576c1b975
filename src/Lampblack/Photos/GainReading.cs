using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Photos;

/// <summary>How much toner grew at each edge of the front's black, by the light of lit lines.</summary>
/// <param name="AcrossMm">At edges that run up the sheet: each lies so much further right or left than meant. Negative where toner fell short.</param>
/// <param name="AlongMm">At edges that run across the sheet.</param>
/// <param name="NoiseSdMm">How well each is known by how the lines differ: less with every photo.</param>
/// <param name="CurveSdMm">What the camera's tone curve, which is not known, may do to all photos alike.</param>
/// <param name="Lines">How many lines told it.</param>
public sealed record GainReading(double AcrossMm, double AlongMm, double NoiseSdMm, double CurveSdMm, int Lines)
{
    /// <summary>How well each is known.</summary>
    public double SdMm => Math.Sqrt((NoiseSdMm * NoiseSdMm) + (CurveSdMm * CurveSdMm));

    /// <summary>The mean of both.</summary>
    public double MeanMm => (AcrossMm + AlongMm) / 2;

    /// <summary>What several photos of one sheet tell; null where there is none.</summary>
    /// <param name="photos">Their readings.</param>
    public static GainReading? Together(IEnumerable<GainReading> photos)
    {
        var all = photos.ToList();
        if (all.Count < 2)
        {
            return all.FirstOrDefault();
        }

        var weights = all.Select(photo => 1 / (photo.NoiseSdMm * photo.NoiseSdMm)).ToList();
        double Weighted(Func<GainReading, double> value) => all.Zip(weights, (photo, weight) => value(photo) * weight).Sum() / weights.Sum();
        return new(Weighted(photo => photo.AcrossMm), Weighted(photo => photo.AlongMm), Math.Sqrt(1 / weights.Sum()), Weighted(photo => photo.CurveSdMm), all.Sum(photo => photo.Lines));
    }
}
