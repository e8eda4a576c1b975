using System;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Circuits;

/// <summary>How finely resistors are stepped (IEC 60063).</summary>
public enum ResistorSeries
{
    /// <summary>12 values in each decade.</summary>
    E12,

    /// <summary>24 values in each decade.</summary>
    E24,

    /// <summary>96 values in each decade.</summary>
    E96,
}

/// <summary>The values that resistors are made in.</summary>
public static class PreferredValues
{
    // Lower and higher values are rare in shops.
    private const double LeastOhms = 1;
    private const double MostOhms = 10_000_000;

    // A resistor computed as 150.00000000001 is 150.
    private const double Slack = 1e-9;

    private static readonly ImmutableArray<int> E24 = [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91];

    private static readonly ImmutableArray<int> E12 = [.. E24.Where((_, index) => index % 2 == 0)];

    // E96 is the geometric series, rounded; E24 is not (8 of its values differ).
    private static readonly ImmutableArray<int> E96 = [.. Enumerable.Range(0, 96).Select(index => (int)Math.Round(100 * Math.Pow(10, index / 96.0), MidpointRounding.AwayFromZero))];

    /// <summary>The values of one decade: 10 to 82, 10 to 91, 100 to 976.</summary>
    /// <param name="series">The series.</param>
    public static ImmutableArray<int> Decade(ResistorSeries series) => series switch
    {
        ResistorSeries.E12 => E12,
        ResistorSeries.E96 => E96,
        _ => E24,
    };

    /// <summary>The smallest value that is no smaller than asked for; from 1 Ω to 10 MΩ, and these where more or less is asked for.</summary>
    /// <param name="series">The series.</param>
    /// <param name="ohms">What is asked for; anything that is not above 1 gives 1 Ω.</param>
    public static double NextAbove(ResistorSeries series, double ohms)
    {
        if (!(ohms > LeastOhms))
        {
            return LeastOhms;
        }

        var decade = Decade(series);
        for (var power = 1.0; power < MostOhms; power *= 10)
        {
            foreach (var value in decade)
            {
                // One division of whole numbers: 4.7 comes out as 4.7, not as 4.7000000000000002.
                var candidate = value * power / decade[0];
                if (candidate >= ohms * (1 - Slack))
                {
                    return candidate;
                }
            }
        }

        return MostOhms;
    }
}
