using System;
using System.Linq;
using Lampblack.PictureArt;
using SkiaSharp;
using Xunit;

namespace Lampblack.Tests.PictureArt;

public sealed class FieldFinderTests
{
    private static readonly SKColor _amber = new(255, 191, 0);
    private static readonly SKColor _red = new(220, 40, 40);

    [Fact]
    public void White_on_black_comes_out_dot_by_dot()
    {
        using var art = Drawn.Panel(SKColors.Black, SKColors.White);
        var (found, findings) = Drawn.Find(art.Png());
        Assert.Equal(string.Empty, Drawn.Differences(Drawn.Truth(), found.Openings));
        Assert.Equal(Sureness.Sure, found.Sureness);
        Assert.Equal((0, 0, 0), found.FieldColour);
        Assert.Equal(0, found.DoubtfulShare);
        Assert.InRange(found.ThresholdLightness, 50, 57); // the middle grey's: code 128 is L* 53.6
        Assert.Equal(["art-threshold"], findings.Codes());
    }

    [Theory]
    [InlineData(0, 0, 80)]
    [InlineData(0, 0, 128)]
    [InlineData(60, 35, 15)]
    [InlineData(20, 60, 30)]
    public void A_field_of_a_dark_colour_is_field(byte red, byte green, byte blue)
    {
        using var art = Drawn.Panel(new(red, green, blue), SKColors.White, _amber, _red);
        var (found, _) = Drawn.Find(art.Png());
        Assert.Equal((0, 0), found.Wrong(Drawn.Truth()));
        Assert.NotEqual(Sureness.Doubtful, found.Sureness);
        Assert.InRange(Math.Abs(found.FieldColour.Red - red) + Math.Abs(found.FieldColour.Green - green) + Math.Abs(found.FieldColour.Blue - blue), 0, 6);
    }

    [Fact]
    public void A_blue_that_the_eye_calls_dark_still_shines()
    {
        using var art = Drawn.Panel(SKColors.Black, SKColors.White, new(0, 0, 255), new(0, 100, 0));
        var (found, _) = Drawn.Find(art.Png());
        Assert.Equal((0, 0), found.Wrong(Drawn.Truth()));
    }

    [Fact]
    public void Legends_that_are_hardly_brighter_than_the_field_are_doubted()
    {
        using var art = Drawn.Panel(SKColors.Black, SKColors.White, new(0, 0, 110));
        var (found, _) = Drawn.Find(art.Png());
        var (wrong, doubted) = found.Wrong(Drawn.Truth());
        Assert.Equal(wrong, doubted);
        Assert.True(found.DoubtfulShare > 0.02);
    }

    [Theory]
    [InlineData(60)]
    [InlineData(30)]
    public void The_artefacts_of_a_small_JPEG_stay_on_their_sides(int quality)
    {
        using var art = Drawn.Panel(new(8, 8, 10), SKColors.White, _amber, _red);
        var (found, _) = Drawn.Find(art.Jpeg(quality));
        var (wrong, _) = found.Wrong(Drawn.Truth());
        Assert.InRange(wrong, 0, Drawn.Width * Drawn.Height / 20_000);
        Assert.NotEqual(Sureness.Doubtful, found.Sureness);
    }

    [Theory]
    [InlineData(0.55)]
    [InlineData(0.3)]
    [InlineData(0.18)]
    public void A_scan_with_a_shadow_comes_out_right_or_is_doubted_where_it_does_not(double darkest)
    {
        var noise = Drawn.Noise(3, 6);
        using var art = Drawn.Panel(new(30, 29, 33), new SKColor(240, 233, 216)).Each((x, _, colour) =>
        {
            var light = 1 - ((1 - darkest) * Math.Pow((double)x / Drawn.Width, 3));
            return ((colour.Red * light) + noise(), (colour.Green * light) + noise(), (colour.Blue * light) + noise());
        });
        var (found, findings) = Drawn.Find(art.Jpeg(85));
        var (wrong, doubted) = found.Wrong(Drawn.Truth());
        Assert.True(doubted >= 0.95 * wrong, $"{doubted} of {wrong} wrong dots are doubted");
        Assert.True(wrong < 50 || findings.Codes().Contains("art-threshold-doubtful"), $"{wrong} wrong, {found.Sureness}, {found.DoubtfulShare}");
        Assert.True(darkest < 0.5 || wrong < 50);
    }

    [Theory]
    [InlineData(0.3)]
    [InlineData(0.24)]
    public void Legends_lost_in_a_sharp_shadow_are_doubted_by_their_neighbourhood(double light)
    {
        // A fold: what lies right of it is so dark that its paper is nearer to the field than to the rest of the paper.
        var noise = Drawn.Noise(9, 2);
        using var art = Drawn.Panel(new(12, 12, 14), new SKColor(240, 233, 216)).Each((x, _, colour) =>
        {
            var share = x < 680 ? 1 : light;
            return ((colour.Red * share) + noise(), (colour.Green * share) + noise(), (colour.Blue * share) + noise());
        });
        var (found, findings) = Drawn.Find(art.Png());
        var (wrong, doubted) = found.Wrong(Drawn.Truth());
        Assert.True(wrong > 1000);
        Assert.True(doubted >= 0.95 * wrong, $"{doubted} of {wrong} wrong dots are doubted");
        Assert.Contains("art-threshold-doubtful", findings.Codes());
    }

    [Fact]
    public void A_dark_texture_as_of_a_photograph_is_field()
    {
        var texture = Drawn.Texture(5);
        using var art = Drawn.Panel(SKColors.Transparent, SKColors.White);
        art.Each((x, y, colour) => Mixed(texture[(y * Drawn.Width) + x] * 75, colour));
        var (found, _) = Drawn.Find(art.Jpeg(90));
        Assert.Equal(0, found.Wrong(Drawn.Truth()).Wrong);
        Assert.InRange(found.FieldShare, 0.75, 0.95);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void A_picture_without_a_valley_is_doubted_where_it_is_wrong(int seed)
    {
        var ranks = Drawn.Ranks(Drawn.Texture(seed)); // every code equally often: no valley anywhere
        using var art = Drawn.Panel(SKColors.Transparent, new SKColor(235, 235, 235));
        art.Each((x, y, colour) => Mixed(ranks[(y * Drawn.Width) + x] * 255, colour));
        var (found, findings) = Drawn.Find(art.Jpeg(90));
        var (wrong, doubted) = found.Wrong(Drawn.Truth());
        Assert.True(wrong > 1000, $"{wrong} wrong, {found.ThresholdLightness}, {found.FieldShare}, {found.FieldColour}, {string.Join(' ', findings)}");
        Assert.True(doubted >= 0.95 * wrong, $"{doubted} of {wrong} wrong dots are doubted");
        Assert.Contains("art-threshold-doubtful", findings.Codes());
        Assert.Equal("doubtful", found.Sureness.Word());
    }

    [Fact]
    public void A_light_drawing_on_nothing_has_a_field_of_nothing()
    {
        using var art = Drawn.Panel(SKColors.Transparent, SKColors.White, _amber);
        var (found, findings) = Drawn.Find(art.Png());
        Assert.Equal((0, 0), found.Wrong(Drawn.Truth()));
        Assert.Contains("taken as field", findings.Single(finding => finding.Code == "art-transparent").Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_dark_drawing_on_nothing_lies_on_paper()
    {
        using var art = Drawn.Panel(SKColors.Transparent, new SKColor(10, 10, 12));
        var (found, findings) = Drawn.Find(art.Png());
        Assert.Equal((0, 0), found.Wrong(Drawn.Truth().Complement()));
        Assert.Contains("taken as paper", findings.Single(finding => finding.Code == "art-transparent").Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(TransparentIs.Field)]
    [InlineData(TransparentIs.Paper)]
    public void Who_says_what_the_transparent_part_is_gets_it(TransparentIs told)
    {
        using var art = Drawn.Panel(SKColors.Transparent, SKColors.White, SKColors.Black);
        var (found, findings) = Drawn.Find(art.Png(), new(Transparent: told));
        Assert.Equal(told == TransparentIs.Field, !found.Openings[2, 2]);
        Assert.Contains("as told", findings.Single(finding => finding.Code == "art-transparent").Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Light_and_dark_on_nothing_leave_the_transparent_part_in_doubt()
    {
        using var art = Drawn.Panel(SKColors.Transparent, SKColors.White, SKColors.Black);
        var (found, findings) = Drawn.Find(art.Png());
        Assert.True(found.Doubtful[2, 2]);
        Assert.Contains("both light and dark", findings.Single(finding => finding.Code == "art-transparent").Hint, StringComparison.Ordinal);
    }

    [Fact]
    public void Dark_on_light_is_asked_about_and_turned_where_it_is_told()
    {
        using var art = Drawn.Panel(SKColors.White, SKColors.Black, new SKColor(120, 0, 0));
        var (_, findings) = Drawn.Find(art.Png());
        Assert.Contains("art-mostly-light", findings.Codes());

        var (turned, after) = Drawn.Find(art.Png(), new(Inverted: true));
        Assert.Equal((0, 0), turned.Wrong(Drawn.Truth()));
        Assert.DoesNotContain("art-mostly-light", after.Codes());
        Assert.False(turned.IsColourless);
    }

    [Fact]
    public void Nearly_black_greys_are_field_and_doubted_unless_a_tolerance_was_told()
    {
        using var art = Drawn.Panel(SKColors.Black, SKColors.White);
        art.Each((x, y, colour) => x < 200 && y > 300 && colour.Red < 50 ? (50, 50, 50) : (colour.Red, colour.Green, colour.Blue));
        var (found, _) = Drawn.Find(art.Png());
        Assert.False(found.Openings[5, 400]);
        Assert.False(found.Doubtful[5, 400] && found.DoubtfulShare == 0);

        var (wide, _) = Drawn.Find(art.Png(), new(ToleranceLightness: 35));
        Assert.False(wide.Openings[5, 400]);
        Assert.False(wide.Doubtful[5, 400]);

        var (narrow, _) = Drawn.Find(art.Png(), new(ToleranceLightness: 8));
        Assert.True(narrow.Openings[5, 400]);
    }

    [Fact]
    public void Told_levels_are_kept_to_the_code()
    {
        var ramp = new PngBytes(256, 32, 0, 8, (x, _) => [x]).Write();
        foreach (var (level, code) in new[] { (20.0, 48), (53.6, 128), (80.0, 198) }) // codes of L*: sRGB's curve and CIE's, by another calculator's method below
        {
            var (found, _) = Drawn.Find(ramp, new(LevelLightness: level));
            var first = Enumerable.Range(0, 256).First(x => found.Openings[x, 7]);
            Assert.InRange(first, code - 1, code + 1);
            Assert.True(LightnessOf(first) >= level && LightnessOf(first - 1) < level);
            Assert.Equal("as told", found.Sureness.Word());
        }
    }

    [Fact]
    public void One_tone_has_no_field()
    {
        var found = FieldFinder.Find(Drawn.Read(new PngBytes(40, 40, 0, 8, (_, _) => [17]).Write()), FieldOptions.Usual);
        Assert.Null(found.Value);
        Assert.Equal(["art-one-tone"], found.Findings.Codes());
    }

    /// <summary>CIE L* of a grey sRGB code by the defining formulas (IEC 61966-2-1 and CIE 15), written out here once more.</summary>
    private static double LightnessOf(int code)
    {
        var stored = code / 255.0;
        var linear = stored <= 0.04045 ? stored / 12.92 : Math.Pow((stored + 0.055) / 1.055, 2.4);
        return linear <= 0.008856 ? 903.3 * linear : (116 * Math.Pow(linear, 1 / 3.0)) - 16;
    }

    private static (double Red, double Green, double Blue) Mixed(double ground, SKColor over)
    {
        var share = over.Alpha / 255.0;
        double Of(byte code) => (ground * (1 - share)) + (code * share);
        return (Of(over.Red), Of(over.Green), Of(over.Blue));
    }
}
