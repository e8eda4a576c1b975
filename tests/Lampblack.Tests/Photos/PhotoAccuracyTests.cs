using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Photos;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Photos;

/// <summary>How well drawn photos are measured whose truth is known.</summary>
public sealed class PhotoAccuracyTests
{
    // Chi-square with six degrees of freedom: 99 % lie below (any table).
    private const double Region99 = 16.8119;

    // No sheet lies quite flat.
    private const double CurlMm = 1;

    private static readonly Lazy<ImmutableArray<TrialPhoto>> Photos = new(() => [.. Enumerable.Range(0, 20).Select(seed => TrialPhoto.Take(seed, curlMm: CurlMm))]);

    [Fact]
    public void Twenty_photos_by_hand_tell_where_side_2_lands_and_how_well()
    {
        Assert.All(Photos.Value, photo => Assert.NotNull(photo.Read.Value?.Fit));
        TestContext.Current.TestOutputHelper?.WriteLine(Figures(Photos.Value));
        Assert.Empty(Faults(Photos.Value, photo => photo.Fit));
    }

    [Fact]
    public void Two_hundred_photos_do_too()
    {
        Assert.SkipUnless(ExampleDesks.IsLong, "takes a quarter of an hour; set LAMPBLACK_LONG=1");
        var photos = Enumerable.Range(0, 200).Select(seed => TrialPhoto.Take(seed, curlMm: CurlMm)).ToImmutableArray();
        TestContext.Current.TestOutputHelper?.WriteLine(Figures(photos));
        Assert.Empty(Faults(photos, photo => photo.Fit));
    }

    [Fact]
    public void Identity_the_prior_and_half_the_covariance_would_be_found_out()
    {
        // What printers do before anything is measured: a shift of 1 mm and two parts in a thousand.
        var prior = Diagonal(4e-6, 4e-6, 1, 4e-6, 4e-6, 1);
        ImmutableArray<ImmutableArray<double>> identity = [[1, 0, 0], [0, 1, 0]];
        Assert.NotEmpty(Faults(Photos.Value, photo => photo.Fit with { Affine = identity }));
        Assert.NotEmpty(Faults(Photos.Value, photo => photo.Fit with { Affine = identity, NoiseCovariance = prior, Covariance = prior }));
        Assert.NotEmpty(Faults(Photos.Value, photo => photo.Fit with { NoiseCovariance = prior }));
        Assert.NotEmpty(Faults(Photos.Value, photo => photo.Fit with { NoiseCovariance = Times(photo.Fit.NoiseCovariance, 0.5) }));
    }

    [Fact]
    public void Thick_paper_is_told_of_by_one_slanting_photo_and_cancels_out_by_a_second_one_half_turned()
    {
        var worst = new List<double>();
        foreach (var seed in Enumerable.Range(0, ExampleDesks.IsLong ? 50 : 4).Select(index => (index * 5) + 1))
        {
            var (first, second) = (TrialPhoto.Take(seed, 0.1), TrialPhoto.Take(seed, 0.1, halfTurned: true));
            foreach (var one in new[] { first, second })
            {
                Assert.True(one.Distance(one.Fit, one.Fit.Covariance) < Region99);
                Assert.True(one.WorstMm < 0.015 || one.Read.Findings.Any(finding => finding.Code == "photo-thickness"));
            }

            var both = SheetsReading.Of([first.Read.Value!, second.Read.Value!]);
            Assert.Empty(both.Findings);
            var sheet = Assert.Single(both.Value!.Sheets);
            Assert.Equal(2, sheet.FileNames.Length);
            Assert.Null(both.Value.ScatterCovariance);
            Assert.True(first.Distance(sheet.Fit, sheet.Fit.Covariance) < Region99);
            worst.Add(first.Worst(sheet.Fit));
        }

        worst.Sort();
        TestContext.Current.TestOutputHelper?.WriteLine(string.Join(" ", worst.Select(mm => FormattableString.Invariant($"{mm:0.0000}"))));
        Assert.True(worst[worst.Count / 2] <= 0.015);
        Assert.True(worst[(int)(worst.Count * 0.95)] <= 0.04);
        Assert.True(worst[^1] <= 0.08);
    }

    [Fact]
    public void Several_sheets_tell_how_they_scatter()
    {
        var photos = Photos.Value.Where(photo => photo.Paper.Name == "A4").Take(5).ToList();
        var read = SheetsReading.Of([.. photos.Select(photo => photo.Read.Value!)]).Value!;
        Assert.Equal(5, read.Sheets.Length);
        Assert.Equal(photos.Average(photo => photo.Truth.XMm), read.Fit.Map.XMm, 0.02);
        var shifts = photos.Select(photo => photo.Truth.XMm).ToList();
        var variance = shifts.Sum(shift => Math.Pow(shift - shifts.Average(), 2)) / 4;
        Assert.Equal(variance, read.ScatterCovariance!.Value[2][2], 0.05 * variance);
        Assert.True(read.Fit.Covariance[2][2] > variance / 5);

        Assert.Equal("photos-differ", Assert.Single(SheetsReading.Of([photos[0].Read.Value!, Photos.Value.First(photo => photo.Paper.Name == "A3").Read.Value!]).Findings).Code);
        var unread = photos[0].Read.Value! with { Code = null };
        Assert.Equal(["photo-code-unread", "photo-code-unread"], SheetsReading.Of([unread, unread]).Findings.Select(finding => finding.Code));
    }

    /// <summary>Everything that is asked of a solver, and what of it is not held.</summary>
    private static List<string> Faults(ImmutableArray<TrialPhoto> photos, Func<TrialPhoto, MisregisterFit> solver)
    {
        var worst = photos.Select(photo => photo.Worst(solver(photo))).Order().ToList();
        var distances = photos.Select(photo => photo.Distance(solver(photo), solver(photo).NoiseCovariance)).ToList();
        var faults = new List<string>();
        Expect(worst[worst.Count / 2] <= 0.010, "median");
        Expect(worst[(int)(worst.Count * 0.95)] <= 0.03, "19 of 20");
        Expect(worst[^1] <= 0.06, "worst");
        Expect(distances.Count(distance => distance > Region99) <= 0.02 * photos.Length, "truth outside of the region");

        // The mean of chi-square with six degrees of freedom is 6: below a third of that the region is much wider than it need be, above it, but for chance, too small.
        Expect(distances.Average() is > 2 and < 6.5, "covariance");
        return faults;

        void Expect(bool isHeld, string what)
        {
            if (!isHeld)
            {
                faults.Add(what);
            }
        }
    }

    private static string Figures(ImmutableArray<TrialPhoto> photos)
    {
        var worst = photos.Select(photo => photo.WorstMm).Order().ToList();
        var distances = photos.Select(photo => photo.Distance(photo.Fit, photo.Fit.NoiseCovariance)).ToList();
        return FormattableString.Invariant(
            $"median {worst[worst.Count / 2]:0.0000} 95 % {worst[(int)(worst.Count * 0.95)]:0.0000} worst {worst[^1]:0.0000}; distance mean {distances.Average():0.00} largest {distances.Max():0.0}, stops {photos.Count(photo => photo.Read.HasStop)}, found out {string.Join(" ", photos.SelectMany(photo => photo.Read.Findings).Where(finding => finding.Severity != Severity.Note).CountBy(finding => finding.Code).Select(code => $"{code.Key} {code.Value}"))}");
    }

    private static ImmutableArray<ImmutableArray<double>> Diagonal(params double[] variances) =>
        [.. variances.Select((variance, row) => variances.Select((_, column) => row == column ? variance : 0).ToImmutableArray())];

    private static ImmutableArray<ImmutableArray<double>> Times(ImmutableArray<ImmutableArray<double>> matrix, double factor) =>
        [.. matrix.Select(row => row.Select(element => element * factor).ToImmutableArray())];
}
