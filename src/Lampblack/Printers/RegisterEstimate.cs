using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Numerics;
using Lampblack.Quantities;

namespace Lampblack.Printers;

/// <summary>
/// Where a printer puts side 2, in front view: what is meant for a place q, counted from the sheet's middle, lands at q + d(q) with
/// d = shift + turn (-y, x) + (stretch of x times x, stretch of y times y) + shear (y, x). Six numbers, the mean of all sheets that the printer could make, fitted to all
/// readings of those that were seen; how well they are known, that sheets scatter included; and how much they scatter.
/// </summary>
public sealed record RegisterEstimate
{
    /// <summary>A shift that nobody has measured, either way: standard deviation in mm. From memory, no source.</summary>
    public const double PriorShiftSdMm = 1.5;

    /// <summary>A turn that nobody has measured: standard deviation in degrees. From memory, no source.</summary>
    public const double PriorTurnSdDegrees = 0.3;

    /// <summary>A stretch that nobody has measured: standard deviation in percent; what paper shrinks in the fuser on its first way. From memory, no source.</summary>
    public const double PriorStretchSdPercent = 0.1;

    /// <summary>A shear that nobody has measured: standard deviation in percent. From memory, no source.</summary>
    public const double PriorShearSdPercent = 0.05;

    /// <summary>A stretch beyond this is no printer's own but a page that was fitted to another paper: refused, never learned.</summary>
    public const double LargestStretchPercent = 0.6;

    // Two lengths of 100 mm, each read to 0.2 mm: their difference.
    private const double BarsSdShare = 0.0028;

    private const double DegreesPerRadian = 180 / Math.PI;

    private readonly ScatterFit _known;
    private readonly LinearFit _fit;

    private RegisterEstimate(ScatterFit known, int revision, int sheets, int readings)
    {
        _known = known;
        _fit = known.Mean;
        Revision = revision;
        Sheets = sheets;
        Readings = readings;
    }

    /// <summary>What sheets say behind <c>register</c> on which it is undone.</summary>
    public int Revision { get; }

    /// <summary>On how many register entries of the printer file it rests.</summary>
    public int Sheets { get; }

    /// <summary>How many single readings these entries hold.</summary>
    public int Readings { get; }

    /// <summary>How far side 2 lies to the right at the sheet's middle.</summary>
    public double ShiftRightMm => _fit.Mean[0];

    /// <summary>Its standard deviation.</summary>
    public double ShiftRightSdMm => _fit.Sd(0);

    /// <summary>How far side 2 lies up at the sheet's middle.</summary>
    public double ShiftUpMm => _fit.Mean[1];

    /// <summary>Its standard deviation.</summary>
    public double ShiftUpSdMm => _fit.Sd(1);

    /// <summary>How far side 2 is turned, counter-clockwise.</summary>
    public double TurnDegrees => _fit.Mean[2] * DegreesPerRadian;

    /// <summary>Its standard deviation.</summary>
    public double TurnSdDegrees => _fit.Sd(2) * DegreesPerRadian;

    /// <summary>How much wider side 2 is than side 1.</summary>
    public double StretchXPercent => _fit.Mean[3] * 100;

    /// <summary>Its standard deviation.</summary>
    public double StretchXSdPercent => _fit.Sd(3) * 100;

    /// <summary>How much taller side 2 is than side 1.</summary>
    public double StretchYPercent => _fit.Mean[4] * 100;

    /// <summary>Its standard deviation.</summary>
    public double StretchYSdPercent => _fit.Sd(4) * 100;

    /// <summary>How far side 2 is sheared: what is up goes to the right, and what is right goes up, by this share.</summary>
    public double ShearPercent => _fit.Mean[5] * 100;

    /// <summary>Its standard deviation.</summary>
    public double ShearSdPercent => _fit.Sd(5) * 100;

    /// <summary>How much sheets scatter around that.</summary>
    public RegisterScatter Scatter => new(_known.SdOf(0), _known.SdOf(2) * DegreesPerRadian, _known.SdOf(3) * 100);

    /// <summary>Covariance of shift right, shift up (mm), turn (radians), stretch of x and of y, shear (shares), row by row.</summary>
    public ImmutableArray<ImmutableArray<double>> Covariance => _fit.Covariance;

    /// <summary>The mean and the scatter as they were fitted: shift right and up (mm), turn (radians), stretch of x and y, shear (shares).</summary>
    internal ScatterFit Known => _known;

    /// <summary>What is believed of a printer that nobody has measured, as equations: shift right and up, turn, stretch of x and y, shear.</summary>
    /// <param name="stretchSdShare">How far it may stretch, as a share; elsewhere than in an estimate it may be let loose.</param>
    internal static ImmutableArray<Observation> Prior(double stretchSdShare) =>
    [
        new([1, 0, 0, 0, 0, 0], 0, PriorShiftSdMm),
        new([0, 1, 0, 0, 0, 0], 0, PriorShiftSdMm),
        new([0, 0, 1, 0, 0, 0], 0, PriorTurnSdDegrees / DegreesPerRadian),
        new([0, 0, 0, 1, 0, 0], 0, stretchSdShare),
        new([0, 0, 0, 0, 1, 0], 0, stretchSdShare),
        new([0, 0, 0, 0, 0, 1], 0, PriorShearSdPercent / 100),
    ];

    /// <summary>The estimate from all that a printer file holds.</summary>
    public static RegisterEstimate Of(PrinterFile file)
    {
        ArgumentNullException.ThrowIfNull(file);
        return Of(file, file.Revision);
    }

    /// <summary>The estimate as it was up to a number: what was undone on sheets that say <c>register N</c>.</summary>
    /// <param name="file">The printer file.</param>
    /// <param name="revision">The number; from 0 to the file's own.</param>
    public static RegisterEstimate Of(PrinterFile file, int revision)
    {
        ArgumentNullException.ThrowIfNull(file);
        ArgumentOutOfRangeException.ThrowIfNegative(revision);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(revision, file.Revision);
        var entries = OncePerSheet.Register(file.Register.Zip(file.RegisterNumbers).Where(pair => pair.Second <= revision).Select(pair => pair.First));
        var bars = file.Bars.Where(bar => bar.Number <= revision).SelectMany(OfBar);
        return new(
            ScatterFit.Of(
                [.. Prior(PriorStretchSdPercent / 100), .. bars],
                [.. entries.Select(entry => entry.Readings.SelectMany(OfReading).ToImmutableArray())],
                RegisterScatter.Classes),
            revision,
            entries.Length,
            entries.Sum(entry => entry.Readings.Length));
    }

    /// <summary>Where side 2 is expected to lie at a place of the sheet, counted from the sheet's middle.</summary>
    /// <param name="xMm">The place, to the right.</param>
    /// <param name="yMm">The place, upwards.</param>
    public Displacement At(double xMm, double yMm)
    {
        ImmutableArray<double> right = Right(xMm, yMm);
        ImmutableArray<double> up = Up(xMm, yMm);
        return new(_fit.MeanOf(right), _fit.MeanOf(up), _fit.SdOf(right), _fit.SdOf(up));
    }

    /// <summary>What the printer does to side 2, relative to side 1, on a paper.</summary>
    public Affine<SheetSpace, SheetSpace> On(PaperSize paper)
    {
        ArgumentNullException.ThrowIfNull(paper);
        var toMiddle = Affine<SheetSpace, SheetSpace>.Shift(-paper.WidthMm / 2, -paper.HeightMm / 2);
        var (turn, shear) = (_fit.Mean[2], _fit.Mean[5]);
        var map = new Affine<SheetSpace, SheetSpace>(1 + _fit.Mean[3], shear - turn, ShiftRightMm, shear + turn, 1 + _fit.Mean[4], ShiftUpMm);
        return toMiddle.Then(map).Then(toMiddle.Inverse());
    }

    /// <summary>Shares of the six numbers in how far side 2 lies to the right at a place, counted from the sheet's middle.</summary>
    internal static ImmutableArray<double> Right(double xMm, double yMm) => [1, 0, -yMm, xMm, 0, yMm];

    /// <summary>The same upwards.</summary>
    internal static ImmutableArray<double> Up(double xMm, double yMm) => [0, 1, xMm, 0, yMm, xMm];

    /// <summary>
    /// The larger of both stretches that one entry by itself tells of, in percent: a page that was fitted to another paper shows there, while the mean of sheets takes
    /// it for an odd one.
    /// </summary>
    /// <param name="entry">The entry.</param>
    public static double WidestStretchPercent(RegisterEntry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        var fit = LeastSquares.Fit([.. Prior(PriorStretchSdPercent / 100), .. entry.Readings.SelectMany(OfReading)]);
        return 100 * (Math.Abs(fit.Mean[3]) > Math.Abs(fit.Mean[4]) ? fit.Mean[3] : fit.Mean[4]);
    }

    /// <summary>How far the places of one entry lie off their own best fit, root mean square over the places, right and up together.</summary>
    /// <param name="entry">The entry.</param>
    public static double RmsMm(RegisterEntry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        var seen = entry.Readings.SelectMany(OfReading).ToList();
        var fit = LeastSquares.Fit([.. Prior(PriorStretchSdPercent / 100), .. seen]);
        return Math.Sqrt(seen.Sum(one => Math.Pow(one.Value - fit.MeanOf(one.Coefficients), 2)) / entry.Readings.Length);
    }

    /// <summary>Whether an entry that this estimate does not hold fits what it knows.</summary>
    /// <param name="entry">The entry.</param>
    internal ChangeTest Against(RegisterEntry entry) => ChangeTest.Of(_known, [.. entry.Readings.SelectMany(OfReading)]);

    private static IEnumerable<Observation> OfReading(RegisterReading reading)
    {
        if (reading.RightMm is { } right)
        {
            yield return new(Right(reading.XMm, reading.YMm), right, reading.SdMm);
        }

        if (reading.UpMm is { } up)
        {
            yield return new(Up(reading.XMm, reading.YMm), up, reading.SdMm);
        }
    }

    private static IEnumerable<Observation> OfBar(BarEntry bar)
    {
        if (bar is { FrontMm: { } front, BackMm: { } back })
        {
            yield return new([0, 0, 0, 1, 0, 0], (back - front) / 100, BarsSdShare);
        }
    }
}

/// <summary>How far side 2 lies off at one place, in front view, and how well that is known.</summary>
/// <param name="RightMm">To the right.</param>
/// <param name="UpMm">Upwards.</param>
/// <param name="RightSdMm">Standard deviation of the first.</param>
/// <param name="UpSdMm">Standard deviation of the second.</param>
public readonly record struct Displacement(double RightMm, double UpMm, double RightSdMm, double UpSdMm);
