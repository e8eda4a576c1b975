using System;
using System.Collections.Generic;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Text;
using System.Text.Json;
using System.Threading;
using System.Xml.Linq;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Jobs;
using Lampblack.Tests.Peers;
using Lampblack.Tests.Suites;
using SkiaSharp;
using UglyToad.PdfPig;
using Xunit;

namespace Lampblack.Tests.Jobs;

/// <summary>Drawings and lists of a plan of light, read back by programs that are not ours. The desk is invented.</summary>
public sealed class LightFilesTests
{
    private const double LineMm = 0.2;
    private const double MmPerPoint = 25.4 / 72;

    internal const string Desk = """
        # A drying room's board; invented.
        lampblack = 1
        title = "Drying room"

        [lighting]
        emitter = "emitter-3528"
        depth = 40

        [[panel]]
        id = "main"
        size = [120, 70]
        fixings = { part = "screw-m3", inset = 6 }

          [[panel.legend]]
          id = "head"
          text = "DRYING"
          at = [60, 56]
          height = 6

          [[panel.legend]]
          id = "low"
          text = "LOW"
          at = [25, 25]
          height = 4

          [[panel.legend]]
          id = "door"
          text = "DOOR"
          at = [85, 20]
          height = 4
          role = "hidden"
          light = 2

        """;

    private static readonly Lazy<LightResult> Planned = new(() => Run(Desk));

    [Fact]
    public void A_plan_comes_with_drawings_pages_and_tables()
    {
        Assert.Equal(
            ["light/main-evenness.svg", "light/main-emitters.svg", "light/main-emitters.pdf", "light/cells.pdf", "light/emitters.csv", "light/circuit.svg", "light/parts.csv", "manifest.json"],
            Planned.Value.Files.Select(file => file.Path));
        Assert.All(Planned.Value.Files, file => Assert.NotEmpty(file.Purpose));

        // Without a light of its own there are no walls, and where nothing shines there is nothing.
        Assert.DoesNotContain(Run(Desk.Replace("role = \"hidden\"\n  light = 2", "role = \"unlit\"", StringComparison.Ordinal)).Files, file => file.Path == "light/cells.pdf");
        Assert.Empty(Run("lampblack = 1\n[[panel]]\nid = \"bare\"\nsize = [60, 40]\n").Files);
    }

    [Fact]
    public void The_same_desk_gives_the_same_bytes() =>
        Assert.All(Planned.Value.Files.Zip(Run(Desk).Files), pair => Assert.True(pair.First.Bytes.SequenceEqual(pair.Second.Bytes), pair.First.Path));

    [Fact]
    public void Crosses_stand_on_the_emitters_in_pdf_svg_and_table()
    {
        var wanted = Emitters(Planned.Value).ToList();
        Assert.NotEmpty(wanted);
        var table = Table("light/emitters.csv").Skip(1).Select(row => (X: Number(row[2]), Y: Number(row[3]))).ToList();
        AssertSame(wanted, table, 0.006);
        Assert.Equal(Enumerable.Range(1, wanted.Count), Table("light/emitters.csv").Skip(1).Select(row => (int)Number(row[1])));

        using var pdf = PdfDocument.Open(Bytes("light/main-emitters.pdf"), new ParsingOptions { UseLenientParsing = false });
        AssertSame(wanted, OnPlate([.. Outlines(pdf)]), 0.2);
        AssertSame(wanted, OnPlate([.. Paths("light/main-emitters.svg").Select(path => (BoxOf(path.Points, 70 + 4 + 9), path.Points.Count))]), 0.2);
    }

    [Fact]
    public void A_large_panel_s_emitters_are_spread_over_pages_and_each_cross_is_on_one()
    {
        var result = Run(Desk.Replace("size = [120, 70]", "size = [320, 70]", StringComparison.Ordinal));
        using var pdf = PdfDocument.Open([.. result.Files.Single(file => file.Path == "light/main-emitters.pdf").Bytes], new ParsingOptions { UseLenientParsing = false });
        Assert.True(pdf.NumberOfPages > 1);
        Assert.InRange(Outlines(pdf).Count(IsCross), Emitters(result).Count(), 2 * Emitters(result).Count());
    }

    [Fact]
    public void A_cell_s_wall_is_a_strip_as_long_as_its_sides_and_a_tab_and_as_high_as_the_box_is_deep()
    {
        using var figures = Figures(Planned.Value);
        var inside = Assert.Single(figures.RootElement.GetProperty("panels")[0].GetProperty("cells").EnumerateArray()).GetProperty("inside");
        var (width, height) = (inside[2].GetDouble(), inside[3].GetDouble());
        using var pdf = PdfDocument.Open(Bytes("light/cells.pdf"), new ParsingOptions { UseLenientParsing = false });
        var strip = Assert.Single(Outlines(pdf).Select(outline => outline.Box), box => Math.Abs(box.HeightMm - LineMm - 40) < 0.1);
        Assert.Equal((2 * (width + height)) + 8, strip.WidthMm - LineMm, 0.1);

        // The first fold, from the strip's left end: thin dashes where the first side ends.
        var dashes = Outlines(pdf).Select(outline => outline.Box).Where(box => Math.Abs(box.WidthMm - LineMm) < 0.02 && Math.Abs(box.HeightMm - 2) < 0.02).Select(box => box.Centre.XMm - strip.LeftMm - (LineMm / 2)).Distinct().Order().ToList();
        Assert.Equal(4, dashes.GroupBy(x => Math.Round(x, 1)).Count());
        foreach (var fold in new[] { width, width + height, (2 * width) + height, 2 * (width + height) })
        {
            Assert.Contains(dashes, x => Math.Abs(x - fold) < 0.1);
        }
    }

    [Fact]
    public void A_wall_longer_than_the_paper_is_cut_in_strips_that_add_up_and_one_without_room_is_told_in_figures()
    {
        var wide = Desk.Replace("size = [120, 70]", "size = [320, 90]", StringComparison.Ordinal).Replace("\"DOOR\"", "\"DOOR OF THE DRYING ROOM\"", StringComparison.Ordinal);
        var result = Run(wide.Replace("at = [85, 20]\n  height = 4", "at = [180, 25]\n  height = 10", StringComparison.Ordinal));
        using var figures = Figures(result);
        var inside = Assert.Single(figures.RootElement.GetProperty("panels")[0].GetProperty("cells").EnumerateArray()).GetProperty("inside");
        using var pdf = PdfDocument.Open([.. result.Files.Single(file => file.Path == "light/cells.pdf").Bytes]);
        var strips = Outlines(pdf).Select(outline => outline.Box).Where(box => Math.Abs(box.HeightMm - LineMm - 40) < 0.1).ToList();
        Assert.Equal(2, strips.Count);
        Assert.Equal(2 * (inside[2].GetDouble() + inside[3].GetDouble()), strips.Sum(strip => strip.WidthMm - LineMm - 8), 0.2);

        // So long a legend that one side alone is longer than the paper is wide: told in words, no strip.
        var longest = Run(wide.Replace("at = [85, 20]\n  height = 4", "at = [160, 35]\n  height = 18", StringComparison.Ordinal));
        using var told = PdfDocument.Open([.. longest.Files.Single(file => file.Path == "light/cells.pdf").Bytes]);
        Assert.DoesNotContain(Outlines(told).Select(outline => outline.Box), box => Math.Abs(box.HeightMm - LineMm - 40) < 0.1);
    }

    /// <summary>The map is drawn by librsvg and compared, place by place, with the light that the plan gives in figures.</summary>
    [Fact]
    public void Tints_are_the_light_behind_the_mask_by_its_mean_over_the_legends()
    {
        using var folder = new ScratchFolder();
        OutsideProgram.RunWell("rsvg-convert", ["--dpi-x", "254", "--dpi-y", "254", "-o", folder.PathOf("map.png"), folder.Write("map.svg", Bytes("light/main-evenness.svg"))]);
        using var picture = SKBitmap.Decode(folder.PathOf("map.png"));
        using var figures = Figures(Planned.Value);
        var panel = figures.RootElement.GetProperty("panels")[0];
        var grid = panel.GetProperty("grid");
        var (x0, y0, step, columns) = (grid.GetProperty("x0Mm").GetDouble(), grid.GetProperty("y0Mm").GetDouble(), grid.GetProperty("stepMm").GetDouble(), grid.GetProperty("nx").GetInt32());

        // Legends of one stretch each: their mean is that of all.
        var mean = panel.GetProperty("legends").EnumerateArray().Average(legend => legend.GetProperty("lux").GetDouble());
        string[] tints = ["#ff75601a", "#ff94791f", "#ffb59a3a", "#ffcfb866", "#ffe4d59b", "#fff6efd6"];
        double[] steps = [0.5, 0.7, 1, 1.4, 2];
        var (compared, wrong) = (0, 0);
        foreach (var (index, lux) in grid.GetProperty("lux").EnumerateArray().Select(lux => lux.GetDouble()).Index())
        {
            // From the upper edge of the drawing, 4 mm around the panel.
            var (x, y) = (x0 + (index % columns * step) + 4, 70 + 4 - (y0 + (index / columns * step)));
            var tint = Array.IndexOf(tints, picture.GetPixel((int)(x * 10), (int)(y * 10)).ToString());
            var factor = lux / mean;
            if (tint < 0 || steps.Any(edge => Math.Abs((factor / edge) - 1) < 0.06))
            {
                continue;
            }

            compared++;
            wrong += tint == steps.Count(edge => factor > edge) ? 0 : 1;
        }

        Assert.InRange(compared, 80, 10_000);
        Assert.InRange(wrong, 0, compared / 25);
    }

    [Fact]
    public void Steps_and_extremes_are_told_in_words_not_by_colour_alone()
    {
        var svg = XDocument.Parse(Encoding.UTF8.GetString(Bytes("light/main-evenness.svg")));
        Assert.StartsWith("MAIN: how evenly", svg.Root!.Elements().First().Value, StringComparison.Ordinal);
        foreach (var layer in new[] { "factors", "names", "frames", "words", "key", "emitters", "legends", "cells" })
        {
            Assert.Contains(svg.Descendants(), group => group.Name.LocalName == "g" && group.Attribute("id")?.Value == layer && group.Elements().Any(element => element.Name.LocalName == "path"));
        }

        // One ring for each emitter, the cell's too: two outlines each.
        var rings = Paths("light/main-evenness.svg").Count(path => path.Group == "emitters");
        Assert.Equal(2 * Emitters(Planned.Value).Count(), rings);
    }

    [Fact]
    public void Parts_are_counted_and_the_caution_stands_with_circuit_and_pages()
    {
        var parts = Table("light/parts.csv").ToList();
        Assert.Equal(["label", "part", "value", "rating", "count", "note"], parts[0]);
        Assert.All(parts, row => Assert.Equal(6, row.Length));
        Assert.Equal(Emitters(Planned.Value).Count(), parts.Where(row => row[1] == "lamp diode").Sum(row => (int)Number(row[4])));
        Assert.Contains(parts, row => row[1] == "card, light-tight");
        Assert.Contains("fuse", LightView.Nothing.Caution, StringComparison.Ordinal);
        Assert.StartsWith("Drying room: lamps", XDocument.Parse(Encoding.UTF8.GetString(Bytes("light/circuit.svg"))).Root!.Elements().First().Value, StringComparison.Ordinal);
    }

    internal static LightResult Run(string desk)
    {
        var result = Light.Run(ExampleDesks.Alone(Encoding.UTF8.GetBytes(desk)), new("A4", "option"), new Progress<string>(), CancellationToken.None);
        Assert.DoesNotContain(result.Findings, finding => finding.Severity == Severity.Stop);
        return result;
    }

    private static byte[] Bytes(string path) => [.. Planned.Value.Files.Single(file => file.Path == path).Bytes];

    private static JsonDocument Figures(LightResult result)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream))
        {
            json.WriteStartObject();
            result.WriteTo(json);
            json.WriteEndObject();
        }

        return JsonDocument.Parse(stream.ToArray());
    }

    private static IEnumerable<(double X, double Y)> Emitters(LightResult result)
    {
        using var figures = Figures(result);
        var panel = figures.RootElement.GetProperty("panels")[0];
        return [.. panel.GetProperty("emitters").EnumerateArray().Concat(panel.GetProperty("cells").EnumerateArray().SelectMany(cell => cell.GetProperty("emitters").EnumerateArray()))
            .Select(emitter => (emitter.GetProperty("xMm").GetDouble(), emitter.GetProperty("yMm").GetDouble()))];
    }

    /// <summary>Rows of a table by the grammar of RFC 4180, as far as these tables use it.</summary>
    private static IEnumerable<string[]> Table(string path) => Encoding.UTF8.GetString(Bytes(path)).Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Select(Quoted);

    private static string[] Quoted(string line)
    {
        var (fields, within, field) = (new List<string>(), false, new StringBuilder());
        foreach (var letter in line + ",")
        {
            if (letter == '"')
            {
                within = !within;
            }
            else if (letter == ',' && !within)
            {
                fields.Add(field.ToString());
                field.Clear();
            }
            else
            {
                field.Append(letter);
            }
        }

        return [.. fields];
    }

    private static double Number(string words) => double.Parse(words, CultureInfo.InvariantCulture);

    private static void AssertSame(List<(double X, double Y)> wanted, IReadOnlyCollection<(double X, double Y)> found, double slackMm)
    {
        Assert.Equal(wanted.Count, found.Count);
        Assert.All(wanted, place => Assert.Contains(found, other => Math.Abs(other.X - place.X) <= slackMm && Math.Abs(other.Y - place.Y) <= slackMm));
    }

    /// <summary>Middles of crosses, from the lower left corner of the plate's outline.</summary>
    private static List<(double X, double Y)> OnPlate(List<(Box<SheetSpace> Box, int Corners)> outlines)
    {
        var plate = outlines.Single(outline => Math.Abs(outline.Box.WidthMm - LineMm - 120) < 0.05 && Math.Abs(outline.Box.HeightMm - LineMm - 70) < 0.05).Box;
        return [.. outlines.Where(IsCross).Select(outline => (outline.Box.Centre.XMm - plate.LeftMm - (LineMm / 2), outline.Box.Centre.YMm - plate.BottomMm - (LineMm / 2)))];
    }

    /// <summary>As wide as high, and twelve corners: no hole, no letter has that.</summary>
    private static bool IsCross((Box<SheetSpace> Box, int Corners) outline) =>
        outline.Corners == 12 && outline.Box.WidthMm is > 1 and < 4.5 && Math.Abs(outline.Box.WidthMm - outline.Box.HeightMm) < 0.02;

    private static List<(Box<SheetSpace> Box, int Corners)> Outlines(PdfDocument pdf) =>
    [
        .. pdf.GetPages().SelectMany(page => page.Paths).SelectMany(path => path).Where(path => path.GetBoundingRectangle() is not null).Select(path =>
        {
            var box = path.GetBoundingRectangle()!.Value;
            return (new Box<SheetSpace>((double)box.Left * MmPerPoint, (double)box.Bottom * MmPerPoint, (double)box.Width * MmPerPoint, (double)box.Height * MmPerPoint), path.Commands.Count(command => command is UglyToad.PdfPig.Core.PdfSubpath.Move or UglyToad.PdfPig.Core.PdfSubpath.Line));
        }),
    ];

    /// <summary>The outlines of a drawing's paths, each with the group that it is in.</summary>
    private static IEnumerable<(string Group, List<(double X, double Y)> Points)> Paths(string file) =>
        XDocument.Parse(Encoding.UTF8.GetString(Bytes(file))).Descendants().Where(element => element.Name.LocalName == "path")
            .SelectMany(element => element.Attribute("d")!.Value.Split('Z', StringSplitOptions.RemoveEmptyEntries)
                .Select(path => (element.Parent!.Attribute("id")!.Value, path.Trim().TrimStart('M').Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(Number).Chunk(2).Select(pair => (pair[0], pair[1])).ToList())));

    private static Box<SheetSpace> BoxOf(List<(double X, double Y)> points, double heightMm)
    {
        var (left, top) = (points.Min(point => point.X), points.Min(point => point.Y));
        var (right, bottom) = (points.Max(point => point.X), points.Max(point => point.Y));
        return new(left, heightMm - bottom, right - left, bottom - top);
    }
}
