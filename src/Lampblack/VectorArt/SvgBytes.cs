using System;
using System.Text;
using System.Text.RegularExpressions;

namespace Lampblack.VectorArt;

/// <summary>From bytes to text: what kind of file it is, and how its letters are stored.</summary>
internal static partial class SvgBytes
{
    private static readonly (byte[] Start, string Kind)[] Others =
    [
        ("%PDF"u8.ToArray(), "a PDF"), ([0x89, 0x50, 0x4E, 0x47], "a PNG picture"), ([0xFF, 0xD8, 0xFF], "a JPEG picture"), ("GIF8"u8.ToArray(), "a GIF picture"),
        ("%!PS"u8.ToArray(), "PostScript"), ([0x50, 0x4B, 0x03, 0x04], "a ZIP archive"), ("RIFF"u8.ToArray(), "a picture or sound in a RIFF container"),
        ("BM"u8.ToArray(), "a BMP picture"), ([0x49, 0x49, 0x2A, 0x00], "a TIFF picture"), ([0x4D, 0x4D, 0x00, 0x2A], "a TIFF picture"),
    ];

    /// <summary>What other kind of file it is; null where it may be a drawing.</summary>
    public static string? OtherKind(ReadOnlySpan<byte> bytes)
    {
        foreach (var (start, kind) in Others)
        {
            if (bytes.StartsWith(start))
            {
                return kind;
            }
        }

        return null;
    }

    public static bool IsGzip(ReadOnlySpan<byte> bytes) => bytes.StartsWith((ReadOnlySpan<byte>)[0x1F, 0x8B]);

    /// <summary>The text without its byte-order mark; else what is wrong, as the end of a sentence.</summary>
    public static (string? Text, string Problem) Decode(ReadOnlySpan<byte> bytes)
    {
        var (encoding, mark, name) = Encoding(bytes);
        if (encoding is null)
        {
            return (null, $"says that it is stored as {Findings.Shown.Quoted(name)}, which is not read");
        }

        try
        {
            return (encoding.GetString(bytes[mark..]), string.Empty);
        }
        catch (DecoderFallbackException fault)
        {
            return (null, string.Create(System.Globalization.CultureInfo.InvariantCulture, $"is not {name}: byte {fault.Index + mark + 1} fits no character"));
        }
    }

    private static (Encoding? Encoding, int Mark, string Name) Encoding(ReadOnlySpan<byte> bytes)
    {
        var utf8 = new UTF8Encoding(false, throwOnInvalidBytes: true);
        switch (bytes)
        {
            case [0xEF, 0xBB, 0xBF, ..]: return (utf8, 3, "UTF-8");
            case [0xFF, 0xFE, ..]: return (new UnicodeEncoding(false, true, throwOnInvalidBytes: true), 2, "UTF-16");
            case [0xFE, 0xFF, ..]: return (new UnicodeEncoding(true, true, throwOnInvalidBytes: true), 2, "UTF-16");
            case [0x3C, 0x00, ..]: return (new UnicodeEncoding(false, false, throwOnInvalidBytes: true), 0, "UTF-16");
            case [0x00, 0x3C, ..]: return (new UnicodeEncoding(true, false, throwOnInvalidBytes: true), 0, "UTF-16");
        }

        var head = System.Text.Encoding.Latin1.GetString(bytes[..Math.Min(bytes.Length, 200)]);
        var said = Declaration().Match(head) is { Success: true } match ? match.Groups[1].Value : "UTF-8";
        return said.ToUpperInvariant() switch
        {
            "UTF-8" or "UTF8" or "US-ASCII" or "ASCII" => (utf8, 0, "UTF-8"),
            "ISO-8859-1" or "LATIN1" or "WINDOWS-1252" => (System.Text.Encoding.Latin1, 0, said),
            _ => (null, 0, said),
        };
    }

    [GeneratedRegex("""^\s*<\?xml[^>]*encoding\s*=\s*["']([^"']*)["']""")]
    private static partial Regex Declaration();
}
