using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Findings;
using Lampblack.Printers;
using Xunit;

namespace Lampblack.Tests.Calibration;

/// <summary>Readings that do not fit together: the odd one is named and nothing is stored.</summary>
public sealed class OddReadingsTests
{
    [Fact]
    public void One_turned_sign_is_named_wherever_it_is()
    {
        foreach (var (seed, place) in Enumerable.Range(1, 25).SelectMany(seed => Enumerable.Range(0, 8).Select(place => (seed, place))))
        {
            var read = Read(seed);
            var (axis, scale) = (place % 2, place / 2);
            if (Math.Abs(read[scale][axis]) < 0.7)
            {
                continue; // a sign of so small a number is hardly more than a reading error
            }

            read[scale][axis] = -read[scale][axis];
            var finding = Evening.Stop(Evening.NewFile, Typed(read), "readings-contradict");
            Assert.Contains($"{Evening.Scales[scale].Name} {(axis == 0 ? "x" : "y")} was read as", finding.Message, StringComparison.Ordinal);
            Assert.Contains("the sign looks turned round", finding.Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Two_swapped_places_are_named()
    {
        var named = 0;
        foreach (var seed in Enumerable.Range(1, 40))
        {
            var read = Read(seed);
            if (Math.Abs(read[0][0] - read[2][0]) + Math.Abs(read[0][1] - read[2][1]) < 1.6)
            {
                continue; // hardly turned: the places read alike
            }

            (read[0], read[2]) = (read[2], read[0]);
            var finding = Evening.Stop(Evening.NewFile, Typed(read), "readings-contradict");
            Assert.Contains("NE and SE look swapped", finding.Message, StringComparison.Ordinal);
            named++;
        }

        Assert.InRange(named, 5, 40);
    }

    [Fact]
    public void A_number_ten_times_too_large_is_named_with_its_point()
    {
        var finding = Evening.Stop(Evening.NewFile, Evening.Scale("NE:x=3,y=0", "NW:x=0.3,y=0", "SE:x=0.3,y=0", "SW:x=0.3,y=0"), "readings-contradict");
        Assert.Contains("NE x", finding.Message, StringComparison.Ordinal);
        Assert.Contains("decimal point", finding.Hint, StringComparison.Ordinal);
    }

    [Fact]
    public void Swapped_directions_are_named()
    {
        var finding = Evening.Stop(Evening.NewFile, Evening.Scale("NE:x=1.5,y=-1.2", "NW:x=1.5,y=-1.2", "SE:x=-1.2,y=1.5", "SW:x=1.5,y=-1.2"), "readings-contradict");
        Assert.Contains("x and y of SE look swapped", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_places_that_disagree_are_both_named()
    {
        var finding = Evening.Stop(Evening.NewFile, Evening.Scale("NE:x=3,y=0", "SE:x=-3,y=0"), "readings-contradict");
        Assert.Contains("NE x", finding.Hint, StringComparison.Ordinal);
        Assert.Contains("SE x", finding.Hint, StringComparison.Ordinal);
    }

    [Fact]
    public void Dots_that_do_not_fit_the_scales_are_named()
    {
        var finding = Evening.Stop(
            Evening.NewFile,
            Evening.Scale("NE:x=0.4,y=0", "NW:x=0.4,y=0", "SE:x=0.4,y=0.1", "SW:x=0.4,y=0") with { Dots = ["10-15:N=0,E=0,S=0,W=4"] },
            "readings-contradict");
        Assert.Contains("E/W of 10-15", finding.Message, StringComparison.Ordinal);
        Assert.Contains("rows look swapped", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Opposite_rows_that_both_shine_are_taken_while_they_are_loose_only()
    {
        var learned = Evening.Learn(Evening.NewFile, Evening.Dot("6-21:N=3,E=0,S=1,W=0"));
        Assert.Equal("dots-loose", Assert.Single(learned.Findings).Code);
        Assert.Equal(0.1, learned.Value.File.Register[0].Readings.Select(reading => reading.UpMm).OfType<double>().Single(), 1e-9);

        var finding = Evening.Stop(Evening.NewFile, Evening.Dot("6-21:N=5,E=0,S=2,W=0"), "dots-contradict");
        Assert.Contains("row S is the odd one", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_row_that_was_not_read_leaves_the_other_unsure()
    {
        var learned = Evening.Learn(Evening.NewFile, Evening.Dot("6-21:N=0,E=2"));
        Assert.Equal("dots-half", Assert.Single(learned.Findings).Code);
        var reading = Assert.Single(learned.Value.File.Register[0].Readings);
        Assert.Equal((0.25, null), (reading.RightMm, reading.UpMm));
        Assert.True(reading.SdMm > 0.1);
        Assert.Equal("answer-missing", Assert.Single(Evening.Learn(Evening.NewFile, Evening.Dot("6-21:N=0")).Findings, one => one.Severity == Severity.Stop).Code);
    }

    [Fact]
    public void Six_dots_are_out_of_range_and_lead_to_the_scales()
    {
        Assert.Contains("--reading", Evening.Stop(Evening.NewFile, Evening.Dot("6-21:N=6,E=0,S=0,W=0"), "dots-range").Hint, StringComparison.Ordinal);
        var beside = Evening.Learn(Evening.NewFile, Evening.Scale("NE:x=0,y=0.9") with { Dots = ["6-21:N=6,E=0,S=0,W=0"] });
        Assert.Equal((Severity.Note, "dots-range"), (Assert.Single(beside.Findings).Severity, beside.Findings[0].Code));
        Assert.Single(beside.Value.File.Register);
    }

    [Theory]
    [InlineData(0.009, 0.0)]
    [InlineData(0.0, -0.012)]
    [InlineData(-0.015, -0.015)]
    public void A_back_that_was_scaled_is_refused(double stretchX, double stretchY)
    {
        var printer = new Evening(0.3, -0.2, 0.001, stretchX, stretchY);
        var finding = Evening.Stop(Evening.NewFile, Evening.Scale(printer.Readings(Evening.NewFile, () => 0.03)), "readings-scaled");
        Assert.Contains("actual size", finding.Hint, StringComparison.Ordinal);
    }

    [Fact]
    public void A_small_stretch_is_stored()
    {
        var printer = new Evening(0.3, -0.2, 0.001, 0.003, 0.002);
        Assert.Single(Evening.Fine(Evening.NewFile, Evening.Scale(printer.Readings(Evening.NewFile, () => 0))).File.Register);
    }

    [Fact]
    public void A_sheet_made_with_an_older_register_is_recognised_and_read_right_when_told()
    {
        var printer = new Evening(1.8, -1.5, 0.004);
        var first = Evening.Scale(printer.Readings(Evening.NewFile, () => 0));
        var file = Evening.Fine(Evening.NewFile, first).File;

        // The very sheet of before typed again: it was made with register 0, not 1.
        var finding = Evening.Stop(file, first, "register-apart");
        Assert.Contains("--register 0", finding.Hint, StringComparison.Ordinal);
        var told = Evening.Fine(file, first with { Register = "0" });
        Assert.Equal(1.8, RegisterEstimate.Of(told.File).ShiftRightMm, 0.05);
    }

    [Fact]
    public void A_sheet_far_from_all_earlier_ones_is_stored_with_a_warning()
    {
        var printer = new Evening(0.2, 0.1, 0);
        var file = Evening.Fine(Evening.NewFile, Evening.Scale(printer.Readings(Evening.NewFile, () => 0))).File;
        var moved = new Evening(2.4, 0.1, 0);
        var learned = Evening.Learn(file, Evening.Scale(moved.Readings(file, () => 0)) with { Register = "1" });
        Assert.Equal((Severity.Warn, "register-apart"), (Assert.Single(learned.Findings).Severity, learned.Findings[0].Code));
        Assert.Equal(2, learned.Value.File.Revision);
    }

    [Fact]
    public void The_answer_tells_how_far_off_how_sure_and_what_comes_next()
    {
        var printer = new Evening(0.8, -0.4, -0.003);
        var one = Evening.Fine(Evening.NewFile, Evening.Dot("10-15:N=0,E=5,S=3,W=0"));
        Assert.True(one.Register!.WantsAnother);
        Assert.Contains(one.Words, word => word.StartsWith("Another sheet is worth it", StringComparison.Ordinal));

        var file = Evening.NewFile;
        for (var sheet = 0; sheet < 4; sheet++)
        {
            file = Evening.Fine(file, Evening.Scale(printer.Readings(file, () => 0))).File;
        }

        var many = Evening.Fine(file, Evening.Scale(printer.Readings(file, () => 0)));
        Assert.False(many.Register!.WantsAnother);
        Assert.Contains("register 5", string.Join(' ', many.Words), StringComparison.Ordinal);
        Assert.Equal(0, many.Register.OnSheetRightMm, 0.05);
        Assert.Contains("0.80 mm to the right", string.Join(' ', many.Words).Replace("0.79", "0.80", StringComparison.Ordinal).Replace("0.81", "0.80", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    /// <summary>Readings of a made-up printer at the four scales, x and y each.</summary>
    private static List<double[]> Read(int seed)
    {
        var chance = new Chance((ulong)seed + 100);
        var printer = new Evening(chance.Between(-2, 2), chance.Between(-2, 2), chance.Between(-0.5, 0.5) * Math.PI / 180);
        return
        [
            .. Evening.Scales.Select(scale => printer.Off(Evening.NewFile, scale.X, scale.Y))
                .Select(off => new[] { off.Right + chance.Normal(0.05), off.Up + chance.Normal(0.05) }),
        ];
    }

    private static TypedAnswers Typed(List<double[]> read) => Evening.Scale(Evening.Scales.Zip(read, (scale, off) =>
        string.Create(CultureInfo.InvariantCulture, $"{scale.Name}:x={off[0]:+0.0;-0.0;0.0},y={off[1]:+0.0;-0.0;0.0}")));

    [Fact]
    public void The_same_sheet_typed_twice_is_not_learned_twice()
    {
        var typed = Evening.Scale("NE:x=+0.6,y=-0.3", "NW:x=+0.5,y=-0.4", "SE:x=+0.8,y=-0.2", "SW:x=+0.7,y=-0.4");
        var once = Evening.Fine(Evening.NewFile, typed).File;
        Evening.Stop(once, typed, "register-twice");

        // Of a sheet that says its number it is taken.
        Assert.Equal(2, Evening.Fine(once, typed with { Register = "1" }).File.Revision);
    }
}
