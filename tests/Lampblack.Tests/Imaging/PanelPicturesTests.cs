using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Imaging;
using Lampblack.Optics;
using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Imaging;

public sealed class PanelPicturesTests
{
    private const double MmPerDot = 0.125;
    private static readonly Box<PanelSpace> View = new(-2, -2, 44, 24);
    private static readonly Region<PanelSpace> Panel = Region<PanelSpace>.RoundedRectangle(new(0, 0, 40, 20), 3);
    private static readonly Region<PanelSpace> Field = Region<PanelSpace>.Rectangle(new(-3, -3, 46, 26));
    private static readonly Ink Build = Ink.Cmyk(0.6, 0.4, 0.4, 1);
    private static readonly Ink RedInk = Ink.Cmyk(0, 1, 1, 0);
    private static readonly Ink GreenInk = Ink.Cmyk(1, 0, 1, 0);

    /// <summary>Four legends in a row (white, red, green, hidden) at x = 5, 15, 25, 35, all 4 x 4 mm at mid-height, mask openings 0.3 mm larger.</summary>
    private static PanelLayers Legends(Region<PanelSpace>? holes = null, ImmutableArray<PlacedBezel> bezels = default)
    {
        var all = Region<PanelSpace>.Union(new double[] { 5, 15, 25, 35 }.Select(Legend));
        return new(
            View,
            Panel,
            [new(Field, Build), new(Legend(5), Ink.None), new(Legend(15), RedInk), new(Legend(25), GreenInk), new(Legend(35), Ink.FullK)],
            [new(Field, Build), new(all.Grow(0.3), Ink.None)],
            holes ?? Region<PanelSpace>.Empty,
            bezels.IsDefault ? [] : bezels);
    }

    private static Region<PanelSpace> Legend(double centreMm) => Region<PanelSpace>.Rectangle(new(centreMm - 2, 8, 4, 4));

    // Paper of 120 g/m2 over black: opacity 95.6 % of 0.85 is 0.8126, which IEC 61966-2-1 encodes as 232.7.
    [Fact]
    public void Bare_paper_by_day_has_its_reflectance_s_code()
    {
        var layers = new PanelLayers(View, Panel, [], [], Region<PanelSpace>.Empty, []);
        Assert.Equal(((byte)233, (byte)233, (byte)233), At(PanelPictures.Day(Raster(layers)), 20, 10));
    }

    [Fact]
    public void By_day_the_field_is_dark_the_legends_have_their_colours_and_the_hidden_one_is_hidden()
    {
        var day = PanelPictures.Day(Raster(Legends()));
        var (field, white, red, green, hidden) = (At(day, 10, 10), At(day, 5, 10), At(day, 15, 10), At(day, 25, 10), At(day, 35, 10));
        Assert.True(field.Green < 60 && white.Green == 233);
        Assert.True(red.Red > 3 * red.Green && green.Green > 2 * green.Red);
        Assert.InRange(hidden.Green - field.Green, -2, 2);
    }

    [Fact]
    public void The_panel_lies_on_a_backdrop_of_middle_tone_with_rounded_corners()
    {
        var day = PanelPictures.Day(Raster(Legends()));
        Assert.InRange(At(day, -1.8, 10).Green, 80, 140);
        Assert.InRange(At(day, 0.3, 19.7).Green, 80, 140); // in the corner's rounding
        Assert.True(At(day, 1.5, 18.5).Green < 60);
    }

    [Fact]
    public void A_shape_at_the_panel_s_upper_left_is_at_the_picture_s_upper_left_to_the_dot()
    {
        var mark = Region<PanelSpace>.Rectangle(new(3, 16, 2, 1));
        var layers = Legends() with { Front = [new(Field, Build), new(mark, Ink.None)] };
        var day = PanelPictures.Day(Raster(layers));
        Assert.Equal((352, 192), (day.WidthPx, day.HeightPx));

        // x from 3 to 5 mm is 5 to 7 mm from the left edge of the view, y from 16 to 17 mm is 5 to 6 mm below its upper edge; 8 dots per mm.
        for (var row = 30; row < 60; row++)
        {
            for (var column = 30; column < 70; column++)
            {
                Assert.Equal(column is >= 40 and < 56 && row is >= 40 and < 48, day[column, row].Green > 150);
            }
        }
    }

    [Fact]
    public void Holes_are_dark_and_a_bezel_hides_what_is_behind()
    {
        var holes = Region<PanelSpace>.Union([Region<PanelSpace>.Disc(new(10, 4), 2), Region<PanelSpace>.Disc(new(20, 4), 2)]);
        var layers = Legends(holes, [new(Region<PanelSpace>.Disc(new(20, 4), 3), LinearColour.Grey(0.3)), new(Legend(5), LinearColour.Grey(0.3))]);
        var raster = Raster(layers);
        var day = PanelPictures.Day(raster);
        Assert.True(At(day, 10, 4).Green < At(day, 10, 10).Green - 10);
        Assert.Equal(Srgb.Code(0.3), At(day, 20, 4).Green);
        var lit = Lit(raster, Backlight.Even(LinearColour.White), 0);
        Assert.Equal(0, At(lit, 5, 10).Green);
        Assert.Equal(0, At(lit, 10, 4).Green);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.002)]
    [InlineData(0.3)]
    [InlineData(20)]
    public void An_open_legend_is_just_below_white_at_any_hour(double roomShare)
    {
        var lit = Lit(Raster(Legends()), Backlight.Even(LinearColour.White), roomShare);
        Assert.InRange(At(lit, 5, 10).Green, Srgb.Code(PanelPictures.OpenLegend) - 1, Srgb.Code(PanelPictures.OpenLegend));
    }

    [Fact]
    public void A_hidden_legend_shows_when_it_is_lit_by_what_its_cover_passes()
    {
        var lit = Lit(Raster(Legends()), Backlight.Even(LinearColour.White), 0);

        // Full K of density 1.6 passes 2.5 %.
        Assert.Equal(PanelPictures.OpenLegend * Density.Transmittance(1.6), Light(At(lit, 35, 10).Green), 2e-3);

        // The field behind the same lamp: two builds of about 1.9 pass 0.02 %, half a code.
        Assert.InRange(At(lit, 10, 10).Green, 0, 1);
    }

    [Fact]
    public void Lamp_colour_decides_which_legends_can_be_told_apart()
    {
        var raster = Raster(Legends());
        var red = Lit(raster, Backlight.Even(EmitterColours.Red), 0);
        Assert.True(Light(At(red, 15, 10).Red) > 0.85 * Light(At(red, 5, 10).Red)); // red looks like white
        Assert.True(Light(At(red, 25, 10).Red) < 0.25 * Light(At(red, 5, 10).Red)); // green dies
        var white = Lit(raster, Backlight.Even(EmitterColours.CoolWhite), 0);
        Assert.True(Light(At(white, 15, 10).Green) < 0.25 * Light(At(white, 5, 10).Green));
    }

    [Fact]
    public void Colours_wash_out_when_lit()
    {
        var raster = Raster(Legends());
        var day = At(PanelPictures.Day(raster), 15, 10);
        var lit = At(Lit(raster, Backlight.Even(LinearColour.White), 0), 15, 10);
        Assert.True(Light(lit.Green) / Light(lit.Red) > 1.5 * (Light(day.Green) / Light(day.Red)));
    }

    // Absorbing layers multiply: front and mask of density 0.5 each pass a tenth together.
    [Fact]
    public void Two_absorbing_sides_multiply()
    {
        var inks = InkOptics.Assumed with { Black = new(0.5, 0.5, 0.5) };
        var front = Region<PanelSpace>.Rectangle(new(0, 0, 30, 20));
        var mask = Region<PanelSpace>.Rectangle(new(10, 0, 30, 20));
        var layers = Legends() with { Front = [new(front, Ink.FullK)], Mask = [new(mask, Ink.FullK)] };
        var through = PanelPictures.ThroughLight(PanelRaster.Of(layers, MmPerDot, new(PaperOptics.Heavy, inks)));
        Assert.Equal(0.95 * Math.Sqrt(0.1), Light(At(through, 5, 10).Green), 2e-3);
        Assert.Equal(0.95 * 0.1, Light(At(through, 20, 10).Green), 1e-3);
        Assert.Equal(0.95 * Math.Sqrt(0.1), Light(At(through, 35, 10).Green), 2e-3);
    }

    [Fact]
    public void Misregister_moves_the_mask_to_where_it_is_said_to_lie()
    {
        var layers = Legends() with { Front = [], Mask = [new(Field, Build), new(Legend(5), Ink.None)] };
        var raster = Raster(layers).WithMisregister(new(3, 2));
        var through = PanelPictures.ThroughLight(raster);
        Assert.True(At(through, 9.5, 13.5).Green > 240);
        Assert.Equal(At(through, 20, 10), At(through, 3.5, 8.5)); // black again where the opening would be in register
        Assert.True(At(through, 3.5, 8.5).Green < 40);

        // Only the mask moves, and only where light passes: the face and the mask as designed stay.
        Assert.True(PanelPictures.Day(raster).Rgba.Span.SequenceEqual(PanelPictures.Day(Raster(layers)).Rgba.Span));
        Assert.True(PanelPictures.Mask(raster).Rgba.Span.SequenceEqual(PanelPictures.Mask(Raster(layers)).Rgba.Span));
        Assert.Same(raster, raster.WithMisregister(new(3, 2)));
        Assert.True(PanelPictures.ThroughLight(raster.WithMisregister(default)).Rgba.Span.SequenceEqual(PanelPictures.ThroughLight(Raster(layers)).Rgba.Span));
    }

    [Fact]
    public void Misregister_beyond_the_spread_darkens_one_edge_and_lights_a_halo_at_the_other()
    {
        var through = PanelPictures.ThroughLight(Raster(Legends()).WithMisregister(new(0.8, 0)));
        Assert.True(At(through, 3.2, 10).Green < 40);   // the mask covers the legend's left edge
        Assert.True(At(through, 6.8, 10).Green > 240);
        Assert.InRange(Light(At(through, 7.6, 10).Green), 0.003, 0.02); // one black layer of the build leaks
        Assert.InRange(At(through, 9.5, 10).Green, 0, 1);               // two of them pass about half a code
    }

    [Fact]
    public void The_mask_is_smeared_by_the_paper_and_the_front_is_not()
    {
        var only = Legends() with { Front = [] };
        var soft = PanelPictures.ThroughLight(Raster(only));
        var hard = PanelPictures.ThroughLight(PanelRaster.Of(only, MmPerDot, Usual with { Paper = PaperOptics.Heavy with { SpreadMm = 0 } }));

        // The opening's left edge is at 2.7 mm, in the middle of a dot.
        Assert.True(At(soft, 2.5, 10).Green > At(hard, 2.5, 10).Green + 20);
        var front = Legends() with { Mask = [] };
        Assert.Equal(At(PanelPictures.ThroughLight(Raster(front)), 10, 10).Green, At(PanelPictures.ThroughLight(Raster(front)), 2.9, 10).Green);
    }

    [Fact]
    public void A_cell_has_its_own_light_even_when_that_is_off()
    {
        var raster = Raster(Legends());
        var cells = new Backlight(EmitterColours.Green, [
            new(Region<PanelSpace>.Rectangle(new(1, 5, 8, 10)), EmitterColours.Red),
            new(Region<PanelSpace>.Rectangle(new(31, 5, 8, 10)), LinearColour.Black)]);
        var lit = Lit(raster, cells, 0);
        Assert.True(At(lit, 5, 10) is { Red: > 240, Green: < 5 });
        Assert.Equal(((byte)0, (byte)0, (byte)0), At(lit, 35, 10));
        Assert.True(At(lit, 25, 10).Green > 150);
    }

    [Fact]
    public void The_field_s_black_shows_as_it_was_measured_on_each_side()
    {
        var sheet = Usual with { Field = new(Build, new(1, 0, Knowledge.Measured), new(0.5, 0, Knowledge.Measured)) };
        var through = PanelPictures.ThroughLight(PanelRaster.Of(Legends(), MmPerDot, sheet).WithMisregister(new(0.8, 0)));
        Assert.Equal(PanelPictures.OpenLegend * Math.Pow(10, -1.5), Light(At(through, 10, 10).Green), 1e-3); // both sides
        Assert.Equal(PanelPictures.OpenLegend * Math.Pow(10, -1), Light(At(through, 7.5, 10).Green), 1e-2);  // beside a legend, the front alone
    }

    [Fact]
    public void What_is_printed_once_more_keeps_light_back_once_more()
    {
        var sheet = Usual with { Field = new(Build, new(0.5, 0, Knowledge.Measured), new(0.5, 0, Knowledge.Measured)) };
        var layers = Legends() with { MaskAgain = Legends().Mask, FrontAgain = [new(Region<PanelSpace>.Rectangle(new(-3, -3, 5, 26)), Build)] };
        var through = PanelPictures.ThroughLight(PanelRaster.Of(layers, MmPerDot, sheet));
        Assert.Equal(PanelPictures.OpenLegend * Math.Pow(10, -1.5), Light(At(through, 10, 10).Green), 1e-3); // three layers
        Assert.Equal(PanelPictures.OpenLegend * Math.Pow(10, -2), Light(At(through, 1, 10).Green), 1e-3);    // and four
        Assert.InRange(Light(At(through, 5, 10).Green), 0.9, 0.96);
    }

    [Fact]
    public void Pictures_of_several_rooms_are_the_same_made_at_once_or_each_alone()
    {
        var raster = Raster(Legends());
        var lamp = Backlight.Even(EmitterColours.Green);
        var both = PanelPictures.Lit(raster, lamp, 0.002, 0.054);
        Assert.True(both[0].Rgba.Span.SequenceEqual(Lit(raster, lamp, 0.002).Rgba.Span));
        Assert.True(both[1].Rgba.Span.SequenceEqual(Lit(raster, lamp, 0.054).Rgba.Span));
        Assert.True(At(both[1], 10, 10).Red > At(both[0], 10, 10).Red + 10);
    }

    [Fact]
    public void Without_any_light_the_lit_picture_is_black()
    {
        var dark = Lit(Raster(Legends()), Backlight.Even(LinearColour.Black), 0);
        Assert.All(Enumerable.Range(0, 40), x => Assert.Equal(0, At(dark, x, 10).Green));
        Assert.Throws<ArgumentOutOfRangeException>(() => Lit(Raster(Legends()), Backlight.Even(LinearColour.White), -0.1));
    }

    [Fact]
    public void The_mask_picture_is_open_where_light_comes_through()
    {
        var mask = PanelPictures.Mask(Raster(Legends()));
        Assert.Equal(233, At(mask, 35, 10).Green);
        Assert.Equal(233, At(mask, 2.85, 10).Green); // in the spread
        Assert.True(At(mask, 10, 10).Green < 60);
    }

    [Fact]
    public void A_later_ink_takes_the_place_of_an_earlier_one()
    {
        var layers = Legends() with { Front = [new(Field, Build), new(Legend(5), RedInk), new(Legend(5), Ink.None)] };
        Assert.Equal(((byte)233, (byte)233, (byte)233), At(PanelPictures.Day(Raster(layers)), 5, 10));
    }

    [Fact]
    public void The_same_panel_gives_the_same_files() =>
        Assert.Equal(PngFile.Write(Lit(Raster(Legends()), Backlight.Even(EmitterColours.WarmWhite))), PngFile.Write(Lit(Raster(Legends()), Backlight.Even(EmitterColours.WarmWhite))));

    private static readonly SheetOptics Usual = new(PaperOptics.Heavy, InkOptics.Assumed);

    private static Picture Lit(PanelRaster panel, Backlight light, double roomShare = 0.002) => PanelPictures.Lit(panel, light, roomShare)[0];

    private static PanelRaster Raster(PanelLayers layers) => PanelRaster.Of(layers, MmPerDot, Usual);

    private static (byte Red, byte Green, byte Blue) At(Picture picture, double xMm, double yMm) =>
        picture[(int)((xMm - View.LeftMm) / MmPerDot), (int)((View.TopMm - yMm) / MmPerDot)];

    private static double Light(byte code) => Srgb.Decode(code);
}
