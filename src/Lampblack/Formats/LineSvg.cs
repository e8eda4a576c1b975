using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Formats;

/// <summary>Writes lines for a cutter as SVG in true size: hairlines without filling, arcs as arcs (SVG 1.1, clause 8.3.8).</summary>
public static class LineSvg
{
    /// <summary>The drawing of the box from (0, 0) to (width, height), its units mm.</summary>
    /// <param name="title">Its title.</param>
    /// <param name="widthMm">Width, above 0.</param>
    /// <param name="heightMm">Height, above 0.</param>
    /// <param name="layers">The layers, each a group by its name in small letters; colours 1 red, 3 green, 5 blue, else black.</param>
    /// <typeparam name="TSpace">The space they are in; y points up.</typeparam>
    public static ImmutableArray<byte> Write<TSpace>(string title, double widthMm, double heightMm, ImmutableArray<CutLayer<TSpace>> layers)
        where TSpace : struct, ISpace
    {
        var file = SvgFile.Head(widthMm, heightMm, title);
        foreach (var layer in layers)
        {
            var colour = layer.Colour switch { 1 => "#ff0000", 3 => "#00a000", 5 => "#0000ff", _ => "#000000" };
            file.Add(string.Create(CultureInfo.InvariantCulture, $"<g id=\"{layer.Name.ToLowerInvariant()}\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"0.1\">\n"));
            foreach (var line in layer.Lines)
            {
                if (line.AsCircle is { } circle)
                {
                    file.Add("<circle cx=\""u8).AddMm(circle.Centre.XMm).Add("\" cy=\""u8).AddMm(heightMm - circle.Centre.YMm).Add("\" r=\""u8).AddMm(circle.RadiusMm).Add("\"/>\n"u8);
                }
                else
                {
                    Path(file, line, heightMm);
                }
            }

            file.Add("</g>\n"u8);
        }

        return file.Add("</svg>\n"u8).ToImmutable();
    }

    private static void Path<TSpace>(ByteText file, ArcPath<TSpace> line, double heightMm)
        where TSpace : struct, ISpace
    {
        file.Add("<path d=\"M"u8).AddMm(line.Corners[0].At.XMm).Add(" "u8).AddMm(heightMm - line.Corners[0].At.YMm);
        foreach (var (index, corner) in line.Corners.Index())
        {
            var to = line.Corners[(index + 1) % line.Corners.Length].At;
            if (corner.BulgeFactor == 0)
            {
                file.Add("L"u8);
            }
            else
            {
                // Counter-clockwise with y up is what the format calls sweep 0 once y points down.
                var (_, radiusMm, _, turnDegrees) = ArcPath<TSpace>.ArcTo(corner, to);
                file.Add("A"u8).AddMm(radiusMm).Add(" "u8).AddMm(radiusMm).Add(Math.Abs(turnDegrees) > 180 ? " 0 1 "u8 : " 0 0 "u8).Add(turnDegrees > 0 ? "0 "u8 : "1 "u8);
            }

            file.AddMm(to.XMm).Add(" "u8).AddMm(heightMm - to.YMm);
        }

        file.Add("Z\"/>\n"u8);
    }
}
