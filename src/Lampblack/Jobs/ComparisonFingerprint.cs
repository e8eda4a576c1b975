using System;
using System.Collections.Generic;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Security.Cryptography;
using System.Text;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Parts;
using Lampblack.Quantities;
using Lampblack.Separations;

namespace Lampblack.Jobs;

/// <summary>
/// SHA-256 of shapes and inks in panel space, on the grid of 0.1 µm, so that another place on another sheet changes nothing.
/// The order of pieces within an area, and the corner that a border starts from, do not count: they change nothing on paper.
/// </summary>
internal static class ComparisonFingerprint
{
    /// <summary>One printed side.</summary>
    public static string OfSide(IEnumerable<Painted<PanelSpace>> side) => Hash(writer =>
    {
        foreach (var painted in side)
        {
            Write(writer, painted.Ink);
            writer.Write(OfRegion(painted.Region));
            if (painted.Dots is { } dots)
            {
                // The corners above are on the grid and no particular one comes first; the map tells which way up the dots lie.
                var map = dots.Placement;
                writer.Write(dots.Content.Fingerprint.AsSpan());
                foreach (var number in (ReadOnlySpan<double>)[map.Xx, map.Xy, map.Yx, map.Yy, map.XMm, map.YMm])
                {
                    writer.Write((long)Math.Round(number * 1e7, MidpointRounding.AwayFromZero));
                }
            }
        }
    });

    /// <summary>What the desk asks for, before black build, spread and printer come to it.</summary>
    public static string OfArtwork(PanelSeparation separation) => Hash(writer =>
    {
        var panel = separation.Artwork.Laid.Panel;
        Write(writer, panel.Field);
        foreach (var mm in (ReadOnlySpan<double>)[separation.Bleed.LeftMm, separation.Bleed.BottomMm, separation.Bleed.WidthMm, separation.Bleed.HeightMm])
        {
            writer.Write(Steps(mm));
        }

        foreach (var mark in separation.Shapes.Visible)
        {
            writer.Write((int)mark.Style.Role);
            Write(writer, mark.Style.Ink);
            writer.Write(mark.Style.Backed);
            writer.Write(mark.Style.CoverShare);
            writer.Write(OfRegion(mark.Shape));
        }

        foreach (var region in (ReadOnlySpan<Region<PanelSpace>>)[separation.Shapes.Windows, separation.Shapes.FrontCrosshairs, separation.Shapes.MaskCrosshairs])
        {
            writer.Write(OfRegion(region));
        }
    });

    /// <summary>The holes of parts in their places; their order does not count, nor how a round hole is turned.</summary>
    public static string OfHoles(IEnumerable<PlacedPart> parts) => Hash(writer =>
    {
        foreach (var hole in parts.SelectMany(OfPart).Order(StringComparer.Ordinal))
        {
            writer.Write(hole);
        }
    });

    private static IEnumerable<string> OfPart(PlacedPart placed)
    {
        var part = placed.Part;
        yield return part is { Key: null, Cutout: RoundCutout round } ? OfDisc(placed.Centre, round.Diameter.Mm) : OfRegion(placed.Holes[0]);
        var map = placed.Map;
        foreach (var extra in part.ExtraHoles)
        {
            yield return OfDisc(map.Apply(new(extra.XMm, extra.YMm)), extra.Diameter.Mm);
        }
    }

    /// <summary>A round hole by its figures to 1 µm: its chords turn with the part, the hole does not.</summary>
    private static string OfDisc(Point<PanelSpace> centre, double diameterMm) =>
        string.Join(' ', new[] { centre.XMm, centre.YMm, diameterMm }.Select(mm => ((long)Math.Round(mm * 1000, MidpointRounding.AwayFromZero)).ToString(CultureInfo.InvariantCulture)));

    private static string OfRegion(Region<PanelSpace> region) => Hash(writer =>
    {
        foreach (var border in region.Borders().Select(OfBorder).Order(StringComparer.Ordinal))
        {
            writer.Write(border);
        }
    });

    private static string OfBorder(Outline<PanelSpace> border) => Hash(writer =>
    {
        var corners = border.Points.Select(point => (X: Steps(point.XMm), Y: Steps(point.YMm))).ToArray();
        var first = 0;
        for (var index = 1; index < corners.Length; index++)
        {
            first = corners[index].CompareTo(corners[first]) < 0 ? index : first;
        }

        for (var index = 0; index < corners.Length; index++)
        {
            var (x, y) = corners[(first + index) % corners.Length];
            writer.Write(x);
            writer.Write(y);
        }
    });

    private static long Steps(double mm) => (long)Math.Round(mm / Resolution.GridMm, MidpointRounding.AwayFromZero);

    private static void Write(BinaryWriter writer, Ink? ink)
    {
        writer.Write(ink is null ? -1 : (int)ink.Space);
        foreach (var amount in ink?.Amounts ?? [])
        {
            writer.Write(amount);
        }
    }

    private static string Hash(Action<BinaryWriter> content)
    {
        using var bytes = new MemoryStream();
        using (var writer = new BinaryWriter(bytes, Encoding.UTF8, leaveOpen: true))
        {
            content(writer);
        }

        return Convert.ToHexStringLower(SHA256.HashData(bytes.GetBuffer().AsSpan(0, (int)bytes.Length)));
    }
}
