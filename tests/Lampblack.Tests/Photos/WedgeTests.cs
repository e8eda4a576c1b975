using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Calibration;
using Lampblack.Geometry;
using Lampblack.Jobs;
using Lampblack.Photos;
using Lampblack.Printers;
using Lampblack.Tests.Calibration;
using Lampblack.Tests.Printers;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Photos;

/// <summary>How well the darkness of drawn patches is read whose truth is known.</summary>
public sealed class WedgeTests
{
    private const double Region99 = 2.576;

    private const double OneExposure = 0.64;

    private static readonly Lazy<ImmutableArray<Trial>> Trials = new(() => [.. Enumerable.Range(0, ExampleDesks.IsLong ? 20 : 2).Select(seed => new Trial(seed, [0.16, OneExposure, 2.56, 10.24]))]);

    private static ImmutableArray<Pair> Brackets => [.. Trials.Value.SelectMany(trial => trial.Pairs(trial.Reading))];

    private static ImmutableArray<Pair> Ones => [.. Trials.Value.SelectMany(trial => trial.Pairs(trial.One))];

    [Fact]
    public void A_bracket_of_exposures_reads_density_1_to_two_hundredths_and_2_to_a_tenth()
    {
        Say(Brackets);
        Assert.True(Rms(Brackets, 0, 1) <= 0.02);
        Assert.True(Rms(Brackets, 1, 2) <= 0.1);
    }

    [Fact]
    public void Patches_that_the_first_photo_cuts_off_are_read_from_the_second_whichever_comes_first()
    {
        var plan = TrialPhoto.Plans.Single(plan => plan.Paper.Name == "A4");
        var sheet = new DrawnSheet(plan, 9) { Wedge = patch => (patch.Front is null ? 0 : 0.6, patch.Back is null ? 0 : 0.6) };
        var camera = new DrawnCamera { WidthPx = 1920, HeightPx = 1440, Exposure = 0.64, Fill = 0.85, TiltDegrees = 0 };
        SheetPhoto Seen(DrawnCamera from) => PhotoReading.Read("p.jpg", from.Jpeg(sheet), TrialPhoto.Plans, CancellationToken.None).Value!;
        var (cut, whole) = (Seen(camera with { Aside = (0.4, 0) }), Seen(camera));
        var all = WedgeReading.Of([whole])!.Patches.Select(patch => patch.Id).ToHashSet();
        Assert.True(WedgeReading.Of([cut])!.Patches.Length < all.Count, $"{WedgeReading.Of([cut])!.Patches.Length} of {all.Count}");
        Assert.Equal(all, WedgeReading.Of([cut, whole])!.Patches.Select(patch => patch.Id).ToHashSet());
        Assert.Equal(all, WedgeReading.Of([whole, cut])!.Patches.Select(patch => patch.Id).ToHashSet());
    }

    [Fact]
    public void One_photo_reads_them_to_seven_and_to_twenty_five_hundredths()
    {
        Say(Ones);
        Assert.True(Rms(Ones, 0, 1) <= 0.07);
        Assert.True(Rms(Ones, 1, 2) <= 0.25);
    }

    [Fact]
    public void What_is_said_of_a_patch_holds_for_98_of_100()
    {
        foreach (var all in new[] { Brackets, Ones })
        {
            var wrong = all.Where(pair => IsWrong(pair.Truth, pair.Read)).ToList();
            TestContext.Current.TestOutputHelper?.WriteLine($"{wrong.Count} of {all.Length}: " + string.Join(" ", wrong.Select(pair => FormattableString.Invariant($"{pair.Read.Id}:{pair.Truth:0.000}/{pair.Read.Density:0.000}±{pair.Read.UncertaintyDensity:0.000}{(pair.Read.IsLowerBound ? "+" : "")}"))));
            Assert.True(wrong.Count <= 0.02 * all.Length);

            // Nor is everything merely a bound: nearly all up to 1.7 are readings.
            var light = all.Where(pair => pair.Truth < 1.7).ToList();
            Assert.True(light.Count(pair => !pair.Read.IsLowerBound) >= 0.95 * light.Count);

            // A bound is worth something: it lies in the hundreds, not at nothing.
            Assert.All(all.Where(pair => pair.Read.IsLowerBound), pair => Assert.True(pair.Read.Density > 1.3, pair.Read.Id));
        }
    }

    [Fact]
    public void Darker_than_stray_light_lets_see_is_inferred_from_the_single_layers_and_said_to_be()
    {
        var inferred = Brackets.Where(pair => pair.Read.IsInferred).ToList();
        TestContext.Current.TestOutputHelper?.WriteLine(string.Join(" ", inferred.Select(pair => FormattableString.Invariant($"{pair.Read.Id}:{pair.Truth:0.000}/{pair.Read.Density:0.000}±{pair.Read.UncertaintyDensity:0.000}"))));
        Assert.NotEmpty(inferred);
        Assert.All(inferred, pair => Assert.True(pair.Read.Id.StartsWith("both-", StringComparison.Ordinal) && !pair.Read.IsLowerBound));
        Assert.All(inferred, pair => Assert.Equal(pair.Truth, pair.Read.Density, Region99 * pair.Read.UncertaintyDensity));
        Assert.All(inferred, pair => Assert.InRange(pair.Read.UncertaintyDensity, 0.05, 0.2));

        // The opaque patches measure the stray light themselves: of them nothing but a bound is known.
        Assert.All(Brackets.Where(pair => pair.Read.Id.StartsWith("opaque", StringComparison.Ordinal)), pair => Assert.True(pair.Read.IsLowerBound));
    }

    [Fact]
    public void One_exposure_is_told_apart_from_a_bracket()
    {
        // The longest exposure counts where it has at least three readable patches in common with the shorter ones.
        Assert.All(Trials.Value, trial => Assert.InRange(trial.Reading.Exposures, 3, 4));
        Assert.All(Trials.Value, trial => Assert.Equal(1, trial.One.Exposures));
        Assert.Null(WedgeReading.Of([]));
    }

    [Fact]
    public void The_wedge_of_a_printer_with_black_only_is_read_and_learned_as_well()
    {
        var plan = TrialPhoto.Plans.Single(plan => plan.Paper.Name == "A4");
        static (double Front, double Back) Layers(string id) => id.Contains("-K-", StringComparison.Ordinal) ? (1.52, 1.44) : (1.31, 1.22);
        var sheet = new DrawnSheet(plan, 5)
        {
            IsBlackOnly = true,
            Wedge = patch => Layers(patch.Id) is var (front, back) ? (patch.Front is null ? 0 : front, patch.Back is null ? 0 : patch.Id == "opaque-2" ? 1.44 : back) : default,
            GainMm = 0.02,
        };
        var photos = new DrawnCamera { Fill = 0.85, TiltDegrees = 4, Veil = 0.006, Glow = 0.004 }.Jpegs([0.16, 0.64, 2.56, 10.24], sheet);
        var read = PhotosOfSheets.Read(photos.Select((bytes, index) => ($"p{index}.jpg", (ReadOnlyMemory<byte>)bytes)), new Progress<string>(), CancellationToken.None, hasColours: false);
        var patches = read.Patches;
        TestContext.Current.TestOutputHelper?.WriteLine(string.Join(" ", patches.Select(patch => FormattableString.Invariant($"{patch.Id}:{patch.Density:0.000}±{patch.UncertaintyDensity:0.000}{(patch.IsLowerBound ? "+" : patch.IsInferred ? "=" : "")}"))));
        Assert.Equal(CalibrationPatches.Of(plan, isBlackOnly: true).Where(patch => !patch.IsPaper).Select(patch => patch.Id).Order(), patches.Select(patch => patch.Id).Order());
        foreach (var patch in patches.Where(patch => !patch.Id.StartsWith("opaque", StringComparison.Ordinal)))
        {
            var (front, back) = Layers(patch.Id);
            var truth = (patch.Id.StartsWith("back", StringComparison.Ordinal) ? 0 : front) + (patch.Id.StartsWith("front", StringComparison.Ordinal) ? 0 : back);
            Assert.True(patch.IsLowerBound ? patch.Density <= truth : Math.Abs(patch.Density - truth) <= Region99 * patch.UncertaintyDensity, $"{patch.Id}: {patch.Density} for {truth}");
            Assert.True(truth > 2 || !patch.IsLowerBound, patch.Id);
        }

        Assert.DoesNotContain(read.Findings, finding => finding.Code == "photo-colours-unread");
        var printer = PrinterSamples.New(PrinterSamples.Colour with { Colour = false });
        var taught = Learn.Run(printer, LearnAnswers.Nothing with { Photos = read }).Value.File;
        Assert.Equal(10, Assert.Single(taught.Wedges).Patches.Length);
        Assert.Single(taught.Gains);
        Assert.Empty(taught.Planes);

        // Gray stays the default, as its colours come as hatches; how dark both are is told.
        Assert.Equal("gray", PrinterProperties.Of(taught, plan.Paper).Builds[0].Name);
        Assert.Contains("gray 1.3", PrinterFiles.Tell(taught).Facts.Single(fact => fact.Key == "wedge").Text, StringComparison.Ordinal);
    }

    [Fact]
    public void No_uncertainty_or_a_third_of_a_density_too_much_would_be_found_out()
    {
        var all = Brackets;
        Assert.True(all.Count(pair => IsWrong(pair.Truth, pair.Read with { UncertaintyDensity = 0.001 })) > 0.02 * all.Length);
        Assert.True(all.Count(pair => IsWrong(pair.Truth, pair.Read with { Density = pair.Read.Density + 0.3 })) > 0.02 * all.Length);
    }

    private static bool IsWrong(double truth, PatchDensity read) => read.IsLowerBound
        ? truth < read.Density
        : Math.Abs(read.Density - truth) > Region99 * read.UncertaintyDensity;

    private static double Rms(ImmutableArray<Pair> pairs, double from, double to)
    {
        var errors = pairs.Where(pair => pair.Truth > from && pair.Truth <= to && !pair.Read.IsLowerBound).Select(pair => pair.Read.Density - pair.Truth).ToList();
        Assert.True(errors.Count > 20);
        return Math.Sqrt(errors.Average(error => error * error));
    }

    private static void Say(ImmutableArray<Pair> pairs)
    {
        TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant(
            $"rms to 1: {Rms(pairs, 0, 1):0.0000}, to 2: {Rms(pairs, 1, 2):0.0000}; to 2 stated {pairs.Where(pair => pair.Truth is > 1 and < 2 && !pair.Read.IsLowerBound).Average(pair => pair.Read.UncertaintyDensity):0.000}"));
        foreach (var pair in pairs.Take(6))
        {
            TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant($"  {pair.Read.Id} {pair.Truth:0.000} read {pair.Read.Density:0.000} ± {pair.Read.UncertaintyDensity:0.000} {(pair.Read.IsLowerBound ? "at least" : "")}"));
        }
    }

    private sealed record Pair(double Truth, PatchDensity Read);

    /// <summary>A sheet, its true densities, and what was read of its photos.</summary>
    private sealed class Trial
    {
        private readonly Dictionary<string, double> _truth = [];

        public Trial(int seed, double[] exposures)
        {
            var chance = new Chance((ulong)seed + 77);
            var plan = TrialPhoto.Plans.Single(plan => plan.Paper.Name == (seed % 2 == 0 ? "A4" : "Letter"));
            var layers = new Dictionary<string, (double Front, double Back)>();
            foreach (var patch in CalibrationPatches.Of(plan))
            {
                // Anything a printer may make of it: from half burnt out to as dark as one layer gets, all inks together 1.1 at the least.
                var least = patch.Id is "front-400-vector" or "back-400-vector" or "back-240-vector" ? 1.1 : 0.3;
                layers[patch.Id] = (patch.Front is null ? 0 : chance.Between(least, 1.9), patch.Back is null ? 0 : chance.Between(least, 1.9));
            }

            // Both layers of one black are what each is by itself; pinholes are in them already, as means.
            foreach (var (id, _) in layers.Where(layer => layer.Key.StartsWith("both-", StringComparison.Ordinal)).ToList())
            {
                layers[id] = (layers.GetValueOrDefault($"front-{id[5..]}", layers[id]).Front, layers.GetValueOrDefault($"back-{id[5..]}", layers[id]).Back);
            }

            layers["opaque-1"] = (layers["front-400-vector"].Front, layers["back-400-vector"].Back);
            layers["opaque-2"] = (layers["front-400-vector"].Front, layers["back-240-vector"].Back);
            foreach (var (id, (front, back)) in layers)
            {
                _truth[id] = front + back;
            }

            var sheet = new DrawnSheet(plan, 3 + seed)
            {
                Wedge = patch => layers[patch.Id],
                Back = Affine<SheetSpace, SheetSpace>.Shift(chance.Between(-0.8, 0.8), chance.Between(-0.8, 0.8)),
                BackTransmittance = 0.03,
            };
            var camera = new DrawnCamera
            {
                WidthPx = 1920,
                HeightPx = 1440,
                Exposure = 1,
                Seed = seed,
                TiltDegrees = chance.Between(0, 12),
                TiltTowardsDegrees = chance.Between(0, 360),
                TurnDegrees = 90 + chance.Between(-6, 6),
                BlurPx = chance.Between(0.7, 1.5),
                Noise = chance.Between(0.003, 0.015),
                Veil = chance.Between(0.004, 0.02),
                Glow = chance.Between(0.002, 0.015),
                Fill = 0.85,
                K1 = chance.Between(-0.05, 0.05),
            };
            var photos = camera.Jpegs(exposures, sheet).Select(bytes => PhotoReading.Read("p.jpg", bytes, TrialPhoto.Plans, CancellationToken.None).Value).ToArray();
            One = WedgeReading.Of([photos[Array.IndexOf(exposures, OneExposure)]!])!;
            Assert.NotEmpty(photos.OfType<SheetPhoto>());
            Reading = WedgeReading.Of(photos.OfType<SheetPhoto>())!;
        }

        public WedgeReading Reading { get; }

        public WedgeReading One { get; }

        public IEnumerable<Pair> Pairs(WedgeReading reading) => reading.Patches.Select(patch => new Pair(_truth[patch.Id], patch));
    }
}
