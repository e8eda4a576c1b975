using System.Linq;
using Lampblack.Geometry;
using Lampblack.Imaging;
using Lampblack.Optics;
using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Imaging;

/// <summary>Light that is not the same everywhere, in pictures of the lit panel.</summary>
public sealed class LightMapTests
{
    private static readonly Box<PanelSpace> View = new(0, 0, 40, 20);

    /// <summary>Bare paper over the whole panel: what the light is, the picture is.</summary>
    private static readonly PanelRaster Paper = PanelRaster.Of(
        new(View, Region<PanelSpace>.Rectangle(View), [], [], Region<PanelSpace>.Empty, []), 0.25, SheetOptics.Unmeasured(Ink.Cmyk(0.6, 0.4, 0.4, 1)));

    [Fact]
    public void Half_the_light_at_the_right_edge_is_three_quarters_in_the_middle_of_the_picture()
    {
        var even = Levels(Backlight.Even(LinearColour.White), 10);
        var uneven = Levels(Backlight.Even(LinearColour.White) with { Map = new(View, 2, 2, [1, 0.5f, 1, 0.5f]) }, 10);
        Assert.Equal(even[80] * 0.75, uneven[80], 0.02);
        Assert.True(uneven.Zip(uneven.Skip(8)).All(pair => pair.First >= pair.Second), "it does not fall from left to right");
    }

    [Fact]
    public void The_first_row_of_a_map_is_the_lowest_of_the_panel()
    {
        var light = Backlight.Even(LinearColour.White) with { Map = new(View, 2, 2, [1, 1, 0.2f, 0.2f]) };
        Assert.True(Levels(light, 3)[80] > 2 * Levels(light, 17)[80]);
    }

    [Fact]
    public void A_cell_has_its_own_light_whatever_falls_around_it()
    {
        var cell = new LightCell(Region<PanelSpace>.Rectangle(new(4, 4, 8, 12)), 0.3 * LinearColour.White);
        var light = Backlight.Even(LinearColour.White) with { Cells = [cell], Map = new(View, 2, 2, [0.1f, 1, 0.1f, 1]) };
        var even = Levels(Backlight.Even(LinearColour.White), 10);
        Assert.Equal(even[32] * 0.3, Levels(light, 10)[32], 0.02);
    }

    /// <summary>Linear light along a line at some height, dot by dot from the left.</summary>
    private static double[] Levels(Backlight light, double yMm)
    {
        var picture = PanelPictures.Lit(Paper, light, 0)[0];
        var row = (int)((View.HeightMm - yMm) / Paper.MmPerDot);
        return [.. Enumerable.Range(0, picture.WidthPx).Select(column => Srgb.Decode(picture[column, row].Green))];
    }
}
