using System;
using System.Buffers.Binary;
using System.Linq;
using Lampblack.Findings;
using Lampblack.PictureArt;
using SkiaSharp;
using Xunit;

namespace Lampblack.Tests.PictureArt;

public sealed class HostileTests
{
    [Theory]
    [InlineData(60000, 60000, 0, 1, false, "art-too-large")]
    [InlineData(40001, 16, 0, 1, false, "art-too-large")]
    [InlineData(16000, 16000, 0, 1, false, "art-too-large")]
    [InlineData(10000, 10000, 0, 1, true, "art-too-large")]
    [InlineData(14000, 14000, 6, 16, false, "art-cut-off")]
    [InlineData(0, 100, 0, 8, false, "art-too-small")]
    [InlineData(100, 0, 0, 8, false, "art-too-small")]
    [InlineData(15, 100, 0, 8, false, "art-too-small")]
    [InlineData(100, 15, 0, 8, false, "art-too-small")]
    [InlineData(-1, 100, 0, 8, false, "art-too-large")]
    [InlineData(100, int.MinValue, 0, 8, false, "art-too-large")]
    [InlineData(100, 100, 1, 8, false, "art-broken")]
    [InlineData(100, 100, 2, 4, false, "art-broken")]
    [InlineData(100, 100, 0, 3, false, "art-broken")]
    [InlineData(100, 100, 3, 8, false, "art-broken")]
    public void A_head_is_judged_before_anything_is_unpacked(int width, int height, int colourType, int bitDepth, bool interlaced, string code)
    {
        byte[] file =
        [
            .. new byte[] { 0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A },
            .. PngBytes.Chunk("IHDR", PngBytes.Head(width, height, colourType, bitDepth, interlaced)),
            .. PngBytes.Chunk("IDAT", PngBytes.Pack(new byte[50_000])),
            .. PngBytes.Chunk("IEND", []),
        ];
        var before = GC.GetAllocatedBytesForCurrentThread();
        AssertOne(file, code);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 1_000_000);
    }

    [Fact]
    public void A_picture_that_unpacks_to_too_much_is_left_packed()
    {
        // 14000 x 14000 dots of eight bytes: 1.5 GB of zeros in 1.5 MB.
        var zeros = PngBytes.Pack(new byte[1_700_000 * 1]);
        byte[] file =
        [
            .. new byte[] { 0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A },
            .. PngBytes.Chunk("IHDR", PngBytes.Head(14000, 14000, 6, 16, interlaced: false)),
            .. PngBytes.Chunk("IDAT", [.. zeros, .. new byte[1_700_000]]),
            .. PngBytes.Chunk("IEND", []),
        ];
        AssertOne(file, "art-too-large");
    }

    [Fact]
    public void A_cut_off_PNG_says_so_wherever_it_was_cut()
    {
        var file = SmallPng();
        foreach (var length in Enumerable.Range(1, 19).Select(part => file.Length * part / 20))
        {
            AssertOne(file[..length], "art-cut-off");
        }

        AssertOne(file[..^1], "art-cut-off");
        AssertOne(file[..^12], "art-cut-off");
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_cut_off_JPEG_says_so_wherever_it_was_cut(bool grey)
    {
        var file = SmallJpeg(grey);
        foreach (var length in Enumerable.Range(1, 19).Select(part => file.Length * part / 20))
        {
            AssertOne(file[..length], "art-cut-off");
        }

        AssertOne(file[..^2], "art-cut-off");
    }

    [Fact]
    public void A_flipped_bit_in_a_PNG_is_always_noticed()
    {
        var (file, random) = (SmallPng(), new Random(41));
        for (var run = 0; run < 200; run++)
        {
            var bad = (byte[])file.Clone();
            bad[random.Next(bad.Length)] ^= (byte)(1 << random.Next(8));
            AssertOne(bad, "art-broken", "art-cut-off", "art-form-unknown", "art-too-large", "art-too-small");
        }
    }

    [Fact]
    public void A_changed_byte_in_a_JPEG_gives_a_picture_or_one_finding()
    {
        // JPEG has no check sums: a change among the packed dots may only be a smudge.
        var (file, random) = (SmallJpeg(false), new Random(42));
        var noticed = 0;
        for (var run = 0; run < 200; run++)
        {
            var bad = (byte[])file.Clone();
            bad[random.Next(run < 100 ? 700 : bad.Length)] = (byte)random.Next(256);
            var read = PictureFile.Read(bad, "art.jpg");
            Assert.Equal(read.Value is null ? 1 : 0, read.Findings.Count(finding => finding.Severity == Severity.Stop));
            Assert.True(read.Value is not null || read.Findings.Length == 1);
            noticed += read.Value is null ? 1 : 0;
        }

        Assert.InRange(noticed, 1, 199);
    }

    [Fact]
    public void Wrong_check_sums_are_told_apart_from_wrong_rows()
    {
        var file = SmallPng();
        var sum = (byte[])file.Clone();
        sum[60] ^= 1;
        Assert.Contains("check sum", AssertOne(sum, "art-broken").Message, StringComparison.Ordinal);

        byte[] rows =
        [
            .. new byte[] { 0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A },
            .. PngBytes.Chunk("IHDR", PngBytes.Head(32, 32, 0, 8, interlaced: false)),
            .. PngBytes.Chunk("IDAT", PngBytes.Pack([.. Enumerable.Repeat((byte)9, 33 * 32)])),
            .. PngBytes.Chunk("IEND", []),
        ];
        Assert.Contains("filter", AssertOne(rows, "art-broken").Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Too_few_rows_are_a_cut_off_file_even_with_right_check_sums()
    {
        byte[] file =
        [
            .. new byte[] { 0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A },
            .. PngBytes.Chunk("IHDR", PngBytes.Head(32, 32, 0, 8, interlaced: false)),
            .. PngBytes.Chunk("IDAT", PngBytes.Pack(new byte[33 * 31])),
            .. PngBytes.Chunk("IEND", []),
        ];
        AssertOne(file, "art-cut-off");
    }

    [Theory]
    [InlineData(0xC2, 60000, 60000, "art-too-large")]
    [InlineData(0xC0, 30000, 30000, "art-too-large")]
    [InlineData(0xC2, 9000, 9000, "art-too-large")]
    [InlineData(0xC0, 9000, 9000, "art-cut-off")]
    [InlineData(0xC0, 0, 0, "art-too-small")]
    [InlineData(0xC0, 12, 500, "art-too-small")]
    [InlineData(0xC3, 500, 500, "art-form-unknown")]
    [InlineData(0xC9, 500, 500, "art-form-unknown")]
    public void A_JPEG_that_claims_too_much_is_not_unpacked(byte kind, int width, int height, string code)
    {
        var file = SmallJpeg(false);
        var frame = Find(file, 0xC0);
        file[frame + 1] = kind;
        BinaryPrimitives.WriteUInt16BigEndian(file.AsSpan(frame + 5), (ushort)height);
        BinaryPrimitives.WriteUInt16BigEndian(file.AsSpan(frame + 7), (ushort)width);
        AssertOne(file, code);
    }

    [Fact]
    public void A_JPEG_of_countless_scans_is_refused()
    {
        var file = SmallJpeg(false);
        var scan = Find(file, 0xDA);
        byte[] many = [.. file[..^2], .. Enumerable.Repeat(file[scan..(scan + 40)], 50).SelectMany(bytes => bytes), 0xFF, 0xD9];
        AssertOne(many, "art-broken");
    }

    [Fact]
    public void What_is_neither_is_said()
    {
        foreach (var text in new[] { "", "G", "GIF89a", "<svg/>", "BM", "%PDF-1.7", "\u0089PNX" })
        {
            AssertOne([.. text.Select(letter => (byte)letter)], "art-form-unknown");
        }

        AssertOne(new byte[PictureLimits.MostBytes + 1], "art-too-large");
    }

    [Fact]
    public void A_wrong_ending_is_noted_and_the_contents_count()
    {
        Assert.Contains("art-ending-wrong", PictureFile.Read(SmallPng(), "art.jpg").Findings.Codes());
        Assert.Equal("PNG", PictureFile.Read(SmallPng(), "art").Value!.Format);
        Assert.Equal("JPEG", PictureFile.Read(SmallJpeg(false), "ART.PNG").Value!.Format);
        Assert.DoesNotContain("art-ending-wrong", PictureFile.Read(SmallJpeg(false), "ART.JPEG").Findings.Codes());
    }

    private static Finding AssertOne(byte[] file, params string[] codes)
    {
        var read = PictureFile.Read(file, "art.png");
        Assert.Null(read.Value);
        var finding = Assert.Single(read.Findings);
        Assert.Equal(Severity.Stop, finding.Severity);
        Assert.Contains(finding.Code, codes);
        Assert.False(string.IsNullOrEmpty(finding.Hint));
        return finding;
    }

    private static int Find(byte[] jpeg, byte marker) => Enumerable.Range(2, jpeg.Length - 3).First(at => jpeg[at] == 0xFF && jpeg[at + 1] == marker);

    private static byte[] SmallPng()
    {
        var noise = new Random(5);
        var bytes = Enumerable.Range(0, 200 * 90 * 3).Select(_ => noise.Next(256)).ToArray();
        return new PngBytes(200, 90, 2, 8, (x, y) => bytes[(((y * 200) + x) * 3)..((((y * 200) + x) * 3) + 3)]).Write();
    }

    private static byte[] SmallJpeg(bool grey)
    {
        var random = new Random(6);
        using var bitmap = new SKBitmap(new SKImageInfo(200, 90, grey ? SKColorType.Gray8 : SKColorType.Rgba8888, SKAlphaType.Opaque));
        for (var y = 0; y < 90; y++)
        {
            for (var x = 0; x < 200; x++)
            {
                var code = (byte)random.Next(256);
                bitmap.SetPixel(x, y, new(code, code, (byte)(grey ? code : x)));
            }
        }

        return bitmap.Jpeg(80);
    }
}
