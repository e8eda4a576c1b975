using System;

namespace Lampblack.Circuits;

/// <summary>Diodes in series with one resistor.</summary>
/// <param name="Curve">Each diode's curve.</param>
/// <param name="DiodeCount">How many, at least 1.</param>
/// <param name="ResistorOhms">The resistor, 0 or more.</param>
public sealed record DiodeString(DiodeCurve Curve, int DiodeCount, double ResistorOhms)
{
    private const int MostSteps = 300;

    /// <summary>The current at a supply: where the volts of diodes and resistor add up to it.</summary>
    /// <param name="supplyVolts">The volts across the string; none flows at 0 or below.</param>
    /// <remarks>
    /// Newton's method. The sum grows with the current and its slope falls, so from below each step stays below; where a step leaves what is known to hold the answer, that stretch is halved.
    /// The formula (supply less forward volts) / resistor is off by up to a tenth where little is left for the resistor.
    /// </remarks>
    public double AmperesAt(double supplyVolts)
    {
        if (!(supplyVolts > 0) || !double.IsFinite(supplyVolts) || !Curve.IsUsable || DiodeCount < 1)
        {
            return 0;
        }

        var (low, high) = (0.0, Highest(supplyVolts));
        var amperes = high;
        for (var step = 0; step < MostSteps; step++)
        {
            var over = (DiodeCount * Curve.VoltsAt(amperes)) + (amperes * ResistorOhms) - supplyVolts;
            (low, high) = over > 0 ? (low, amperes) : (amperes, high);
            var slope = (DiodeCount * ((Curve.IdealityFactor * DiodeCurve.ThermalVolts / (amperes + Curve.SaturationAmperes)) + Curve.SeriesOhms)) + ResistorOhms;
            var next = amperes - (over / slope);
            next = next > low && next < high ? next : low + ((high - low) / 2);
            if (Math.Abs(next - amperes) <= 1e-14 * amperes)
            {
                return next;
            }

            amperes = next;
        }

        return amperes;
    }

    /// <summary>No more can flow: neither what the resistances alone would let through, nor what the diodes alone would.</summary>
    private double Highest(double supplyVolts)
    {
        var diodes = Curve.SaturationAmperes * (Math.Exp(Math.Min(700, supplyVolts / (DiodeCount * Curve.IdealityFactor * DiodeCurve.ThermalVolts))) - 1);
        var ohms = ResistorOhms + (DiodeCount * Curve.SeriesOhms);
        return ohms > 0 ? Math.Min(diodes, supplyVolts / ohms) : diodes;
    }
}
