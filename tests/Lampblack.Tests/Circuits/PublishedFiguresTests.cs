using System.Linq;
using Lampblack.Circuits;
using Xunit;

namespace Lampblack.Tests.Circuits;

/// <summary>Figures that others have worked out, each with its source (docs/sources.md).</summary>
public sealed class PublishedFiguresTests
{
    /// <summary>A diode whose volts hardly depend on its current, as the textbook formula (Vs - n Vf) / I has it.</summary>
    private static DiodeCurve Flat(double volts, double amperes) => DiodeCurve.Through(volts, amperes, 0.2, 0);

    // 5 V, 2.0 V, 20 mA: the worked example of published resistor calculators. The others: the same formula, worked out by hand.
    [Theory]
    [InlineData(ResistorSeries.E12, 5, 2.0, 1, 0.020, 150, 0.0200, 0.0600)]
    [InlineData(ResistorSeries.E12, 5, 3.2, 1, 0.020, 100, 0.0180, 0.0324)]
    [InlineData(ResistorSeries.E24, 5, 3.2, 1, 0.020, 91, 0.01978, 0.0356)]
    [InlineData(ResistorSeries.E12, 12, 3.2, 3, 0.020, 120, 0.0200, 0.0480)]
    [InlineData(ResistorSeries.E12, 12, 2.0, 5, 0.015, 150, 0.01333, 0.02667)]
    [InlineData(ResistorSeries.E12, 24, 3.1, 6, 0.020, 270, 0.0200, 0.1080)]
    [InlineData(ResistorSeries.E12, 5, 2.1, 1, 0.005, 680, 0.004265, 0.01237)]
    [InlineData(ResistorSeries.E24, 5, 2.1, 1, 0.005, 620, 0.004677, 0.01356)]
    [InlineData(ResistorSeries.E12, 3.3, 2.0, 1, 0.004, 330, 0.003939, 0.005121)]
    public void Resistors_are_those_of_the_textbook_formula(ResistorSeries series, double supply, double volts, int count, double wanted, double ohms, double amperes, double watts)
    {
        // No tolerances: the formula knows none.
        var feed = new SingleDiodes(Flat(volts, wanted), wanted, 1) { SpreadVolts = 0 };
        var wish = new CircuitWish(supply, [new("lamps", feed, count, IsDimmed: false)]) { Series = series, SupplyToleranceShare = 0, ResistorToleranceShare = 0 };
        var kind = Assert.Single(Assert.Single(CircuitDesign.Of(wish).Channels).Strings);
        Assert.Equal((count, 1, ohms), (kind.String.DiodeCount, kind.StringCount, kind.String.ResistorOhms));
        Assert.Equal(amperes, kind.NominalAmperes, amperes * 2e-3);
        Assert.Equal(watts, kind.ResistorWatts, watts * 4e-3);
        Assert.True(kind.RatingWatts >= 2 * kind.ResistorWatts, "a resistor is made for twice what it gets");
    }

    // n Vf above Vs: no string.
    [Fact]
    public void Two_lamps_of_3_2_V_are_not_strung_at_5_V()
    {
        var plan = CircuitDesign.Of(Wishes.Diodes(5, Flat(3.2, 0.015), 2));
        Assert.Equal((1, 2), (plan.Channels[0].Strings[0].String.DiodeCount, plan.Channels[0].Strings[0].StringCount));
    }

    // IEC 60063 as lists of preferred values tell it: 43 is one (a list with 42 is wrong), 499 and 976 are.
    [Fact]
    public void Preferred_values_are_those_of_IEC_60063()
    {
        Assert.Equal([10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82], PreferredValues.Decade(ResistorSeries.E12));
        Assert.Equal((24, 96), (PreferredValues.Decade(ResistorSeries.E24).Length, PreferredValues.Decade(ResistorSeries.E96).Length));
        Assert.Contains(43, PreferredValues.Decade(ResistorSeries.E24));
        Assert.DoesNotContain(42, PreferredValues.Decade(ResistorSeries.E24));
        Assert.Equal([931, 953, 976], PreferredValues.Decade(ResistorSeries.E96)[^3..]);
        Assert.Contains(499, PreferredValues.Decade(ResistorSeries.E96));
    }

    // Film resistors: full power to 70 °C, a straight line to nothing at 155 °C. From memory.
    [Theory]
    [InlineData(25, 1)]
    [InlineData(70, 1)]
    [InlineData(100, 0.647)]
    [InlineData(155, 0)]
    public void Resistors_bear_less_in_warm_air(double celsius, double share) => Assert.Equal(share, Ratings.ResistorShare(celsius), 1e-3);

    // Published tables of American wire gauges: diameter, area, ohms for each kilometre at 20 °C.
    [Theory]
    [InlineData(20, 0.8118, 0.5176, 33.3)]
    [InlineData(22, 0.6438, 0.3255, 53.0)]
    [InlineData(24, 0.5106, 0.2047, 84.2)]
    [InlineData(26, 0.4049, 0.1288, 134)]
    [InlineData(28, 0.3211, 0.0810, 213)]
    [InlineData(30, 0.2546, 0.0509, 339)]
    public void Wires_are_those_of_the_tables(int awg, double diameter, double area, double ohms)
    {
        var gauge = new WireGauge(awg);
        Assert.Equal(diameter, gauge.DiameterMm, diameter * 1e-3);
        Assert.Equal(area, gauge.AreaMm2, area * 1e-3);
        Assert.Equal(ohms, gauge.Ohms(1_000_000), ohms * 2e-3);
    }

    // Worked out from the table by hand.
    [Theory]
    [InlineData(24, 5000, 1, 0.842)]
    [InlineData(28, 1000, 2, 0.852)]
    public void Drops_are_there_and_back(int awg, double lengthMm, double amperes, double volts) =>
        Assert.Equal(volts, new WireGauge(awg).DropVolts(lengthMm, amperes), volts * 5e-3);

    // A load of three quarters of the fuse's rating at most: from memory.
    [Fact]
    public void Fuses_are_a_third_larger_than_the_load_and_no_more_than_the_wire_bears()
    {
        Assert.Equal(1, Ratings.FuseAmperes(0.74));
        Assert.Equal(1.25, Ratings.FuseAmperes(0.75));
        Assert.Null(Ratings.FuseAmperes(7.5));
        foreach (var units in Enumerable.Range(1, 200))
        {
            var plan = CircuitDesign.Of(Wishes.Of(12, Wishes.Strip(12, 0.02, 3, units * 3)));
            var fuse = plan.Wire.FuseAmperes!.Value;
            Assert.InRange(plan.Supply.HighestAmperes, 0, 0.75 * fuse);
            Assert.InRange(fuse, 0, plan.Wire.Gauge.SafeAmperes);

            // Screw clamps take from 0.2 mm² on: from memory.
            Assert.True(plan.Wire.Gauge.AreaMm2 >= 0.2, $"AWG {plan.Wire.Gauge.Awg}");
        }
    }

    // 60 V of direct current: IEC 60598-1 8.2.3 and IEC 62282-5-1. 60.1 V was to be told of, 48 V not.
    [Theory]
    [InlineData(60.1, 0, true)]
    [InlineData(60, 0, false)]
    [InlineData(48, 0.1, false)]
    [InlineData(56, 0.1, true)]
    public void A_supply_stays_within_safe_extra_low_voltage(double volts, double tolerance, bool told) => Assert.Equal(
        told,
        CircuitDesign.Of(Wishes.Diodes(volts, DiodeCurve.Red, 3) with { SupplyToleranceShare = tolerance }).Issues.Any(issue => issue is SupplyNotSelv));

    // USB 2.0 gives 500 mA: 24 lamps of 20 mA and 50 mA for the controller are too much.
    [Theory]
    [InlineData(24, true)]
    [InlineData(22, false)]
    public void A_USB_port_s_500_mA_are_not_overdrawn(int lamps, bool over)
    {
        var wish = Wishes.Of(5, Wishes.Strip(5, 0.02, 1, lamps)) with { SupplyAmperes = 0.5, OtherAmperes = 0.05, SupplyToleranceShare = 0.05 };
        var finding = Assert.Single(CircuitFindings.Of(CircuitDesign.Of(wish)), one => one.Code == "supply-too-small");
        Assert.Equal(over ? Lampblack.Findings.Severity.Stop : Lampblack.Findings.Severity.Warn, finding.Severity);
    }

    // WS2812: 30 µs for each pixel and 280 µs behind the last; 546 pixels fit 60 frames a second.
    [Fact]
    public void A_hundred_pixels_take_3_28_ms_to_tell()
    {
        Assert.Equal(3.28e-3, CircuitDesign.Of(Wishes.Of(5, Wishes.Pixels(100))).Channels[0].Pixels!.FrameSeconds, 1e-9);
        Assert.True(CircuitDesign.Of(Wishes.Of(5, Wishes.Pixels(546))).Channels[0].Pixels!.FrameSeconds <= 1 / 60.0);
        Assert.True(CircuitDesign.Of(Wishes.Of(5, Wishes.Pixels(547))).Channels[0].Pixels!.FrameSeconds > 1 / 60.0);
    }

    // 0.7 of 5 V: from memory; 3.3 V is less.
    [Theory]
    [InlineData(3.3, true)]
    [InlineData(5, false)]
    public void Pixels_get_a_level_shifter_where_the_pin_is_too_low(double volts, bool needed)
    {
        var pixels = CircuitDesign.Of(Wishes.Of(5, Wishes.Pixels(10)) with { ControllerVolts = volts }).Channels[0].Pixels!;
        Assert.Equal(3.5, pixels.DataVolts, 1e-9);
        Assert.Equal(needed, pixels.NeedsShifter);
    }

    // IEEE 1789-2015 as published formulas give it: 0.08 f and 0.0333 f from 90 Hz up, 0.025 f and 0.01 f below.
    [Theory]
    [InlineData(490, 39.2, 16.3)]
    [InlineData(50, 1.25, 0.5)]
    [InlineData(100, 8, 3.33)]
    [InlineData(976.6, 78.1, 32.5)]
    public void Flicker_limits_are_those_of_IEEE_1789(double hertz, double lowRisk, double noEffect)
    {
        Assert.Equal(lowRisk, Flicker.LowRiskPercent(hertz), 0.05);
        Assert.Equal(noEffect, Flicker.NoEffectPercent(hertz), 0.05);
    }

    [Theory]
    [InlineData(490, FlickerVerdict.Flickers)]
    [InlineData(1000, FlickerVerdict.Flickers)]
    [InlineData(1250, FlickerVerdict.Flickers)]
    [InlineData(2000, FlickerVerdict.LowRisk)]
    [InlineData(3100, FlickerVerdict.NoEffect)]
    public void Light_switched_all_the_way_is_judged_by_its_frequency(double hertz, FlickerVerdict verdict)
    {
        Assert.Equal(verdict, Flicker.Of(hertz));
        var plan = CircuitDesign.Of(Wishes.Diodes(12, DiodeCurve.Red, 3) with { PwmHertz = hertz });
        Assert.Equal(verdict, plan.Dimming.Verdict);
        Assert.Equal(verdict == FlickerVerdict.Flickers, plan.Issues.Any(issue => issue is PwmFlickers));
    }

    [Fact]
    public void Where_nothing_is_asked_light_is_switched_3906_times_a_second_in_4096_steps() => Assert.Equal(
        new DimmingPlan(3906.25, 4096, FlickerVerdict.NoEffect), CircuitDesign.Of(Wishes.Diodes(12, DiodeCurve.Red, 3)).Dimming);

    // The rows of the collected facts, computed there by an own program and by ngspice.
    [Theory]
    [InlineData("red", 1, 5, 220, 0.0141544)]
    [InlineData("red", 4, 12, 300, 0.0147887)]
    [InlineData("red", 5, 12, 180, 0.0142698)]
    [InlineData("white", 1, 5, 120, 0.0148719)]
    [InlineData("white", 3, 12, 110, 0.0194309)]
    [InlineData("white", 3, 12.6, 110, 0.0233862)]
    [InlineData("white", 3, 11.4, 110, 0.0156142)]
    [InlineData("white", 3, 10.5, 120, 0.0097263)]
    public void Currents_are_those_that_a_circuit_simulator_gave(string colour, int count, double volts, double ohms, double amperes) =>
        Assert.Equal(amperes, new DiodeString(colour == "red" ? DiodeCurve.Red : DiodeCurve.White, count, ohms).AmperesAt(volts), amperes * 1e-3);
}
