using System.Linq;
using System.Text;
using System.Text.Json;
using Lampblack.Checks;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Layout;
using Lampblack.Tests.Register;
using Lampblack.Tests.Suites;
using Xunit;
using static Lampblack.Tests.Checks.CheckedDesk;

namespace Lampblack.Tests.Checks;

/// <summary>What the maker lets stand, and what the tables beside it say.</summary>
public sealed class AcceptTests
{
    private const string Accept = "accept = [{ finding = \"controls-close\", because = \"one is a spare\" }]";

    private static string Two(string first = "", string second = "", string panel = "") =>
        Toml(Control("toggle-mini-on-on", 60, 60, first) + Control("toggle-mini-on-on", 75, 60, second), panel: panel);

    [Theory]
    [InlineData(Accept, "", "")]
    [InlineData("", Accept, "")]
    [InlineData("", "", Accept)]
    public void An_accepted_finding_is_kept_with_its_reason_and_weighs_nothing(string first, string second, string panel)
    {
        Assert.Null(Of("controls-close", Two()).Single().Accepted);
        var finding = Of("controls-close", Two(first, second, panel)).Single();
        Assert.Equal("one is a spare", finding.Accepted);
        Assert.Equal(Severity.Note, finding.Severity);
    }

    [Fact]
    public void Only_the_item_that_says_so_is_let_stand()
    {
        var findings = Of("controls-close", Toml(
            Control("toggle-mini-on-on", 40, 60, Accept) + Control("toggle-mini-on-on", 55, 60) + Control("toggle-mini-on-on", 120, 60) + Control("toggle-mini-on-on", 135, 60)));
        Assert.Equal([null, "one is a spare"], findings.Select(finding => finding.Accepted).Order());
    }

    [Fact]
    public void An_accepted_stop_lets_the_build_go_on()
    {
        const string Part = "[[part]]\nid = \"own\"\nhole = 6\nbezel = 9\npanel-max = 2\n";
        var without = Built(Toml(Control("own", 60, 60), Part));
        Assert.Contains(without.Findings, finding => finding is { Code: "bushing-short", Severity: Severity.Stop });
        Assert.Empty(without.Files);
        var with = Built(Toml(Control("own", 60, 60, "accept = [{ finding = \"bushing-short\", because = \"the plate is filed thinner there\" }]"), Part));
        Assert.NotEmpty(with.Files);
        using var report = JsonDocument.Parse(with.Files.Single(file => file.Path == "report.json").Bytes.AsMemory());
        var told = report.RootElement.GetProperty("findings").EnumerateArray().Single(finding => finding.GetProperty("code").GetString() == "bushing-short");
        Assert.Equal("the plate is filed thinner there", told.GetProperty("accepted").GetString());
        Assert.All(
            report.RootElement.GetProperty("findings").EnumerateArray().Where(finding => finding.GetProperty("code").GetString() != "bushing-short"),
            finding => Assert.False(finding.TryGetProperty("accepted", out _)));
    }

    [Fact]
    public void The_workshop_does_not_tell_what_is_accepted()
    {
        var request = new BuildRequest("A4", "option");
        Assert.Contains(DeskView.Of(Source(Two()), request).Findings, finding => finding.Code == "controls-close");
        Assert.DoesNotContain(DeskView.Of(Source(Two(Accept)), request).Findings, finding => finding.Code == "controls-close");
    }

    [Fact]
    public void A_reason_must_be_given()
    {
        var read = DeskReader.Read("desk.toml", Encoding.UTF8.GetBytes(Two("accept = [{ finding = \"controls-close\" }]")));
        Assert.Contains(read.Findings, finding => finding is { Code: "key-missing", Severity: Severity.Stop });
        Assert.Null(PanelChecks.Check(DeskLayout.Place(read.Value, FontShelf.Bundled).Value).First(finding => finding.Code == "controls-close").Accepted);
    }

    [Fact]
    public void A_finding_that_nobody_makes_is_told_with_the_nearest()
    {
        var finding = Of("accept-unknown", Two("accept = [{ finding = \"control-close\", because = \"so\" }]")).Single();
        Assert.Equal(Severity.Warn, finding.Severity);
        Assert.Contains("`controls-close`", finding.Hint, System.StringComparison.Ordinal);
        Assert.Equal(10, finding.Span!.Line);
    }

    [Fact]
    public void What_is_accepted_in_vain_is_told()
    {
        Assert.Equal(Severity.Note, SeverityOf("accept-idle", Toml(Control("toggle-mini-on-on", 60, 60, Accept))));
        Assert.Null(SeverityOf("accept-idle", Two(Accept)));
    }

    [Fact]
    public void Everything_that_can_be_accepted_is_a_finding_of_the_manual()
    {
        var manual = System.IO.File.ReadAllText(System.IO.Path.Combine(SeparatedDesk.Root, "docs", "findings.md"));
        var fitting = System.IO.File.ReadAllText(System.IO.Path.Combine(SeparatedDesk.Root, "docs", "fitting.md"));
        Assert.All(PanelChecks.Rules, rule =>
        {
            Assert.Contains($"### {rule}\n", manual, System.StringComparison.Ordinal);
            Assert.Contains($"`{rule}`", fitting, System.StringComparison.Ordinal);
        });
        Assert.Equal(PanelChecks.Rules.Order(System.StringComparer.Ordinal), PanelChecks.Rules);
    }

    [Fact]
    public void Many_faults_of_one_kind_are_told_few_times_and_counted()
    {
        var rows = string.Concat(Enumerable.Range(0, 20).SelectMany(row => Enumerable.Range(0, 20).Select(column => Control("toggle-mini-on-on", 20 + (column * 15), 20 + (row * 15)))));
        var findings = Of("controls-close", Toml(rows, size: "[330, 330]"));
        Assert.Equal(12, findings.Length);
        Assert.Contains("more on this panel", findings[^1].Message, System.StringComparison.Ordinal);
        var grid = Of("controls-close", Toml(Control("toggle-mini-on-on", 20, 310, "grid = { columns = 20, rows = 20, step = [15, 15] }"), size: "[330, 330]"));
        Assert.Contains("more like it at this item or its copies", grid.Single().Message, System.StringComparison.Ordinal);
    }

    [Fact]
    public void The_nearest_pair_is_told_first()
    {
        var findings = Of("controls-close", Toml(
            Control("toggle-mini-on-on", 40, 60) + Control("toggle-mini-on-on", 58, 60) + Control("toggle-mini-on-on", 120, 60) + Control("toggle-mini-on-on", 133, 60)));
        Assert.Equal(["p/control-4", "p/control-2"], findings.Select(finding => finding.Item));
    }

    [Fact]
    public void Use_and_bench_are_read_with_their_usual_values()
    {
        var usual = Laid(Toml(string.Empty, "[use]")).Desk;
        Assert.Equal((635, false, false, false), (usual.Use.DistanceMm, usual.Use.TwoHands, usual.Use.Gloves, usual.Use.Dim));
        Assert.Equal((0.5, 0.3, 20, 30), (usual.Bench.DrillErrorMm, usual.Bench.PaperErrorMm, usual.Bench.FingerNewtons, usual.Bench.TemperatureSwingKelvin));
        Assert.Null(usual.DepthMm);
        var told = Laid(Toml(string.Empty, "[use]\ndistance = \"60 cm\"\nhands = \"two\"\ngloves = true\ndim = true\n[bench]\ndrill-error = 0.2\npaper-error = 0.1\nfinger = 30\ntemperature-swing = 10\n[lighting]\ndepth = 40")).Desk;
        Assert.Equal((600, true, true, true), (told.Use.DistanceMm, told.Use.TwoHands, told.Use.Gloves, told.Use.Dim));
        Assert.Equal((0.2, 0.1, 30, 10), (told.Bench.DrillErrorMm, told.Bench.PaperErrorMm, told.Bench.FingerNewtons, told.Bench.TemperatureSwingKelvin));
        Assert.Equal(40, told.DepthMm);
    }

    private static DeskSource Source(string toml) => ExampleDesks.Alone(Encoding.UTF8.GetBytes(toml));

    private static BuildResult Built(string toml) =>
        Build.Run(Source(toml), new("A4", "option", Parts: BuildParts.Print), new System.Progress<string>(), TestContext.Current.CancellationToken);
}
