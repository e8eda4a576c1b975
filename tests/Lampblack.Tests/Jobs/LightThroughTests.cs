using System;
using System.Linq;
using System.Text;
using System.Text.Json;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Printers;
using Lampblack.Tests.Printers;
using SkiaSharp;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Jobs;

/// <summary>What a build says and shows of light through its sheets. The desk is invented.</summary>
public sealed class LightThroughTests
{
    private const string Desk = "lampblack = 1\n[lighting]\ncolour = \"cool-white\"\n[[panel]]\nid = \"p\"\nsize = [60, 40]\n[[panel.legend]]\ntext = \"PUMP\"\nat = [30, 20]\nheight = 8\n";
    private const string Hidden = "[[panel.legend]]\ntext = \"FAULT\"\nat = [30, 8]\nrole = \"hidden\"\n";

    private static readonly string Blue = Desk.Replace("height = 8\n", "height = 8\nink = \"blue\"\n", StringComparison.Ordinal);

    private static readonly BuildRequest Black = new("A4", "option", "K", Parts: BuildParts.None);

    // By hand: K of 1.6 with 0.1 % of holes passes 0.026094; between paper (0.8125) and toner (0.03) light goes to and fro: 1 / (1 - 0.0244) on each side.
    [Fact]
    public void The_note_tells_the_contrast_of_both_sides_and_that_its_densities_are_assumed()
    {
        var note = Find(Run(Desk, Black), "light-through");
        Assert.Equal(Severity.Note, note.Severity);
        var contrast = 1 / (0.026094 * 0.026094 / ((1 - 0.0244) * (1 - 0.0244)));
        Assert.InRange(contrast, 1350, 1450);
        Assert.Contains(": 1,400 to 1", note.Message, StringComparison.Ordinal);
        Assert.Contains("(densities assumed)", note.Message, StringComparison.Ordinal);

        // One K passes 37 to 1 by the same sum, and 30 to 1 is wanted.
        Assert.Contains("one pass would give the 30 to 1 wanted", note.Hint, StringComparison.Ordinal);
    }

    /// <summary>Front 1.2 and back 1.0 as measured: by the same sum about 170 to 1, whatever is usual; a back that nobody read is taken to be like the front.</summary>
    [Fact]
    public void Densities_that_were_measured_take_the_place_of_usual_ones()
    {
        PrinterFile Wedge(params PatchDensity[] patches) => PrinterSamples.New() with { Wedges = [new([.. patches])] };
        var both = Find(Run(Desk, Black with { Printer = Wedge(new("front-K-vector", 1.2, 0.02, false), new("back-K-vector", 1.0, 0.02, false)) }), "light-through");
        Assert.Contains(": 150 to 1", both.Message, StringComparison.Ordinal);
        Assert.Contains("(densities measured)", both.Message, StringComparison.Ordinal);
        var front = Find(Run(Desk, Black with { Printer = Wedge(new PatchDensity("front-K-vector", 1.2, 0.02, false)) }), "light-through");
        Assert.Contains(": 240 to 1", front.Message, StringComparison.Ordinal);
        Assert.Contains("(densities inferred)", front.Message, StringComparison.Ordinal);
        var bound = Find(Run(Desk, Black with { Printer = Wedge(new PatchDensity("front-K-vector", 2.1, 0, true)) }), "light-through");
        Assert.Contains("(densities inferred)", bound.Message, StringComparison.Ordinal);
        Assert.Contains("(densities assumed)", Find(Run(Desk, Black with { Printer = Wedge(new PatchDensity("front-rgb-vector", 1.2, 0.02, false)) }), "light-through").Message, StringComparison.Ordinal);
    }

    [Fact]
    public void More_contrast_than_two_sides_give_is_warned_of_with_what_gives_it()
    {
        Assert.DoesNotContain(Run(Desk, Black).Findings, finding => finding.Code == "contrast-low");
        var wanted = Black with { ContrastFactor = 5000 };
        Assert.Contains("--second-pass mask", Find(Run(Desk, wanted), "contrast-low").Hint, StringComparison.Ordinal);
        Assert.DoesNotContain(Run(Desk, wanted with { SecondPass = SecondPass.Mask }).Findings, finding => finding.Code == "contrast-low");
        Assert.DoesNotContain(Run(Desk, wanted with { SecondPass = SecondPass.Front }).Findings, finding => finding.Code == "contrast-low");
        Assert.DoesNotContain(Run(Desk, wanted with { Film = true }).Findings, finding => finding.Code == "contrast-low");
        Assert.Contains("no stack of ours", Find(Run(Blue, wanted with { ContrastFactor = 100_000 }), "contrast-low").Hint, StringComparison.Ordinal);
    }

    [Fact]
    public void A_heavy_second_pass_is_not_advised_against_where_so_much_toner_is_known_to_hold()
    {
        var holds = PrinterSamples.New() with { Coverage = [new([], [4.0])] };
        Assert.DoesNotContain("don't melt", Find(Run(Desk, Black with { Printer = holds, ContrastFactor = 5000 }), "contrast-low").Hint, StringComparison.Ordinal);
    }

    [Fact]
    public void A_panel_whose_legends_are_all_hidden_has_no_dimmest_legend() =>
        Assert.DoesNotContain(Run(Desk.Replace("height = 8\n", "height = 8\nrole = \"hidden\"\n", StringComparison.Ordinal), Black with { ContrastFactor = 90_000 }).Findings, finding => finding.Code is "light-through" or "contrast-low");

    [Fact]
    public void A_second_pass_of_a_heavy_black_is_advised_against() =>
        Assert.Contains("480 % toner on that side, which many fusers don't melt", Find(Run(Desk, Black with { Black = "safe", ContrastFactor = 20_000 }), "contrast-low").Hint, StringComparison.Ordinal);

    [Fact]
    public void A_dim_ink_needs_a_darker_field() =>
        Assert.Contains("two sides are right", Find(Run(Blue, Black), "light-through").Hint, StringComparison.Ordinal);

    [Theory]
    [InlineData(3.01, 0)]
    [InlineData(0, -3.01)]
    [InlineData(double.NaN, 0)]
    public void A_mask_drawn_off_by_more_than_3_mm_is_refused(double right, double up) =>
        Assert.Equal(Severity.Stop, Find(Run(Desk, Black with { MisregisterRightMm = right, MisregisterUpMm = up }), "misregister-range").Severity);

    [Theory]
    [InlineData(1.9)]
    [InlineData(100_001)]
    public void A_contrast_that_no_panel_has_is_refused(double wanted) =>
        Assert.Equal(Severity.Stop, Find(Run(Desk, Black with { ContrastFactor = wanted }), "contrast-range").Severity);

    [Fact]
    public void A_misregister_shows_in_the_pictures_and_in_nothing_else()
    {
        var straight = Run(Desk, Black with { Parts = BuildParts.All });
        var off = Run(Desk, Black with { Parts = BuildParts.All, MisregisterRightMm = 1.5, MisregisterUpMm = -0.2 });
        Assert.Equal(Bytes(straight, "sheet-1/mask.pdf"), Bytes(off, "sheet-1/mask.pdf"));
        Assert.Equal(Bytes(straight, "panels/p/day.png"), Bytes(off, "panels/p/day.png"));
        Assert.Equal(Bytes(straight, "panels/p/through.png"), Bytes(off, "panels/p/through.png"));

        // The mask cuts 1 mm off strokes that are about as wide: much of the light is gone.
        var (lit, cut) = (Light(Bytes(straight, "panels/p/lit.png")), Light(Bytes(off, "panels/p/lit.png")));
        Assert.InRange(cut / lit, 0.2, 0.8);
        Assert.Contains("1.5 mm right and -0.2 mm up", off.Files.Single(file => file.Path == "panels/p/lit.png").Purpose, StringComparison.Ordinal);
        Assert.True(Light(Bytes(straight, "panels/p/mixed.png")) > 2 * lit);
    }

    [Fact]
    public void A_cover_is_judged_by_what_it_passes_and_by_how_it_looks_by_day()
    {
        Assert.DoesNotContain(Run(Desk + Hidden, Black).Findings, finding => finding.Code == "cover-fails");
        var thin = Find(Run(Desk + Hidden + "cover = 0.6\n", Black), "cover-fails");
        Assert.Contains("steps of lightness away from the field", thin.Message, StringComparison.Ordinal);
        Assert.EndsWith("does both", thin.Hint, StringComparison.Ordinal);

        var bright = Desk.Replace("size = [60, 40]", "size = [60, 40]\nfield = \"yellow\"", StringComparison.Ordinal) + Hidden;
        Assert.Contains("no cover does both", Find(Run(bright, Black with { Black = "safe" }), "cover-fails").Hint, StringComparison.Ordinal);
    }

    [Fact]
    public void The_report_has_the_figures_and_says_how_they_are_known()
    {
        var report = Report(Run(Desk + Hidden, Black with { Parts = BuildParts.All }));
        var all = report.GetProperty("light");
        Assert.Equal("assumed", all.GetProperty("front").GetProperty("known").GetString());
        Assert.Equal("two-sides", all.GetProperty("printed").GetString());
        Assert.Equal("one-side", all.GetProperty("enough").GetString());
        Assert.Equal(5, all.GetProperty("stacks").GetArrayLength());
        var panel = report.GetProperty("panels")[0].GetProperty("light");

        // The ring: 10^-D of the front, a little more for the light that the toner gives back; half a millimetre and half of an edge of 0.1281 mm.
        Assert.Equal(0.026094 / (1 - 0.0244), panel.GetProperty("haloShare").GetDouble(), 1e-4);
        Assert.Equal(0.5 + (0.1281 / 2), panel.GetProperty("haloWidthMm").GetDouble(), 1e-3);
        Assert.InRange(panel.GetProperty("openShare").GetDouble(), 0.99, 1);

        // In 108 lx black toner of 3 % shows 1.03 cd/m2 and more, paper 27.9; the legend adds 2000 lx x 0.116 / pi = 73.9.
        Assert.InRange(panel.GetProperty("contrastMixed").GetDouble(), 85, 100);
        Assert.InRange(panel.GetProperty("contrastDay").GetDouble(), 20, 30);
        var cover = panel.GetProperty("covers").EnumerateArray().Single(one => one.GetProperty("used").GetBoolean());
        Assert.Equal(0.0261, cover.GetProperty("passedShare").GetDouble(), 1e-3);
    }

    [Fact]
    public void A_cost_needs_prices_and_toner_does_not()
    {
        var free = Run(Desk, Black with { Parts = BuildParts.Print });
        Assert.Contains(free.Summary, line => line.StartsWith("toner for one set:", StringComparison.Ordinal) && line.Contains("assumed to be rated for 2,000 pages", StringComparison.Ordinal));
        Assert.Equal(JsonValueKind.Null, Report(free).GetProperty("cost").GetProperty("total").ValueKind);

        var priced = PrinterSamples.New() with { Cost = new("shells", 0.5, 100, 1000) };
        var built = Run(Desk, Black with { Parts = BuildParts.Print, Printer = priced });
        var cost = Report(built).GetProperty("cost");
        var toner = cost.GetProperty("pages").EnumerateArray()
            .Sum(page => new[] { "black", "cyan", "magenta", "yellow" }.Sum(ink => page.GetProperty(ink + "Coverage").GetDouble()));
        Assert.InRange(toner, 0.1, 0.4);

        // 5 % of 1000 pages for 100: each page that is all black costs two; the row of coverages in the waste has colours.
        Assert.Equal(0.5 + (toner / 0.05 / 1000 * 100), cost.GetProperty("total").GetDouble(), 0.01);
        Assert.Contains(built.Summary, line => line.Contains("rated for 1,000 pages", StringComparison.Ordinal) && line.EndsWith(" shells", StringComparison.Ordinal));
    }

    [Fact]
    public void A_second_pass_takes_more_toner()
    {
        var once = Report(Run(Desk, Black with { Parts = BuildParts.Print })).GetProperty("cost").GetProperty("blackUsualPages").GetDouble();
        var twice = Report(Run(Desk, Black with { Parts = BuildParts.Print, SecondPass = SecondPass.Mask })).GetProperty("cost").GetProperty("blackUsualPages").GetDouble();
        Assert.InRange(twice / once, 1.2, 1.6);
    }

    private static Finding Find(BuildResult result, string code) => result.Findings.Single(finding => finding.Code == code);

    private static JsonElement Report(BuildResult result) => JsonDocument.Parse(Bytes(result, "report.json")).RootElement;

    private static byte[] Bytes(BuildResult result, string path) => [.. result.Files.Single(file => file.Path == path).Bytes];

    /// <summary>All light of a picture, linear.</summary>
    private static double Light(byte[] png)
    {
        using var picture = SKBitmap.Decode(png);
        return picture.Pixels.Sum(pixel => Math.Pow(pixel.Green / 255.0, 2.2));
    }

    private static BuildResult Run(string desk, BuildRequest request) =>
        Build.Run(ExampleDesks.Alone(Encoding.UTF8.GetBytes(desk)), request, new Progress<string>(), TestContext.Current.CancellationToken);
}
