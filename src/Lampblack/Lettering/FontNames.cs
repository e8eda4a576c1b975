using System;
using System.Text;

namespace Lampblack.Lettering;

/// <summary>Reads the family name from the table 'name' (OpenType specification, "name - Naming Table").</summary>
internal static class FontNames
{
    private const int FamilyId = 1;
    private const int TypographicFamilyId = 16;
    private const int LongestName = 200;

    /// <summary>The typographic family name, else the family name, English before other languages; null where there is none to be read.</summary>
    public static string? Family(ReadOnlySpan<byte> table)
    {
        if (table.Length < 6)
        {
            return null;
        }

        int count = BigEndian.U16(table, 2);
        int storage = BigEndian.U16(table, 4);
        string? best = null;
        var bestRank = 0;
        for (var index = 0; index < count && 6 + (12 * (index + 1)) <= table.Length; index++)
        {
            var record = table.Slice(6 + (12 * index), 12);
            var rank = Rank(record);
            var place = storage + BigEndian.U16(record, 10);
            int length = BigEndian.U16(record, 8);
            if (rank > bestRank && place + length <= table.Length && Text(table.Slice(place, length), BigEndian.U16(record, 0)) is { } name)
            {
                best = name;
                bestRank = rank;
            }
        }

        return best;
    }

    private static int Rank(ReadOnlySpan<byte> record)
    {
        var id = BigEndian.U16(record, 6) switch { TypographicFamilyId => 10, FamilyId => 1, _ => 0 };
        var language = (BigEndian.U16(record, 0), BigEndian.U16(record, 4)) switch
        {
            (3, 0x0409) => 4,
            (0, _) => 3,
            (1, 0) => 2,
            _ => 1,
        };
        return id * language;
    }

    private static string? Text(ReadOnlySpan<byte> bytes, int platform)
    {
        // Platforms 0 and 3 write UTF-16; platform 1 an old one-byte set whose first half is ASCII.
        var raw = platform == 1 ? Encoding.Latin1.GetString(bytes) : Encoding.BigEndianUnicode.GetString(bytes);
        var name = new StringBuilder();
        foreach (var rune in raw.EnumerateRunes())
        {
            if (name.Length < LongestName && !Rune.IsControl(rune) && rune != Rune.ReplacementChar)
            {
                name.Append(rune.ToString());
            }
        }

        var trimmed = name.ToString().Trim();
        return trimmed.Length == 0 ? null : trimmed;
    }
}
