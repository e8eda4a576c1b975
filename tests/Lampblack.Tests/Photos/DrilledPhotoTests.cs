using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Tests.Calibration;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Photos;

/// <summary>How well drawn photos of drilled plates are read whose truth is known.</summary>
public sealed class DrilledPhotoTests
{
    [Fact]
    public void What_a_felt_pen_left_through_the_holes_tells_where_they_are_within_a_tenth()
    {
        var errors = new List<(string Item, double OffMm, double SdMm)>();
        foreach (var seed in Enumerable.Range(0, ExampleDesks.IsLong ? 50 : 3))
        {
            var chance = new Chance((ulong)seed + 1);
            var plan = PlateTrial.Plans(PlateTrial.Desk, seed % 2 == 0 ? "A4" : "Letter").Single(page => !page.IsDark);
            var truth = PlateTrial.Drilled(plan, chance);
            var scene = new DrawnPlate(plan, truth) { PenWandersMm = chance.Between(0, 0.15) };
            var read = PlateTrial.Read(PlateTrial.Source, null, PlateTrial.Camera(seed, chance).Photo(scene));
            Assert.Empty(read.Findings.Where(finding => finding.Severity != Severity.Note).Select(finding => finding.Message));
            Assert.Equal("dome", read.Value.Panel);
            var own = PlateTrial.Errors(plan, truth, read.Value);
            Assert.Equal(10, own.Count);
            errors.AddRange(own);
        }

        Check(errors, 0.1);
    }

    [Fact]
    public void A_plate_on_its_page_tells_it_through_its_thickness()
    {
        var errors = new List<(string Item, double OffMm, double SdMm)>();
        foreach (var seed in Enumerable.Range(0, ExampleDesks.IsLong ? 50 : 3))
        {
            var chance = new Chance((ulong)seed + 101);
            var plan = PlateTrial.Plans(PlateTrial.Desk, "A4").Single(page => page.IsDark);
            var truth = PlateTrial.Drilled(plan, chance);
            var scene = new DrawnPlate(plan, truth) { PlateMm = 3, Wall = seed % 3 == 2 ? 0.05 : 0.6 };
            var read = PlateTrial.Read(PlateTrial.Source, null, PlateTrial.Camera(seed, chance).Photo(scene));
            Assert.False(read.HasStop);
            var own = PlateTrial.Errors(plan, truth, read.Value);
            TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant($"{seed}: worst {own.Max(one => one.OffMm):0.000}, said {2 * own.Max(one => one.SdMm):0.000}; ") + string.Join(" ", read.Findings.Select(finding => finding.Code)));
            Assert.Equal(10, own.Count);
            Assert.All(own, one => Assert.True(one.OffMm < 3 * one.SdMm));

            // Where walls are dark nothing tells the camera's height, and the answer says that it is not enough.
            Assert.Equal(scene.Wall < 0.5, read.Findings.Any(finding => finding.Code == "drilled-parallax"));
            errors.AddRange(scene.Wall < 0.5 ? [] : own);
        }

        Check(errors, 0.1);
    }

    private static void Check(List<(string Item, double OffMm, double SdMm)> errors, double wantedMm)
    {
        var sorted = errors.Select(one => one.OffMm).Order().ToList();
        var inside = errors.Count(one => one.OffMm < 2.45 * one.SdMm) / (double)errors.Count;
        TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant(
            $"median {sorted[sorted.Count / 2]:0.000} 95 % {sorted[(int)(sorted.Count * 0.95)]:0.000} worst {sorted[^1]:0.000}; within their 95 % circle {inside:0.00}; sd {errors.Average(one => one.SdMm):0.000}"));
        Assert.True(sorted[(int)(sorted.Count * 0.95)] <= wantedMm);
        Assert.True(inside >= 0.9);
    }
}
