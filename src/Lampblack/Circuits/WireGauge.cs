using System;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Circuits;

/// <summary>A copper wire by its American gauge number.</summary>
/// <param name="Awg">The number, 10 to 36; higher is thinner.</param>
public sealed record WireGauge(int Awg)
{
    // Copper at 20 °C.
    private const double ResistivityOhmMetres = 1.7241e-8;

    // In a bundle, in a closed box. Common practice, no source.
    private const double AmperesPerMm2 = 5;

    /// <summary>The gauges that are chosen from, the thinnest first.</summary>
    public static ImmutableArray<WireGauge> Usual { get; } = [.. Enumerable.Range(0, 9).Select(step => new WireGauge(30 - (2 * step)))];

    /// <summary>Diameter of the copper.</summary>
    public double DiameterMm => 0.127 * Math.Pow(92, (36 - Awg) / 39.0);

    /// <summary>Its cross-section.</summary>
    public double AreaMm2 => Math.PI / 4 * DiameterMm * DiameterMm;

    /// <summary>What it carries for long.</summary>
    public double SafeAmperes => AmperesPerMm2 * AreaMm2;

    /// <summary>Resistance of so much of it, at 20 °C.</summary>
    /// <param name="lengthMm">Its length.</param>
    public double Ohms(double lengthMm) => ResistivityOhmMetres * (lengthMm * 1e-3) / (AreaMm2 * 1e-6);

    /// <summary>Volts lost on the way there and back.</summary>
    /// <param name="lengthMm">The way, once.</param>
    /// <param name="amperes">The current.</param>
    public double DropVolts(double lengthMm, double amperes) => 2 * Ohms(lengthMm) * amperes;
}
