using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Jobs;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Tests.Peers;
using Lampblack.Tests.Printers;
using Xunit;

namespace Lampblack.Tests.Calibration;

/// <summary>Verniers as they are printed and read, and what is learned from what was typed of them.</summary>
public sealed class VernierTests
{
    private static readonly CalibrationPlan Plan = CalibrationPlan.Of(PaperSize.Find("A4")!)!;

    [Theory]
    [InlineData(0.3, -0.7)]
    [InlineData(-2.9, 3)]
    [InlineData(3, -3)]
    public void Lines_that_an_outside_program_draws_read_what_the_printer_was_off(double rightMm, double upMm)
    {
        // A line's middle is seen to half a dot at worst, and the next line that could be taken for the straight one is 0.1 mm off: fewer dots would not tell them apart.
        const int Dpi = 600;
        var files = CalibrationSheetJob.Run("A4", PrinterSamples.New(), "study", 1).Value;
        var front = GhostscriptPlates.Render(files.Single(file => file.Path == "front.pdf").Bytes.AsSpan(), Dpi)[0];

        // Right in front view is left on the page of the back.
        var back = GhostscriptPlates.Render(files.Single(file => file.Path == "back.pdf").Bytes.AsSpan(), Dpi, -rightMm * 72 / 25.4, upMm * 72 / 25.4)[0];
        foreach (var vernier in Vernier.Of(Plan))
        {
            var (alongMm, acrossMm) = vernier.IsUp ? (upMm, rightMm) : (rightMm, upMm);
            var fronts = Lines(front, vernier, 1, 0, isBack: false);
            var backs = Lines(back, vernier, 7 + acrossMm, alongMm, isBack: true);
            Assert.Equal((18, 11), (fronts.Count, backs.Count));

            // The numbered lines, which reach farther out, say 2, 5 and 8; the whole number is that of the line at or before the back's first.
            var numbered = Lines(front, vernier, -0.5, 0, isBack: false);
            Assert.Equal([2, 5, 8], numbered.Select(line => 1 + fronts.Count(other => other < line - 0.1)));
            var tenths = Enumerable.Range(0, 10).MinBy(line => fronts.Min(other => Math.Abs(other - backs[line])));
            var whole = fronts.Count(line => line < backs[0] + (tenths == 0 ? 0.5 : 0));
            Assert.Equal(5 + alongMm, whole + (tenths / 10.0), 0.051);
        }

        List<double> Lines(InkPlates page, Vernier vernier, double acrossMm, double offMm, bool isBack)
        {
            const double StepMm = 25.4 / Dpi / 4;
            var (lines, run) = (new List<double>(), new List<double>());
            for (var along = offMm - 4.6; along < offMm + 14; along += StepMm)
            {
                var (x, y) = vernier.IsUp ? (vernier.Place.XMm + acrossMm, vernier.Place.YMm + along) : (vernier.Place.XMm + along, vernier.Place.YMm + acrossMm);
                if (page.AtMm(isBack ? 210 - x : x, y, Dpi).Black > 127)
                {
                    run.Add(along);
                }
                else if (run.Count > 0)
                {
                    lines.Add(run.Average());
                    run.Clear();
                }
            }

            return lines;
        }
    }

    [Fact]
    public void Ten_verniers_give_shift_turn_and_both_stretches()
    {
        foreach (var seed in Enumerable.Range(1, 20))
        {
            var random = new Random(seed);
            double Any(double half) => half * ((2 * random.NextDouble()) - 1);
            var (right, up, turn, wider, taller) = (Any(2), Any(2), Any(0.005), Any(0.0015), Any(0.0015));
            var taught = Learned(PrinterSamples.New(), Typed((x, y) => (right - (turn * y) + (wider * x), up + (turn * x) + (taller * y))));
            var estimate = RegisterEstimate.Of(taught);

            // Typed to the tenth alone, so that within three standard deviations is much.
            Assert.True(Math.Abs(estimate.ShiftRightMm - right) < 3 * estimate.ShiftRightSdMm && Math.Abs(estimate.ShiftUpMm - up) < 3 * estimate.ShiftUpSdMm);
            Assert.True(Math.Abs(estimate.TurnDegrees - (turn * 180 / Math.PI)) < 3 * estimate.TurnSdDegrees);
            Assert.True(Math.Abs(estimate.StretchXPercent - (wider * 100)) < 3 * estimate.StretchXSdPercent && Math.Abs(estimate.StretchYPercent - (taller * 100)) < 3 * estimate.StretchYSdPercent);

            // However well one sheet is read, it may be an odd one: what sheets are believed to scatter by is in it.
            Assert.True(estimate is { ShiftRightSdMm: < 0.12, ShiftUpSdMm: < 0.12, TurnSdDegrees: < 0.04, StretchXSdPercent: < 0.06, StretchYSdPercent: < 0.06 });
        }
    }

    [Fact]
    public void Readings_are_stored_raw_and_read_back_whatever_was_learned_before()
    {
        var before = PrinterSamples.New() with { Register = [PrinterSamples.Entry((_, _) => (1.2, -0.8))] };
        var taught = Learned(before, "1x=6.2,1y=4.2 2x=6,1 2y=4,25; 3x=6");
        var entry = taught.Register[^1];
        Assert.Equal("verniers", entry.From);
        Assert.Equal(5, entry.Readings.Length);
        var first = Vernier.Of(Plan)[0];
        Assert.Equal(new(first.Place.XMm - 105, first.Place.YMm - 148.5, 1.2, null, 0.0577), entry.Readings[0] with { XMm = Math.Round(entry.Readings[0].XMm, 4), YMm = Math.Round(entry.Readings[0].YMm, 4) });
        Assert.Equal(-0.75, entry.Readings[3].UpMm!.Value, 9);
        Assert.Equal(2, taught.Revision);
        Assert.Equal(PrinterFiles.Write(taught), PrinterFiles.Write(PrinterFiles.Read("study.toml", PrinterFiles.Write(taught)).Value));
    }

    [Theory]
    [InlineData(3, 1, "vernier 2y was read as 6.1, but the others put it near 5.1: its whole number looks one too high")]
    [InlineData(6, -1, "vernier 4x was read as 4.4, but the others put it near 5.4: its whole number looks one too low")]
    [InlineData(0, 2.5, "vernier 1x was read as 7.9, but the others put it near 5.4")]
    public void An_odd_one_is_named_and_nothing_is_stored(int which, double off, string message)
    {
        var typed = string.Join(',', Vernier.Of(Plan).Select((vernier, index) => string.Create(
            CultureInfo.InvariantCulture, $"{vernier.Name}={(vernier.IsUp ? 5.1 : 5.4) + (index == which ? off : 0):0.0}")));
        var finding = Evening.Stop(PrinterSamples.New(), Answers(typed), "readings-contradict");
        Assert.Contains(message, finding.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("1x=+0.3", "answer-form", "")]
    [InlineData("1x=0.3", "reading-range", "5.3")]
    [InlineData("1x=53", "reading-range", "did you mean 1x=5.3?")]
    [InlineData("1x=9.4", "reading-range", "")]
    [InlineData("6x=5.3", "answer-form", "1x, 1y to 5x, 5y")]
    [InlineData("x=5.3", "answer-form", "1x, 1y to 5x, 5y")]
    [InlineData("x1 5.3, 1y: 4.8", "answer-form", "did you mean `--vernier 1x=5.3,1y=4.8`?")]
    [InlineData("1x=5.3mm", "answer-form", "")]
    [InlineData("1x=", "answer-form", "")]
    [InlineData("", "answer-form", "")]
    [InlineData("1x=5.3,1x=5.4", "answer-twice", "")]
    public void What_was_mistyped_is_told_with_what_was_meant(string typed, string code, string hint) =>
        Assert.Contains(hint, Evening.Stop(PrinterSamples.New(), Answers(typed), code).Hint ?? string.Empty, StringComparison.Ordinal);

    [Fact]
    public void The_same_sheet_typed_twice_is_told_and_another_copy_that_reads_the_same_is_taken()
    {
        const string Read = "1x=5.3,1y=4.8,2x=5.3,2y=4.9";
        var once = Learned(PrinterSamples.New(), Read);
        Evening.Stop(once, Answers(Read), "register-twice");
        Assert.Equal(2, Learned(once, Read, "0").Register.Length);
    }

    /// <summary>
    /// Two rulers of pitch p and q come to agree again after p q / (p - q): 168 for 8.4 and 8 in the published example (J. C. Galeano Zea, vernier scales). Ours read tenths, over 9 mm.
    /// </summary>
    [Fact]
    public void Pitches_of_1_and_0_9_mm_read_tenths_and_repeat_after_9_mm()
    {
        Assert.Equal(168, Repeat(8.4, 8), 1e-9);
        Assert.Equal(9, Repeat(Vernier.FrontPitchMm, Vernier.BackPitchMm), 1e-9);
        Assert.Equal(0.1, Vernier.FrontPitchMm - Vernier.BackPitchMm, 1e-12);
        Assert.Equal(10, Vernier.FrontPitchMm / (Vernier.FrontPitchMm - Vernier.BackPitchMm), 1e-9);

        // What can be read reaches 4 mm to both sides of register, and never so far that it repeats.
        Assert.Equal((4, 4), (Vernier.InRegisterMm - Vernier.LowestMm, Vernier.HighestMm - Vernier.InRegisterMm));
        Assert.True(Vernier.HighestMm - Vernier.LowestMm < Repeat(Vernier.FrontPitchMm, Vernier.BackPitchMm));

        static double Repeat(double longer, double shorter) => longer * shorter / (longer - shorter);
    }

    [Fact]
    public void Verniers_are_not_mixed_with_another_sheet_s_answers_and_need_a_paper_that_has_them()
    {
        Evening.Stop(PrinterSamples.New(), Answers("1x=5.3") with { Readings = ["NE:x=0.3"] }, "answer-mixed");
        Evening.Stop(PrinterSamples.New(), Answers("1x=5.3") with { Bars = ["front=99.9"] }, "answer-mixed");
        Evening.Stop(PrinterSamples.New() with { Register = [PrinterSamples.Entry((_, _) => (0, 0))] }, Answers("1x=5.3") with { Register = "1" }, "answer-mixed");
        var small = Learn.Run(PrinterSamples.New(PrinterSamples.Colour with { Paper = "A5" }), LearnAnswers.Nothing with { Verniers = ["1x=5.3"] });
        Assert.Equal("sheet-no-room", Assert.Single(small.Findings).Code);
        Assert.Empty(small.Value.File.Register);
    }

    [Fact]
    public void A_sheet_that_lies_far_from_what_was_learned_is_stored_with_a_warning()
    {
        var before = PrinterSamples.New() with { Register = [PrinterSamples.Entry((_, _) => (-2, 0), 0.05)] };
        var learned = Learn.Run(before, LearnAnswers.Nothing with { Verniers = ["1x=7,2x=7,3x=7"] });
        Assert.Equal("register-apart", Assert.Single(learned.Findings).Code);
        Assert.Equal(2, learned.Value.File.Register.Length);
    }

    private static TypedAnswers Answers(string typed) => TypedAnswers.Nothing with { Verniers = [typed] };

    private static PrinterFile Learned(PrinterFile file, string typed, string? register = null)
    {
        var learned = Learn.Run(file, LearnAnswers.Nothing with { Verniers = [typed], Register = register });
        Assert.Empty(learned.Findings);
        return learned.Value.File;
    }

    /// <summary>What an eye reads that sees tenths: where side 2 lies at each vernier, from the sheet's middle.</summary>
    private static string Typed(Func<double, double, (double RightMm, double UpMm)> displacement) => string.Join(',', Vernier.Of(Plan).Select(vernier =>
    {
        var (right, up) = displacement(vernier.Place.XMm - 105, vernier.Place.YMm - 148.5);
        return string.Create(CultureInfo.InvariantCulture, $"{vernier.Name}={Math.Round(5 + (vernier.IsUp ? up : right), 1, MidpointRounding.AwayFromZero):0.0}");
    }));
}
