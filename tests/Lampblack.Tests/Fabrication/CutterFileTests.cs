using System;
using System.Collections.Generic;
using System.Linq;
using System.Text;
using System.Text.Json;
using Lampblack.Fabrication;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Tests.Architecture;
using Lampblack.Tests.Peers;
using Xunit;

namespace Lampblack.Tests.Fabrication;

/// <summary>Drawings for cutters, read back by readers that are not ours: dxf-parser 1.1.2, gerber-parser 4.2.7 (npm), rsvg-convert.</summary>
public sealed class CutterFileTests
{
    private static readonly HoleChart Chart = Fabricated.Chart(Fabricated.EveryForm).Value;

    [Fact]
    public void A_dxf_has_every_opening_at_its_place_and_size_to_a_thousandth()
    {
        using var read = Dxf(CutterFiles.Dxf(Chart));
        var root = read.RootElement;
        Assert.Equal("AC1009", root.GetProperty("header").GetProperty("$ACADVER").GetString());
        Assert.Equal(4, root.GetProperty("header").GetProperty("$INSUNITS").GetInt32()); // 4 is mm in the format's own list (row 39)
        Assert.Equal(["PLATE-OUTLINE", "PLATE-HOLES", "PAPER-HOLES"], root.GetProperty("layers").EnumerateArray().Select(layer => layer.GetString()));
        var holes = Entities(root, "PLATE-HOLES");
        Assert.Equal(Chart.Holes.Length, holes.Count);
        foreach (var (hole, entity) in Chart.Holes.Zip(holes))
        {
            if (entity.GetProperty("type").GetString() == "CIRCLE")
            {
                var circle = entity.GetProperty("circle").EnumerateArray().Select(number => number.GetDouble()).ToArray();
                Assert.Equal(hole.Centre.XMm, circle[0], 0.001);
                Assert.Equal(hole.Centre.YMm, circle[1], 0.001);
                Assert.Equal(hole.DiameterMm!.Value / 2, circle[2], 0.001);
            }
            else
            {
                // Its own arithmetic: the area between the read arcs against the opening of the part in chords, as the print has it.
                Assert.True(entity.GetProperty("closed").GetBoolean());
                var expected = Chart.Laid.Parts.Single(part => part.Origin.Item == hole.Origin.Item).Holes[0];
                Assert.Equal(expected.AreaMm2, AreaOf(Vertices(entity)), expected.PerimeterMm * 0.003);
            }
        }

        var outline = Assert.Single(Entities(root, "PLATE-OUTLINE"));
        Assert.True(outline.GetProperty("closed").GetBoolean());
        Assert.Equal((400 * 280) - ((4 - Math.PI) * 36), AreaOf(Vertices(outline)), 0.01);
    }

    [Fact]
    public void A_dxf_opening_with_a_notch_keeps_the_radius_and_centre_of_its_arc()
    {
        using var read = Dxf(CutterFiles.Dxf(Chart));
        var notched = Chart.Holes.Single(hole => hole.Origin.Item == "all/notched");
        var vertices = Vertices(Entities(read.RootElement, "PLATE-HOLES")[Chart.Holes.IndexOf(notched)]);
        var arc = Assert.Single(vertices, vertex => vertex.BulgeFactor != 0);
        var next = vertices[(vertices.IndexOf(arc) + 1) % vertices.Count];

        // The format's definition: sagitta = bulge x half the chord, radius = chord (1 + b^2) / (4 b).
        var chord = Math.Sqrt(Math.Pow(next.X - arc.X, 2) + Math.Pow(next.Y - arc.Y, 2));
        Assert.Equal(3.25, chord * (1 + (arc.BulgeFactor * arc.BulgeFactor)) / (4 * arc.BulgeFactor), 0.001);
        Assert.Equal(3.25, Math.Sqrt(Math.Pow(arc.X - notched.Centre.XMm, 2) + Math.Pow(arc.Y - notched.Centre.YMm, 2)), 0.001);
    }

    [Fact]
    public void A_drill_file_has_every_round_opening_to_a_thousandth_and_nothing_else()
    {
        using var folder = new ScratchFolder();
        var path = folder.Write("p.drl", CutterFiles.Drill(Chart).AsSpan());
        using var read = JsonDocument.Parse(OutsideProgram.RunWell("node", [Reader("drill.cjs"), path]).Output);
        Assert.Equal("mm", read.RootElement.GetProperty("units").GetString());
        var tools = read.RootElement.GetProperty("tools").EnumerateArray().Select(tool => tool.GetDouble()).ToList();
        Assert.Equal(tools.Distinct().Order(), tools);
        var found = read.RootElement.GetProperty("holes").EnumerateArray().Select(hole => hole.EnumerateArray().Select(number => number.GetDouble()).ToArray()).ToList();
        var round = Chart.Holes.Where(hole => hole.Way != HoleWay.File).ToList();
        Assert.Equal(round.Count, found.Count);
        Assert.All(round, hole => Assert.Contains(found, one =>
            Math.Abs(one[0] - hole.Centre.XMm) < 0.001 && Math.Abs(one[1] - hole.Centre.YMm) < 0.001 && Math.Abs(one[2] - hole.DiameterMm!.Value) < 0.001));
    }

    [Fact]
    public void The_reader_of_drill_files_reads_a_published_sample_as_its_publisher_does()
    {
        // X00581Y0122, inch 2:4, leading zeros kept, is 0.5810, 1.2200 in (row 40: a board maker's published sample, decoded by hand).
        using var folder = new ScratchFolder();
        var path = folder.Write("sample.drl", "M48\nINCH,LZ\nT1C0.032\n%\nT1\nX00581Y0122\nM30\n"u8);
        using var read = JsonDocument.Parse(OutsideProgram.RunWell("node", [Reader("drill.cjs"), path]).Output);
        Assert.Equal("in", read.RootElement.GetProperty("units").GetString());
        Assert.Equal([0.5810, 1.2200, 0.032], read.RootElement.GetProperty("holes")[0].EnumerateArray().Select(number => Math.Round(number.GetDouble(), 6)));
    }

    [Fact]
    public void A_drill_file_says_nothing_that_needs_rules_about_left_out_zeros()
    {
        // Readers differ on those rules: X00581 with leading zeros kept, inch 2:4, is 0.5810 in (row 40: a board maker's published sample). With a point there is one reading only.
        var lines = Encoding.ASCII.GetString(DrillFile.Write("x", [(new Point<PanelSpace>(0.5810 * 25.4, 1.2200 * 25.4), 0.8)]).AsSpan()).Split('\n');
        Assert.Contains("X14.757Y30.988", lines);
        Assert.Contains("METRIC", lines);
        Assert.Equal("M30", lines[^2]);
        Assert.All(lines.Where(line => line.StartsWith('X')), line => Assert.Equal(2, line.Count(sign => sign == '.')));
    }

    [Fact]
    public void The_svg_for_a_cutter_encloses_what_the_print_cuts_away()
    {
        // Filled by a rasteriser that is not ours: each dot of the plate that is not an opening is set.
        using var folder = new ScratchFolder();
        var svg = Encoding.UTF8.GetString(CutterFiles.Svg(Chart).AsSpan());
        Assert.Contains("width=\"400mm\"", svg, StringComparison.Ordinal);
        var holes = svg[svg.IndexOf("<g id=\"plate-holes\"", StringComparison.Ordinal)..svg.IndexOf("<g id=\"paper-holes\"", StringComparison.Ordinal)];
        var filled = svg[..svg.IndexOf("<g id=\"plate-outline\"", StringComparison.Ordinal)] + holes.Replace("fill=\"none\" stroke=\"#ff0000\" stroke-width=\"0.1\"", "fill=\"#000000\"", StringComparison.Ordinal) + "</svg>";
        var path = folder.Write("p.svg", Encoding.UTF8.GetBytes(filled));
        OutsideProgram.RunWell("rsvg-convert", ["--dpi-x", "254", "--dpi-y", "254", "-b", "white", "-o", folder.PathOf("p.png"), path]);
        var mean = double.Parse(OutsideProgram.RunWell("convert", [folder.PathOf("p.png"), "-colorspace", "Gray", "-format", "%[fx:1-mean]", "info:"]).Output, System.Globalization.CultureInfo.InvariantCulture);
        var expected = Chart.Laid.Parts.SelectMany(part => part.Holes).Sum(hole => hole.AreaMm2);
        Assert.Equal(expected, mean * 400 * 280, 4.0);
        Assert.True(expected > 5000);
    }

    [Fact]
    public void The_same_desk_gives_the_same_bytes()
    {
        var again = Fabricated.Chart(Fabricated.EveryForm).Value;
        Assert.Equal(CutterFiles.Dxf(Chart), CutterFiles.Dxf(again));
        Assert.Equal(CutterFiles.Drill(Chart), CutterFiles.Drill(again));
        Assert.Equal(BackView.Svg(Chart), BackView.Svg(again));
    }

    [Fact]
    public void The_paper_is_opened_over_every_hole_as_far_as_its_parts_bezel_covers()
    {
        using var read = Dxf(CutterFiles.Dxf(Chart));
        var paper = Entities(read.RootElement, "PAPER-HOLES");
        Assert.Equal(Chart.Holes.Length, paper.Count);
        foreach (var (hole, entity) in Chart.Holes.Zip(paper))
        {
            var part = Chart.Laid.Parts.Single(part => part.Origin.Item == hole.Origin.Item).Part;
            var round = entity.GetProperty("type").GetString() == "CIRCLE";
            var areaMm2 = round ? Math.PI * Math.Pow(entity.GetProperty("circle")[2].GetDouble(), 2) : AreaOf(Vertices(entity));

            // A punch opens the whole circle of a hole with flats or a notch; around anything else the margin runs along its edge (Steiner: A + P m + pi m2, sharp corners 4 m2 instead).
            var (marginMm, shape) = (part.PaperMarginMm, hole.Shape);
            var (least, most) = hole.DiameterMm is { } diameter
                ? (Math.PI * Math.Pow((diameter / 2) + marginMm, 2) * 0.999, Math.PI * Math.Pow((diameter / 2) + marginMm, 2) * 1.001)
                : (shape.AreaMm2 + (shape.PerimeterMm * marginMm) + (3.1 * marginMm * marginMm) - 0.01, shape.AreaMm2 + (shape.PerimeterMm * marginMm) + (4 * marginMm * marginMm) + 0.5);
            Assert.InRange(areaMm2, least, most);
        }
    }

    private static JsonDocument Dxf(IEnumerable<byte> bytes)
    {
        using var folder = new ScratchFolder();
        var path = folder.Write("p.dxf", bytes.ToArray());
        return JsonDocument.Parse(OutsideProgram.RunWell("node", [Reader("dxf.cjs"), path]).Output);
    }

    private static List<JsonElement> Entities(JsonElement root, string layer) =>
        [.. root.GetProperty("entities").EnumerateArray().Where(entity => entity.GetProperty("layer").GetString() == layer)];

    private static List<(double X, double Y, double BulgeFactor)> Vertices(JsonElement entity) =>
        [.. entity.GetProperty("vertices").EnumerateArray().Select(vertex => (vertex[0].GetDouble(), vertex[1].GetDouble(), vertex[2].GetDouble()))];

    /// <summary>Shoelace, and a circular segment for each bulge: r^2 (angle - sin angle) / 2.</summary>
    private static double AreaOf(List<(double X, double Y, double BulgeFactor)> vertices) => vertices.Select((from, index) =>
    {
        var to = vertices[(index + 1) % vertices.Count];
        var straight = ((from.X * to.Y) - (to.X * from.Y)) / 2;
        if (from.BulgeFactor == 0)
        {
            return straight;
        }

        var angle = 4 * Math.Atan(from.BulgeFactor);
        var chord = Math.Sqrt(Math.Pow(to.X - from.X, 2) + Math.Pow(to.Y - from.Y, 2));
        var radius = chord * (1 + (from.BulgeFactor * from.BulgeFactor)) / (4 * from.BulgeFactor);
        return straight + (radius * radius * (angle - Math.Sin(angle)) / 2);
    }).Sum();

    private static string Reader(string name) => System.IO.Path.Combine(Repository.Root, "tests", "Lampblack.Tests", "Fabrication", "readers", name);
}
