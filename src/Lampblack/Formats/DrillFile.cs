using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Formats;

/// <summary>Writes drill files in the Excellon format: mm, absolute, with decimal points, so that no rule about left-out zeros is needed.</summary>
public static class DrillFile
{
    /// <summary>The file; ASCII, lines ended by LF. Holes are grouped by diameter, the smallest first, in the order given.</summary>
    /// <param name="title">Its title, told in a comment.</param>
    /// <param name="holes">The holes.</param>
    /// <typeparam name="TSpace">The space they are in; y points up, as in the file.</typeparam>
    public static ImmutableArray<byte> Write<TSpace>(string title, ImmutableArray<(Point<TSpace> Centre, double DiameterMm)> holes)
        where TSpace : struct, ISpace
    {
        ArgumentNullException.ThrowIfNull(title);
        var tools = holes.GroupBy(hole => Math.Round(hole.DiameterMm, 3, MidpointRounding.AwayFromZero)).OrderBy(group => group.Key).ToList();
        var file = new ByteText(1 << 12);
        file.Add("M48\n; "u8).Add(string.Concat(PrintableText.Clean(title).Select(sign => char.IsAscii(sign) ? sign : '?'))).Add(", all lengths in mm\nMETRIC\n"u8);
        foreach (var (index, tool) in tools.Index())
        {
            file.Add(string.Create(CultureInfo.InvariantCulture, $"T{index + 1}C{tool.Key:0.000}\n"));
        }

        file.Add("%\nG90\nG05\n"u8);
        foreach (var (index, tool) in tools.Index())
        {
            file.Add(string.Create(CultureInfo.InvariantCulture, $"T{index + 1}\n"));
            foreach (var (centre, _) in tool)
            {
                file.Add(string.Create(CultureInfo.InvariantCulture, $"X{Whole(centre.XMm):0.000}Y{Whole(centre.YMm):0.000}\n"));
            }
        }

        return file.Add("T0\nM30\n"u8).ToImmutable();
    }

    // No minus before a zero.
    private static double Whole(double mm) => Math.Round(mm, 3, MidpointRounding.AwayFromZero) + 0.0;
}
