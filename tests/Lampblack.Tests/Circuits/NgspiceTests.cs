using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Circuits;
using Xunit;

namespace Lampblack.Tests.Circuits;

/// <summary>Designed circuits against ngspice.</summary>
public sealed class NgspiceTests
{
    /// <summary>Colour, supply, lamps, wanted current; between them strings of 1 to 10 lamps, alone and in parallel.</summary>
    private static readonly (DiodeCurve Curve, double Volts, int Count, double Amperes)[] Designs =
    [
        (DiodeCurve.Red, 5, 1, 0.015), (DiodeCurve.Red, 5, 7, 0.02), (DiodeCurve.Red, 12, 4, 0.015), (DiodeCurve.Red, 12, 23, 0.01),
        (DiodeCurve.Red, 24, 7, 0.015), (DiodeCurve.Red, 24, 60, 0.005), (DiodeCurve.White, 5, 12, 0.015), (DiodeCurve.White, 12, 2, 0.02),
        (DiodeCurve.White, 12, 31, 0.02), (DiodeCurve.White, 24, 6, 0.02), (DiodeCurve.White, 24, 40, 0.02), (DiodeCurve.Amber, 5, 2, 0.02),
        (DiodeCurve.Amber, 12, 13, 0.015), (DiodeCurve.Amber, 24, 50, 0.02), (DiodeCurve.Green, 12, 10, 0.01), (DiodeCurve.Blue, 24, 11, 0.01),
    ];

    [Fact]
    public void Each_string_s_current_is_what_ngspice_computes_with_the_supply_10_percent_off_either_way()
    {
        var cases = new List<(DiodeString String, double SupplyVolts)>();
        foreach (var (curve, volts, count, amperes) in Designs)
        {
            var plan = CircuitDesign.Of(Wishes.Diodes(volts, curve, count, amperes));
            Assert.DoesNotContain(plan.Issues, issue => issue is NoHeadroom or ValueUnusable);
            cases.AddRange(from kind in plan.Channels[0].Strings from share in new[] { 0.9, 1, 1.1 } select (kind.String, share * volts));
        }

        // All lengths from 1 to 7 are among them.
        Assert.Empty(Enumerable.Range(1, 7).Except(cases.Select(one => one.String.DiodeCount)));
        var theirs = Ngspice.Currents(cases);
        foreach (var ((one, volts), amperes) in cases.Zip(theirs))
        {
            Assert.InRange(amperes, 1e-4, 0.05);
            Assert.True(
                Math.Abs(one.AmperesAt(volts) - amperes) <= 0.005 * amperes,
                FormattableString.Invariant($"{one.DiodeCount} in series, {one.ResistorOhms} ohms, {volts} V: ours {one.AmperesAt(volts)} A, ngspice {amperes} A"));
        }
    }

    [Fact]
    public void The_textbook_formula_would_not_pass_this_check()
    {
        // Three white lamps at 12 V less a twentieth: the formula with the volts at 20 mA is off by a tenth and more.
        var plan = CircuitDesign.Of(Wishes.Diodes(12, DiodeCurve.White, 3, 0.02));
        var one = plan.Channels[0].Strings[0].String;
        var formula = (11.4 - (3 * one.Curve.VoltsAt(0.02))) / one.ResistorOhms;
        Assert.True(Math.Abs(formula - Ngspice.Currents([(one, 11.4)])[0]) > 0.05 * formula, "the diode equation is needed");
    }

    [Theory]
    [InlineData(0.05)]
    [InlineData(0.25)]
    [InlineData(0.9)]
    public void Switched_lamps_get_their_share_of_the_current(double duty)
    {
        var plan = CircuitDesign.Of(Wishes.Diodes(12, DiodeCurve.White, 7, 0.02));
        var channel = plan.Channels[0];
        var mean = Ngspice.MeanAmperes(channel, 12, 5, plan.Dimming.PwmHertz, duty);
        Assert.Equal(duty * channel.NominalAmperes, mean, 0.01 * duty * channel.NominalAmperes);
    }
}
