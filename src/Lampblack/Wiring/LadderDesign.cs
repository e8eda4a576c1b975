using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Circuits;
using Lampblack.Parts;

namespace Lampblack.Wiring;

/// <summary>
/// A selector read by one analog pin: as many equal resistors as it has positions, in a row from 0 V to the controller's supply. The first position
/// joins the pin to 0 V, each further one to the next joint. A resistor from the pin to the supply pulls it up where no position is joined.
/// </summary>
/// <param name="Ohms">Each resistor of the row.</param>
/// <param name="Windows">The readings that mean each position.</param>
/// <param name="LeastGapCounts">The least distance between two positions' worst readings.</param>
public sealed record LadderDesign(double Ohms, ImmutableArray<LadderWindow> Windows, int LeastGapCounts)
{
    /// <summary>From the pin to the supply.</summary>
    public const double PullUpOhms = 100_000;

    /// <summary>How far resistors may be off: those of metal film are 1 %.</summary>
    public const double ToleranceShare = 0.01;

    /// <summary>How far a reading may be off: twice what the sheet calls typical, from memory.</summary>
    public const int ConverterCounts = 4;

    /// <summary>The highest reading of 10 bits.</summary>
    public const int MostCounts = 1023;

    // Room between two positions' worst readings, so that noise never reaches the next.
    private const int WantedGapCounts = 12;

    // A pin's own leakage of 1 µA takes 0.1 V off the pull-up: what reads no more than this is no position.
    private const int LeastOpenCounts = 1000;
    private const double MostOhms = 4700;
    private const double LeastOhms = 47;

    /// <summary>The ladder with the largest resistors whose windows keep apart in the worst case; null where none do.</summary>
    /// <param name="positions">How many positions, at least 2.</param>
    /// <param name="toleranceShare">How far resistors may be off.</param>
    public static LadderDesign? Of(int positions, double toleranceShare = ToleranceShare)
    {
        var values = new[] { 10.0, 100.0 }.SelectMany(power => PreferredValues.Decade(ResistorSeries.E24).Select(value => value * power)).Append(LeastOhms)
            .Where(ohms => ohms is >= LeastOhms and <= MostOhms).OrderDescending();
        return values.Select(ohms => Of(positions, ohms, toleranceShare)).FirstOrDefault(design => design.LeastGapCounts >= WantedGapCounts);
    }

    /// <summary>The ladder of a value, its windows and how far apart they are; they overlap where the gap is below 0.</summary>
    /// <param name="positions">How many positions.</param>
    /// <param name="ohms">Each resistor.</param>
    /// <param name="toleranceShare">How far resistors may be off.</param>
    public static LadderDesign Of(int positions, double ohms, double toleranceShare)
    {
        var worst = Enumerable.Range(0, positions).Select(tap => Worst(positions, tap, ohms, toleranceShare)).ToList();
        var gaps = worst.Zip(worst.Skip(1), (one, next) => next.LowCount - one.HighCount).Append(LeastOpenCounts - worst[^1].HighCount).ToList();

        // Noise may carry a reading a quarter of the way to the next.
        return new(ohms, [.. worst.Select((window, tap) => new LadderWindow(
            tap == 0 ? 0 : window.LowCount - (Math.Max(0, gaps[tap - 1]) / 4),
            window.HighCount + (Math.Max(0, gaps[tap]) / 4)))], gaps.Min());
    }

    /// <summary>The readings of one joint within all tolerances, with the chip's own pull-up on or off.</summary>
    private static LadderWindow Worst(int positions, int tap, double ohms, double tolerance)
    {
        var (below, above, total) = ((double)tap, (double)(positions - tap), (double)positions);
        var low = Share(below * (1 - tolerance), above * (1 + tolerance));
        var high = Share(below * (1 + tolerance), above * (1 - tolerance));
        var source = ohms * below * above / total;
        var weakest = PullUpOhms * (1 + tolerance);
        var strongest = 1 / ((1 / (PullUpOhms * (1 - tolerance))) + (1 / Controller.LeastPullUpOhms));
        return new(
            Math.Max(0, (int)Math.Floor(MostCounts * Pulled(low, source * (1 - tolerance), weakest)) - ConverterCounts),
            Math.Min(MostCounts, (int)Math.Ceiling(MostCounts * Pulled(high, source * (1 + tolerance), strongest)) + ConverterCounts));

        static double Share(double below, double above) => below / (below + above);

        static double Pulled(double share, double source, double pull) => share + ((1 - share) * source / (source + pull));
    }
}
