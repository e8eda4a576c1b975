using System;
using Lampblack.Geometry;
using Lampblack.Imaging;
using Lampblack.Optics;
using Xunit;

namespace Lampblack.Tests.Imaging;

public sealed class LightFieldTests
{
    private static readonly Box<PanelSpace> View = new(0, 0, 4, 4);

    [Fact]
    public void Part_cover_mixes_light_and_not_codes()
    {
        var half = CoverageMap.Of(Region<PanelSpace>.Rectangle(new(0, 0, 0.5, 4)), View, 1);
        var field = LightField.Filled(4, 4, 1, LinearColour.Black).Paint(half, LinearColour.White);
        Assert.Equal(0.5, field[0, 0].Red, 0.005);
        Assert.Equal(0, field[1, 0].Red);

        // Half the light is code 188, not 128 (IEC 61966-2-1).
        Assert.InRange(field.ToPicture()[0, 0].Red, 187, 188);
    }

    [Theory]
    [InlineData(-2, -2)]
    [InlineData(3, 3)]
    [InlineData(-4, 0)]
    [InlineData(0, 9)]
    [InlineData(0, -9)]
    public void A_map_that_sticks_out_paints_what_lies_inside(int leftPx, int topPx)
    {
        var all = CoverageMap.Of(Region<PanelSpace>.Rectangle(View), View, 1);
        var field = LightField.Filled(4, 4, 1, LinearColour.Black).Paint(all, LinearColour.White, leftPx, topPx);
        for (var row = 0; row < 4; row++)
        {
            for (var column = 0; column < 4; column++)
            {
                var inside = column >= leftPx && column < leftPx + 4 && row >= topPx && row < topPx + 4;
                Assert.Equal(inside ? 1 : 0, field[column, row].Green);
            }
        }
    }

    [Fact]
    public void Filters_multiply_and_lights_add()
    {
        var light = LightField.Filled(2, 2, 1, new(0.5, 0.25, 1));
        light.Multiply(LightField.Filled(2, 2, 1, new(0.5, 1, 0.25))).Multiply(new LinearColour(1, 0.5, 1)).Scale(2);
        light.Add(LightField.Filled(2, 2, 1, LinearColour.Grey(0.1)), times: 2);
        Assert.Equal(0.7, light[1, 1].Red, 6);
        Assert.Equal(0.45, light[1, 1].Green, 6);
        Assert.Equal(0.7, light[1, 1].Blue, 6);
    }

    [Fact]
    public void A_copy_has_a_life_of_its_own()
    {
        var first = LightField.Filled(2, 2, 1, LinearColour.White);
        first.Copy().Scale(0);
        Assert.Equal(LinearColour.White, first[0, 0]);
    }

    [Fact]
    public void Fields_of_different_size_or_dots_are_not_joined()
    {
        var field = LightField.Filled(4, 4, 1, LinearColour.White);
        Assert.Throws<ArgumentException>(() => field.Add(LightField.Filled(4, 5, 1, LinearColour.White)));
        Assert.Throws<ArgumentException>(() => field.Multiply(LightField.Filled(4, 4, 2, LinearColour.White)));
        Assert.Throws<ArgumentException>(() => field.Paint(CoverageMap.Of(Region<PanelSpace>.Empty, View, 0.5), LinearColour.White));
    }

    [Fact]
    public void There_is_no_dot_outside()
    {
        var field = LightField.Filled(4, 2, 1, LinearColour.White);
        Assert.Throws<ArgumentOutOfRangeException>(() => field[4, 0]);
        Assert.Throws<ArgumentOutOfRangeException>(() => field[0, 2]);
        Assert.Throws<ArgumentOutOfRangeException>(() => field[-1, 0]);
    }
}
