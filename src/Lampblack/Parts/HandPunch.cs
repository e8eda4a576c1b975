using System;
using System.Linq;

namespace Lampblack.Parts;

/// <summary>Punches for paper as they are sold. The print, the hole chart and the build book name the same ones.</summary>
public static class HandPunch
{
    // Sold in whole millimetres or in sixteenths of an inch, up to about this size. Common practice, no source.
    private const double StepMm = 1;
    private const double StepInches = 1.0 / 16;
    private const double LargestMm = 30;

    // Beyond the wanted size at most half as far again as that lies beyond the hole: there the nut still covers the paper's edge.
    private const double MostShare = 1.5;

    /// <summary>
    /// The punch that one can buy, in mm: the nearest to the wanted size that is not smaller than the hole, where a drill would tear the paper, and at most half
    /// as far again beyond the hole's edge, where the nut still covers it. Nothing where none is: a knife does it.
    /// </summary>
    /// <param name="wantedMm">The best diameter; nothing where a knife opens the paper anyway.</param>
    /// <param name="holeMm">The hole's diameter; nothing where it is no circle.</param>
    /// <param name="inInches">Whether punches are sold in fractions of an inch.</param>
    public static double? ForMm(double? wantedMm, double? holeMm, bool inInches)
    {
        if (wantedMm is not { } wanted || holeMm is not { } hole)
        {
            return null;
        }

        var stepMm = inInches ? StepInches * 25.4 : StepMm;
        var mostMm = Math.Min(LargestMm, hole + (MostShare * (wanted - hole)));
        var first = Math.Floor(wanted / stepMm);
        return new[] { first, first + 1 }.Select(steps => steps * stepMm).Where(mm => mm >= hole - 1e-9 && mm <= mostMm + 1e-9)
            .OrderBy(mm => Math.Round(Math.Abs(mm - wanted), 6, MidpointRounding.AwayFromZero)).ThenBy(mm => mm).Cast<double?>().FirstOrDefault();
    }
}
