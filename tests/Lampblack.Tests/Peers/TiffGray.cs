using System;
using System.Buffers.Binary;
using System.IO;

namespace Lampblack.Tests.Peers;

/// <summary>
/// Just enough TIFF (revision 6.0) to read Ghostscript's plates: little-endian, one picture, 8 bits of gray,
/// strips that are plain or PackBits. Refuses anything else with <see cref="InvalidDataException"/>.
/// </summary>
/// <param name="WidthPx">Width in pixels.</param>
/// <param name="HeightPx">Height in pixels.</param>
/// <param name="Lightness">Row by row from the top left: 0 black, 255 white.</param>
public sealed record TiffGray(int WidthPx, int HeightPx, byte[] Lightness)
{
    private const int Plain = 1;
    private const int PackBits = 32773;

    /// <summary>Reads a file's bytes.</summary>
    /// <exception cref="InvalidDataException">Not a TIFF of the kind above.</exception>
    public static TiffGray Read(byte[] file)
    {
        ArgumentNullException.ThrowIfNull(file);
        Check(file.Length >= 8 && file.AsSpan(0, 4).SequenceEqual("II*\0"u8), "not a little-endian TIFF");
        var width = Field(file, 256, null)[0];
        var height = Field(file, 257, null)[0];
        var compression = Field(file, 259, Plain)[0];
        var photometric = Field(file, 262, null)[0];
        Check(Field(file, 258, 1) is [8] && Field(file, 277, 1) is [1], "not 8 bits of one channel");
        Check(compression is Plain or PackBits, $"compression {compression}");
        Check(photometric is 0 or 1, $"photometric interpretation {photometric}");

        var pixels = new byte[width * height];
        var offsets = Field(file, 273, null);
        var sizes = Field(file, 279, null);
        var filled = 0;
        for (var strip = 0; strip < offsets.Length; strip++)
        {
            var bytes = file.AsSpan(offsets[strip], sizes[strip]);
            filled += compression == PackBits ? Unpack(bytes, pixels.AsSpan(filled)) : Copy(bytes, pixels.AsSpan(filled));
        }

        Check(filled == pixels.Length, $"{filled} pixels of {pixels.Length}");
        if (photometric == 0)
        {
            foreach (ref var pixel in pixels.AsSpan())
            {
                pixel = (byte)(255 - pixel);
            }
        }

        return new(width, height, pixels);
    }

    private static int Copy(ReadOnlySpan<byte> from, Span<byte> into)
    {
        from.CopyTo(into);
        return from.Length;
    }

    /// <summary>TIFF 6.0 section 9: n from 0 to 127 copies n + 1 bytes, from -127 to -1 repeats the next byte 1 - n times, -128 does nothing.</summary>
    private static int Unpack(ReadOnlySpan<byte> from, Span<byte> into)
    {
        var filled = 0;
        for (var at = 0; at < from.Length;)
        {
            var n = (sbyte)from[at++];
            if (n >= 0)
            {
                from.Slice(at, n + 1).CopyTo(into[filled..]);
                at += n + 1;
                filled += n + 1;
            }
            else if (n != -128)
            {
                into.Slice(filled, 1 - n).Fill(from[at++]);
                filled += 1 - n;
            }
        }

        return filled;
    }

    private static int[] Field(ReadOnlySpan<byte> file, int tag, int? usual)
    {
        var directory = BinaryPrimitives.ReadInt32LittleEndian(file[4..]);
        var entries = BinaryPrimitives.ReadUInt16LittleEndian(file[directory..]);
        for (var index = 0; index < entries; index++)
        {
            var entry = file.Slice(directory + 2 + (12 * index), 12);
            if (BinaryPrimitives.ReadUInt16LittleEndian(entry) != tag)
            {
                continue;
            }

            var size = BinaryPrimitives.ReadUInt16LittleEndian(entry[2..]) switch { 3 => 2, 4 => 4, var type => throw new InvalidDataException($"type {type} of tag {tag}") };
            var values = new int[BinaryPrimitives.ReadInt32LittleEndian(entry[4..])];
            var place = values.Length * size <= 4 ? entry[8..] : file[BinaryPrimitives.ReadInt32LittleEndian(entry[8..])..];
            for (var value = 0; value < values.Length; value++)
            {
                values[value] = size == 2 ? BinaryPrimitives.ReadUInt16LittleEndian(place[(2 * value)..]) : BinaryPrimitives.ReadInt32LittleEndian(place[(4 * value)..]);
            }

            return values;
        }

        return usual is { } number ? [number] : throw new InvalidDataException($"no tag {tag}");
    }

    private static void Check(bool holds, string problem)
    {
        if (!holds)
        {
            throw new InvalidDataException(problem);
        }
    }
}
