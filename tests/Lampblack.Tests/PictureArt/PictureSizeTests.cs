using System;
using Lampblack.Bitmaps;
using Lampblack.PictureArt;
using Xunit;

namespace Lampblack.Tests.PictureArt;

public sealed class PictureSizeTests
{
    [Theory]
    [InlineData(23622, 23622, 25.4)]
    [InlineData(47244, 47244, 12.7)]
    [InlineData(3780, 3780, null)]
    [InlineData(2835, 2835, null)]
    [InlineData(23622, 24000, null)]
    [InlineData(1, 1, null)]
    [InlineData(int.MaxValue, int.MaxValue, null)]
    public void A_PNG_states_its_size_where_the_resolution_can_be_meant(int perMetreX, int perMetreY, double? widthMm)
    {
        var picture = Drawn.Read(Plain(PngBytes.Resolution(perMetreX, perMetreY)));
        Assert.Equal(widthMm is not null, picture.StatedWidthMm is not null);
        Assert.Equal(widthMm ?? 0, picture.StatedWidthMm ?? 0, 3);
        Assert.Equal((widthMm ?? 0) / 2, picture.StatedHeightMm ?? 0, 3);
    }

    [Theory]
    [InlineData(1, 300, 50.8)]
    [InlineData(2, 118, 50.85)]
    [InlineData(1, 72, null)]
    [InlineData(0, 300, null)]
    public void A_JPEG_states_its_size_too(byte unit, int density, double? widthMm)
    {
        var jpeg = SkiaSharp.SKBitmap.Decode(Plain(("sRGB", [0]))).Jpeg(90);
        Assert.Equal("JFIF", System.Text.Encoding.ASCII.GetString(jpeg, 6, 4));
        (jpeg[13], jpeg[14], jpeg[15], jpeg[16], jpeg[17]) = (unit, (byte)(density >> 8), (byte)density, (byte)(density >> 8), (byte)density);
        var stated = Drawn.Read(jpeg).StatedWidthMm;
        Assert.Equal(widthMm is not null, stated is not null);
        Assert.InRange(stated ?? 0, (widthMm ?? 0) - 0.01, (widthMm ?? 0) + 0.01);
    }

    [Fact]
    public void A_resolution_in_EXIF_is_turned_with_the_picture()
    {
        // Orientation 6 and 300 dots to the inch both ways: 600 stored columns become rows.
        byte[] exif =
        [
            0x4D, 0x4D, 0, 42, 0, 0, 0, 8, 0, 4,
            0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, 6, 0, 0,
            0x01, 0x1A, 0, 5, 0, 0, 0, 1, 0, 0, 0, 62,
            0x01, 0x1B, 0, 5, 0, 0, 0, 1, 0, 0, 0, 62,
            0x01, 0x28, 0, 3, 0, 0, 0, 1, 0, 2, 0, 0,
            0, 0, 0, 0, 0, 0, 1, 44, 0, 0, 0, 1,
        ];
        var picture = Drawn.Read(Plain(("eXIf", exif)));
        Assert.Equal((300, 600), (picture.WidthPx, picture.HeightPx));
        Assert.Equal(25.4, picture.StatedWidthMm!.Value, 6);
        Assert.Equal(50.8, picture.StatedHeightMm!.Value, 6);
    }

    [Theory]
    [InlineData(25.4, false)]
    [InlineData(25.6, false)]
    [InlineData(25.1, true)]
    [InlineData(50.8, true)]
    public void A_size_that_differs_by_more_than_one_in_a_hundred_is_asked_about(double widthMm, bool asked) =>
        Assert.Equal(asked ? ["art-size-differs"] : [], PictureSize.Check(Drawn.Read(Plain(PngBytes.Resolution(23622, 23622))), widthMm).Codes());

    [Fact]
    public void A_picture_without_a_size_is_not_asked_about() => Assert.Empty(PictureSize.Check(Drawn.Read(Plain()), 77));

    [Fact]
    public void Limits_in_mm_become_dots()
    {
        Assert.Equal((8, 5), (ArtLimits.SmallestSpeckDots(25.4 / 600), ArtLimits.ThinnestStrokeDots(25.4 / 600)));
        Assert.Equal((30, 9), (ArtLimits.SmallestSpeckDots(25.4 / 1200), ArtLimits.ThinnestStrokeDots(25.4 / 1200)));
    }

    [Fact]
    public void Specks_and_thin_strokes_are_counted_and_placed()
    {
        var bits = Drawn.Bits(300, 200, (x, y) => (x, y) is (10, 10) or (20, 20) || (x is >= 100 and < 140 && y is >= 50 and < 90) || (y is 150 or 151 && x > 200));
        var specks = bits.WithoutSpecks(ArtLimits.SmallestSpeckDots(25.4 / 600));
        var finding = Assert.Single(ArtLimits.Specks("art.png", specks.Pieces, 0));
        Assert.Equal("art-specks", finding.Code);
        Assert.StartsWith("2 openings and 0 black spots", finding.Message, StringComparison.Ordinal);
        Assert.Empty(ArtLimits.Specks("art.png", 0, 0));

        var thin = specks.Raster.Thinner(ArtLimits.ThinnestStrokeDots(25.4 / 600), BeyondEdge.Set);
        var strokes = Assert.Single(ArtLimits.Strokes("art.png", thin, 25.4 / 600));
        Assert.Equal("art-strokes-thin", strokes.Code);
        Assert.Contains("8.5 mm from the left and 6.4 mm from the top", strokes.Message, StringComparison.Ordinal);
        Assert.Empty(ArtLimits.Strokes("art.png", BitRaster.Clear(9, 9).Thinner(3, BeyondEdge.Set), 0.04));
    }

    private static byte[] Plain(params (string Type, byte[] Data)[] parts) =>
        new PngBytes(600, 300, 2, 8, (x, _) => x < 400 ? [0, 0, 0] : [255, 255, 255]) { Parts = [.. parts] }.Write();
}
