using System;
using System.Buffers.Binary;
using System.Collections.Generic;
using System.Text;
using Lampblack.Geometry;
using Lampblack.Imaging;
using Lampblack.Optics;
using SkiaSharp;
using Xunit;

namespace Lampblack.Tests.Imaging;

public sealed class PngFileTests
{
    [Theory]
    [InlineData(0.125, 8000)]
    [InlineData(0.1, 10000)]
    [InlineData(25.4 / 600, 23622)]
    [InlineData(0.3, 3333)]
    public void The_file_says_its_dots_per_metre(double mmPerDot, int dotsPerMetre)
    {
        var chunks = Chunks(PngFile.Write(LightField.Filled(3, 2, mmPerDot, LinearColour.White).ToPicture()));
        var size = chunks[2].Data;
        Assert.Equal("pHYs", chunks[2].Type);
        Assert.Equal(dotsPerMetre, BinaryPrimitives.ReadInt32BigEndian(size));
        Assert.Equal(dotsPerMetre, BinaryPrimitives.ReadInt32BigEndian(size.AsSpan(4)));
        Assert.Equal(1, size[8]);
    }

    [Fact]
    public void An_independent_decoder_sees_the_same_dots()
    {
        var picture = Colourful();
        using var decoded = SKBitmap.Decode(PngFile.Write(picture));
        Assert.Equal((picture.WidthPx, picture.HeightPx), (decoded.Width, decoded.Height));
        for (var row = 0; row < picture.HeightPx; row++)
        {
            for (var column = 0; column < picture.WidthPx; column++)
            {
                var dot = decoded.GetPixel(column, row);
                Assert.Equal(picture[column, row], (dot.Red, dot.Green, dot.Blue));
                Assert.Equal(255, dot.Alpha);
            }
        }
    }

    [Fact]
    public void The_chunks_come_in_order_and_carry_right_check_sums()
    {
        var file = PngFile.Write(Colourful());
        var chunks = Chunks(file);
        Assert.Equal(["IHDR", "sRGB", "pHYs", "IDAT", "IEND"], chunks.ConvertAll(chunk => chunk.Type));

        // The end chunk is always the same twelve bytes, as printed in many descriptions of the format.
        Assert.Equal("0000000049454E44AE426082", Convert.ToHexString(file.AsSpan(file.Length - 12)));
        foreach (var (type, data, crc) in chunks)
        {
            Assert.Equal(BitByBitCrc([.. Encoding.ASCII.GetBytes(type), .. data]), crc);
        }
    }

    [Fact]
    public void The_same_picture_gives_the_same_bytes() => Assert.Equal(PngFile.Write(Colourful()), PngFile.Write(Colourful()));

    private static Picture Colourful()
    {
        var view = new Box<PanelSpace>(0, 0, 12.3, 7.7);
        var field = LightField.Filled(123, 77, 0.1, new(0.1, 0.2, 0.05));
        for (var index = 0; index < 12; index++)
        {
            var map = CoverageMap.Of(Region<PanelSpace>.Disc(new(index, index / 2.0), 1.3), view, 0.1);
            field.Paint(map, new(index / 12.0, 1 - (index / 12.0), 0.5));
        }

        return field.Blur(0.4).ToPicture();
    }

    private static List<(string Type, byte[] Data, uint Crc)> Chunks(byte[] file)
    {
        Assert.Equal("89504E470D0A1A0A", Convert.ToHexString(file.AsSpan(0, 8)));
        var chunks = new List<(string, byte[], uint)>();
        for (var at = 8; at < file.Length;)
        {
            var length = BinaryPrimitives.ReadInt32BigEndian(file.AsSpan(at));
            chunks.Add((
                Encoding.ASCII.GetString(file, at + 4, 4),
                file[(at + 8)..(at + 8 + length)],
                BinaryPrimitives.ReadUInt32BigEndian(file.AsSpan(at + 8 + length))));
            at += 12 + length;
        }

        return chunks;
    }

    // Straight from the definition, without a table: CRC-32 of "123456789" is CBF43926.
    private static uint BitByBitCrc(ReadOnlySpan<byte> bytes)
    {
        var crc = 0xFFFFFFFF;
        foreach (var value in bytes)
        {
            crc ^= value;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (crc >> 1) ^ ((crc & 1) * 0xEDB88320);
            }
        }

        return ~crc;
    }
}
