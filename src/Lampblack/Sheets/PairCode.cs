using System;
using System.Buffers.Binary;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Security.Cryptography;
using Lampblack.Formats;
using Lampblack.Geometry;

namespace Lampblack.Sheets;

/// <summary>Six characters made from what is printed on both sides of a sheet, so that a front and a mask that do not belong together can be told apart.</summary>
internal static class PairCode
{
    /// <param name="front">The front's areas.</param>
    /// <param name="mask">The mask's areas.</param>
    /// <param name="pages">What is undone of the printer on either page: sheets made before and after a lesson do not belong together.</param>
    public static string Of(
        IEnumerable<Painted<SheetSpace>> front, IEnumerable<Painted<SheetSpace>> mask, params ReadOnlySpan<Affine<SheetSpace, PageSpace>> pages)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Add(hash, front);
        hash.AppendData([0xFF]);
        Add(hash, mask);
        foreach (var page in pages)
        {
            AddMap(hash, page);
        }

        return ShortCode.Of(hash.GetHashAndReset());
    }

    /// <summary>Numbers of a map to a ten-millionth, which moves nothing on a sheet by a step of the grid.</summary>
    private static void AddMap<TFrom, TTo>(IncrementalHash hash, Affine<TFrom, TTo> map)
        where TFrom : struct, ISpace
        where TTo : struct, ISpace
    {
        var number = new byte[8];
        foreach (var value in new[] { map.Xx, map.Xy, map.XMm, map.Yx, map.Yy, map.YMm })
        {
            BinaryPrimitives.WriteInt64LittleEndian(number, (long)Math.Round(value * 1e7, MidpointRounding.AwayFromZero));
            hash.AppendData(number);
        }
    }

    private static void Add(IncrementalHash hash, IEnumerable<Painted<SheetSpace>> areas)
    {
        var number = new byte[8];
        foreach (var area in areas)
        {
            hash.AppendData([(byte)area.Ink.Space]);
            foreach (var amount in area.Ink.Amounts)
            {
                Append((long)Math.Round(amount * 10_000, MidpointRounding.AwayFromZero));
            }

            foreach (var border in area.Region.Borders())
            {
                AppendBorder(hash, border.Points);
            }

            if (area.Dots is { } dots)
            {
                hash.AppendData(dots.Content.Fingerprint.AsSpan());
                AddMap(hash, dots.Placement);
            }
        }

        void Append(long value)
        {
            BinaryPrimitives.WriteInt64LittleEndian(number, value);
            hash.AppendData(number);
        }
    }

    private static void AppendBorder(IncrementalHash hash, ImmutableArray<Point<SheetSpace>> points)
    {
        var bytes = new byte[(points.Length * 8) + 4];
        BinaryPrimitives.WriteInt32LittleEndian(bytes, points.Length);
        for (var index = 0; index < points.Length; index++)
        {
            BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(4 + (index * 8)), Grid(points[index].XMm));
            BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(8 + (index * 8)), Grid(points[index].YMm));
        }

        hash.AppendData(bytes);
    }

    private static int Grid(double mm) => (int)Math.Round(mm / Resolution.GridMm, MidpointRounding.AwayFromZero);
}
