using System;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;
using Xunit;

namespace Lampblack.Tests.Calibration;

/// <summary>What makers type is read in every sensible way of writing, and everything else is told with what was typed and what is allowed.</summary>
public sealed class TypedAnswersTests
{
    [Theory]
    [InlineData("NE:x=+0.3,y=-0.1", 81, 140, 0.3, -0.1)]
    [InlineData("ne: X = 0.3, Y = -0.1", 81, 140, 0.3, -0.1)]
    [InlineData("SW:x=+0,3,y=-0,1", -81, -140, 0.3, -0.1)]
    [InlineData("SE:x=0.3mm y=-0.1mm", 81, -140, 0.3, -0.1)]
    [InlineData("NW:y=−0.2;x=+2c", -81, 140, 1.0, -0.2)]
    [InlineData("NE:x=-0,5c,y=3 c", 81, 140, -0.25, 1.5)]
    [InlineData("6-21:x=0.1,y=0.2", -45, 61.5, 0.1, 0.2)]
    [InlineData("NE:x=1/64in,y=0", 81, 140, 0.396875, 0)]
    public void A_reading_is_read_as_makers_write_it(string typed, double x, double y, double right, double up)
    {
        var reading = Assert.Single(Assert.Single(Evening.Fine(Evening.NewFile, Evening.Scale(typed)).File.Register).Readings);
        Assert.Equal((x, y), (reading.XMm, reading.YMm));
        Assert.Equal(right, reading.RightMm!.Value, 0.0001);
        Assert.Equal(up, reading.UpMm!.Value, 0.0001);
    }

    [Fact]
    public void Only_one_direction_may_be_read()
    {
        var entry = Assert.Single(Evening.Fine(Evening.NewFile, Evening.Scale("NE:x=0.4", "SW:y=-0.4")).File.Register);
        Assert.Equal("readings", entry.From);
        Assert.Collection(
            entry.Readings,
            one => Assert.Equal((0.4, null), (one.RightMm, one.UpMm)),
            other => Assert.Equal((null, -0.4), (other.RightMm, other.UpMm)));
    }

    [Theory]
    [InlineData("NE x=0.3", "does not say where", null)]
    [InlineData("NE:0.3", "is no reading", null)]
    [InlineData("EN:x=0.3", "has `EN` for a place", "NE:x=0.3")]
    [InlineData("top right:x=0.3", "for a place", "NE:x=0.3")]
    [InlineData("NE:x0.3,y-0.1", "is no reading", "NE:x=0.3,y=-0.1")]
    [InlineData("NE:z=0.3", "has `z`", null)]
    [InlineData("NE:x=zero", "has `zero` for x", null)]
    [InlineData("NE:x=", "for x, which is empty", null)]
    [InlineData("6-21-3:x=1", "for a place", null)]
    [InlineData("", "does not say where", null)]
    public void A_mistyped_reading_is_shown_with_the_nearest_right_form(string typed, string problem, string? meant) =>
        AssertForm(Evening.Scale(typed), "--reading", problem, meant);

    [Theory]
    [InlineData("NE:x=4.2", "reading-range")]
    [InlineData("NE:x=30", "reading-range")]
    [InlineData("NE:x=9c", "reading-range")]
    [InlineData("NE:x=1,x=2", "answer-twice")]
    [InlineData("22-3:x=1", "place-outside")]
    [InlineData("3-30:x=1", "place-outside")]
    public void An_impossible_reading_is_refused(string typed, string code) =>
        Assert.Contains(typed, Evening.Stop(Evening.NewFile, Evening.Scale(typed), code).Message, StringComparison.Ordinal);

    [Theory]
    [InlineData("6-21:N=2,E=0,S=0,W=1", -45, 61.5, -0.15, 0.25)]
    [InlineData("6-21: n = 2 e = 0 s = 0 w = 1", -45, 61.5, -0.15, 0.25)]
    [InlineData(" 06-21 :W=1;E=0;S=0;N=2", -45, 61.5, -0.15, 0.25)]
    [InlineData("N=0,E=5,S=3,W=0", 0, 0, 0.55, -0.35)]
    [InlineData("15-5:N=0,E=0,S=0,W=0", 45, -98.5, 0, 0)]
    public void Counted_dots_say_the_middle_of_their_step(string typed, double x, double y, double right, double up)
    {
        var entry = Assert.Single(Evening.Fine(Evening.NewFile, Evening.Dot(typed)).File.Register);
        Assert.Equal("dots", entry.From);
        Assert.All(entry.Readings, reading => Assert.Equal((x, y), (reading.XMm, reading.YMm)));
        Assert.Equal(right, entry.Readings.Select(reading => reading.RightMm).OfType<double>().Single(), 0.0001);
        Assert.Equal(up, entry.Readings.Select(reading => reading.UpMm).OfType<double>().Single(), 0.0001);
    }

    [Theory]
    [InlineData("6-21:N=7", "has `7` in row N")]
    [InlineData("6-21:N=-1", "in row N")]
    [InlineData("6-21:N=2.5", "in row N")]
    [InlineData("6-21:Q=2", "has a row `Q`")]
    [InlineData("6-21:", "is no count of dots")]
    [InlineData("2,0,3,1", "is no count of dots")]
    [InlineData("10@6-21:N=1", "for a sheet of the bracket")]
    [InlineData("0:N=1", "for a sheet of the bracket")]
    [InlineData("x@6-21:N=1", "for a sheet of the bracket")]
    [InlineData("here:N=1", "has `here` for a place")]
    public void Mistyped_dots_are_shown_with_what_is_allowed(string typed, string problem) =>
        AssertForm(Evening.Dot(typed), "--dots", problem, null);

    [Fact]
    public void Dots_without_their_signs_are_guessed() =>
        AssertForm(Evening.Dot("6-21:N2 E0 S3 W1"), "--dots", "is no count", "6-21:N=2,E=0,S=3,W=1");

    [Theory]
    [InlineData("6-21:N=2,O=0,S=3,W=1", "6-21:N=2,E=0,S=3,W=1")]
    [InlineData("6-21:N=2,E=0,S=3,O=1", "6-21:N=2,E=0,S=3,W=1")]
    [InlineData("6-21:N=2,O=0,S=3", null)]
    [InlineData("6-21:N=2,O=0,S=3,Q=1", null)]
    [InlineData("6-21:N=2,E=0,S=3,W=1,O=4", null)]
    public void A_row_by_another_letter_is_never_dropped_from_what_was_meant(string typed, string? meant)
    {
        AssertForm(Evening.Dot(typed), "--dots", "has a row", meant);
        Assert.Equal(meant is null, !Evening.Stop(Evening.NewFile, Evening.Dot(typed), "answer-form").Hint.Contains("did you mean", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("A", null, Tick.A, PrintedFace.Unknown)]
    [InlineData(" b ", "front", Tick.B, PrintedFace.Upper)]
    [InlineData("FRONT", "Back", Tick.Front, PrintedFace.Lower)]
    public void A_tick_and_a_cross_tell_turn_and_face(string tick, string? cross, Tick expected, PrintedFace face)
    {
        var learned = Evening.Fine(Evening.NewFile, TypedAnswers.Nothing with { Tick = tick, Cross = cross });
        Assert.Equal(new TurnEntry(expected, face), Assert.Single(learned.File.Turns));
        Assert.NotEmpty(learned.Words);
    }

    [Fact]
    public void No_tick_is_refused_with_its_reasons()
    {
        var finding = Evening.Stop(Evening.NewFile, TypedAnswers.Nothing with { Tick = "none" }, "tick-none");
        Assert.Contains("actual size", finding.Hint, StringComparison.Ordinal);
    }

    [Fact]
    public void A_mistyped_tick_gets_the_nearest_word() =>
        AssertForm(TypedAnswers.Nothing with { Tick = "frnt" }, "--tick", "is none of the words", "front");

    [Fact]
    public void Another_tick_than_before_is_told_and_counts()
    {
        var before = Evening.NewFile with { Turns = [new(Tick.A, PrintedFace.Unknown)] };
        var learned = Evening.Learn(before, TypedAnswers.Nothing with { Tick = "B" });
        Assert.Equal("tick-changed", Assert.Single(learned.Findings).Code);
        Assert.True(learned.Value.File.HalfTurnOfBack);
    }

    [Theory]
    [InlineData("front=99.8,back=99.7", 99.8, 99.7)]
    [InlineData("Front = 99,8 mm; Back = 99,7 mm", 99.8, 99.7)]
    [InlineData("back=3.93in,front=100", 100d, 99.822)]
    [InlineData("front=3 15/16 in", 100.0125, null)]
    [InlineData("front=9.98 cm", 99.8, null)]
    public void A_bar_is_read_in_any_unit(string typed, double? front, double? back)
    {
        var bar = Assert.Single(Evening.Fine(Evening.NewFile, TypedAnswers.Nothing with { Bars = [typed] }).File.Bars);
        AssertNear(front, bar.FrontMm);
        AssertNear(back, bar.BackMm);
    }

    [Theory]
    [InlineData("front=94.1", "A4 fitted to Letter")]
    [InlineData("front=97", "Letter fitted to A4")]
    [InlineData("front=100,back=103", "enlarged")]
    [InlineData("front=99.3", "another paper")]
    public void A_scaled_print_is_refused_with_its_cause(string typed, string cause) =>
        Assert.Contains(cause, Evening.Stop(Evening.NewFile, TypedAnswers.Nothing with { Bars = [typed] }, "bar-scaled").Hint, StringComparison.Ordinal);

    [Theory]
    [InlineData("99.8", "does not say which bar", "front=99.8")]
    [InlineData("frnt=99.8", "has a bar `frnt`", "front=99.8")]
    [InlineData("front=9.98", "for a bar of 100 mm", "front=9.98cm")]
    [InlineData("front=3.93", "for a bar of 100 mm", "front=3.93in")]
    [InlineData("front=long", "has `long` for the front", null)]
    [InlineData("alng=249.6", "has a bar `alng`", "along=249.6")]
    [InlineData("along=24.96", "for a bar of 250 mm", "along=24.96cm")]
    [InlineData("across=88", "for a bar of 180 mm", null)]
    [InlineData("front=99.8,along=249.6", "of a production sheet and of a calibration sheet", null)]
    public void A_mistyped_bar_gets_the_nearest_right_form(string typed, string problem, string? meant) =>
        AssertForm(TypedAnswers.Nothing with { Bars = [typed] }, "--bar", problem, meant);

    [Fact]
    public void A_calibration_sheet_s_bars_tell_the_scale_of_side_1_both_ways_and_the_next_build_undoes_it_on_both_pages()
    {
        var first = Evening.Fine(Evening.NewFile, TypedAnswers.Nothing with { Bars = ["front=99.6"] }).File;
        var learned = Evening.Fine(first, TypedAnswers.Nothing with { Bars = ["along=249.6, across=179.9"] });

        // Nothing is undone on a calibration sheet: what was read is stored as it was read, whatever was learned before.
        Assert.Equal(new BarEntry(null, null, 2) { AlongMm = 249.6, AcrossMm = 179.9 }, learned.File.Bars[1]);

        // Conjugate formula: readings of 0.2 mm noise against a prior of 0.1 %; precisions add.
        var scale = ScaleEstimate.Of(Evening.NewFile with { Bars = [learned.File.Bars[1]] });
        double[] sds = [20.0 / 250, 20.0 / 180];
        double[] shares = [.. sds.Select(sd => 0.01 / (0.01 + (sd * sd)))];
        Assert.Equal(shares[0] * -0.16, scale.StretchYPercent, 9);
        Assert.Equal(shares[1] * -100 / 1800, scale.StretchXPercent, 9);
        Assert.Equal(0.1 * Math.Sqrt(1 - shares[0]), scale.StretchYSdPercent, 9);
        Assert.Equal(0.1 * Math.Sqrt(1 - shares[1]), scale.StretchXSdPercent, 9);
        Assert.Contains("% shorter (give or take", learned.Words[0], StringComparison.Ordinal);

        var printer = PrinterProperties.Of(learned.File, PaperSize.Find("A4")!);
        var up = ScaleEstimate.Of(learned.File).StretchYPercent / 100;
        Assert.Equal(148.5 + (100 / (1 + up)), PageMapping.Front(printer).Apply(new(105, 248.5)).YMm, 9);
        Assert.Equal(148.5 + (100 / (1 + up)), PageMapping.Back(printer, PaperSize.Find("A4")!).Apply(new(105, 248.5)).YMm, 9);

        var scaled = Learning.Learn(first, PaperSize.Find("A4")!, TypedAnswers.Nothing with { Bars = ["along=235"] });
        Assert.Equal("bar-scaled", Assert.Single(scaled.Findings).Code);
    }

    [Fact]
    public void Bars_of_a_corrected_sheet_are_stored_as_if_nothing_had_been_undone()
    {
        var first = Evening.Fine(Evening.NewFile, TypedAnswers.Nothing with { Bars = ["front=99.6,back=99.6"] }).File;
        var undone = ScaleEstimate.Of(first).StretchXPercent;
        var second = Evening.Fine(first, TypedAnswers.Nothing with { Bars = ["front=99.9"] }).File;
        Assert.Equal(99.9 * (1 + (undone / 100)), second.Bars[1].FrontMm!.Value, 0.001);
        Assert.True(undone < -0.05);
    }

    [Theory]
    [InlineData("C300,C320", "C240", new[] { 3.0, 3.2 }, new[] { 2.4 })]
    [InlineData("300 % 320%", "c240 200", new[] { 3.0, 3.2 }, new[] { 2.0, 2.4 })]
    public void Patches_are_named_by_their_percents(string flaked, string held, double[] expectedFlaked, double[] expectedHeld)
    {
        var learned = Evening.Fine(Evening.NewFile, TypedAnswers.Nothing with { Flaked = [flaked], Held = [held] });
        var row = Assert.Single(learned.File.Coverage);
        Assert.Equal(expectedFlaked, row.Flaked);
        Assert.Equal(expectedHeld, row.Held);
        Assert.Contains("240 %", Assert.Single(learned.Words), StringComparison.Ordinal);
    }

    [Fact]
    public void Patches_may_be_told_one_by_one() =>
        Assert.Equal([3.0, 3.2], Assert.Single(Evening.Fine(Evening.NewFile, TypedAnswers.Nothing with { Flaked = ["C320", "C300"] }).File.Coverage).Flaked);

    [Theory]
    [InlineData("C240", "C300", "more toner")]
    [InlineData("C240", "C240", "the same patch")]
    public void A_patch_that_held_above_one_that_flaked_is_a_contradiction(string flaked, string held, string problem) =>
        Assert.Contains(problem, Evening.Stop(Evening.NewFile, TypedAnswers.Nothing with { Flaked = [flaked], Held = [held] }, "coverage-contradict").Message, StringComparison.Ordinal);

    [Theory]
    [InlineData("C30")]
    [InlineData("C450")]
    [InlineData("K300")]
    [InlineData(" ")]
    public void A_patch_that_is_none_is_shown(string flaked) =>
        AssertForm(TypedAnswers.Nothing with { Flaked = [flaked] }, "--flaked", "patch", null);

    [Fact]
    public void A_row_that_contradicts_an_earlier_one_is_told()
    {
        var before = Evening.NewFile with { Coverage = [new([2.6], [2.4])] };
        Assert.Equal("coverage-apart", Assert.Single(Evening.Learn(before, TypedAnswers.Nothing with { Held = ["C300"] }).Findings).Code);
    }

    [Theory]
    [InlineData("1", "register-unknown")]
    [InlineData("register 7", "register-unknown")]
    [InlineData("one", "answer-form")]
    [InlineData("-1", "answer-form")]
    public void A_register_number_must_be_one_that_was_printed(string typed, string code) =>
        Evening.Stop(Evening.NewFile, Evening.Scale("NE:x=0.1") with { Register = typed }, code);

    [Theory]
    [InlineData("0.01")]
    [InlineData("70 mm")]
    [InlineData("some")]
    public void A_step_must_be_one(string typed) =>
        AssertForm(Evening.Dot("5:N=0,E=0,S=0,W=0") with { Step = typed }, "--step", "", null);

    [Fact]
    public void Nothing_told_or_half_told_is_said()
    {
        Evening.Stop(Evening.NewFile, TypedAnswers.Nothing, "answer-missing");
        Evening.Stop(Evening.NewFile, TypedAnswers.Nothing with { Cross = "front" }, "answer-missing");
        Evening.Stop(Evening.NewFile, Evening.Scale("NE:x=0.1") with { Step = "0.7" }, "answer-missing");
        Evening.Stop(Evening.NewFile, TypedAnswers.Nothing with { Tick = "A", Register = "0" }, "answer-missing");
    }

    [Fact]
    public void A_bracket_is_told_by_itself() =>
        Evening.Stop(Evening.NewFile, Evening.Dot("5:N=0,E=0,S=0,W=0", "6-21:N=0,E=0,S=0,W=0"), "answer-mixed");

    [Theory]
    [InlineData("NE:x=0.1,y=0.1", "NE:x=0.2")]
    [InlineData("6-21:x=0.1", "6-21:x=0.1")]
    public void A_place_told_twice_is_refused(string one, string other) =>
        Evening.Stop(Evening.NewFile, Evening.Scale(one, other), "answer-twice");

    [Fact]
    public void Hostile_texts_end_in_a_finding()
    {
        foreach (var text in new[] { "\0", "::::", "x=\u001b[2J", new string('9', 5000), "NE:" + new string('x', 3000), "6-21:N=99999999999999999999", "NE:x=1e300", "𝒩:x=1", "@:N=1", ":" })
        {
            foreach (var typed in new[]
            {
                Evening.Scale(text), Evening.Dot(text), TypedAnswers.Nothing with { Tick = text }, TypedAnswers.Nothing with { Bars = [text] }, TypedAnswers.Nothing with { Held = [text] },
                Evening.Scale("NE:x=0") with { Register = text }, Evening.Dot("5:N=1,S=0") with { Step = text },
            })
            {
                var learned = Evening.Learn(Evening.NewFile, typed);
                Assert.True(learned.HasStop);
                Assert.All(learned.Findings, finding => Assert.DoesNotContain(finding.Message + finding.Hint, char.IsControl));
            }
        }
    }

    private static void AssertForm(TypedAnswers typed, string option, string problem, string? meant)
    {
        var finding = Evening.Stop(Evening.NewFile, typed, "answer-form");
        Assert.Equal(option, finding.Item);
        Assert.Contains(problem, finding.Message, StringComparison.Ordinal);
        Assert.NotEmpty(finding.Hint);
        if (meant is not null)
        {
            Assert.Contains($"did you mean `{option} {meant}`?", finding.Hint, StringComparison.Ordinal);
        }
    }

    private static void AssertNear(double? expected, double? actual)
    {
        Assert.Equal(expected is null, actual is null);
        Assert.Equal(expected ?? 0, actual ?? 0, 0.001);
    }
}
