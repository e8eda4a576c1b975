using System;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Printers;

public sealed class RegisterEstimateTests
{
    [Fact]
    public void Nothing_learned_is_the_prior()
    {
        var estimate = RegisterEstimate.Of(PrinterSamples.New());
        Assert.Equal(0, estimate.Revision);
        Assert.Equal((0.0, 0.0, 0.0), (estimate.ShiftRightMm, estimate.ShiftUpMm, estimate.TurnDegrees));
        Assert.Equal(1.5, estimate.ShiftRightSdMm, 9);
        Assert.Equal(1.5, estimate.ShiftUpSdMm, 9);
        Assert.Equal(0.3, estimate.TurnSdDegrees, 9);
        Assert.Equal(0.1, estimate.StretchXSdPercent, 9);
        Assert.Equal(0.1, estimate.StretchYSdPercent, 9);
        Assert.Equal(0.05, estimate.ShearSdPercent, 9);

        // By hand: variance of t plus that of 0.3 degrees and of a shear of 0.05 % at 100 mm up.
        Assert.Equal(Math.Sqrt((1.5 * 1.5) + Math.Pow(100 * 0.3 * Math.PI / 180, 2) + (0.05 * 0.05)), estimate.At(0, 100).RightSdMm, 9);
    }

    [Fact]
    public void A_shift_and_turn_are_found_with_their_signs_and_undone_about_the_sheet_s_middle()
    {
        // A quarter of a degree counter-clockwise: what lies up goes left, what lies right goes up.
        var turn = 0.25 * Math.PI / 180;
        const double Shear = 0.0004;
        var entry = PrinterSamples.Entry((x, y) => (0.8 - (turn * y) + (Shear * y), -1.1 + (turn * x) + (Shear * x)), sdMm: 0.001);

        // Two hundred sheets that all tell the same: nothing is left of what was believed before.
        var estimate = RegisterEstimate.Of(PrinterSamples.New() with { Register = [.. Enumerable.Repeat(entry, 200)] });
        Assert.Equal(0.8, estimate.ShiftRightMm, 4);
        Assert.Equal(-1.1, estimate.ShiftUpMm, 4);
        Assert.Equal(0.25, estimate.TurnDegrees, 4);
        Assert.Equal(0, estimate.StretchXPercent, 4);
        Assert.Equal(0.04, estimate.ShearPercent, 4);

        var map = estimate.On(PaperSize.Find("Letter")!);
        var middle = map.Apply(new(215.9 / 2, 279.4 / 2));
        Assert.Equal((215.9 / 2) + 0.8, middle.XMm, 4);
        Assert.Equal((279.4 / 2) - 1.1, middle.YMm, 4);
        var up = map.Apply(new(215.9 / 2, (279.4 / 2) + 100));
        Assert.Equal((215.9 / 2) + 0.8 - (100 * (turn - Shear)), up.XMm, 4);
    }

    [Fact]
    public void A_reading_of_one_direction_tells_nothing_of_the_other()
    {
        var file = PrinterSamples.New() with { Register = [new("readings", [new(0, 0, 0.7, null, 0.1)])] };
        var estimate = RegisterEstimate.Of(file);
        Assert.Equal(0.7 * 2.25 / (2.26 + Math.Pow(estimate.Scatter.ShiftMm, 2)), estimate.ShiftRightMm, 9);
        Assert.Equal(0, estimate.ShiftUpMm, 9);
        Assert.Equal(1.5, estimate.ShiftUpSdMm, 9);
        Assert.Equal(1, estimate.Readings);
    }

    [Fact]
    public void An_earlier_revision_is_what_it_was_whatever_came_later()
    {
        var first = PrinterSamples.New() with { Bars = [new(null, null), new(100, 100.3)], Register = [PrinterSamples.Entry((_, _) => (1, 0))] };
        var later = first with
        {
            Bars = [.. first.Bars, new(100, 99.6, Number: 2)],
            Register = [.. first.Register, PrinterSamples.Entry((_, _) => (-1, 0))],
        };
        Assert.Equal(RegisterEstimate.Of(first).On(PaperSize.All[0]), RegisterEstimate.Of(later, 1).On(PaperSize.All[0]));
        Assert.Equal(0, RegisterEstimate.Of(later, 0).ShiftRightMm);
        Assert.True(Math.Abs(RegisterEstimate.Of(later).ShiftRightMm) < 0.01);
        Assert.True(RegisterEstimate.Of(later).StretchXPercent < RegisterEstimate.Of(later, 1).StretchXPercent);
        Assert.Throws<ArgumentOutOfRangeException>(() => RegisterEstimate.Of(later, 3));
    }

    /// <summary>Weak as it is (0.28 % against 0.1 % before): by the conjugate formula.</summary>
    [Fact]
    public void Bars_of_both_sides_tell_a_little_about_the_stretch()
    {
        var file = PrinterSamples.New() with { Bars = [new(100.1, 100.5), new(100.1, null)], Register = [new("dots", [new(0, 0, null, 0, 0.1)])] };
        Assert.Equal(0.4 * 0.01 / (0.01 + (0.28 * 0.28)), RegisterEstimate.Of(file).StretchXPercent, 9);
    }

    /// <summary>
    /// 2,000 printers drawn from the prior, each read twice with noise: what the fit says of itself is what happens. Errors over stated standard
    /// deviations must have a standard deviation of 1 (give or take 4 of its own, 1 / sqrt(2 n)), at the middle and at a corner.
    /// </summary>
    [Fact]
    public void The_stated_uncertainty_holds_over_simulated_printers()
    {
        var random = new Random(20260);
        const int Printers = 2000;
        const double Sd = 0.1;
        var scores = new double[4][];
        for (var i = 0; i < scores.Length; i++)
        {
            scores[i] = new double[Printers];
        }

        for (var printer = 0; printer < Printers; printer++)
        {
            var (tx, ty) = (1.5 * PrinterSamples.Normal(random), 1.5 * PrinterSamples.Normal(random));
            var turn = 0.3 * Math.PI / 180 * PrinterSamples.Normal(random);
            var (sx, sy) = (0.001 * PrinterSamples.Normal(random), 0.001 * PrinterSamples.Normal(random));
            (double RightMm, double UpMm) True(double x, double y) => (tx - (turn * y) + (sx * x), ty + (turn * x) + (sy * y));
            RegisterEntry Read()
            {
                // Every sheet lies a little elsewhere, as is believed of sheets: 0.1 mm, 0.5 mrad, 0.04 %.
                var (right, above, more) = (0.1 * PrinterSamples.Normal(random), 0.1 * PrinterSamples.Normal(random), 0.0005 * PrinterSamples.Normal(random));
                var (wider, taller) = (0.0004 * PrinterSamples.Normal(random), 0.0004 * PrinterSamples.Normal(random));
                return PrinterSamples.Entry(
                    (x, y) => True(x, y) is var (dx, dy) ? (dx + right - (more * y) + (wider * x), dy + above + (more * x) + (taller * y)) : default, Sd, () => Sd * PrinterSamples.Normal(random));
            }

            var estimate = RegisterEstimate.Of(PrinterSamples.New() with { Register = [Read(), Read()] });
            scores[0][printer] = (estimate.ShiftRightMm - tx) / estimate.ShiftRightSdMm;
            scores[1][printer] = (estimate.TurnDegrees - (turn * 180 / Math.PI)) / estimate.TurnSdDegrees;
            scores[2][printer] = (estimate.StretchYPercent - (100 * sy)) / estimate.StretchYSdPercent;
            var corner = estimate.At(90, 130);
            scores[3][printer] = (corner.UpMm - True(90, 130).UpMm) / corner.UpSdMm;
        }

        var allowed = 4 / Math.Sqrt(2.0 * Printers);
        foreach (var score in scores)
        {
            Assert.InRange(Math.Sqrt(score.Average(value => value * value)), 1 - allowed, 1 + allowed);
            Assert.InRange(score.Average(), -4 / Math.Sqrt(Printers), 4 / Math.Sqrt(Printers));
        }
    }

    [Fact]
    public void What_the_estimate_undoes_lands_where_it_was_meant()
    {
        var file = PrinterSamples.New() with { Register = [PrinterSamples.Entry((x, y) => (0.5 - (0.003 * y) + (0.001 * x), 0.2 + (0.003 * x)))] };
        var estimate = RegisterEstimate.Of(file);
        var map = estimate.On(PaperSize.All[0]);
        var meant = new Point<SheetSpace>(20, 280);
        var place = map.Inverse().Apply(meant);
        var moved = estimate.At(place.XMm - 105, place.YMm - 148.5);
        Assert.Equal(meant.XMm, place.XMm + moved.RightMm, 9);
        Assert.Equal(meant.YMm, place.YMm + moved.UpMm, 9);
    }
}
