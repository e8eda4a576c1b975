using System;
using System.Buffers.Binary;
using System.Collections.Generic;
using System.Linq;
using System.Text;

namespace Lampblack.Tests.Lettering;

/// <summary>
/// A second, independent reader of just what these tests compare: character map, advances, boxes and pair kerning.
/// Written from the OpenType specification 1.9 (chapters cmap, hmtx, glyf, GPOS, "OpenType Layout Common Table Formats"), from memory.
/// </summary>
internal sealed class SfntReader
{
    private readonly byte[] _data;
    private readonly Dictionary<string, int> _tables = new(StringComparer.Ordinal);

    public SfntReader(byte[] data)
    {
        _data = data;
        for (var index = 0; index < U16(4); index++)
        {
            var entry = 12 + (16 * index);
            _tables[Encoding.ASCII.GetString(data, entry, 4)] = (int)U32(entry + 8);
        }
    }

    public int UnitsPerEm => U16(_tables["head"] + 18);

    public int CapHeightOfOs2 => I16(_tables["OS/2"] + 88);

    public int XHeightOfOs2 => I16(_tables["OS/2"] + 86);

    /// <summary>Glyph of a character, 0 where there is none (cmap format 4, platform 3, encoding 1).</summary>
    public int Glyph(char character)
    {
        var cmap = _tables["cmap"];
        var table = Enumerable.Range(0, U16(cmap + 2)).Select(index => cmap + 4 + (8 * index))
            .Where(record => U16(record) == 3 && U16(record + 2) == 1).Select(record => cmap + (int)U32(record + 4)).First();
        var segments = U16(table + 6) / 2;
        for (var index = 0; index < segments; index++)
        {
            var end = table + 14 + (2 * index);
            var start = end + (2 * segments) + 2;
            if (character > U16(end))
            {
                continue;
            }

            if (character < U16(start))
            {
                return 0;
            }

            var delta = U16(start + (2 * segments));
            var rangeAt = start + (4 * segments);
            var range = U16(rangeAt);
            if (range == 0)
            {
                return (character + delta) & 0xFFFF;
            }

            var glyph = U16(rangeAt + range + (2 * (character - U16(start))));
            return glyph == 0 ? 0 : (glyph + delta) & 0xFFFF;
        }

        return 0;
    }

    public int Advance(int glyph) => U16(_tables["hmtx"] + (4 * Math.Min(glyph, U16(_tables["hhea"] + 34) - 1)));

    /// <summary>Left, bottom, right, top of a glyph, from its header in 'glyf'.</summary>
    public (int Left, int Bottom, int Right, int Top) Box(int glyph)
    {
        var loca = _tables["loca"];
        var place = _tables["glyf"] + (I16(_tables["head"] + 50) == 0 ? 2 * U16(loca + (2 * glyph)) : (int)U32(loca + (4 * glyph)));
        return (I16(place + 2), I16(place + 4), I16(place + 6), I16(place + 8));
    }

    /// <summary>What the font's 'kern' feature for Latin adds between two glyphs, in font units.</summary>
    public int Kern(int first, int second)
    {
        var gpos = _tables["GPOS"];
        var lookups = gpos + U16(gpos + 8);
        return KernLookups(gpos).Sum(index => Pair(lookups + U16(lookups + 2 + (2 * index)), first, second));
    }

    private IEnumerable<int> KernLookups(int gpos)
    {
        var scripts = gpos + U16(gpos + 4);
        var features = gpos + U16(gpos + 6);
        var places = Enumerable.Range(0, U16(scripts)).Select(index => scripts + 2 + (6 * index))
            .ToDictionary(record => Encoding.ASCII.GetString(_data, record, 4), record => scripts + U16(record + 4), StringComparer.Ordinal);
        var script = places.TryGetValue("latn", out var latin) ? latin : places["DFLT"];
        var language = script + U16(script);
        return Enumerable.Range(0, U16(language + 4)).Select(index => U16(language + 6 + (2 * index)))
            .Select(feature => features + 2 + (6 * feature))
            .Where(record => Encoding.ASCII.GetString(_data, record, 4) == "kern")
            .Select(record => features + U16(record + 4))
            .SelectMany(feature => Enumerable.Range(0, U16(feature + 2)).Select(index => U16(feature + 4 + (2 * index))))
            .Distinct().Order();
    }

    private int Pair(int lookup, int first, int second)
    {
        for (var index = 0; index < U16(lookup + 4); index++)
        {
            var table = lookup + U16(lookup + 6 + (2 * index));
            var kind = U16(lookup);
            if (kind == 9)
            {
                kind = U16(table + 2);
                table += (int)U32(table + 4);
            }

            if (kind == 2 && PairIn(table, first, second) is { } value)
            {
                return value;
            }
        }

        return 0;
    }

    private int? PairIn(int table, int first, int second)
    {
        var covered = Covered(table + U16(table + 2), first);
        if (covered < 0)
        {
            return null;
        }

        var (format1, format2) = (U16(table + 4), U16(table + 6));
        var size = 2 * (Bits(format1) + Bits(format2));
        if (U16(table) == 1)
        {
            var set = table + U16(table + 10 + (2 * covered));
            for (var index = 0; index < U16(set); index++)
            {
                var record = set + 2 + (index * (2 + size));
                if (U16(record) == second)
                {
                    return Advances(record + 2, format1, format2);
                }
            }

            return null;
        }

        var classes2 = U16(table + 14);
        var (class1, class2) = (Class(table + U16(table + 8), first), Class(table + U16(table + 10), second));
        return class2 == 0 ? null : Advances(table + 16 + (((class1 * classes2) + class2) * size), format1, format2);
    }

    private int Advances(int record, int format1, int format2) => Advance(record, format1) + Advance(record + (2 * Bits(format1)), format2);

    private int Advance(int record, int format) => (format & 4) == 0 ? 0 : I16(record + (2 * Bits(format & 3)));

    private int Covered(int table, int glyph)
    {
        for (var index = 0; index < U16(table + 2); index++)
        {
            if (U16(table) == 1 && U16(table + 4 + (2 * index)) == glyph)
            {
                return index;
            }

            var range = table + 4 + (6 * index);
            if (U16(table) == 2 && glyph >= U16(range) && glyph <= U16(range + 2))
            {
                return U16(range + 4) + glyph - U16(range);
            }
        }

        return -1;
    }

    private int Class(int table, int glyph)
    {
        if (U16(table) == 1)
        {
            var index = glyph - U16(table + 2);
            return index >= 0 && index < U16(table + 4) ? U16(table + 6 + (2 * index)) : 0;
        }

        return Enumerable.Range(0, U16(table + 2)).Select(index => table + 4 + (6 * index))
            .Where(range => glyph >= U16(range) && glyph <= U16(range + 2)).Select(range => U16(range + 4)).FirstOrDefault();
    }

    private static int Bits(int format) => System.Numerics.BitOperations.PopCount((uint)format);

    private int U16(int place) => BinaryPrimitives.ReadUInt16BigEndian(_data.AsSpan(place));

    private int I16(int place) => BinaryPrimitives.ReadInt16BigEndian(_data.AsSpan(place));

    private uint U32(int place) => BinaryPrimitives.ReadUInt32BigEndian(_data.AsSpan(place));
}
