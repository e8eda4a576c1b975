using System;
using System.Collections.Immutable;
using Lampblack.Bitmaps;
using Lampblack.Quantities;

namespace Lampblack.Formats;

/// <summary>A picture as an image of a PDF (ISO 32000-1 clause 8.9.5). A file holds it once, however often it is drawn.</summary>
/// <param name="Name">Its name on pages, made from its dots.</param>
/// <param name="Head">The entries of its dictionary, but for its length and its mask.</param>
/// <param name="Bytes">Its packed dots.</param>
/// <param name="Mask">The image that tells which of its dots are drawn; null for all.</param>
internal sealed record PackedImage(string Name, ImmutableArray<byte> Head, ImmutableArray<byte> Bytes, PackedImage? Mask) : NamedPart(Name, Head, Bytes)
{
    public static PackedImage Of(Stencil stencil) => OneBit(NameOf(stencil), stencil.Dots);

    /// <summary>Eight bits for each colour, deflated; each row is written as what differs from the one above, which is mostly nothing (predictor 12 of clause 7.4.4.4).</summary>
    public static PackedImage Of(ColourDots picture)
    {
        var channels = ColourDots.Channels(picture.Space);
        var name = NameOf(picture);
        var head = Start(picture.WidthDots, picture.HeightDots)
            .Add("/BitsPerComponent 8 /ColorSpace "u8).Add(picture.Space == InkSpace.Gray ? "/DeviceGray"u8 : "/DeviceRGB"u8)
            .Add(" /Filter /FlateDecode /DecodeParms << /Predictor 12 /Colors "u8).Add(channels).Add(" /Columns "u8).Add(picture.WidthDots).Add(" >>"u8);
        return new(name, head.ToImmutable(), Deflate.Zlib(RowDifferences(picture.Codes.AsSpan(), picture.WidthDots * channels)),
            picture.Mask is null ? null : OneBit(name + "M", picture.Mask));
    }

    /// <summary>
    /// A set dot is a 0 in the file: an image mask paints where it is 0, and an explicit mask shows the picture there (clauses 8.9.6.2 and 8.9.6.3),
    /// and a black dot of group 4 is a 0 as well unless told otherwise (clause 7.4.6). So neither needs an entry that turns it about.
    /// </summary>
    private static PackedImage OneBit(string name, BitRaster dots)
    {
        var fax = FaxFile.Write(dots);
        var head = Start(dots.WidthDots, dots.HeightDots).Add("/ImageMask true /BitsPerComponent 1 /Filter "u8);
        if (Deflate.ZlibShorterThan(DotBytes.Rows(dots, lead: 0, inverted: true), fax.Length) is { } deflated)
        {
            return new(name, head.Add("/FlateDecode"u8).ToImmutable(), [.. deflated], null);
        }

        head.Add("/CCITTFaxDecode /DecodeParms << /K -1 /Columns "u8).Add(dots.WidthDots).Add(" /Rows "u8).Add(dots.HeightDots).Add(" >>"u8);
        return new(name, head.ToImmutable(), fax, null);
    }

    private static ByteText Start(int widthDots, int heightDots) => new ByteText(256)
        .Add("/Type /XObject /Subtype /Image /Width "u8).Add(widthDots).Add(" /Height "u8).Add(heightDots).Add(" "u8);

    /// <summary>96 bits tell any two pictures apart.</summary>
    private static string NameOf(DotContent content) => "D" + Convert.ToHexString(content.Fingerprint.AsSpan(0, 12));

    private static byte[] RowDifferences(ReadOnlySpan<byte> codes, int perRow)
    {
        var rows = codes.Length / perRow;
        var bytes = new byte[codes.Length + rows];
        for (var row = 0; row < rows; row++)
        {
            var here = codes.Slice(row * perRow, perRow);
            var to = bytes.AsSpan(row * (perRow + 1), perRow + 1);
            to[0] = 2;
            if (row == 0)
            {
                here.CopyTo(to[1..]);
            }
            else
            {
                ByteRows.Differences(here, codes.Slice((row - 1) * perRow, perRow), to[1..]);
            }
        }

        return bytes;
    }
}
