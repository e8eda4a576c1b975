using System;
using System.Linq;
using System.Text;
using System.Text.Json;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Printers;
using Lampblack.Tests.Printers;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Jobs;

/// <summary>The spread follows from what was learned of the printer's scatter.</summary>
public sealed class LearnedSpreadTests
{
    private const string Desk = "lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [100, 60]\n[[panel.legend]]\ntext = \"A\"\nat = [50, 30]\n";

    /// <summary>Three sheets, a tenth of a millimetre apart; invented.</summary>
    private static readonly PrinterFile Learned = PrinterSamples.New() with
    {
        Register = [.. new[] { -0.1, 0, 0.1 }.Select(off => PrinterSamples.Entry((_, _) => (0.8 + off, -0.4), sdMm: 0.01))],
    };

    /// <summary>One glance at one place, which says next to nothing of turn and stretch.</summary>
    private static readonly PrinterFile Hardly = PrinterSamples.New() with { Register = [new("dots", [new(0, 0, 0.3, 0.1, 0.1)])] };

    [Fact]
    public void Three_sheets_make_openings_smaller_than_usual_and_the_report_promises_a_share()
    {
        var result = Run(Learned);
        var told = Assert.Single(result.Findings, finding => finding.Code == "spread-learned");
        Assert.Equal(Severity.Note, told.Severity);
        Assert.DoesNotContain(result.Findings, finding => finding.Code is "spread-default" or "spread-short");
        var (spread, share, sheets) = Figures(result);
        Assert.InRange(spread, 0.2, 0.45);
        Assert.InRange(share!.Value, 0.95, 0.97);
        Assert.Equal(1, sheets);
        Assert.Contains(FormattableString.Invariant($"{spread:0.##} mm on `p`"), told.Message, StringComparison.Ordinal);
        Assert.Contains(result.Summary, line => line.Contains(FormattableString.Invariant($"openings {spread:0.###} mm larger"), StringComparison.Ordinal));
    }

    [Fact]
    public void More_good_sheets_take_wider_openings_and_fewer_take_narrower_ones()
    {
        var usual = Figures(Run(Learned)).SpreadMm;
        Assert.True(Figures(Run(Learned, goodShare: 0.99)).SpreadMm > usual);
        Assert.True(Figures(Run(Learned, goodShare: 0.6)).SpreadMm < usual);
    }

    [Fact]
    public void A_register_hardly_known_keeps_the_usual_spread_and_says_what_that_means()
    {
        var result = Run(Hardly);
        var told = Assert.Single(result.Findings, finding => finding.Code == "spread-short");
        Assert.Equal(Severity.Warn, told.Severity);
        var (spread, share, sheets) = Figures(result);
        Assert.Equal(0.5, spread);
        Assert.True(share < 0.95);
        Assert.True(sheets > 1);
        Assert.Contains("--good-sheets 95", told.Hint, StringComparison.Ordinal);
        Assert.True(Figures(Run(Hardly, goodShare: 0.95)).SpreadMm > 0.5);
    }

    /// <summary>Read across only, so that a millimetre and a half upwards is all that is known: no opening gets wider than 3 mm, and no spread is named that would be refused.</summary>
    [Fact]
    public void No_share_of_good_sheets_makes_openings_wider_than_3_mm()
    {
        var across = PrinterSamples.New() with { Register = [new("readings", [new(0, 0, 0.3, null, 0.1)])] };
        var result = Run(across, goodShare: 0.999);
        Assert.Equal(3, Figures(result).SpreadMm);
        var told = Assert.Single(result.Findings, finding => finding.Code == "spread-short");
        Assert.Contains("more than the 3 mm", told.Hint, StringComparison.Ordinal);
        Assert.DoesNotContain("--good-sheets", told.Hint, StringComparison.Ordinal);
    }

    [Fact]
    public void A_small_spread_asked_for_is_kept_and_the_number_of_sheets_for_a_good_one_told()
    {
        var result = Run(Learned, spreadMm: 0.2);
        var told = Assert.Single(result.Findings, finding => finding.Code == "spread-short");
        var (spread, share, sheets) = Figures(result);
        Assert.Equal(0.2, spread);
        Assert.Equal((int)Math.Ceiling(Math.Log(0.05) / Math.Log(1 - share!.Value)), sheets);
        Assert.Contains($"print {sheets} and keep the best", told.Hint, StringComparison.Ordinal);
        Assert.Contains(FormattableString.Invariant($"--spread {Figures(Run(Learned)).SpreadMm:0.##}"), told.Hint, StringComparison.Ordinal);
        Assert.DoesNotContain(Run(Learned, spreadMm: 0.8).Findings, finding => finding.Code == "spread-short");
    }

    [Fact]
    public void Without_a_register_the_usual_spread_is_named_and_how_to_learn_another()
    {
        var result = Run(null);
        var told = Assert.Single(result.Findings, finding => finding.Code == "spread-default");
        Assert.Contains("common practice", Assert.Single(Run(PrinterSamples.New()).Findings, finding => finding.Code == "spread-default").Message, StringComparison.Ordinal);
        Assert.Contains("lampblack printer sheet", told.Hint, StringComparison.Ordinal);
        Assert.Equal((0.5, null, null), Figures(result));
    }

    private static (double SpreadMm, double? Share, int? Sheets) Figures(BuildResult result)
    {
        using var report = JsonDocument.Parse(result.Files.Single(file => file.Path == "report.json").Bytes.AsMemory());
        var sheet = report.RootElement.GetProperty("sheets")[0];
        return (
            report.RootElement.GetProperty("panels")[0].GetProperty("spreadMm").GetDouble(),
            sheet.TryGetProperty("goodShare", out var share) ? share.GetDouble() : null,
            sheet.TryGetProperty("sheetsForOneGood", out var sheets) ? sheets.GetInt32() : null);
    }

    private static BuildResult Run(PrinterFile? printer, double? spreadMm = null, double? goodShare = null) => Build.Run(
        ExampleDesks.Alone(Encoding.UTF8.GetBytes(Desk)),
        new BuildRequest("A4", printer is null ? "option" : "printer", SpreadMm: spreadMm, Parts: BuildParts.Print, Printer: printer) { GoodShare = goodShare },
        new Progress<string>(),
        TestContext.Current.CancellationToken);
}
