using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Photos;
using Lampblack.Tests.Calibration;
using Lampblack.Tests.Printers;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Photos;

/// <summary>How well toner's growth and the colours' places are read from drawn photos whose truth the reading knows nothing of.</summary>
public sealed class GrowthTests
{
    // Of a normal number, 99 % lie within so many standard deviations; of a pair of them, taken together, as a squared distance (any table).
    private const double Region99 = 2.576;
    private const double PairRegion99 = 9.21;

    private static readonly Lazy<ImmutableArray<Trial>> Trials = new(() => [.. Enumerable.Range(0, ExampleDesks.IsLong ? 40 : 4).Select(seed => new Trial(seed))]);

    [Fact]
    public void Toner_s_growth_is_read_to_a_hundredth_of_a_millimetre_and_the_truth_lies_where_it_is_said_to()
    {
        Assert.Equal(string.Empty, string.Join(" ", GainFaults(trial => trial.Photo.Gain)));

        // Readers that are broken are found out: nothing read, nothing grown, and twice as sure as it is.
        Assert.NotEmpty(GainFaults(_ => null));
        Assert.NotEmpty(GainFaults(trial => trial.Photo.Gain! with { AcrossMm = 0, AlongMm = 0 }));
        Assert.NotEmpty(GainFaults(trial => trial.Photo.Gain! with { NoiseSdMm = 0.0005, CurveSdMm = 0 }));
    }

    [Fact]
    public void The_colours_places_are_read_to_two_hundredths_and_the_truth_lies_where_it_is_said_to()
    {
        Assert.Equal(string.Empty, string.Join(" ", PlaneFaults(trial => trial.Photo.Planes)));
        Assert.NotEmpty(PlaneFaults(_ => []));
        Assert.NotEmpty(PlaneFaults(trial => [.. trial.Photo.Planes.Select(plane => plane with { RightMm = 0, UpMm = 0 })]));
        Assert.NotEmpty(PlaneFaults(trial => [.. trial.Photo.Planes.Select(plane => plane with { RightMm = plane.UpMm, UpMm = plane.RightMm })]));
        Assert.NotEmpty(PlaneFaults(trial => [.. trial.Photo.Planes.Select(plane => plane with { SdMm = 0.001 })]));
    }

    [Fact]
    public void What_a_photo_does_not_tell_is_said_with_its_reason_and_the_rest_is_learned()
    {
        var plan = TrialPhoto.Plans.Single(plan => plan.Paper.Name == "A4");
        var bright = new DrawnCamera { WidthPx = 2400, HeightPx = 1800, TiltDegrees = 4, Exposure = 1.5, Vignetting = 0.1, BlurPx = 0.9 }.Jpeg(new DrawnSheet(plan, 2) { HasGauges = true, GainMm = 0.05 });
        var read = PhotosOfSheets.Read([("bright.jpg", bright)], new Progress<string>(), CancellationToken.None);
        Assert.True(read.CanTeach);
        Assert.Empty(read.Growth);
        Assert.Contains(read.Findings, finding => finding is { Code: "photo-growth-unread", Severity: Severity.Note } && finding.Message.Contains("bare paper is as bright as the photo can show", StringComparison.Ordinal));
        Assert.Contains(read.Findings, finding => finding is { Code: "photo-colours-unread", Severity: Severity.Note } && finding.Message.Contains("C, M, Y: bare paper is as bright", StringComparison.Ordinal));
        var learned = Learn.Run(PrinterSamples.New(), LearnAnswers.Nothing with { Photos = read }).Value;
        Assert.Single(learned.File.Register);
        Assert.Empty(learned.File.Gains);
        Assert.DoesNotContain(learned.Words, word => word.StartsWith("Toner grows", StringComparison.Ordinal));
    }

    private static List<string> GainFaults(Func<Trial, GainReading?> reader)
    {
        var read = Trials.Value.Select(trial => (trial.GainMm, Read: reader(trial))).ToList();
        var faults = new List<string>();
        Assert.All(Trials.Value, trial => Assert.Equal((null, 0), (trial.Photo.GainWhy, trial.Photo.PlanesWhy.Length)));
        if (read.Any(pair => pair.Read is null))
        {
            faults.Add("unread");
            return faults;
        }

        var errors = read.SelectMany(pair => new[] { (Error: pair.Read!.AcrossMm - pair.GainMm, pair.Read.SdMm), (Error: pair.Read.AlongMm - pair.GainMm, pair.Read.SdMm) }).ToList();
        var rms = Math.Sqrt(errors.Average(one => one.Error * one.Error));
        TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant($"growth: rms {rms:0.0000}, worst {errors.Max(one => Math.Abs(one.Error)):0.0000}, stated {errors.Average(one => one.SdMm):0.0000}, {string.Join(" ", read.Select(pair => FormattableString.Invariant($"{pair.GainMm:0.000}:{pair.Read!.AcrossMm:0.000}/{pair.Read.AlongMm:0.000}±{pair.Read.NoiseSdMm:0.0000}±{pair.Read.CurveSdMm:0.0000}")))}"));
        Expect(rms <= 0.01, "rms");
        Expect(errors.Max(one => Math.Abs(one.Error)) <= 0.02, "worst");
        Expect(errors.Count(one => Math.Abs(one.Error) > Region99 * one.SdMm) <= 0.02 * errors.Count, "region");

        // Where nothing grew nothing is invented, and where all is unsure nothing is told.
        Expect(read.Where(pair => pair.GainMm == 0).All(pair => Math.Abs(pair.Read!.MeanMm) < 0.01), "invented");
        Expect(errors.Average(one => one.SdMm) <= 0.01, "unsure");
        return faults;

        void Expect(bool isHeld, string what)
        {
            if (!isHeld)
            {
                faults.Add(what);
            }
        }
    }

    private static List<string> PlaneFaults(Func<Trial, ImmutableArray<PlaneOffset>> reader)
    {
        var faults = new List<string>();
        var pairs = Trials.Value.SelectMany(trial => reader(trial).Select(read => (Truth: trial.Off(read), Read: read))).ToList();
        if (pairs.Count < 0.95 * 6 * Trials.Value.Length)
        {
            faults.Add("unread");
            return faults;
        }

        var errors = pairs.Select(pair => (Right: pair.Read.RightMm - pair.Truth.RightMm, Up: pair.Read.UpMm - pair.Truth.UpMm, pair.Read)).ToList();
        var far = errors.SelectMany(error => new[] { Math.Abs(error.Right), Math.Abs(error.Up) }).Order().ToList();
        var outside = errors.Where(error => ((error.Right * error.Right) + (error.Up * error.Up)) / (error.Read.SdMm * error.Read.SdMm) > PairRegion99).ToList();
        TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant($"planes: {errors.Count} read, median {far[far.Count / 2]:0.0000}, 95 % {far[(int)(far.Count * 0.95)]:0.0000}, worst {far[^1]:0.0000}, stated {errors.Average(error => error.Read.SdMm):0.0000}, outside {outside.Count}; {string.Join(" ", "CMY".Select(letter => FormattableString.Invariant($"{letter} rms {Math.Sqrt(errors.Where(error => error.Read.Letter == letter).Average(error => ((error.Right * error.Right) + (error.Up * error.Up)) / 2)):0.0000} mean {errors.Where(error => error.Read.Letter == letter).Average(error => error.Right):0.0000} stated {errors.Where(error => error.Read.Letter == letter).Average(error => error.Read.SdMm):0.0000}")))}"));
        Expect(far[(int)(far.Count * 0.95)] <= 0.02, "19 of 20");

        // Of 48 numbers none, of the long set's 480 two at most: a photo in which colours stand half a dot beside the rest reads all of one colour so far off.
        Expect(far.Count(mm => mm > 0.035) <= far.Count / 200 && far[^1] <= 0.05, "worst");
        Expect(errors.All(error => Math.Max(Math.Abs(error.Right), Math.Abs(error.Up)) <= 3.5 * error.Read.SdMm), "worst of what is stated");
        Expect(outside.Count <= 0.02 * errors.Count, "region");
        Expect(errors.Average(error => error.Read.SdMm) <= 0.02, "unsure");
        return faults;

        void Expect(bool isHeld, string what)
        {
            if (!isHeld)
            {
                faults.Add(what);
            }
        }
    }

    /// <summary>A photo by hand of a sheet whose toner grew, and whose colours lie off. Some are exact.</summary>
    private sealed class Trial
    {
        private readonly Dictionary<(char, int), (double RightMm, double UpMm)> _off = [];

        public Trial(int seed)
        {
            var chance = new Chance((ulong)seed + 411);
            var plan = TrialPhoto.Plans.Single(plan => plan.Paper.Name == (seed % 2 == 0 ? "A4" : "Letter"));
            GainMm = seed % 4 == 0 ? 0 : chance.Between(-0.01, 0.12);
            var mean = "CMY".ToDictionary(letter => letter, _ => seed % 4 == 0 ? (0.0, 0.0) : (chance.Between(-0.2, 0.2), chance.Between(-0.2, 0.2)));
            foreach (var letter in "CMY")
            {
                for (var number = 0; number < 2; number++)
                {
                    _off[(letter, number)] = seed % 4 == 0 ? (0, 0) : (mean[letter].Item1 + chance.Between(-0.03, 0.03), mean[letter].Item2 + chance.Between(-0.03, 0.03));
                }
            }

            var sheet = new DrawnSheet(plan, 1 + seed) { HasGauges = true, GainMm = GainMm, Off = (letter, number) => _off[(letter, number)], FrontTransmittance = chance.Between(0.01, 0.08) };
            var camera = new DrawnCamera
            {
                IsInColour = true,
                Seed = seed,
                TiltDegrees = chance.Between(0, 20),
                TiltTowardsDegrees = chance.Between(0, 360),
                TurnDegrees = (90 * Math.Floor(chance.Between(0, 4))) + chance.Between(-10, 10),
                K1 = chance.Between(-0.08, 0.08),
                Curve = chance.Between(0.95, 1.05),
                JpegQuality = (int)chance.Between(75, 95),
                BlurPx = chance.Between(0.7, 2),
                Noise = chance.Between(0.003, 0.02),
                ToneMapping = chance.Between(0, 0.2),
                Veil = chance.Between(0, 0.02),
                Glow = chance.Between(0, 0.02),
                Fill = chance.Between(0.8, 0.9),
                IsFromBehind = seed % 5 == 4,
            };
            Photo = PhotoReading.Read($"photo-{seed}.jpg", camera.Jpeg(sheet), TrialPhoto.Plans, CancellationToken.None).Value!;
        }

        public double GainMm { get; }

        public SheetPhoto Photo { get; }

        public (double RightMm, double UpMm) Off(PlaneOffset read) => _off[(read.Letter, read.Place.YMm > Photo.Plan.Paper.HeightMm / 2 ? 0 : 1)];
    }
}
