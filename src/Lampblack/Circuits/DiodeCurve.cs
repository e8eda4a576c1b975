using System;

namespace Lampblack.Circuits;

/// <summary>A lamp diode's volts at each current, by the diode equation with a resistance in series: V = n VT ln(I / IS + 1) + I RS.</summary>
/// <param name="SaturationAmperes">IS, above 0.</param>
/// <param name="IdealityFactor">n, above 0; about 1.5 for red, up to 7 for white ones, whose sheets' curves are flat.</param>
/// <param name="SeriesOhms">RS, 0 or more.</param>
public sealed record DiodeCurve(double SaturationAmperes, double IdealityFactor, double SeriesOhms)
{
    /// <summary>kT/q at 27 °C, where circuit simulators compute if nothing else is said.</summary>
    public const double ThermalVolts = 0.025865;

    /// <summary>Red, about 1.9 V at 15 mA. Published diode models, from memory.</summary>
    public static DiodeCurve Red { get; } = new(1e-22, 1.5, 6);

    /// <summary>Amber, 2.05 V at 20 mA. From memory.</summary>
    public static DiodeCurve Amber { get; } = Through(2.05, 0.02, 1.7, 6);

    /// <summary>Green (nitride), 3.1 V at 20 mA. From memory.</summary>
    public static DiodeCurve Green { get; } = Through(3.1, 0.02, 5, 8);

    /// <summary>Blue, 3.2 V at 20 mA. From memory.</summary>
    public static DiodeCurve Blue { get; } = Through(3.2, 0.02, 5, 8);

    /// <summary>White, about 3.3 V at 20 mA. Published diode models, from memory.</summary>
    public static DiodeCurve White { get; } = new(0.27e-9, 6.79, 5.65);

    /// <summary>Whether its figures can be computed with.</summary>
    public bool IsUsable => Is(SaturationAmperes) && Is(IdealityFactor) && double.IsFinite(SeriesOhms) && SeriesOhms >= 0;

    /// <summary>The curve through one point of a data sheet, with a shape that is known or guessed. Not usable where the volts are beyond what the shape can reach: about 18 V times n.</summary>
    /// <param name="volts">Forward volts there.</param>
    /// <param name="amperes">The current there.</param>
    /// <param name="idealityFactor">n.</param>
    /// <param name="seriesOhms">RS.</param>
    public static DiodeCurve Through(double volts, double amperes, double idealityFactor, double seriesOhms) =>
        new(amperes / (Math.Exp((volts - (amperes * seriesOhms)) / (idealityFactor * ThermalVolts)) - 1), idealityFactor, seriesOhms);

    /// <summary>Forward volts at a current.</summary>
    /// <param name="amperes">The current, 0 or more.</param>
    public double VoltsAt(double amperes) =>
        (IdealityFactor * ThermalVolts * LogOnePlus(amperes / SaturationAmperes)) + (amperes * SeriesOhms);

    /// <summary>ln(1 + x), exact for small x, too.</summary>
    internal static double LogOnePlus(double x)
    {
        // Kahan's way: the rounding of 1 + x is in numerator and denominator alike. From memory.
        var sum = 1 + x;
        return sum == 1 ? x : double.IsInfinity(sum) ? Math.Log(x) : Math.Log(sum) * (x / (sum - 1));
    }

    private static bool Is(double value) => double.IsFinite(value) && value > 0;
}
