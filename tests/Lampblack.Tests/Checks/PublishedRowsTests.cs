using System;
using System.Linq;
using Lampblack.Checks;
using Lampblack.Desks;
using Lampblack.Findings;
using Xunit;
using static Lampblack.Tests.Checks.CheckedDesk;

namespace Lampblack.Tests.Checks;

/// <summary>
/// Published values beside what the rules make of them, one test to a row of our table of facts; each names its source.
/// <c>derived</c> is arithmetic on a formula that is named, and <c>from memory</c> is a standard whose text was not at hand.
/// </summary>
public sealed class PublishedRowsTests
{
    [Theory]
    [InlineData(700, 16, 3.258)] // row 1; derived: h = 2 D tan(a/2)
    [InlineData(500, 22, 3.200)] // row 2; derived, the same
    [InlineData(1000, 15, 4.363)] // row 4; derived, the same
    public void An_angle_gives_a_height(double distance, double minutes, double expected) =>
        Assert.Equal(expected, Legibility.HeightMm(distance, minutes), 0.002);

    // Row 3; NUREG-0700 Rev. 3, 11.4.1.5-1.
    [Fact]
    public void Factors_of_a_control_room_standard_give_2_80_and_4_20_at_700()
    {
        var (least, preferred) = Legibility.ByFactor(700);
        Assert.Equal(2.80, least, 0.005);
        Assert.Equal(4.20, preferred, 0.005);
    }

    // Row 4; the same clause beside the formula: its 15 minutes by factor are 13.75, and the two rules must be told apart.
    [Fact]
    public void Fifteen_minutes_by_angle_and_by_factor_differ()
    {
        Assert.Equal(4.000, Legibility.ByFactor(1000).LeastMm, 0.002);
        Assert.Equal(4.363, Legibility.HeightMm(1000, 15), 0.002);
        Assert.Equal(13.75, Legibility.ArcMinutes(1000, 4), 0.01);
    }

    // Row 5; ISO 9241-3 as quoted by a display maker: 155 to 175 heights.
    [Fact]
    public void Letters_of_4_are_read_from_620_to_700()
    {
        var (nearest, farthest) = Legibility.IsoDistanceMm(4);
        Assert.Equal(620, nearest, 1.0);
        Assert.Equal(700, farthest, 1.0);
    }

    // Row 6; DIN 4844-1: L / 300.
    [Fact]
    public void A_sign_three_metres_away_has_letters_of_10() => Assert.Equal(10, Legibility.SignHeightMm(3000), 0.01);

    // Row 7; DOD-HDBK-791 6-5.3.2.3, light on dark.
    [Fact]
    public void Light_letters_of_4_have_strokes_of_0_5_to_0_571()
    {
        var (thin, thick) = Legibility.BestStrokeMm(4, isLightOnDark: true);
        Assert.Equal(0.500, thin, 0.001);
        Assert.Equal(0.571, thick, 0.001);
    }

    // Row 8; DOD-HDBK-791 6-5.3.2.3, dark on light.
    [Fact]
    public void Dark_letters_of_3_have_strokes_of_0_5() => Assert.Equal(0.50, Legibility.BestStrokeMm(3, isLightOnDark: false).ThickMm, 0.01);

    // Row 9; MIL-STD-1472E 5.4.2.1.3.5.
    [Fact]
    public void A_lit_digit_of_4_8_is_3_2_wide_with_strokes_of_0_48()
    {
        var (width, stroke) = Legibility.LitDigitMm(4.8);
        Assert.Equal(3.2, width, 0.01);
        Assert.Equal(0.48, stroke, 0.01);
    }

    // Row 10; NUREG-0700 Rev. 2 11.3.1.1-4 and HF-STD-001B: a quarter from size to size.
    [Fact]
    public void Three_tiers_from_3_are_3_and_3_75_and_4_69()
    {
        var tiers = Legibility.TiersMm(3, 3);
        Assert.Equal([3.0, 3.75, 4.69], tiers.Select(mm => Math.Round(mm, 2, MidpointRounding.AwayFromZero)));
    }

    // Row 11; MIL-STD-1472 editions C to F, from memory.
    [Theory]
    [InlineData(500, 2.3)]
    [InlineData(501, 4.7)]
    [InlineData(600, 4.7)]
    [InlineData(1500, 9.4)]
    public void Bands_of_distance_have_their_heights(double distance, double expected) => Assert.Equal(expected, Legibility.BandHeightMm(distance));

    // Rows 12 to 15; NUREG-0700 Rev. 3 table 11.5, MIL-STD-1472E table VII.
    [Theory]
    [InlineData(ControlKind.Toggle, ControlKind.Toggle, 19)]
    [InlineData(ControlKind.PushButton, ControlKind.Toggle, 13)]
    [InlineData(ControlKind.LegendSwitch, ControlKind.PushButton, 50)]
    [InlineData(ControlKind.Knob, ControlKind.Selector, 25)]
    public void Pairs_of_kinds_have_their_distance_either_way(ControlKind one, ControlKind other, double expected)
    {
        Assert.Equal(expected, SpacingTable.Least(one, other).Mm);
        Assert.Equal(expected, SpacingTable.Least(other, one).Mm);
    }

    // Row 16; the seven by seven part of NUREG-0700 Rev. 3 table 11.5.
    [Fact]
    public void The_table_of_distances_is_symmetric()
    {
        var kinds = Enum.GetValues<ControlKind>().Where(kind => SpacingTable.TabledMm(kind, kind) is not null).ToList();
        Assert.Equal(7, kinds.Count);
        Assert.All(kinds, one => Assert.All(kinds, other => Assert.Equal(SpacingTable.TabledMm(one, other), SpacingTable.TabledMm(other, one))));
    }

    // Row 17; MIL-STD-1472E beside figure 4: 24 where always in sight, 12 where not.
    [Theory]
    [InlineData(24, true, true)]
    [InlineData(25, true, false)]
    [InlineData(12, false, true)]
    [InlineData(13, false, false)]
    [InlineData(3, true, true)]
    [InlineData(2, true, false)]
    public void A_selector_has_no_more_positions_than_are_told_apart(int count, bool visible, bool expected) =>
        Assert.Equal(expected, SelectorFigures.CountIsFine(count, visible));

    // Row 18; MIL-STD-1472E figure 4: 15 degrees or more. Twelve positions over 330 degrees are 30 apart.
    [Theory]
    [InlineData(330.0 / 11, true)]
    [InlineData(15, true)]
    [InlineData(14.9, false)]
    [InlineData(10, false)]
    [InlineData(90, true)]
    [InlineData(90.1, false)]
    public void A_selector_steps_far_enough(double step, bool expected) => Assert.Equal(expected, SelectorFigures.StepIsFine(step));

    // Row 19; a 16 mm push-button's data sheet, p. 25: 19 mm from middle to middle.
    [Fact]
    public void Buttons_of_16_stand_19_apart_and_not_18_9() => Turns(
        "pitch-small", Severity.Warn, pitch => Toml(Control("button-16-momentary", 50, 60) + Control("button-16-latching", 50 + pitch, 60)), 19, 18.9);

    // Row 20; MIL-HDBK-759B Notice 2, 5.2.2.3.1.4.1: steps of 1, 2 or 5; 0 to 300 with at most ten numbers.
    [Fact]
    public void A_scale_to_300_is_numbered_by_50_and_marked_by_10() => Assert.Equal((50, 10), DialFigures.StepsFor(300, 10));

    // Row 21; the same clause, and ASME B40.100. The reader tells it.
    [Theory]
    [InlineData(30)]
    [InlineData(2.5)]
    public void A_step_that_is_not_1_2_or_5_is_told(double step) => Assert.Contains(
        DeskReader.Read("desk.toml", System.Text.Encoding.UTF8.GetBytes(Toml($"[[panel.dial]]\nat = [50, 50]\nradius = 20\nfrom = 0\nto = 300\nmajor = {N(step)}\n"))).Findings,
        finding => finding.Code == "dial-step");

    // Row 22; MIL-HDBK-759B Notice 2, 5.2.2.3.1.4.1: at most nine.
    [Fact]
    public void Nine_marks_between_numbers_are_read_and_ten_are_not()
    {
        Assert.Equal(9, DialFigures.MostBetween);
        Turns("dial-marks-many", Severity.Warn, major => Toml($"[[panel.dial]]\nat = [100, 60]\nradius = 40\nfrom = 0\nto = {N(major * 2)}\nmajor = {N(major)}\nminor = 1\n"), 10, 11);
    }

    // Row 23; GOST 27626-88, radius over 15 to 30 mm; the standard allows 0.2 mm in length.
    [Fact]
    public void A_scale_of_radius_25_has_marks_of_4_and_of_2_to_3()
    {
        var size = DialFigures.MarksFor(25);
        Assert.Equal((4.0, 1.2, 2.0, 3.0, 0.4), (size.MajorLengthMm, size.MajorWidthMm, size.MinorShortestMm, size.MinorLongestMm, size.MinorWidthMm));
    }

    // Rows 24 and 25; GOST 27626-88, scale length over 100 to 150 mm; the arc is derived.
    [Fact]
    public void A_scale_of_120_has_5_to_8_numbers_and_so_has_one_of_270_degrees_at_radius_30()
    {
        Assert.Equal((5, 8), DialFigures.NumbersFor(120));
        Assert.Equal(141.4, DialFigures.ArcMm(30, 270), 0.1);
        Assert.Equal((5, 8), DialFigures.NumbersFor(DialFigures.ArcMm(30, 270)));
    }

    // Row 26; makers' density of 1.19 g/cm3.
    [Fact]
    public void A_plate_of_200_by_100_by_3_weighs_71_4_grams() => Assert.Equal(71.4, Acrylic.MassGrams(200, 100, 3), 0.1);

    // Row 27; a maker's example: 48 in over 100 degrees Fahrenheit at 0.00004 grow 0.192 in.
    [Fact]
    public void Four_feet_grow_by_0_192_inch_over_100_degrees_Fahrenheit() =>
        Assert.Equal(0.192, Acrylic.GrowthMm(48 * 25.4, 100 / 1.8, 4e-5 * 1.8) / 25.4, 0.001);

    // Row 28; 7e-5 per kelvin, from memory; derived.
    [Fact]
    public void Three_hundred_millimetres_grow_by_0_63_over_30_kelvins() => Assert.Equal(0.63, Acrylic.GrowthMm(300, 30, 7e-5), 0.001);

    // Row 29; Roark's Formulas, 7th edition, table 11.4, case 1b.
    [Fact]
    public void A_plate_gives_way_as_the_handbook_says() => Assert.Equal(1, Acrylic.DeflectionMm(200, 100, 3, 10, 3200) / 0.2089, 0.005);

    // Row 30; the same, contact of 5 mm.
    [Fact]
    public void A_plate_is_stressed_as_the_handbook_says() => Assert.Equal(1, Acrylic.StressMegapascals(200, 100, 3, 10, 5) / 2.263, 0.005);

    // Row 31; the same, contact smaller than half the thickness.
    [Fact]
    public void A_small_contact_counts_as_a_larger_one()
    {
        Assert.Equal(1.2308, Acrylic.EvenRadiusMm(1, 3), 0.0001);
        Assert.Equal(1, Acrylic.StressMegapascals(200, 100, 3, 10, 1) / 3.230, 0.005);
    }

    // Row 32; the formula: the cube of the thickness.
    [Fact]
    public void A_plate_of_2_bends_3_375_times_as_far_as_one_of_3() =>
        Assert.Equal(3.375, Acrylic.DeflectionMm(200, 100, 2, 10) / Acrylic.DeflectionMm(200, 100, 3, 10), 0.003);

    // Row 33; Navier's double series for a load in the middle, summed here with Poisson's ratio 0.3; the table is within 0.1 % of it.
    [Theory]
    [InlineData(1, 0.12668)]
    [InlineData(2, 0.18044)]
    public void The_handbooks_factors_agree_with_the_series(double ratio, double expected)
    {
        double sum = 0;
        for (var m = 1; m < 400; m += 2)
        {
            for (var n = 1; n < 400; n += 2)
            {
                sum += 1 / Math.Pow((m * m / (ratio * ratio)) + (n * n), 2);
            }
        }

        // w = 4 W b^2 / (pi^4 D (a/b)) times the sum, and D = E t^3 / (12 (1 - 0.09)).
        var series = 4 * 12 * 0.91 / Math.Pow(Math.PI, 4) / ratio * sum;
        Assert.Equal(1, series / expected, 0.001);
        Assert.Equal(1, Acrylic.Factors(ratio).Alpha / series, 0.001);
    }
}
