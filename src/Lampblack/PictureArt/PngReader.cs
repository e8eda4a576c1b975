using System;
using System.Buffers.Binary;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Text;
using Lampblack.Findings;

namespace Lampblack.PictureArt;

/// <summary>Reads the parts (chunks) of a PNG, ISO/IEC 15948; nothing is unpacked here but the small colour profile.</summary>
internal static class PngReader
{
    public static ReadOnlySpan<byte> Signature => [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A];

    public static PngLayout Read(ReadOnlyMemory<byte> file, string fileName)
    {
        var notes = ImmutableArray.CreateBuilder<Finding>();
        var header = Head(file.Span, fileName);
        ReadOnlyMemory<byte> palette = default, transparency = default;
        var packed = ImmutableArray.CreateBuilder<ReadOnlyMemory<byte>>();
        var colour = new PngColour.Found();
        var (perMetreX, perMetreY, exif, frames) = (0u, 0u, ExifTags.None, 1u);
        foreach (var (type, data) in Chunks(file, fileName))
        {
            var span = data.Span;
            switch (type)
            {
                case "PLTE":
                    palette = data[..Math.Min(data.Length / 3 * 3, 768)];
                    break;
                case "tRNS":
                    transparency = data;
                    break;
                case "IDAT":
                    packed.Add(data);
                    break;
                case "pHYs" when data.Length == 9 && span[8] == 1:
                    (perMetreX, perMetreY) = (BinaryPrimitives.ReadUInt32BigEndian(span), BinaryPrimitives.ReadUInt32BigEndian(span[4..]));
                    break;
                case "eXIf":
                    exif = ExifTags.Read(span);
                    break;
                case "acTL" when data.Length == 8:
                    frames = BinaryPrimitives.ReadUInt32BigEndian(span);
                    break;
                case "sRGB":
                    colour.IsSrgb = true;
                    break;
                case "gAMA" when data.Length == 4:
                    colour.Gamma = BinaryPrimitives.ReadUInt32BigEndian(span) / 100000.0;
                    break;
                case "iCCP":
                    colour.Profile = data;
                    break;
                case "IHDR" or "IEND":
                    break;
                case var other when char.IsAsciiLetterUpper(other[0]):
                    throw PictureFault.Broken(fileName, $"it has a part {Shown.Quoted(other)} that no reader knows and that it can't do without");
            }
        }

        var colours = (PngColours)header.ColourType;
        if (colours == PngColours.Palette && palette.IsEmpty)
        {
            throw PictureFault.Broken(fileName, "its table of colours is missing");
        }

        transparency = Checked(colours, transparency);
        if (frames > 1)
        {
            notes.Add(Finding.Note("art-animated", $"{Shown.Quoted(fileName)} is animated; its first picture is taken.", "Export the one picture that you mean."));
        }

        var form = PngLayout.FormOf(colours, palette.Span, transparency.Span);
        var (dpiX, dpiY) = perMetreX > 0 ? (perMetreX * 0.0254, perMetreY * 0.0254) : (exif.DotsPerInchX, exif.DotsPerInchY);
        var made = PngColour.Of(colour, isGrey: colours is PngColours.Grey or PngColours.GreyAlpha, fileName, notes);
        var layout = new PngLayout(
            new("PNG", header.Width, header.Height, exif.Turn, dpiX, dpiY, form, notes.ToImmutable()),
            colours, header.BitDepth, header.Interlaced, palette, transparency, packed.ToImmutable(), made);
        CheckBytes(layout, fileName);
        return layout;
    }

    private static (int Width, int Height, int BitDepth, int ColourType, bool Interlaced) Head(ReadOnlySpan<byte> file, string fileName)
    {
        if (file.Length < 33)
        {
            throw PictureFault.CutOff(fileName);
        }

        var (length, type) = (BinaryPrimitives.ReadUInt32BigEndian(file[8..]), Encoding.Latin1.GetString(file.Slice(12, 4)));
        if (length != 13 || type != "IHDR" || Crc32.Of(file.Slice(12, 17)) != BinaryPrimitives.ReadUInt32BigEndian(file[29..]))
        {
            throw PictureFault.Broken(fileName, "its first part, which says the size, is wrong");
        }

        var head = file.Slice(16, 13);
        var (width, height) = (BinaryPrimitives.ReadUInt32BigEndian(head), BinaryPrimitives.ReadUInt32BigEndian(head[4..]));
        PictureLimits.Check(fileName, width, height, head[12] != 0);
        if (!PngLayout.Exists(head[9], head[8]) || head[10] != 0 || head[11] != 0 || head[12] > 1)
        {
            throw PictureFault.Broken(fileName, "its first part names a form that PNG does not have");
        }

        return ((int)width, (int)height, head[8], head[9], head[12] == 1);
    }

    private static IEnumerable<(string Type, ReadOnlyMemory<byte> Data)> Chunks(ReadOnlyMemory<byte> file, string fileName)
    {
        var at = 8;
        while (true)
        {
            if (file.Length - at < 12)
            {
                throw PictureFault.CutOff(fileName);
            }

            var length = BinaryPrimitives.ReadUInt32BigEndian(file.Span[at..]);
            if (length > file.Length - at - 12)
            {
                throw PictureFault.CutOff(fileName);
            }

            var body = file.Slice(at + 4, 4 + (int)length);
            var type = Encoding.Latin1.GetString(body.Span[..4]);
            if (Crc32.Of(body.Span) != BinaryPrimitives.ReadUInt32BigEndian(file.Span[(at + 8 + (int)length)..]))
            {
                throw PictureFault.Broken(fileName, $"the check sum of its part {Shown.Quoted(type)} is wrong");
            }

            yield return (type, body[4..]);
            if (type == "IEND")
            {
                yield break;
            }

            at += 12 + (int)length;
        }
    }

    // A transparency of the wrong length, or where the colours have their own, means nothing.
    private static ReadOnlyMemory<byte> Checked(PngColours colours, ReadOnlyMemory<byte> transparency) => colours switch
    {
        PngColours.Palette => transparency[..Math.Min(transparency.Length, 256)],
        PngColours.Grey when transparency.Length == 2 => transparency,
        PngColours.Rgb when transparency.Length == 6 => transparency,
        _ => default,
    };

    /// <summary>Deflate makes at most 1032 bytes of one (258 bytes for two bits), so less than that is cut off for certain.</summary>
    private static void CheckBytes(PngLayout layout, string fileName)
    {
        var stored = 0L;
        foreach (var piece in layout.Packed)
        {
            stored += piece.Length;
        }

        if (stored * 1032 < layout.UnpackedBytes)
        {
            throw PictureFault.CutOff(fileName);
        }

        if (layout.UnpackedBytes > PictureLimits.MostUnpackedBytes)
        {
            throw new PictureFault(Finding.Stop(
                "art-too-large",
                $"{Shown.Quoted(fileName)} unpacks to {layout.UnpackedBytes / 1_000_000} MB; 1000 MB are the most.",
                "Save it with 8 bits a colour, and without transparency if it needs none."));
        }
    }
}
