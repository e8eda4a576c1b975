using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Circuits;

/// <summary>Sizes that things are made in, and how much larger than the load they are taken.</summary>
public static class Ratings
{
    /// <summary>More volts than this, of direct current, are nothing to touch: IEC 60598-1, 8.2.3 and IEC 62282-5-1.</summary>
    public const double SelvVolts = 60;

    /// <summary>A supply is loaded to four fifths at most. Common practice, no source.</summary>
    internal const double SupplyLoadShare = 0.8;

    /// <summary>A fuse is at least so much larger than the load, which then is three quarters of it. From memory.</summary>
    internal const double FuseFactor = 1.35;

    // Film resistors take their full power up to 70 °C, and none at 155 °C. From memory.
    private const double FullPowerCelsius = 70;
    private const double NoPowerCelsius = 155;

    // IEC 60127's usual ratings, from memory.
    private static readonly ImmutableArray<double> Fuses =
        [0.1, 0.125, 0.16, 0.2, 0.25, 0.315, 0.4, 0.5, 0.63, 0.8, 1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8, 10];

    private static readonly ImmutableArray<double> Supplies = [0.5, 1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12.5, 15];
    private static readonly ImmutableArray<double> Resistors = [0.125, 0.25, 0.5, 1, 2, 3, 5, 10, 25, 50];
    private static readonly ImmutableArray<double> DrainCurrents = [0.5, 1, 2, 3, 5, 10, 20, 30];
    private static readonly ImmutableArray<double> Drains = [20, 30, 40, 60, 100, 150];

    /// <summary>The smallest fuse for a load; nothing where it would be larger than 10 A.</summary>
    /// <param name="loadAmperes">The load.</param>
    public static double? FuseAmperes(double loadAmperes) => Next(Fuses, loadAmperes * FuseFactor);

    /// <summary>The smallest usual supply that gives so much; so much where it would be larger than 15 A.</summary>
    /// <param name="amperes">What it should give.</param>
    public static double SupplyAmperes(double amperes) => Next(Supplies, amperes) ?? amperes;

    /// <summary>What a film resistor bears in warm air, as a share of its rating.</summary>
    /// <param name="celsius">The air around it.</param>
    public static double ResistorShare(double celsius) =>
        celsius <= FullPowerCelsius ? 1 : celsius >= NoPowerCelsius ? 0 : (NoPowerCelsius - celsius) / (NoPowerCelsius - FullPowerCelsius);

    /// <summary>The rating that a resistor should have: at least twice what it gets, in warm air more; so much where nothing of the kind is made.</summary>
    /// <param name="loadWatts">What it gets.</param>
    /// <param name="celsius">The air around it.</param>
    public static double ResistorWatts(double loadWatts, double celsius)
    {
        var wanted = 2 * loadWatts / System.Math.Max(0.01, ResistorShare(celsius));
        return Next(Resistors, wanted) ?? wanted;
    }

    /// <summary>The volts that a transistor should be made for: one and a half times what comes, or more.</summary>
    /// <param name="highestVolts">What comes.</param>
    internal static double DrainVolts(double highestVolts) => Next(Drains, 1.5 * highestVolts) ?? 1.5 * highestVolts;

    /// <summary>The current that a transistor should be made for: twice what comes, or more.</summary>
    /// <param name="highestAmperes">What comes.</param>
    internal static double DrainAmperes(double highestAmperes) => Next(DrainCurrents, 2 * highestAmperes) ?? 2 * highestAmperes;

    /// <summary>A resistance for a transistor's sheet to stay below: 1, 2 or 5 times a power of ten, and never more than 0.5 Ω, which all small ones reach.</summary>
    /// <param name="mostOhms">What it may be.</param>
    internal static double OnOhms(double mostOhms)
    {
        const double High = 0.5;
        const double Low = 1e-4;
        for (var (power, step) = (High / 5, 5); power > Low; (power, step) = step switch { 5 => (power, 2), 2 => (power, 1), _ => (power / 10, 5) })
        {
            if (power * step <= mostOhms)
            {
                return power * step;
            }
        }

        return mostOhms;
    }

    private static double? Next(ImmutableArray<double> sizes, double wanted) => sizes.Select(size => (double?)size).FirstOrDefault(size => size >= wanted - 1e-9);
}
