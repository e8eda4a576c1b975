using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Formats;

/// <summary>One layer of a cutter's drawing.</summary>
/// <typeparam name="TSpace">The space it is in.</typeparam>
/// <param name="Name">Its name: capitals, digits and hyphens, once per drawing.</param>
/// <param name="Colour">Its colour number, 1 to 255 (1 red, 3 green, 5 blue, 7 black or white).</param>
/// <param name="Lines">Its closed lines.</param>
public sealed record CutLayer<TSpace>(string Name, int Colour, ImmutableArray<ArcPath<TSpace>> Lines)
    where TSpace : struct, ISpace;

/// <summary>
/// Writes drawings in the exchange format DXF, release 12 (AC1009), that every cutter reads: circles, and closed polylines whose arcs are told by their bulge.
/// Lengths are plainly mm; the two variables that say so are newer than release 12 and are skipped by readers that do not know them.
/// </summary>
public static class DxfFile
{
    /// <summary>The drawing; ASCII, lines ended by CR LF.</summary>
    /// <param name="title">Its title, told in a comment.</param>
    /// <param name="widthMm">Width of the drawing.</param>
    /// <param name="heightMm">Height of the drawing.</param>
    /// <param name="layers">The layers.</param>
    /// <typeparam name="TSpace">The space they are in; y points up, as in the file.</typeparam>
    /// <exception cref="ArgumentException">A layer's name or colour is none.</exception>
    public static ImmutableArray<byte> Write<TSpace>(string title, double widthMm, double heightMm, ImmutableArray<CutLayer<TSpace>> layers)
        where TSpace : struct, ISpace
    {
        ArgumentNullException.ThrowIfNull(title);
        foreach (var layer in layers)
        {
            if (layer.Name.Length == 0 || !layer.Name.All(sign => char.IsAsciiLetterUpper(sign) || char.IsAsciiDigit(sign) || sign == '-') || layer.Colour is < 1 or > 255)
            {
                throw new ArgumentException($"a layer has a name of capitals, digits and hyphens, and a colour from 1 to 255, not '{layer.Name}', {layer.Colour}", nameof(layers));
            }
        }

        var file = new ByteText(1 << 14);
        Pair(file, 999, Ascii(title) + ", all lengths in mm");
        Section(file, "HEADER");
        Variable(file, "$ACADVER", 1, "AC1009");
        Variable(file, "$INSUNITS", 70, "4");
        Variable(file, "$MEASUREMENT", 70, "1");
        Pair(file, 9, "$EXTMIN");
        At(file, new Point<TSpace>(0, 0));
        Pair(file, 9, "$EXTMAX");
        At(file, new Point<TSpace>(widthMm, heightMm));
        Pair(file, 0, "ENDSEC");
        Tables(file, layers);
        Section(file, "ENTITIES");
        foreach (var layer in layers)
        {
            foreach (var line in layer.Lines)
            {
                Entity(file, layer.Name, line);
            }
        }

        Pair(file, 0, "ENDSEC");
        Pair(file, 0, "EOF");
        return file.ToImmutable();
    }

    private static void Tables<TSpace>(ByteText file, ImmutableArray<CutLayer<TSpace>> layers)
        where TSpace : struct, ISpace
    {
        Section(file, "TABLES");
        Pair(file, 0, "TABLE");
        Pair(file, 2, "LTYPE");
        Pair(file, 70, 1);
        Pair(file, 0, "LTYPE");
        Pair(file, 2, "CONTINUOUS");
        Pair(file, 70, 0);
        Pair(file, 3, "Solid line");
        Pair(file, 72, 65);
        Pair(file, 73, 0);
        Pair(file, 40, "0.0");
        Pair(file, 0, "ENDTAB");
        Pair(file, 0, "TABLE");
        Pair(file, 2, "LAYER");
        Pair(file, 70, layers.Length);
        foreach (var layer in layers)
        {
            Pair(file, 0, "LAYER");
            Pair(file, 2, layer.Name);
            Pair(file, 70, 0);
            Pair(file, 62, layer.Colour);
            Pair(file, 6, "CONTINUOUS");
        }

        Pair(file, 0, "ENDTAB");
        Pair(file, 0, "ENDSEC");
    }

    private static void Entity<TSpace>(ByteText file, string layer, ArcPath<TSpace> line)
        where TSpace : struct, ISpace
    {
        if (line.AsCircle is { } circle)
        {
            Pair(file, 0, "CIRCLE");
            Pair(file, 8, layer);
            At(file, circle.Centre);
            file.Add("40\r\n"u8).AddMm(circle.RadiusMm).Add("\r\n"u8);
            return;
        }

        Pair(file, 0, "POLYLINE");
        Pair(file, 8, layer);
        Pair(file, 66, 1);
        At(file, new Point<TSpace>(0, 0));
        Pair(file, 70, 1);
        foreach (var corner in line.Corners)
        {
            Pair(file, 0, "VERTEX");
            Pair(file, 8, layer);
            At(file, corner.At);
            if (corner.BulgeFactor != 0)
            {
                Pair(file, 42, corner.BulgeFactor.ToString("0.########", CultureInfo.InvariantCulture));
            }
        }

        Pair(file, 0, "SEQEND");
        Pair(file, 8, layer);
    }

    private static void Section(ByteText file, string name)
    {
        Pair(file, 0, "SECTION");
        Pair(file, 2, name);
    }

    private static void Variable(ByteText file, string name, int code, string value)
    {
        Pair(file, 9, name);
        Pair(file, code, value);
    }

    private static void At<TSpace>(ByteText file, Point<TSpace> point)
        where TSpace : struct, ISpace
    {
        file.Add("10\r\n"u8).AddMm(point.XMm).Add("\r\n20\r\n"u8).AddMm(point.YMm).Add("\r\n30\r\n0\r\n"u8);
    }

    private static void Pair(ByteText file, int code, string value) => file.Add(code).Add("\r\n"u8).Add(value).Add("\r\n"u8);

    private static void Pair(ByteText file, int code, int value) => file.Add(code).Add("\r\n"u8).Add(value).Add("\r\n"u8);

    private static string Ascii(string text) => string.Concat(PrintableText.Clean(text).Select(sign => char.IsAscii(sign) ? sign : '?'));
}
