using System;
using System.Collections.Generic;
using System.Linq;
using Xunit;

namespace Lampblack.Tests.Art;

/// <summary>
/// The promise of the spread and of the black, for artwork drawn elsewhere, vector or dots: on plates of an independent rasteriser (Ghostscript, tiffsep) at 600 dpi,
/// the mask displaced in its file by the spread less 0.01 mm.
/// </summary>
public sealed class ArtRegisterTests
{
    private const double ShortMm = 0.01;

    /// <summary>Islands narrower than 0.3 mm are opened too (Separator), and dots are half a dot off on either side.</summary>
    private const double SlackMm = 0.3 + (2 * ArtPlates.MmPerDot);

    public static TheoryData<string, int> Artwork => new() { { "gauge.svg", 8 }, { "gauge.png", 8 }, { "letters.svg", 16 }, { "letters.png", 16 }, { "embedded.svg", 16 } };

    [Theory]
    [MemberData(nameof(Artwork))]
    public void No_misregister_up_to_the_spread_covers_what_the_front_shows(string name, int directions)
    {
        var desk = ArtSamples.Separated(name);
        var plates = new ArtPlates(desk);
        foreach (var (x, y) in Directions(desk.SpreadMm - ShortMm, directions))
        {
            var covered = plates.Covered(plates.MaskAfter(x, y));
            Assert.True(covered.Count == 0, FormattableString.Invariant($"{name}, {x:0.000} {y:0.000} mm off: {covered.Count} dots are covered, at {string.Join(' ', covered.Take(12))}"));
        }
    }

    [Theory]
    [MemberData(nameof(Artwork))]
    public void Field_and_openings_have_the_inks_of_the_build(string name, int directions)
    {
        Assert.True(directions > 0);
        var desk = ArtSamples.Separated(name);
        var plates = new ArtPlates(desk);
        var mask = plates.MaskAfter(0, 0);
        foreach (var (side, found) in new[] { ("front", plates.Field(plates.Front, desk.Panels[0].StandBackMm)), ("mask", plates.Field(mask, desk.Panels[0].StandBackMm)) })
        {
            Assert.True(found.Right > 100_000, $"{name}, {side}: only {found.Right} dots of field were found");
            Assert.True(found.Wrong.Count == 0, $"{name}, {side}: {found.Wrong.Count} dots of the field have not the full build, at {string.Join(' ', found.Wrong.Take(12))}");
        }

        Assert.Empty(plates.Coloured(mask));
        Assert.Empty(plates.Bare(mask, desk.SpreadMm + SlackMm));
    }

    [Theory]
    [InlineData("letters.svg")]
    [InlineData("letters.png")]
    [InlineData("embedded.svg")]
    public void The_check_sees_a_spread_that_is_six_hundredths_too_small(string name)
    {
        var promisedMm = ArtSamples.Separated(name).SpreadMm;
        var plates = new ArtPlates(ArtSamples.Separated(name, promisedMm - 0.06));
        Assert.Contains(Directions(promisedMm - ShortMm, 8), off => plates.Covered(plates.MaskAfter(off.X, off.Y)).Count > 0);
    }

    private static IEnumerable<(double X, double Y)> Directions(double reachMm, int count) => Enumerable.Range(0, count)
        .Select(step => (reachMm * Math.Sin(step * 2 * Math.PI / count), reachMm * Math.Cos(step * 2 * Math.PI / count)));
}
