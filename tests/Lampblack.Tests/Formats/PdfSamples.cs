using System;
using System.Collections.Immutable;
using System.IO;
using System.IO.Compression;
using System.Linq;
using System.Text;
using System.Text.RegularExpressions;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Quantities;

namespace Lampblack.Tests.Formats;

/// <summary>Pages for the tests, and the plain text of a content stream.</summary>
internal static partial class PdfSamples
{
    public const double MmPerPoint = 25.4 / 72;

    /// <summary>A4 with trim and bleed on odd numbers.</summary>
    public static PdfPage A4(params ReadOnlySpan<Painted<PageSpace>> areas) =>
        new(210, 297, new(15.1234, 20, 180, 110.5), new(12.1234, 17, 186, 116.5), [.. areas]);

    /// <summary>A rectangle.</summary>
    public static Region<PageSpace> Rectangle(double leftMm, double bottomMm, double widthMm, double heightMm) =>
        Region<PageSpace>.Rectangle(new(leftMm, bottomMm, widthMm, heightMm));

    /// <summary>Two pieces, one with a round hole, one with two square ones: five borders.</summary>
    public static Region<PageSpace> Holed() => Region<PageSpace>.Union([
        Rectangle(20, 30, 50, 60).Except(Region<PageSpace>.Disc(new(45, 60), 9.87)),
        Rectangle(100, 40.0001, 33.3333, 20).Except(Rectangle(105, 45, 5, 5)).Except(Rectangle(115, 45, 5, 5))]);

    /// <summary>One page of one area, one-sided.</summary>
    public static ImmutableArray<byte> File(Region<PageSpace> region, Ink ink) =>
        PdfFile.Write([A4(new Painted<PageSpace>(region, ink))], new("test", PdfSides.OneSided));

    /// <summary>The inflated content streams in order, by the platform's inflater; not those of images.</summary>
    public static ImmutableArray<string> Contents(ImmutableArray<byte> file)
    {
        var text = Encoding.Latin1.GetString(file.AsSpan());
        return [.. Drawing().Split(text).Skip(1).Select(part => Inflate(part[..part.IndexOf("\nendstream", StringComparison.Ordinal)]))];
    }

    [GeneratedRegex("<< /Filter /FlateDecode /Length [0-9]+ >>\nstream\n")]
    private static partial Regex Drawing();

    private static string Inflate(string part)
    {
        using var stream = new ZLibStream(new MemoryStream(Encoding.Latin1.GetBytes(part)), CompressionMode.Decompress);
        using var reader = new StreamReader(stream, Encoding.ASCII);
        return reader.ReadToEnd();
    }
}
