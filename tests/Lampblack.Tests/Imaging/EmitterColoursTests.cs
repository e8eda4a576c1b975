using System;
using System.Linq;
using Lampblack.Imaging;
using Lampblack.Optics;
using Xunit;

namespace Lampblack.Tests.Imaging;

public sealed class EmitterColoursTests
{
    [Fact]
    public void The_white_point_of_srgb_is_white()
    {
        var white = EmitterColours.OfChromaticity(0.3127, 0.3290);
        Assert.Equal(1, white.Red, 2e-3);
        Assert.Equal(1, white.Green, 2e-3);
        Assert.Equal(1, white.Blue, 2e-3);
    }

    // Chromaticities of the sRGB primaries, IEC 61966-2-1.
    [Theory]
    [InlineData(0.64, 0.33, 1, 0, 0)]
    [InlineData(0.30, 0.60, 0, 1, 0)]
    [InlineData(0.15, 0.06, 0, 0, 1)]
    public void A_primary_is_that_band_alone(double x, double y, double red, double green, double blue)
    {
        var colour = EmitterColours.OfChromaticity(x, y);
        Assert.Equal(red, colour.Red, 2e-3);
        Assert.Equal(green, colour.Green, 2e-3);
        Assert.Equal(blue, colour.Blue, 2e-3);
    }

    [Fact]
    public void Every_emitter_is_within_the_picture_s_colours_and_has_its_strongest_band_at_full()
    {
        LinearColour[] all =
        [
            EmitterColours.WarmWhite, EmitterColours.CoolWhite, EmitterColours.Red,
            EmitterColours.Amber, EmitterColours.Green, EmitterColours.Blue,
        ];
        Assert.All(all, colour => Assert.Equal(1, colour.Peak, 12));
        Assert.All(all, colour => Assert.True(Math.Min(colour.Red, Math.Min(colour.Green, colour.Blue)) >= 0));
        Assert.Equal(all.Length, all.Distinct().Count());
    }

    [Fact]
    public void Warm_white_has_less_blue_than_green_and_less_green_than_red()
    {
        var warm = EmitterColours.WarmWhite;
        Assert.True(warm.Red > warm.Green && warm.Green > warm.Blue && warm.Blue > 0.1);
    }
}
