using System;
using System.Buffers;
using System.Collections.Generic;
using System.Globalization;
using System.Text;
using System.Text.Unicode;
using Lampblack.Findings;

namespace Lampblack.SourceText;

/// <summary>Turns bytes into text, and says where they aren't UTF-8.</summary>
internal static class StrictUtf8
{
    private const int MostReported = 20;

    private const int MostLookedAt = 4096;

    private static ReadOnlySpan<byte> Mark => [0xEF, 0xBB, 0xBF];

    /// <summary>The text without its byte-order mark; every stretch that isn't UTF-8 stands as U+FFFD and has a finding. Null where it is another encoding altogether.</summary>
    public static string? Decode(string file, ReadOnlySpan<byte> bytes, ICollection<Finding> findings)
    {
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]) || bytes.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]) || IsUnmarkedUtf16(bytes))
        {
            findings.Add(Finding.Stop(
                "toml-encoding",
                "the file is saved as UTF-16; it must be UTF-8",
                "Save it again and choose UTF-8 as the encoding.",
                new(file, 0, 0, 1, 1)));
            return null;
        }

        var body = bytes.StartsWith(Mark) ? bytes[Mark.Length..] : bytes;
        return Utf8.IsValid(body) ? Encoding.UTF8.GetString(body) : DecodeFaulty(file, body, findings);
    }

    /// <summary>Whether this looks like UTF-16 without its mark: the letters, digits and signs of a desk file each have a zero byte beside them, always on the same side.</summary>
    private static bool IsUnmarkedUtf16(ReadOnlySpan<byte> bytes)
    {
        var looked = bytes[..Math.Min(bytes.Length, MostLookedAt)];
        var (first, second) = (0, 0);
        for (var at = 0; at + 1 < looked.Length; at += 2)
        {
            first += looked[at] == 0 ? 1 : 0;
            second += looked[at + 1] == 0 ? 1 : 0;
        }

        var pairs = looked.Length / 2;
        return (first * 2 > pairs && second * 10 < pairs) || (second * 2 > pairs && first * 10 < pairs);
    }

    private static string DecodeFaulty(string file, ReadOnlySpan<byte> bytes, ICollection<Finding> findings)
    {
        var text = new StringBuilder(bytes.Length);
        var faults = new List<(int Offset, byte First)>();
        while (!bytes.IsEmpty)
        {
            var status = Rune.DecodeFromUtf8(bytes, out var rune, out var consumed);
            if (status != OperationStatus.Done)
            {
                faults.Add((text.Length, bytes[0]));
            }

            text.Append(rune.ToString());
            bytes = bytes[consumed..];
        }

        var decoded = text.ToString();
        var places = new Places(file, decoded);
        for (var i = 0; i < faults.Count && i < MostReported; i++)
        {
            var others = i == MostReported - 1 && faults.Count > MostReported
                ? string.Create(CultureInfo.InvariantCulture, $", and {faults.Count - MostReported} more places")
                : "";
            findings.Add(Finding.Stop(
                "toml-encoding",
                $"the byte 0x{faults[i].First.ToString("X2", CultureInfo.InvariantCulture)} is not UTF-8{others}",
                "Save the file as UTF-8; letters such as ä, é or µ are usually what went wrong.",
                places.Span(faults[i].Offset, faults[i].Offset + 1)));
        }

        return decoded;
    }
}
