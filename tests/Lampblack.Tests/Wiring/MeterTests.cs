using System;
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

    /// <summary>PG5, PD5 and PD0 are driven by the timer that beats the engine's time: 250 steps are too few for light, and enough for a pointer.</summary>
    [Theory]
    [InlineData("ATmega2560", "PG5")]
    [InlineData("ATmega328P", "PD5")]
    [InlineData("ATmega32U4", "PD0")]
    public void A_meter_takes_a_pin_that_is_too_coarse_for_light(string chip, string pin)
    {
        var (plan, findings, _) = WiredDesk.Planned(WiredDesk.Toml(One, chip), null, new DimmerNeed("board", 3906));
        Assert.DoesNotContain(findings, finding => finding.Severity != Severity.Note);
        Assert.Equal(["board", "p/heat"], plan.Controllers[0].Dimmers.Select(dimmer => dimmer.Channel));
        var meter = plan.Controllers[0].Dimmers[1];
        Assert.True(meter.IsMeter);
        Assert.Contains(meter.Pin.Name, chip == "ATmega328P" ? ["PD3", "PB3", "PD5"] : chip == "ATmega2560" ? ["PG5", "PB4", "PH6"] : new[] { pin });
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

    /// <summary>Ohm's law at 5 V, then the next value of the series E24 (IEC 60063): never beyond the end of the scale.</summary>
    [Theory]
    [InlineData("", 5100)]                       // 1 mA
    [InlineData("meter-current = 0.1", 51000)]
    [InlineData("meter-current = 5", 1000)]
    [InlineData("meter-current = 0.5", 10000)]
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

    [Fact]
    public void More_meters_than_pins_are_told()
    {
        var (_, findings, _) = WiredDesk.Planned(WiredDesk.Toml(WiredDesk.Many("meter-round-45", 6, "heat"), "ATmega32U4"));
        Assert.Contains("pins that dim light or move a meter", Assert.Single(findings, finding => finding.Code == "pins-too-few").Message, StringComparison.Ordinal);
    }
}
