using System;
using System.Collections.Generic;
using System.Linq;
using System.Text;
using System.Text.Json;
using Lampblack.Desks;
using Lampblack.Fabrication;
using Lampblack.Geometry;
using Lampblack.Tests.Architecture;
using Lampblack.Tests.Art;
using Lampblack.Tests.Peers;
using Lampblack.Tests.Register;
using Xunit;

namespace Lampblack.Tests.Fabrication;

/// <summary>Holes of drawings, of any form, as a cutter and a drill get them: the same as the print leaves out.</summary>
public sealed class ArtHoleCutTests
{
    private const double CornersMm2 = 4 - Math.PI;

    private const string Window = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"100mm\" height=\"60mm\" viewBox=\"0 0 100 60\"><rect width=\"100\" height=\"60\" fill=\"#101014\"/>"
        + "<rect x=\"2\" y=\"2\" width=\"20\" height=\"4\" fill=\"#fff\"/>";

    /// <summary>A shape of a drawing, and its area by geometry alone.</summary>
    public static TheoryData<string, double> Shapes => new()
    {
        { "<rect x=\"30\" y=\"20\" width=\"40\" height=\"20\" rx=\"8\"/>", 800 - (CornersMm2 * 64) },
        { "<rect x=\"30\" y=\"20\" width=\"40\" height=\"20\" rx=\"1\"/>", 800 - CornersMm2 },
        { "<rect x=\"30\" y=\"20\" width=\"40\" height=\"20\" rx=\"10\"/>", 800 - (CornersMm2 * 100) },
        { "<rect x=\"30\" y=\"20\" width=\"40\" height=\"20\"/>", 800 },
        { "<ellipse cx=\"50\" cy=\"30\" rx=\"20\" ry=\"10\"/>", Math.PI * 200 },
        { "<path d=\"M30 20h40v20h-12v-8h-28z\"/>", (40 * 12) + (12 * 8) },
        { "<path d=\"M30 40 L70 40 L50 20 z\"/>", 400 },
        { "<path d=\"M30 10h38v1.8h2v38.2h-40z\"/>", (40 * 40) - (2 * 1.8) },
        { "<path d=\"M58 30a8 8 0 1 1 -16 0a8 8 0 0 1 7.5 -7.984v-1h1v1a8 8 0 0 1 7.5 7.984z\"/>", (Math.PI * 64) + 1 },
        { "<path fill-rule=\"evenodd\" d=\"M30 20h40v20h-40z M40 25h20v10h-20z\"/>", 800 },
        { "<rect x=\"30\" y=\"20\" width=\"40\" height=\"20\" transform=\"rotate(30 50 30)\"/>", 800 },
    };

    [Theory]
    [MemberData(nameof(Shapes))]
    public void A_cutter_follows_the_line_that_the_print_leaves_out(string shape, double areaMm2)
    {
        foreach (var turnDegrees in new[] { 0, 20 })
        {
            var chart = Chart(shape, turnDegrees);
            var hole = Assert.Single(chart.Holes);
            Assert.Equal(areaMm2, hole.Shape.AreaMm2, hole.Shape.PerimeterMm * 0.01);
            Assert.Equal(areaMm2, DxfAreaMm2(chart), hole.Shape.PerimeterMm * 0.01);
            var cut = hole.Line.ToRegion();
            Assert.InRange(cut.Except(hole.Shape).AreaMm2 + hole.Shape.Except(cut).AreaMm2, 0, hole.Shape.PerimeterMm * 0.005);
        }
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void No_drill_reaches_into_what_is_seen(string shape, double areaMm2)
    {
        var hole = Assert.Single(Chart(shape, 20).Holes);
        Assert.NotEmpty(hole.Starts);
        Assert.True(areaMm2 > 0);
        var drillMm = hole.Drills.Max(drill => drill.DiameterMm);
        Assert.All(hole.Starts, start => Assert.InRange(Region<PanelSpace>.Disc(start, drillMm / 2).Except(hole.Shape).AreaMm2, 0, 0.05));
    }

    [Theory]
    [InlineData("<rect id=\"hole-big\" x=\"95\" y=\"25\" width=\"20\" height=\"10\"/>", true)]
    [InlineData("<circle id=\"hole-low\" cx=\"50\" cy=\"59\" r=\"3\"/>", true)]
    [InlineData("<circle id=\"hole-in\" cx=\"50\" cy=\"50\" r=\"3\"/>", false)]
    [InlineData("<circle id=\"hole-beside\" cx=\"150\" cy=\"50\" r=\"3\"/>", false)]
    public void A_hole_that_the_panels_edge_cuts_through_stops_the_build(string shape, bool stops)
    {
        var request = new Lampblack.Jobs.SeparateRequest("art.svg") { HolesNamed = "hole" };
        var bytes = Encoding.UTF8.GetBytes($"{Window}{shape}<circle id=\"hole-fine\" cx=\"30\" cy=\"30\" r=\"3\"/></svg>");
        var source = new Lampblack.Jobs.DeskSource("desk.toml", Lampblack.Jobs.Separate.Desk(request, [.. bytes]), new GivenFiles(("art.svg", bytes)));
        var build = Lampblack.Jobs.Build.Run(source, new("A4", "option", Parts: Lampblack.Jobs.BuildParts.None), new Progress<string>(), System.Threading.CancellationToken.None);
        Assert.Equal(stops, build.Findings.Any(finding => finding is { Code: "hole-off-panel", Severity: Lampblack.Findings.Severity.Stop }));
    }

    private static HoleChart Chart(string shape, int turnDegrees)
    {
        var svg = $"{Window}{shape.Replace("/>", " id=\"hole-a\"/>", StringComparison.Ordinal)}</svg>";
        var (desk, files) = ArtSamples.Desk("art.svg", Encoding.UTF8.GetBytes(svg), 100, 60, FormattableString.Invariant($"holes = \"hole\"\nat = [40, 60]\nturn = {turnDegrees}"));
        var toml = Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(desk).Replace("size = [100, 60]", "size = [180, 160]", StringComparison.Ordinal));
        return HoleChart.Of(SeparatedDesk.Of(toml, "full", files: files).Panels[0].Artwork.Laid, Bench.Usual).Value;
    }

    /// <summary>The area of what the layer PLATE-HOLES encloses, by a reader that is not ours and by the shoelace and the segments of its arcs.</summary>
    private static double DxfAreaMm2(HoleChart chart)
    {
        using var folder = new ScratchFolder();
        var path = folder.Write("p.dxf", CutterFiles.Dxf(chart).AsSpan());
        var reader = System.IO.Path.Combine(Repository.Root, "tests", "Lampblack.Tests", "Fabrication", "readers", "dxf.cjs");
        using var read = JsonDocument.Parse(OutsideProgram.RunWell("node", [reader, path]).Output);
        var line = Assert.Single(read.RootElement.GetProperty("entities").EnumerateArray(), entity => entity.GetProperty("layer").GetString() == "PLATE-HOLES");
        List<(double X, double Y, double BulgeFactor)> corners = [.. line.GetProperty("vertices").EnumerateArray().Select(vertex => (vertex[0].GetDouble(), vertex[1].GetDouble(), vertex[2].GetDouble()))];
        return Math.Abs(corners.Select((from, index) =>
        {
            var to = corners[(index + 1) % corners.Count];
            var angle = 4 * Math.Atan(from.BulgeFactor);
            var chord = Math.Sqrt(Math.Pow(to.X - from.X, 2) + Math.Pow(to.Y - from.Y, 2));
            var radius = from.BulgeFactor == 0 ? 0 : chord * (1 + (from.BulgeFactor * from.BulgeFactor)) / (4 * from.BulgeFactor);
            return (((from.X * to.Y) - (to.X * from.Y)) / 2) + (radius * radius * (angle - Math.Sin(angle)) / 2);
        }).Sum());
    }
}
