using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using System.Runtime.InteropServices;
using Lampblack.PictureArt;
using Lampblack.Tests.Peers;
using SkiaSharp;
using Xunit;

namespace Lampblack.Tests.PictureArt;

/// <summary>Odd forms of files, compared dot by dot at many levels with other decoders.</summary>
public sealed class PictureFormsTests
{
    public static IEnumerable<TheoryDataRow<int, int, bool>> Forms =>
        from form in new[] { (0, 1), (0, 2), (0, 4), (0, 8), (0, 16), (2, 8), (2, 16), (3, 1), (3, 2), (3, 4), (3, 8), (4, 8), (4, 16), (6, 8), (6, 16) }
        from interlaced in new[] { false, true }
        select new TheoryDataRow<int, int, bool>(form.Item1, form.Item2, interlaced);

    [Theory]
    [MemberData(nameof(Forms))]
    public void Every_form_of_PNG_gives_the_dots_that_another_decoder_sees(int colourType, int bitDepth, bool interlaced)
    {
        var random = new Random(colourType + (100 * bitDepth));
        var most = (1 << bitDepth) - 1;
        var samples = colourType switch { 2 => 3, 4 => 2, 6 => 4, _ => 1 };
        var noise = Enumerable.Range(0, 61 * 43 * samples).Select(_ => random.Next(most + 1)).ToArray();
        var png = new PngBytes(61, 43, colourType, bitDepth, (x, y) => x < 20 && y < 20
            ? [.. Enumerable.Range(0, samples).Select(part => part == samples - 1 && samples % 2 == 0 ? most : 0)] // a black corner to be the field
            : [.. Enumerable.Range(0, samples).Select(part => noise[(((y * 61) + x) * samples) + part])]) { Interlaced = interlaced };
        if (colourType == 3)
        {
            png.Parts.Add(("PLTE", [.. Enumerable.Range(0, 3 << bitDepth).Select(index => (byte)(index < 3 ? 0 : (index * 37) + 11))]));
        }

        var file = png.Write();
        using var other = SKBitmap.Decode(file, new SKImageInfo(61, 43, SKColorType.Rgba8888, SKAlphaType.Unpremul));
        AssertAgrees(file, (x, y) => bitDepth == 16 ? Rounded(png.Samples(x, y)) : other.GetPixel(x, y)); // the other decoder cuts sixteen bits off
    }

    [Theory]
    [InlineData(0, 8, new byte[] { 0, 90 })]
    [InlineData(2, 8, new byte[] { 0, 90, 0, 90, 0, 90 })]
    [InlineData(3, 8, new byte[] { 255, 0, 128 })]
    public void A_transparent_colour_is_seen(int colourType, int bitDepth, byte[] transparency)
    {
        var png = new PngBytes(60, 40, colourType, bitDepth, (x, y) => colourType switch
        {
            3 => [(x / 5) % 3],
            _ => [.. Enumerable.Repeat(x % 4 == 0 ? 90 : y < 20 ? 0 : 240, colourType == 0 ? 1 : 3)],
        });
        if (colourType == 3)
        {
            png.Parts.Add(("PLTE", [0, 0, 0, 250, 250, 250, 180, 180, 180]));
        }

        png.Parts.Add(("tRNS", transparency));
        var file = png.Write();
        Assert.True(Drawn.Read(file).IsTransparent);
        using var other = SKBitmap.Decode(file, new SKImageInfo(60, 40, SKColorType.Rgba8888, SKAlphaType.Unpremul));
        AssertAgrees(file, (x, y) => other.GetPixel(x, y));
    }

    [Fact]
    public void Grey_and_four_ink_JPEGs_agree_with_an_independent_program()
    {
        using var folder = new ScratchFolder();
        using var art = Drawn.Panel(SKColors.Black, SKColors.White, new SKColor(255, 160, 0));
        folder.Write("art.png", art.Png());
        foreach (var (name, arguments) in new[]
        {
            ("grey.jpg", new[] { "-colorspace", "Gray" }), ("inks.jpg", ["-colorspace", "CMYK"]), ("steps.jpg", ["-interlace", "JPEG"]), ("whole.jpg", ["-sampling-factor", "1x1"]),
        })
        {
            OutsideProgram.RunWell("convert", ["art.png", .. arguments, "-quality", "90", name], folder.FullPath);
            OutsideProgram.RunWell("convert", [name, "-colorspace", "sRGB", "-depth", "8", "rgb:dots"], folder.FullPath);
            var dots = File.ReadAllBytes(folder.PathOf("dots"));
            var read = PictureFile.Read(File.ReadAllBytes(folder.PathOf(name)), name);
            Assert.Equal(name == "inks.jpg", read.Findings.Codes().Contains("art-inks-converted"));
            var found = FieldFinder.Find(read.Value!, new(LevelLightness: 50)).Value!;
            var other = Drawn.Bits(Drawn.Width, Drawn.Height, (x, y) => dots.AsSpan(((y * Drawn.Width) + x) * 3, 3).ToArray().Max() >= 119); // the code of L* 50 is 118.9

            // Two decoders' arithmetic may differ by a code or two, which moves dots that lie just at the level.
            Assert.InRange(found.Openings.Except(other).Or(other.Except(found.Openings)).Count(), 0, 150);
            Assert.Equal((0, 0), found.Wrong(Drawn.Truth()));
        }
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    [InlineData(8)]
    public void Pictures_are_turned_upright_as_an_independent_program_turns_them(int orientation)
    {
        using var folder = new ScratchFolder();
        var jpeg = WithExif(Lopsided().Jpeg(100), orientation);
        folder.Write("turned.jpg", jpeg);
        OutsideProgram.RunWell("convert", ["turned.jpg", "-auto-orient", "-depth", "8", "-colorspace", "Gray", "gray:dots"], folder.FullPath);
        var dots = File.ReadAllBytes(folder.PathOf("dots"));
        var (found, _) = Drawn.Find(jpeg);
        var (width, height) = orientation > 4 ? (120, 200) : (200, 120);
        Assert.Equal((width, height), (found.Picture.WidthPx, found.Picture.HeightPx));
        var other = Drawn.Bits(width, height, (x, y) => dots[(y * width) + x] > 128);
        Assert.Equal(other, found.Openings);

        var png = new PngBytes(200, 120, 2, 8, (x, y) => [255 * Corner(x, y), 180 * Corner(x, y), 0]) { Parts = { ("eXIf", Exif(orientation)) } };
        var (turned, _) = Drawn.Find(png.Write());
        Assert.Equal(other, turned.Openings);
        Assert.Equal((width, height), (turned.Colours!.WidthPx, turned.Colours.HeightPx));
        var lit = Enumerable.Range(0, width * height).First(index => other[index % width, index / width]);
        Assert.Equal([255, 180, 0], turned.Colours.Rgb.Span.Slice(lit * 3, 3).ToArray());
    }

    [Fact]
    public void A_colour_profile_is_honoured()
    {
        // The same codes with red and green changed: what is red to the file is green to the eye. The profile says so, and green is much lighter.
        using var srgb = SKColorSpace.CreateSrgb();
        srgb.ToColorSpaceXyz(out var xyz);
        var swapped = new SKColorSpaceXyz(xyz[1, 0], xyz[0, 0], xyz[2, 0], xyz[1, 1], xyz[0, 1], xyz[2, 1], xyz[1, 2], xyz[0, 2], xyz[2, 2]);
        using var space = SKColorSpace.CreateRgb(SKColorSpaceTransferFn.Srgb, swapped);
        using var profiled = new SKBitmap(new SKImageInfo(64, 64, SKColorType.Rgba8888, SKAlphaType.Opaque, space));
        var codes = new byte[64 * 64 * 4];
        for (var index = 0; index < 64 * 64; index++)
        {
            byte[] code = index % 64 < 32 ? [0, 0, 0, 255] : index / 64 < 32 ? [255, 0, 0, 255] : [255, 255, 255, 255];
            code.CopyTo(codes, index * 4);
        }

        Marshal.Copy(codes, 0, profiled.GetPixels(), codes.Length); // as they are, past the conversion that setting colours makes
        foreach (var file in new[] { profiled.Png(), profiled.Jpeg(100) })
        {
            var read = PictureFile.Read(file, "art.png");
            Assert.DoesNotContain("art-profile-assumed", read.Findings.Codes());
            var found = FieldFinder.Find(read.Value!, FieldOptions.Usual).Value!;
            var dot = found.Colours!.Rgb.Span.Slice(((10 * 64) + 50) * 3, 3);
            Assert.True(dot[1] > 200 && dot[0] < 120, $"{dot[0]} {dot[1]} {dot[2]}");
        }
    }

    [Fact]
    public void A_profile_that_makes_no_sense_is_said_and_passed_over()
    {
        var png = new PngBytes(64, 64, 2, 8, (x, _) => x < 40 ? [0, 0, 0] : [255, 255, 255]) { Parts = { PngBytes.Profile(new byte[300]) } };
        Assert.Contains("art-profile-unknown", PictureFile.Read(png.Write(), "art.png").Findings.Codes());
        var plain = new PngBytes(64, 64, 2, 8, (x, _) => x < 40 ? [0, 0, 0] : [255, 255, 255]);
        Assert.Equal(["art-profile-assumed"], PictureFile.Read(plain.Write(), "art.png").Findings.Codes());
        plain.Parts.Add(("sRGB", [0]));
        Assert.Empty(PictureFile.Read(plain.Write(), "art.png").Findings);
    }

    [Fact]
    public void A_linear_gamma_makes_dark_codes_light()
    {
        // Code 55 of linear light is 0.2157, which sRGB writes as code 128.
        var png = new PngBytes(256, 32, 0, 8, (x, _) => [x]) { Parts = { ("gAMA", [0, 1, 0x86, 0xA0]) } };
        var (found, _) = Drawn.Find(png.Write(), new(LevelLightness: 53.6));
        Assert.InRange(Enumerable.Range(0, 256).First(x => found.Openings[x, 3]), 54, 56);
    }

    [Fact]
    public void The_first_picture_of_an_animation_is_taken()
    {
        var png = new PngBytes(64, 64, 0, 8, (x, _) => [x < 40 ? 0 : 255]) { Parts = { ("acTL", [0, 0, 0, 3, 0, 0, 0, 0]) } };
        Assert.Contains("art-animated", PictureFile.Read(png.Write(), "art.png").Findings.Codes());
    }

    private static SKColor Rounded(int[] samples)
    {
        var codes = Array.ConvertAll(samples, sample => (byte)Math.Round(sample / 257.0, MidpointRounding.AwayFromZero));
        return codes.Length > 2 ? new(codes[0], codes[1], codes[2], codes.Length == 4 ? codes[3] : (byte)255) : new(codes[0], codes[0], codes[0], codes.Length == 2 ? codes[1] : (byte)255);
    }

    private static int Corner(int x, int y) => x < 60 && y < 30 || (x < 16 && y < 100) ? 1 : 0;

    private static SKBitmap Lopsided()
    {
        var bitmap = new SKBitmap(new SKImageInfo(200, 120, SKColorType.Rgba8888, SKAlphaType.Opaque));
        bitmap.Pixels = [.. Enumerable.Range(0, 200 * 120).Select(index => Corner(index % 200, index / 200) == 1 ? SKColors.White : SKColors.Black)];
        return bitmap;
    }

    /// <summary>A TIFF block with one entry, big-endian for odd orientations and little-endian for even ones.</summary>
    internal static byte[] Exif(int orientation) => orientation % 2 == 1
        ? [0x4D, 0x4D, 0, 42, 0, 0, 0, 8, 0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, (byte)orientation, 0, 0, 0, 0, 0, 0]
        : [0x49, 0x49, 42, 0, 8, 0, 0, 0, 1, 0, 0x12, 0x01, 3, 0, 1, 0, 0, 0, (byte)orientation, 0, 0, 0, 0, 0, 0, 0];

    internal static byte[] WithExif(byte[] jpeg, int orientation)
    {
        byte[] body = [.. "Exif\0\0"u8, .. Exif(orientation)];
        return [0xFF, 0xD8, 0xFF, 0xE1, 0, (byte)(body.Length + 2), .. body, .. jpeg.AsSpan(2)];
    }

    private static void AssertAgrees(byte[] file, Func<int, int, SKColor> other)
    {
        var picture = Drawn.Read(file);
        foreach (var level in new[] { 3, 22, 50, 79, 99.8 })
        {
            var found = FieldFinder.Find(picture, new(LevelLightness: level, KeepColours: false, Transparent: TransparentIs.Field)).Value!;
            Assert.True(found.FieldColour.Red == found.FieldColour.Green && found.FieldColour.Red == found.FieldColour.Blue);
            var first = Enumerable.Range(0, 256).First(code => FieldLightness(code) >= level - 1e-9);
            var expected = Drawn.Bits(picture.WidthPx, picture.HeightPx, (x, y) => Strongest(other(x, y)) >= first);
            Assert.Equal(string.Empty, Drawn.Differences(expected, found.Openings));
        }
    }

    private static int Strongest(SKColor colour) =>
        (int)Math.Round(Math.Max(colour.Red, Math.Max(colour.Green, colour.Blue)) * colour.Alpha / 255.0, MidpointRounding.AwayFromZero);

    private static double FieldLightness(int code)
    {
        var stored = code / 255.0;
        var linear = stored <= 0.04045 ? stored / 12.92 : Math.Pow((stored + 0.055) / 1.055, 2.4);
        return linear <= 0.008856 ? 903.3 * linear : (116 * Math.Pow(linear, 1 / 3.0)) - 16;
    }
}
