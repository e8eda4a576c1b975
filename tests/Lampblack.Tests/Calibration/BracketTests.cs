using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Printers;
using Xunit;

namespace Lampblack.Tests.Calibration;

/// <summary>Nine sheets with stepped masks: the numbers are worked here again, from "1 is left and up, 9 right and down".</summary>
public sealed class BracketTests
{
    private const double Step = 0.7;

    public static IEnumerable<double> Offsets => Enumerable.Range(-21, 43).Select(twentieth => twentieth * 0.05);

    [Fact]
    public void Some_sheet_of_the_nine_lies_within_0_495_mm_and_the_named_keeper_is_the_best_to_0_05_mm()
    {
        var worst = 0.0;
        foreach (var right in Offsets)
        {
            foreach (var up in Offsets)
            {
                var best = Enumerable.Range(1, 9).MinBy(sheet => Off(sheet, right, up));
                worst = Math.Max(worst, Off(best, right, up));
                AssertNamed(right, up, best, [best]);
            }
        }

        // Half the diagonal of a step: 0.7 / root 2.
        Assert.Equal(0.495, worst, 0.0005);
    }

    [Fact]
    public void Counts_of_all_nine_sheets_name_the_keeper_too()
    {
        foreach (var right in Offsets.Where((_, index) => index % 3 == 0))
        {
            foreach (var up in Offsets.Where((_, index) => index % 3 == 1))
            {
                AssertNamed(right, up, Enumerable.Range(1, 9).MinBy(sheet => Off(sheet, right, up)), [.. Enumerable.Range(1, 9)]);
            }
        }
    }

    [Fact]
    public void The_bracket_is_learned_as_where_the_printer_puts_side_2()
    {
        // 0.55 right and 0.25 down: on sheet 4 (mask 0.7 to the left) 0.15 mm are left to the left.
        var learned = Evening.Fine(Evening.NewFile, Evening.Dot("4@10-15:" + Evening.Counts(0.55 - 0.7, -0.25)));
        Assert.Equal(4, learned.Keeper!.Number);
        var entry = Assert.Single(learned.File.Register);
        Assert.Equal("bracket", entry.From);
        var estimate = RegisterEstimate.Of(learned.File);
        Assert.Equal(0.55, estimate.ShiftRightMm, 0.06);
        Assert.Equal(-0.25, estimate.ShiftUpMm, 0.06);
        Assert.Contains("Keep sheet 4", string.Join(' ', learned.Words), StringComparison.Ordinal);
    }

    [Fact]
    public void A_bracket_made_with_a_printer_file_is_learned_on_top_of_it()
    {
        var printer = new Evening(1.6, -1.2, 0.004);
        var first = Evening.Fine(Evening.NewFile, Evening.Scale(printer.Readings(Evening.NewFile, () => 0.12))).File;
        var (right, up) = printer.Off(first, -5, 1.5);
        var learned = Evening.Fine(first, Evening.Dot("6@10-15:" + Evening.Counts(right + Step, up), "5@10-15:" + Evening.Counts(right, up)));
        Assert.Equal(1.6, RegisterEstimate.Of(learned.File).ShiftRightMm, 0.12);
        Assert.Equal(5, learned.Keeper!.Number);
    }

    [Fact]
    public void Sheets_that_tell_different_stories_are_refused()
    {
        // Sheet 5 says 0.25 right; sheet 6 then must be 0.95 off, not 0.15 to the left.
        var finding = Evening.Stop(Evening.NewFile, Evening.Dot("5@10-15:N=0,E=2,S=0,W=0", "6@10-15:N=0,E=0,S=0,W=1", "4@10-15:N=0,E=0,S=0,W=4"), "readings-contradict");
        Assert.Contains("sheet 6", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void An_offset_beyond_the_bracket_is_told() =>
        Assert.Contains(
            Evening.Learn(Evening.NewFile, Evening.Dot("4@10-15:N=0,E=5,S=0,W=0")).Findings,
            finding => finding is { Severity: Severity.Warn, Code: "bracket-outside" });

    [Fact]
    public void All_six_dots_on_the_only_sheet_tell_too_little()
    {
        var finding = Evening.Stop(Evening.NewFile, Evening.Dot("4@10-15:N=0,E=6,S=0,W=0"), "dots-range");
        Assert.Contains("on which fewer shine", finding.Hint, StringComparison.Ordinal);
    }

    [Fact]
    public void Another_step_shifts_the_sheets_as_far()
    {
        var learned = Evening.Fine(Evening.NewFile, Evening.Dot("9@10-15:N=0,E=0,S=0,W=0") with { Step = "0.4 mm" });
        Assert.Equal(9, learned.Keeper!.Number);
        Assert.Equal(-0.4, RegisterEstimate.Of(learned.File).ShiftRightMm, 0.02);
        Assert.Equal(0.4, RegisterEstimate.Of(learned.File).ShiftUpMm, 0.02);
    }

    private static void AssertNamed(double right, double up, int best, int[] read)
    {
        var dots = read.Select(sheet => (Sheet: sheet, X: right + Shift(sheet).X, Y: up + Shift(sheet).Y))
            .Select(sheet => string.Create(CultureInfo.InvariantCulture, $"{sheet.Sheet}@10-15:{Evening.Counts(sheet.X, sheet.Y)}"));
        var keeper = Evening.Fine(Evening.NewFile, Evening.Dot(dots)).Keeper!.Number;
        Assert.True(
            Off(keeper, right, up) <= Off(best, right, up) + 0.05,
            FormattableString.Invariant($"offset {right:0.00} {up:0.00}: named {keeper}, off {Off(keeper, right, up):0.000}; best {best}, off {Off(best, right, up):0.000}"));
    }

    private static (double X, double Y) Shift(int sheet) => sheet switch
    {
        1 => (-Step, Step), 2 => (0, Step), 3 => (Step, Step),
        4 => (-Step, 0), 5 => (0, 0), 6 => (Step, 0),
        7 => (-Step, -Step), 8 => (0, -Step), _ => (Step, -Step),
    };

    private static double Off(int sheet, double right, double up) =>
        Math.Sqrt(Math.Pow(right + Shift(sheet).X, 2) + Math.Pow(up + Shift(sheet).Y, 2));
}
