using System;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using Lampblack.Jobs;
using Lampblack.Printers;
using Lampblack.Tests.Printers;
using Xunit;

namespace Lampblack.Tests.Jobs;

/// <summary>What a printer file changes of a build.</summary>
public sealed class PrinterBuildTests
{
    private const string Desk = "lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [100, 60]\n[[panel.legend]]\ntext = \"A\"\nat = [50, 30]\n";

    private static PrinterFile Held(double held, double? flaked = null) =>
        PrinterSamples.New() with { Coverage = [new(flaked is { } low ? [low] : [], [held])] };

    private static PrinterFile BlackOnly => PrinterSamples.New(PrinterSamples.Colour with { Colour = false });

    [Fact]
    public void The_file_s_own_paper_is_used_and_another_one_stops_the_build()
    {
        Assert.DoesNotContain(Findings("A4", null, PrinterSamples.New()), told => told.StartsWith("stop", StringComparison.Ordinal));
        Assert.Contains("stop printer-other-paper", Findings("Letter", null, PrinterSamples.New()));
    }

    [Fact]
    public void A_known_limit_makes_the_default_black_and_heavy_blacks_are_judged_by_it()
    {
        Assert.Equal(["note black-default"], Blacks(null, Held(2.8)));
        Assert.Contains("`learned`, 280 % toner", Message("black-default", null, Held(2.8)), StringComparison.Ordinal);
        Assert.Equal(["stop black-over-limit"], Blacks("full", Held(2.8)));
        Assert.Equal(["stop black-over-limit"], Blacks("safe", Held(2.0)));
        Assert.Empty(Blacks("full", Held(4.0)));
        Assert.Empty(Blacks("learned", Held(3.2, 3.6)));
    }

    [Fact]
    public void The_order_of_sides_stands_in_what_the_files_are_for()
    {
        var maskFirst = Run("A4", null, PrinterSamples.New(PrinterSamples.Colour with { Order = SideOrder.MaskFirst }), BuildParts.Print).Files;
        Assert.Equal("mask, to be printed first, one-sided", maskFirst.Single(file => file.Path == "sheet-1/mask.pdf").Purpose);
        Assert.Equal("front, to be printed on the back of the mask, one-sided", maskFirst.Single(file => file.Path == "sheet-1/front.pdf").Purpose);
        var frontFirst = Run("A4", null, PrinterSamples.New(), BuildParts.Print).Files;
        Assert.Equal("front, to be printed first, one-sided", frontFirst.Single(file => file.Path == "sheet-1/front.pdf").Purpose);
        Assert.NotEqual(maskFirst.Single(file => file.Path == "sheet-1/duplex.pdf").Bytes, frontFirst.Single(file => file.Path == "sheet-1/duplex.pdf").Bytes);
    }

    [Theory]
    [InlineData("safe", true)]
    [InlineData("gray", false)]
    [InlineData("K", false)]
    public void Two_passes_of_one_side_are_judged_together(string black, bool isHeavy)
    {
        var request = new BuildRequest("A4", "option", black, Parts: BuildParts.None, SecondPass: SecondPass.Front);
        var told = Build.Run(new DeskSource("desk.toml", [.. Encoding.UTF8.GetBytes(Desk)], new NoFiles()), request, new Silence(), TestContext.Current.CancellationToken).Findings;
        Assert.Equal(isHeavy, told.Any(finding => finding.Code == "black-heavy" && finding.Message.StartsWith("two passes", StringComparison.Ordinal)));
    }

    [Fact]
    public void Without_a_known_limit_a_heavy_black_keeps_its_warning_unless_that_much_flaked()
    {
        Assert.Equal(["warn black-heavy"], Blacks("full", PrinterSamples.New()));
        Assert.Equal(["warn black-heavy"], Blacks("full", null));
        var flaked = PrinterSamples.New() with { Coverage = [new([3.0], [])] };
        Assert.Equal(["stop black-over-limit"], Blacks("full", flaked));
        Assert.Equal(["note black-default"], Blacks(null, flaked));
    }

    [Fact]
    public void A_black_only_printer_prints_gray_and_is_asked_for_no_colours()
    {
        Assert.Contains("`gray`", Message("black-default", null, BlackOnly), StringComparison.Ordinal);
        Assert.Equal(["stop black-needs-colour"], Blacks("full", BlackOnly));
        Assert.Equal(["stop black-needs-colour"], Blacks("rgb", BlackOnly));
        Assert.Equal(["stop black-unknown"], Blacks("pitch", BlackOnly));
        Assert.Empty(Blacks("k", BlackOnly));
    }

    [Fact]
    public void Notes_say_what_was_learned_and_what_is_common_practice()
    {
        Assert.Contains("common practice", Message("black-default", null, null), StringComparison.Ordinal);
        Assert.Contains("common practice", Message("spread-default", null, PrinterSamples.New()), StringComparison.Ordinal);
        Assert.DoesNotContain("note printer-figures", Findings("A4", null, null));
        var file = PrinterSamples.New() with { Turns = [new(Tick.A, PrintedFace.Upper)], Register = [PrinterSamples.Entry((_, _) => (1, 0)), PrinterSamples.Entry((_, _) => (1, 0))] };
        var told = Message("printer-figures", null, file);
        Assert.Contains("turning learned from 1 sheet, register learned from 2 sheets, width common practice", told, StringComparison.Ordinal);
        Assert.Contains("register 2", told, StringComparison.Ordinal);
    }

    [Fact]
    public void What_was_learned_moves_the_mask_and_is_told_in_the_report()
    {
        var plain = Run("A4", null, null, BuildParts.Print);
        var moved = Run("A4", null, PrinterSamples.New() with { Register = [PrinterSamples.Entry((_, _) => (1, 0))] }, BuildParts.Print);
        Assert.NotEqual(Bytes(plain, "sheet-1/mask.pdf"), Bytes(moved, "sheet-1/mask.pdf"));
        Assert.Contains("\"register\": 1", Encoding.UTF8.GetString(Bytes(moved, "report.json").AsSpan()), StringComparison.Ordinal);
    }

    [Fact]
    public void What_was_learned_of_edges_is_used_and_told_with_where_it_comes_from()
    {
        var file = PrinterSamples.New() with
        {
            Gains = [new(0.06, 0.06, 0.004), new(0.06, 0.06, 0.004)],
            Planes = [new([.. from y in new[] { 60.0, -60 } from letter in "CMY" select new PlaneReading(letter, 0, y, 0.2, 0, 0.01)])],
        };
        Assert.Contains("grows by 0.060 ± 0.003 mm", Message("growth-learned", null, file), StringComparison.Ordinal);
        Assert.Contains("(learned from 2 sheets): edges are pulled back by 0.060 mm on both sides", Message("growth-learned", null, file), StringComparison.Ordinal);
        Assert.Contains("learned from 1 sheet", Message("stand-back-learned", null, file), StringComparison.Ordinal);
        Assert.Contains("nothing is pulled back", Message("growth-learned", null, file with { Gains = [new(-0.03, -0.03, 0.004)] }), StringComparison.Ordinal);
        Assert.DoesNotContain(Findings("A4", null, PrinterSamples.New()), told => told.EndsWith("growth-learned", StringComparison.Ordinal) || told.EndsWith("stand-back-learned", StringComparison.Ordinal));

        var (plain, learned) = (Run("A4", null, PrinterSamples.New(), BuildParts.Print), Run("A4", null, file, BuildParts.Print));
        Assert.All(["sheet-1/front.pdf", "sheet-1/mask.pdf"], path => Assert.NotEqual(Bytes(plain, path), Bytes(learned, path)));
        using var report = System.Text.Json.JsonDocument.Parse(Bytes(learned, "report.json").AsMemory());
        var (edges, panel) = (report.RootElement.GetProperty("edges"), report.RootElement.GetProperty("panels")[0]);
        Assert.Equal(("learned", 1, "learned", 2, 0.06), (
            edges.GetProperty("standBackFrom").GetString(), edges.GetProperty("standBackSheets").GetInt32(), edges.GetProperty("pullBackFrom").GetString(), edges.GetProperty("pullBackSheets").GetInt32(),
            edges.GetProperty("growthMm").GetDouble()));
        Assert.Equal(0.06, panel.GetProperty("pullBackMm").GetDouble());
        Assert.InRange(panel.GetProperty("standBackMm").GetDouble(), 0.21, 0.4);
        using var before = System.Text.Json.JsonDocument.Parse(Bytes(plain, "report.json").AsMemory());
        Assert.Equal(("common practice", "nothing learned"), (before.RootElement.GetProperty("edges").GetProperty("standBackFrom").GetString(), before.RootElement.GetProperty("edges").GetProperty("pullBackFrom").GetString()));
        Assert.Equal((0.1, 0.0), (before.RootElement.GetProperty("panels")[0].GetProperty("standBackMm").GetDouble(), before.RootElement.GetProperty("panels")[0].GetProperty("pullBackMm").GetDouble()));
    }

    private static ImmutableArray<byte> Bytes(BuildResult result, string path) => result.Files.Single(file => file.Path == path).Bytes;

    private static string[] Blacks(string? black, PrinterFile? printer) =>
        [.. Findings("A4", black, printer).Where(told => told.Contains(" black-", StringComparison.Ordinal))];

    private static string Message(string code, string? black, PrinterFile? printer) =>
        Assert.Single(Run("A4", black, printer).Findings, finding => finding.Code == code).Message;

    private static string[] Findings(string paper, string? black, PrinterFile? printer) =>
        [.. Run(paper, black, printer).Findings.Select(finding => $"{finding.Severity.ToString().ToLowerInvariant()} {finding.Code}")];

    private static BuildResult Run(string paper, string? black, PrinterFile? printer, BuildParts parts = BuildParts.None) => Build.Run(
        new DeskSource("desk.toml", [.. Encoding.UTF8.GetBytes(Desk)], new NoFiles()),
        new BuildRequest(paper, printer is null ? "option" : "printer", black, Parts: parts, Printer: printer),
        new Silence(),
        TestContext.Current.CancellationToken);

    private sealed class NoFiles : IDeskFiles
    {
        public FileReading Read(string relativePath, long limitBytes) => new([], "is not there");
    }

    private sealed class Silence : IProgress<string>
    {
        public void Report(string value)
        {
        }
    }
}
