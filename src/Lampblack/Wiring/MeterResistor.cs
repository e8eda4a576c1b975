using Lampblack.Circuits;

namespace Lampblack.Wiring;

/// <summary>The resistor between a pin and a meter with a pointer, and how far the pointer gets with it.</summary>
public static class MeterResistor
{
    // What USB gives a board, by USB 2.0, chapter 7. From memory.
    private const double LeastVolts = 4.75;
    private const double MostVolts = 5.25;

    // Usual resistors of carbon film.
    private const double ToleranceShare = 0.05;

    // What the coils of most small meters take at the end of their scale. From memory.
    private const double CoilVolts = 0.2;

    /// <summary>The smallest value of E24 with which the pointer never passes the end of its scale: at USB's highest, the resistor at its lowest, the coil without any resistance.</summary>
    /// <param name="amperes">What moves it to the end.</param>
    public static double Ohms(double amperes) => PreferredValues.NextAbove(ResistorSeries.E24, MostVolts / (1 - ToleranceShare) / amperes);

    /// <summary>Where the pointer stops at the highest level when all falls the other way: USB at its lowest, the resistor at its highest, 0.2 V left in the coil. From 0 to 1, the end of its scale.</summary>
    /// <param name="amperes">What moves it to the end.</param>
    public static double LeastShare(double amperes) => LeastVolts / ((Ohms(amperes) * (1 + ToleranceShare) * amperes) + CoilVolts);
}
