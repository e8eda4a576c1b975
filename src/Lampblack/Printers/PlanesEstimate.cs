using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Numerics;

namespace Lampblack.Printers;

/// <summary>How far a printer's colours lie off its black, from all calibration sheets that told it, and how far inside K's edges they must end so that none comes out.</summary>
public sealed class PlanesEstimate
{
    /// <summary>The share of places, on sheets that the printer may print next, where no colour comes out from under K.</summary>
    public const double Share = 0.99;

    /// <summary>Colours end at least so far inside K's edges: one dot at 600 to the inch, and what such a dot is off. Ours.</summary>
    public const double LeastMm = 0.06;

    /// <summary>And at most so far, whatever was learned: beyond it edges of one black would shine. Ours.</summary>
    public const double MostMm = 0.5;

    // What is believed of a printer that nobody has measured: where its colours lie, and how they scatter from place to place and from sheet to sheet. From memory, no source.
    private const double PriorOffSdMm = 0.15;
    private const double PriorScatterSdMm = 0.02;
    private const double PriorScatterDegrees = 4;

    private const int Drawn = 10_000;
    private const double StepMm = 0.01;

    private static readonly ImmutableArray<char> Letters = ['C', 'M', 'Y'];
    private static readonly ImmutableArray<ScatterClass> Classes = [new([0, 1, 2, 3, 4, 5], [.. Enumerable.Repeat(PriorScatterSdMm, 6)], PriorScatterDegrees)];

    private readonly ScatterFit _fit;

    private PlanesEstimate(ScatterFit fit, int sheets, ImmutableArray<char> known) => (_fit, Sheets, Known) = (fit, sheets, known);

    /// <summary>On how many sheets it rests.</summary>
    public int Sheets { get; }

    /// <summary>Letters of the colours that a sheet told of.</summary>
    public ImmutableArray<char> Known { get; }

    /// <summary>How much the colours scatter around their places, in each direction.</summary>
    public double ScatterMm => _fit.SdOf(0);

    /// <summary>The estimate from all that a printer file holds.</summary>
    /// <param name="file">The printer file.</param>
    public static PlanesEstimate Of(PrinterFile file)
    {
        ArgumentNullException.ThrowIfNull(file);
        var sheets = OncePerSheet.Planes(file);
        var readings = sheets.Index().SelectMany(entry => entry.Item.Readings.Select(reading => (Sheet: entry.Index, Reading: reading))).ToList();

        // Each end of each sheet is a place of its own: colours wander on their way down a sheet as they do from sheet to sheet.
        var places = readings.GroupBy(one => (one.Sheet, one.Reading.YMm > 0)).Select(place => place.SelectMany(one => Observations(one.Reading)).ToImmutableArray());
        return new(
            ScatterFit.Of([.. Enumerable.Range(0, 6).Select(unknown => new Observation(Row(unknown), 0, PriorOffSdMm))], [.. places], Classes),
            sheets.Length,
            [.. Letters.Where(letter => readings.Exists(one => one.Reading.Letter == letter))]);
    }

    /// <summary>Where a colour lies in the mean, and how well that is known.</summary>
    /// <param name="letter">C, M or Y.</param>
    public (double RightMm, double UpMm, double SdMm) Off(char letter)
    {
        var at = 2 * Letters.IndexOf(letter);
        return (_fit.Mean.Mean[at], _fit.Mean.Mean[at + 1], Math.Max(_fit.Mean.Sd(at), _fit.Mean.Sd(at + 1)));
    }

    /// <summary>How far the colours must end inside K's edges.</summary>
    /// <remarks>Of 10,000 places that may be printed next, each with what is not known of the mean and with its own scatter, the farthest colour on all but one in a hundred.</remarks>
    public double StandBackMm()
    {
        var mean = _fit.Mean.Mean;
        var far = PredictedGroups.Of(_fit, Drawn)
            .Select(off => Enumerable.Range(0, 3).Max(ink => Math.Sqrt(Math.Pow(mean[2 * ink] + off[2 * ink], 2) + Math.Pow(mean[(2 * ink) + 1] + off[(2 * ink) + 1], 2))))
            .Order().ToArray();
        return Math.Clamp(Math.Round(Math.Ceiling((far[(int)Math.Ceiling(Share * Drawn) - 1] / StepMm) - 1e-9) * StepMm, 2, MidpointRounding.AwayFromZero), LeastMm, MostMm);
    }

    private static IEnumerable<Observation> Observations(PlaneReading reading)
    {
        var at = 2 * Letters.IndexOf(reading.Letter);
        yield return new(Row(at), reading.RightMm, reading.SdMm);
        yield return new(Row(at + 1), reading.UpMm, reading.SdMm);
    }

    private static ImmutableArray<double> Row(int unknown) => [.. Enumerable.Range(0, 6).Select(other => other == unknown ? 1.0 : 0)];
}
