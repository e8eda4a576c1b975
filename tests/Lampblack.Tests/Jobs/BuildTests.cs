using System;
using System.Globalization;
using System.Linq;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Jobs;
using Xunit;

namespace Lampblack.Tests.Jobs;

public sealed class BuildTests
{
    private const string Desk = """
        lampblack = 1
        title = "Two <plates> & one"
        [[panel]]
        id = "one"
        size = [100, 60]
        [[panel.legend]]
        text = "MAIN <LINE> & \"YARD\""
        at = [50, 30]
        [[panel.control]]
        part = "toggle-mini-on-on"
        at = [20, 20]
        [[panel]]
        id = "two"
        size = [60, 40]
        [[panel.area]]
        disc = [30, 20, 5]
        role = "lit"
        """;

    /// <summary>Each case: a desk, and the finding that must come of it.</summary>
    public static TheoryData<string, string> Faults => new()
    {
        { Panel("[[panel.control]]\npart = \"hole-6\"\nat = [99, 30]"), "stop hole-off-panel" },
        { Panel("[[panel.control]]\npart = \"hole-6\"\nat = [20, 30]\n[[panel.control]]\npart = \"hole-6\"\nat = [24, 30]"), "stop holes-overlap" },
        { Panel("[[panel.legend]]\ntext = \"A\"\nat = [20, 30]\nfont = \"barlow-condensd\""), "stop font-unknown" },
        { Panel("[[panel.legend]]\ntext = \"A→B\"\nat = [20, 30]\nfont = \"barlow-condensed\""), "warn glyph-missing" },
        { Panel("[[panel.rule]]\nbox = [20, 20, 10, 10]\ntitle = \"A TITLE THAT IS TOO LONG\""), "warn rule-title-long" },
        { Panel("[[panel.control]]\npart = \"toggle-mini-on-on\"\nat = [20, 30]\nstates = [\"A\", \"B\", \"C\"]"), "warn states-count" },
        { Panel("[[panel.legend]]\ntext = \"FIRST\"\nat = [50, 30]\n[[panel.legend]]\ntext = \"SECOND\"\nat = [53, 31]"), "warn texts-collide" },
        { Panel("[[panel.legend]]\ntext = \"FIRST\"\nat = [50, 30]\n[[panel.control]]\npart = \"pot-9mm\"\nat = [50, 36]"), "warn text-under-part" },
        { Panel("[[panel.control]]\npart = \"toggle-mini-on-on\"\nat = [50, 30]\n[[panel.control]]\npart = \"toggle-mini-on-on\"\nat = [58, 30]"), "warn parts-collide" },
        { "[[font]]\nname = \"mine\"\nfile = \"missing.ttf\"\n" + Panel(""), "stop font-file" },
        { "[[font]]\nname = \"mine\"\nfile = \"broken.ttf\"\n" + Panel(""), "stop font-unreadable" },
    };

    [Theory]
    [MemberData(nameof(Faults))]
    public void What_is_wrong_beyond_the_file_itself_is_found_with_its_place(string desk, string expected)
    {
        var result = Run("lampblack = 1\n" + desk);
        var finding = Assert.Single(result.Findings, finding => Told(finding) == expected);
        Assert.NotNull(finding.Span);
        Assert.Equal(finding.Severity == Severity.Stop, result.Files.IsEmpty);
    }

    [Theory]
    [InlineData("A7", null, null, "stop paper-unknown")]
    [InlineData("A4", "pitch", null, "stop black-unknown")]
    [InlineData("A4", "full", null, "warn black-heavy")]
    [InlineData("A4", null, null, "note black-default")]
    [InlineData("A4", null, null, "note spread-default")]
    [InlineData("A4", null, 7.0, "stop spread-range")]
    public void What_is_wrong_with_the_request_is_found(string paper, string? black, double? spread, string expected) =>
        Assert.Single(Run(Desk, new BuildRequest(paper, "option", black, spread)).Findings, finding => Told(finding) == expected);

    [Fact]
    public void A_stop_finding_writes_nothing_and_a_clean_desk_writes_everything()
    {
        Assert.Empty(Run(Desk.Replace("size = [100, 60]", "size = [100, 600]", StringComparison.Ordinal)).Files);
        Assert.Equal(
            [
                "back/one.svg", "back/two.svg",
                "bill.csv", "book.html",
                "cut-plan-1.svg", "cut-plan.pdf",
                "cutter/one.drl", "cutter/one.dxf", "cutter/one.svg", "cutter/two.dxf", "cutter/two.svg",
                "drilled.pdf",
                "hole-chart.csv", "hole-chart.pdf",
                "licences/barlow-condensed.txt",
                "panels/one/day.png", "panels/one/lit.png", "panels/one/mask.png", "panels/one/mixed.png", "panels/one/panel.svg", "panels/one/through-off.png", "panels/one/through.png",
                "panels/two/day.png", "panels/two/lit.png", "panels/two/mask.png", "panels/two/mixed.png", "panels/two/panel.svg", "panels/two/through-off.png", "panels/two/through.png",
                "parts.pdf", "print.html", "report.json",
                "sheet-1/duplex.pdf", "sheet-1/front.pdf", "sheet-1/mask.pdf",
                "templates.pdf", "trial.pdf",
                "manifest.json",
            ],
            Run(Desk).Files.Select(file => file.Path));
    }

    [Fact]
    public void The_print_files_alone_come_without_pictures() =>
        Assert.DoesNotContain(Run(Desk, new BuildRequest("A4", "option", Parts: BuildParts.Print)).Files, file => file.Path.StartsWith("panels/", StringComparison.Ordinal));

    [Fact]
    public void The_same_desk_gives_the_same_bytes_in_every_culture()
    {
        var first = Run(Desk);
        foreach (var culture in new[] { "de-DE", "tr-TR", "ar-SA" })
        {
            var before = CultureInfo.CurrentCulture;
            try
            {
                CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(culture);
                var again = Run(Desk);
                Assert.Equal(first.Files.Select(Hash), again.Files.Select(Hash));
                Assert.Equal(first.Findings, again.Findings);
            }
            finally
            {
                CultureInfo.CurrentCulture = before;
            }
        }
    }

    [Fact]
    public void The_manifest_lists_every_other_file_with_its_hash()
    {
        var result = Run(Desk);
        using var manifest = Json(result, "manifest.json");
        Assert.Equal("lampblack-manifest/1", manifest.RootElement.GetProperty("schema").GetString());
        Assert.Equal(
            result.Files.Where(file => file.Path != "manifest.json").Select(file => $"{file.Path} {file.Purpose} {Hash(file)}"),
            manifest.RootElement.GetProperty("files").EnumerateArray().Select(file =>
                $"{file.GetProperty("path")} {file.GetProperty("purpose")} {file.GetProperty("sha256")}"));
    }

    [Fact]
    public void The_report_has_the_names_that_other_programs_rely_on()
    {
        using var report = Json(Run(Desk), "report.json");
        var root = report.RootElement;
        Assert.Equal("lampblack-report/1", root.GetProperty("schema").GetString());
        Assert.Equal(("A4", "option"), (root.GetProperty("paper").GetString(), root.GetProperty("paperFrom").GetString()));
        Assert.Equal("severity code file line column item message hint", Names(root.GetProperty("findings")[0]));
        Assert.Equal(
            "id spreadMm standBackMm pullBackMm openings smallestOpeningMm haloWidthMm haloMm2 leakMm2 frontCoverage maskCoverage sheet quarterTurns trimBoxMm cutAwayMm"
                + " light artworkHash frontHash maskHash holesHash fixingsHash holes plateMm controls",
            Names(root.GetProperty("panels")[0]));
        Assert.Equal("id part atMm drilledMm centreMm holeHash", Names(root.GetProperty("panels")[0].GetProperty("controls")[0]));
        Assert.Equal("id pairCode pageMm dotRows marks front mask duplex", Names(root.GetProperty("sheets")[0]));
    }

    [Fact]
    public void The_report_gives_the_holes_where_they_lie_on_the_sheet()
    {
        using var report = Json(Run(Desk), "report.json");
        var panel = report.RootElement.GetProperty("panels").EnumerateArray().Single(panel => panel.GetProperty("id").GetString() == "one");
        var trim = panel.GetProperty("trimBoxMm").EnumerateArray().Select(value => value.GetDouble()).ToArray();
        Assert.Equal([100, 60], trim[2..]);
        var hole = Assert.Single(panel.GetProperty("cutAwayMm").EnumerateArray());
        var points = hole.EnumerateArray().Select(point => (X: point[0].GetDouble(), Y: point[1].GetDouble())).ToList();
        Assert.Equal(trim[0] + 20, (points.Min(point => point.X) + points.Max(point => point.X)) / 2, 3);
        Assert.Equal(trim[1] + 20, (points.Min(point => point.Y) + points.Max(point => point.Y)) / 2, 3);
    }

    [Fact]
    public void Words_of_the_maker_are_escaped_in_every_text_that_is_written()
    {
        var result = Run(Desk);
        var svg = Encoding.UTF8.GetString(result.Files.Single(file => file.Path == "panels/one/panel.svg").Bytes.AsSpan());
        var drawing = System.Xml.Linq.XDocument.Parse(svg);
        Assert.Contains(drawing.Descendants(), node => node.Value.Contains("MAIN <LINE> & \"YARD\"", StringComparison.Ordinal));
        Assert.DoesNotContain("<LINE>", svg, StringComparison.Ordinal);
    }

    [Fact]
    public void A_font_that_the_desk_brings_along_is_used_and_needs_no_licence_of_ours()
    {
        var desk = "lampblack = 1\n[[font]]\nname = \"mine\"\nfile = \"fonts/mine.ttf\"\n" + Panel("[[panel.legend]]\ntext = \"SHUTTER\"\nat = [50, 30]\nfont = \"mine\"");
        var own = Run(desk);
        Assert.DoesNotContain(own.Findings, finding => finding.Severity != Severity.Note);
        var bundled = Run(desk.Replace("font = \"mine\"", "font = \"overpass-bold\"", StringComparison.Ordinal));
        Assert.Equal(Hash(bundled.Files.Single(file => file.Path == "sheet-1/front.pdf")), Hash(own.Files.Single(file => file.Path == "sheet-1/front.pdf")));
        Assert.DoesNotContain(own.Files, file => file.Path == "licences/overpass.txt");
        Assert.Contains(bundled.Files, file => file.Path == "licences/overpass.txt");
    }

    [Theory]
    [InlineData("[100, 60]", true)]
    [InlineData("[190, 230]", false)]
    public void A_practice_coupon_stands_in_what_room_is_left(string size, bool expected)
    {
        var result = Run($"lampblack = 1\n[[panel]]\nid = \"one\"\nsize = {size}\n", new BuildRequest("A4", "option", Parts: BuildParts.Print));
        Assert.Equal(expected ? 1 : 0, result.Summary.Count(line => line.Contains("practice-coupon", StringComparison.Ordinal)));
        using var report = Json(result, "report.json");
        Assert.Equal(["one"], report.RootElement.GetProperty("panels").EnumerateArray().Select(panel => panel.GetProperty("id").GetString()));
    }

    [Fact]
    public void Work_that_is_stopped_ends_as_stopped()
    {
        using var source = new CancellationTokenSource();
        source.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() => Build.Run(
            new DeskSource("desk.toml", [.. Encoding.UTF8.GetBytes(Desk)], new NoFiles()), new BuildRequest("A4", "option"), new Progress<string>(), source.Token));
    }

    private static BuildResult Run(string desk, BuildRequest? request = null) => Build.Run(
        new DeskSource("desk.toml", [.. Encoding.UTF8.GetBytes(desk)], new NoFiles()), request ?? new BuildRequest("A4", "option"), new Progress<string>(), CancellationToken.None);

    private static string Panel(string items) => $"[[panel]]\nid = \"p\"\nsize = [100, 60]\n{items}\n";

    private static string Told(Finding finding) => $"{finding.Severity.ToString().ToLowerInvariant()} {finding.Code}";

    private static string Hash(OutputFile file) => Convert.ToHexStringLower(SHA256.HashData(file.Bytes.AsSpan()));

    private static JsonDocument Json(BuildResult result, string path) =>
        JsonDocument.Parse(result.Files.Single(file => file.Path == path).Bytes.AsSpan().ToArray());

    private static string Names(JsonElement element) => string.Join(' ', element.EnumerateObject().Select(property => property.Name));

    private sealed class NoFiles : IDeskFiles
    {
        public FileReading Read(string relativePath, long limitBytes) => relativePath switch
        {
            "broken.ttf" => new([1, 2, 3, 4], null),
            "fonts/mine.ttf" => new([.. Lettering.FontBytes.Of("overpass-bold")], null),
            _ => new([], "is not there"),
        };
    }
}
