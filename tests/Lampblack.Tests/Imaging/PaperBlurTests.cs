using System;
using CsCheck;
using Lampblack.Geometry;
using Lampblack.Imaging;
using Lampblack.Optics;
using Xunit;

namespace Lampblack.Tests.Imaging;

/// <summary>
/// Spread of light in paper: contrast 1/(1 + (kp f)^2) at frequency f, where kp is 1/frequency of half contrast (Arney);
/// from it follow the line spread (pi/kp) exp(-2 pi |x|/kp) and the edge and slit values below.
/// </summary>
public sealed class PaperBlurTests
{
    // 10 to 90 % of an edge take kp ln 5 / pi.
    [Theory]
    [InlineData(0.15, 0.0768)]
    [InlineData(0.20, 0.1025)]
    [InlineData(0.25, 0.1281)]
    [InlineData(0.30, 0.1537)]
    [InlineData(0.35, 0.1793)]
    public void An_edge_is_smeared_over_half_of_kp_along_both_axes(double spreadMm, double widthMm)
    {
        const double MmPerDot = 0.002;
        const int Long = 1200;
        var upright = Field(Long, 3, MmPerDot, new(0, 0, Long / 2 * MmPerDot, 1)).Blur(spreadMm);
        Assert.Equal(widthMm, Width(dot => upright[dot, 1].Green), 1e-4);
        var level = Field(3, Long, MmPerDot, new(0, Long / 2 * MmPerDot, 1, 10)).Blur(spreadMm);
        Assert.Equal(widthMm, Width(dot => level[1, dot].Green), 1e-4);

        double Width(Func<int, double> light) => (Crossing(light, 0.1) - Crossing(light, 0.9)) * MmPerDot;

        static double Crossing(Func<int, double> light, double at)
        {
            var dot = 0;
            while (light(dot + 1) > at)
            {
                dot++;
            }

            return dot + ((light(dot) - at) / (light(dot) - light(dot + 1)));
        }
    }

    // A slit of 0.3 mm at kp 0.25 keeps 1 - exp(-pi 0.3/0.25) = 0.9770 in its middle.
    [Fact]
    public void A_slit_keeps_its_middle()
    {
        var field = Field(601, 3, 0.01, new(2.855, 0, 0.3, 1)).Blur(0.25);
        Assert.Equal(0.9770, field[300, 1].Red, 2e-3);
    }

    // The coarse picture must be the fine one averaged: dots as large as screen dots are no excuse for losing light in thin strokes.
    [Fact]
    public void Coarse_dots_show_the_mean_of_fine_ones()
    {
        var slit = new Box<PanelSpace>(2, 0, 0.25, 3);
        var coarse = Field(40, 24, 0.125, slit).Blur(0.25);
        var fine = Field(40 * 25, 3, 0.005, slit).Blur(0.25);
        for (var column = 0; column < 40; column++)
        {
            double mean = 0;
            for (var dot = 0; dot < 25; dot++)
            {
                mean += fine[(column * 25) + dot, 1].Blue / 25;
            }

            Assert.Equal(mean, coarse[column, 12].Blue, 1e-3);
        }
    }

    [Fact]
    public void No_light_is_lost_or_made_whatever_the_size_and_the_spread() =>
        Gen.Select(Gen.Int[1, 40], Gen.Int[1, 40], Gen.Double[0.01, 30], Gen.Double[0, 4], Gen.Double[0, 4]).Sample((width, height, spread, x, y) =>
        {
            var field = Field(width, height, 0.1, new(x, y, 0.5, 0.5));
            var before = field.Mean;
            Assert.Equal(before.Green, field.Blur(spread).Mean.Green, 1e-5);
        });

    [Fact]
    public void Even_light_stays_even()
    {
        var field = LightField.Filled(33, 17, 0.125, new(0.2, 0.5, 0.8)).Blur(0.3);
        Assert.Equal(0.2, field[0, 0].Red, 1e-5);
        Assert.Equal(0.5, field[32, 16].Green, 1e-5);
        Assert.Equal(0.8, field[16, 8].Blue, 1e-5);
    }

    [Fact]
    public void A_spot_spreads_alike_to_all_four_sides()
    {
        var field = Field(41, 41, 0.1, new(2.0, 2.0, 0.1, 0.1)).Blur(0.8);
        for (var way = 1; way < 15; way++)
        {
            var right = field[20 + way, 20].Red;
            Assert.Equal(right, field[20 - way, 20].Red, 1e-6);
            Assert.Equal(right, field[20, 20 + way].Red, 1e-6);
            Assert.Equal(right, field[20, 20 - way].Red, 1e-6);
            Assert.True(right < field[19 + way, 20].Red);
        }
    }

    /// <summary>White where the box is, black elsewhere; the origin at the lower left.</summary>
    private static LightField Field(int widthPx, int heightPx, double mmPerDot, Box<PanelSpace> box)
    {
        var view = new Box<PanelSpace>(0, 0, widthPx * mmPerDot, heightPx * mmPerDot);
        return LightField.Filled(widthPx, heightPx, mmPerDot, LinearColour.Black)
            .Paint(CoverageMap.Of(Region<PanelSpace>.Rectangle(box), view, mmPerDot), LinearColour.White);
    }
}
