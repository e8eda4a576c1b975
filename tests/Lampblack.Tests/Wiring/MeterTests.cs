using System;
using System.IO;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Firmware;
using Lampblack.Jobs;
using Lampblack.Parts;
using Lampblack.Tests.Checks;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Wiring;

/// <summary>Meters with a pointer: a pin that a timer drives, a resistor, and no light that loses its own.</summary>
public sealed class MeterTests
{
    private static readonly string One = CheckedDesk.Control("meter-round-45", 100, 100, "id = \"heat\"");

    /// <summary>PG5 and PD0 are driven by the timer that beats the engine's time, PD3 by the second short one: 250 steps are too few for light, and enough for a pointer.</summary>
    [Theory]
    [InlineData("ATmega2560", "PG5")]
    [InlineData("ATmega328P", "PD3")]
    [InlineData("ATmega32U4", "PD0")]
    public void A_meter_takes_a_pin_that_is_too_coarse_for_light(string chip, string pin)
    {
        var (plan, findings, _) = WiredDesk.Planned(WiredDesk.Toml(One, chip), null, new DimmerNeed("board", 3906));
        Assert.DoesNotContain(findings, finding => finding.Severity != Severity.Note);
        Assert.Equal(["board", "p/heat"], plan.Controllers[0].Dimmers.Select(dimmer => dimmer.Channel));
        var meter = plan.Controllers[0].Dimmers[1];
        Assert.True(meter.IsMeter);
        Assert.Equal(pin, meter.Pin.Name);
        Assert.False(PanelTable.Of(plan.Controllers[0]).HasStop);
        var control = Assert.Single(plan.Controls);
        Assert.Equal((WiredKind.Meter, 1), (control.Kind, control.Number));
    }

    /// <summary>What the planner takes for driven the engine can drive.</summary>
    [Fact]
    public void Every_pin_that_is_given_to_light_or_meters_is_one_that_the_engine_drives() => Assert.All(
        Controllers.All.SelectMany(controller => controller.Pins.Where(facts => facts.IsFineTimer || facts.IsCoarseTimer).Select(facts => (controller.Chip, facts))),
        one => Assert.Equal(one.facts.Timer, EnginePins.TimerOf(one.Chip, one.facts.Pin)?.Timer));

    /// <summary>Where coarse pins are out, a hidden light is switched rather than a meter left out; a panel's common light stays dimmed.</summary>
    [Fact]
    public void A_second_meter_takes_a_fine_pin_from_a_light_that_can_be_switched()
    {
        var dimmers = Enumerable.Range(0, 3).Select(index => new DimmerNeed($"own {index}", 3906, $"p/legend-{index}")).Prepend(new("board", 3906)).ToArray();
        var two = One + CheckedDesk.Control("meter-round-45", 300, 100, "id = \"draught\"");
        var (plan, _, _) = WiredDesk.Planned(WiredDesk.Toml(two, "ATmega32U4"), null, dimmers);
        Assert.Equal(["board", "own 0", "own 1", "p/heat", "p/draught"], plan.Controllers[0].Dimmers.Select(dimmer => dimmer.Channel));
        Assert.Equal(["p/legend-2"], plan.Controllers[0].Indicators.Select(lamp => lamp.ItemId));
    }

    /// <summary>5.25 V over the current, over 0.95, then the next value of the series E24 (IEC 60063), all by hand.</summary>
    [Theory]
    [InlineData("", 5600)]                       // 1 mA: 5526
    [InlineData("meter-current = 0.1", 56000)]   // 55263
    [InlineData("meter-current = 5", 1200)]      // 1105
    [InlineData("meter-current = 0.5", 12000)]   // 11053
    public void Its_resistor_keeps_it_on_its_scale(string more, double ohms)
    {
        var (plan, _, needs) = WiredDesk.Planned(WiredDesk.Toml(CheckedDesk.Control("meter-round-45", 100, 100, "id = \"heat\"\n" + more)));
        var nets = WireNets.Of(plan, needs, 0.005);
        var plus = Assert.Single(nets.Nets, net => net.Role == NetRole.Signal);
        Assert.Equal(plan.Controllers[0].Dimmers[0].Pin.Header, plus.Name);
        var end = Assert.Single(plus.Terminals);
        Assert.Equal(("+", InlinePart.Resistor, ohms), (end.Terminal, end.Inline, end.InlineOhms));
        Assert.Equal("-", Assert.Single(Assert.Single(nets.Nets, net => net.Role == NetRole.Zero).Terminals).Terminal);
        Assert.Contains(FormattableString.Invariant($"ohms: {ohms:0} "), Assert.Single(ContinuityTests.Of(plan, needs, nets)).Expect, StringComparison.Ordinal);
    }

    /// <summary>USB gives 4.75 to 5.25 V (USB 2.0, chapter 7), a resistor may be 5 % off either way, a coil may have anything up to 0.2 V at the end of the scale (from memory).</summary>
    [Fact]
    public void No_pointer_passes_the_end_of_its_scale_and_each_comes_as_near_as_it_is_told()
    {
        int[] made = [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91];
        var values = Enumerable.Range(0, 6).SelectMany(power => made.Select(value => value * Math.Pow(10, power))).ToList();
        for (var step = 0; step <= 400; step++)
        {
            var amperes = 0.00005 * Math.Pow(400, step / 400.0);
            var ohms = MeterResistor.Ohms(amperes);
            var index = values.FindIndex(value => Math.Abs(value - ohms) < 1e-6 * value);
            Assert.True(index > 0, $"{ohms} is no value of E24");
            Assert.True(5.25 / (0.95 * ohms) <= amperes * (1 + 1e-9), $"{amperes} A: beyond the end with {ohms} ohms");
            Assert.True(5.25 / (0.95 * values[index - 1]) > amperes, $"{amperes} A: {values[index - 1]} would do");
            var least = 4.75 / ((1.05 * ohms) + (0.2 / amperes)) / amperes;
            Assert.Equal(least, MeterResistor.LeastShare(amperes), 1e-9);
            Assert.InRange(least, 0.667, 0.8);
        }
    }

    [Theory]
    [InlineData("", 0.001)]
    [InlineData("meter-current = 0.2", 0.0002)]
    public void A_pin_is_taken_to_carry_what_its_meter_takes(string more, double amperes)
    {
        var plan = WiredDesk.Planned(WiredDesk.Toml(CheckedDesk.Control("meter-round-45", 100, 100, "id = \"heat\"\n" + more))).Plan;
        var kept = WiringPlanFile.Read(WiringPlanFile.Written(plan)).Value!;
        Assert.Equal(amperes, Assert.Single(PinCurrents.Of(plan.Controllers[0], 0.005)).Amperes, 1e-9);
        Assert.Equal(amperes, Assert.Single(PinCurrents.Of(kept.Controllers[0], 0.005)).Amperes, 1e-9);
    }

    /// <summary>The hour counter of docs/desk-file.md may run on 12 V or the mains: such a meter is never joined to a pin, unless who writes the file says that it is a pointer.</summary>
    [Theory]
    [InlineData("", "", false)]
    [InlineData("", "meter-current = 2", true)]
    [InlineData("like = \"meter-round-45\"", "", true)]
    [InlineData("like = \"meter-96x48\"", "", false)]
    [InlineData("like = \"lamp-8mm\"", "", false)]
    public void A_meter_of_ones_own_is_moved_by_a_pin_only_where_that_is_said(string part, string more, bool isMoved)
    {
        var docs = File.ReadAllText(Path.Combine(Register.SeparatedDesk.Root, "docs", "desk-file.md"));
        var start = docs.IndexOf("[[part]]\nid = \"counter\"\nname = \"Hour counter\"\nclass = \"meter\"", StringComparison.Ordinal);
        var counter = docs[start..docs.IndexOf("```", start, StringComparison.Ordinal)].Replace("class", part + "\nclass", StringComparison.Ordinal);
        var (plan, findings, _) = WiredDesk.Planned(WiredDesk.Toml(CheckedDesk.Control("counter", 100, 100, "id = \"hours\"\n" + more), wiring: counter));
        Assert.Equal(isMoved ? ["p/hours"] : [], plan.Controllers.SelectMany(one => one.Dimmers).Select(dimmer => dimmer.Channel));
        Assert.Equal(isMoved ? ["p/hours"] : [], plan.Controls.Select(control => control.Id));
        Assert.Equal(isMoved ? [] : ["part-not-planned"], findings.Select(finding => finding.Code));
    }

    /// <summary>What is told of a meter names no controller that it has no use for; a listed one with digits has no pointer.</summary>
    [Fact]
    public void What_to_do_with_a_meter_speaks_of_no_other_controller()
    {
        var hint = Assert.Single(WiredDesk.Planned(WiredDesk.Toml(CheckedDesk.Control("meter-96x48", 100, 100))).Findings).Hint;
        Assert.Contains("never to a pin", hint, StringComparison.Ordinal);
        Assert.DoesNotContain("such a controller", hint, StringComparison.Ordinal);
        Assert.DoesNotContain("meter-current", hint, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("meter-round-45", "meter-current = 6", "value-range")]
    [InlineData("meter-96x48", "meter-current = 1", "key-unused")]
    public void A_current_that_no_pin_gives_or_no_pointer_needs_is_told(string part, string more, string code) =>
        Assert.Contains(Lampblack.Desks.DeskReader.Read("desk.toml", System.Text.Encoding.UTF8.GetBytes(WiredDesk.Toml(CheckedDesk.Control(part, 100, 100, more)))).Findings, finding => finding.Code == code);

    [Fact]
    public void It_keeps_its_pin_and_is_a_meter_still()
    {
        var first = WiredDesk.Planned(WiredDesk.Toml(One)).Plan;
        var kept = WiringPlanFile.Read(WiringPlanFile.Written(first)).Value!;
        Assert.Equal(first.Controllers[0].Dimmers, kept.Controllers[0].Dimmers);
        var more = CheckedDesk.Control("meter-round-45", 300, 100, "id = \"draught\"") + One;
        var second = WiredDesk.Planned(WiredDesk.Toml(more), kept, new DimmerNeed("board", 3906)).Plan;
        Assert.Equal(first.Controllers[0].Dimmers[0].Pin, second.Controllers[0].Dimmers.Single(dimmer => dimmer.Channel == "p/heat").Pin);
        Assert.Equal(3, second.Controllers[0].Dimmers.Length);
    }

    /// <summary>One ATmega32U4 moves five of them at most: each controller has the meters that stand with its controls, and keeps them.</summary>
    [Fact]
    public void Where_one_controller_has_too_few_pins_each_has_its_own_meters()
    {
        var toml = WiredDesk.Toml(WiredDesk.Many("meter-round-45", 8, "heat"), "ATmega32U4");
        var (plan, findings, _) = WiredDesk.Planned(toml, null, new DimmerNeed("board", 3906));
        Assert.DoesNotContain(findings, finding => finding.Severity != Severity.Note);
        Assert.Equal(2, plan.Controllers.Length);
        Assert.Equal(8, plan.Controls.Length);
        Assert.All(plan.Controls, control => Assert.Equal(control.Id, plan.Controllers[control.Controller].Dimmers[control.Number].Channel));
        Assert.Equal([5, 4], plan.Controllers.Select(controller => controller.Dimmers.Length));
        var second = WiredDesk.Planned(toml, WiringPlanFile.Read(WiringPlanFile.Written(plan)).Value, new DimmerNeed("board", 3906)).Plan;
        Assert.Equal(WiredDesk.Wires(plan), WiredDesk.Wires(second));
    }

    [Fact]
    public void More_meters_than_pins_are_told()
    {
        var (_, findings, _) = WiredDesk.Planned(WiredDesk.Toml(WiredDesk.Many("meter-round-45", 40, "heat"), "ATmega32U4"));
        Assert.Contains("pins that dim light or move a meter", Assert.Single(findings, finding => finding.Code == "pins-too-few").Message, StringComparison.Ordinal);
    }
}
