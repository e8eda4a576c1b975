using System;
using System.Collections.Generic;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Text;
using Lampblack.Findings;
using Lampblack.Tests.Architecture;
using Lampblack.Tests.Peers;
using Lampblack.VectorArt;
using Xunit;

namespace Lampblack.Tests.VectorArt;

/// <summary>
/// Other people's drawings, and ours of each thing the format can do, beside librsvg's rendering of the same file (it is not ours, shares no code
/// with us, and draws with another library than ours): at 300 dpi less than one dot in 200 may differ by more than an eighth of the range.
/// </summary>
public sealed class IconRenderingTests(ITestOutputHelper output)
{
    private const int Dpi = 300;

    // 4:3 and square drawings are whole numbers of dots then, which the renderer needs to keep their shape.
    private const int WidthPx = 448;
    private const double MostDiffering = 0.005;
    private const int Codes = 32;

    private const string Icons = "tests/Lampblack.Tests/VectorArt/icons/node_modules/";

    // Strokes with round ends and joins, arcs, lines, circles.
    private const string Lines = """
        activity anchor aperture award box cloud-lightning command compass cpu database droplet eye-off feather gift git-merge hexagon key layers
        life-buoy map moon power printer radio rotate-ccw settings sliders sun target thermometer tool umbrella wifi zap
        """;

    // Fills with holes, arcs and curves, both fill rules.
    private const string Fills = """
        alarm-fill arrow-through-heart asterisk at backpack3 balloon-heart bandaid battery-charging bell-slash bezier2 bicycle binoculars boombox
        border-style brightness-high bricks bucket bug-fill building-gear bullseye calculator calendar3-range camera-reels cassette
        """;

    // Clip paths, uses, nested transforms, strokes without round ends, gradients of which some are left, overlaps in many colours.
    private const string Flags = """
        ag ai al ar aw ax ba bb bi bj bn bv bz cc cf cn cv cw dm eg eu fk gd gu gw hn hr im in ir ke ki km kr ky kz lb lk mt mz ni np om pt rs sx ug vi za zm
        """;

    public static TheoryData<string> Files =>
    [
        .. Names(Lines).Select(name => $"feather-icons/dist/icons/{name}.svg"),
        .. Names(Fills).Select(name => $"bootstrap-icons/icons/{name}.svg"),
        .. Names(Flags).Select(name => $"flag-icons/flags/4x3/{name}.svg"),
    ];

    public static TheoryData<string> Features => [.. FeatureDrawings.All.Keys];

    [Theory]
    [MemberData(nameof(Files))]
    public void An_icon_looks_as_an_independent_renderer_has_it(string file) =>
        Compare(File.ReadAllBytes(Path.Combine(Repository.Root, Icons, file)), file);

    [Theory]
    [MemberData(nameof(Features))]
    public void A_feature_looks_as_an_independent_renderer_has_it(string feature) =>
        Compare(Encoding.UTF8.GetBytes(FeatureDrawings.File(FeatureDrawings.All[feature])), feature);

    [Fact]
    public void There_are_more_than_sixty_drawings_of_others() => Assert.InRange(Files.Count, 60, 1000);

    private static IEnumerable<string> Names(string list) => list.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);

    private void Compare(byte[] svg, string name)
    {
        OutsideProgram.Need("rsvg-convert");
        var read = SvgReader.Read(svg, name, new(WidthPx * 25.4 / Dpi));
        Assert.DoesNotContain(read.Findings, finding => finding.Severity != Severity.Note && finding.Code != "svg-reference");
        var ours = DrawnDots.Of(read.Value!, Dpi);
        using var folder = new ScratchFolder();
        folder.Write("in.svg", svg);
        string[] size = ["-w", ours.WidthPx.ToString(CultureInfo.InvariantCulture), "-h", ours.HeightPx.ToString(CultureInfo.InvariantCulture)];
        OutsideProgram.RunWell("rsvg-convert", [.. size, "-b", "white", "-o", "out.png", "in.svg"], folder.FullPath);
        var theirs = DrawnDots.OfPng(File.ReadAllBytes(folder.PathOf("out.png")));

        // A blank sheet would be like a blank sheet.
        Assert.InRange(theirs.DifferingShare(new(theirs.WidthPx, theirs.HeightPx, [.. Enumerable.Repeat((byte)255, theirs.Rgb.Length)]), Codes), 0.01, 1);
        var differing = ours.DifferingShare(theirs, Codes);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name}: {differing:P3} of {ours.WidthPx} x {ours.HeightPx} dots differ"));
        Assert.InRange(differing, 0, MostDiffering);
    }
}
