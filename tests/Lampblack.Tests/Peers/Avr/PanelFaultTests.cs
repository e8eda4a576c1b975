using System;
using System.Linq;
using Lampblack.Parts;
using Xunit;

namespace Lampblack.Tests.Peers.Avr;

/// <summary>The checks of the bench, checked: an engine or a panel with a fault must not pass them.</summary>
public sealed class PanelFaultTests
{
    [Theory]
    [InlineData("-DLOCKOUT_TICKS=0", "contact")]
    [InlineData("-DSTUCK_SEQUENCE", "frame 1 has number 0")]
    public void An_engine_with_a_fault_is_caught(string option, string said)
    {
        var plan = BenchPlans.Everything(ControllerChip.ATmega2560);
        var scenario = BenchScenes.AtSpeed(plan, 5);
        Assert.Empty(scenario.Faults(PanelBench.Run(plan, scenario.Script(), PanelBench.Variant("ATmega2560")), inOrder: false));
        var faults = scenario.Faults(PanelBench.Run(plan, scenario.Script(), PanelBench.Variant("ATmega2560", option)), inOrder: false);
        Assert.Contains(faults, fault => fault.StartsWith(said, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("fault reverse contact.3.diode", "contact 3 ")]
    [InlineData("fault remove contact.3.diode", "contact 3 ")]
    [InlineData("fault cut PC3", "contact 3 ")]
    [InlineData("fault cut PA2", "contact 16 ")]
    [InlineData("fault swap PC3 PC4", "the contacts' changes")]
    [InlineData("fault swap PA0 PA1", "the contacts' changes")]
    [InlineData("fault swap PA0 PC0", "contact 0 ")]
    [InlineData("fault short PC3 PC4", "the contacts' changes")]
    [InlineData("fault short PA0 PA1", "the contacts' changes")]
    [InlineData("fault exchange contact.0 contact.1", "the contacts' changes")]
    [InlineData("fault phases encoder.0", "encoder 0: turned")]
    [InlineData("fault cut PL0", "encoder 0: turned")]
    [InlineData("fault ends wiper.2", "wiper 2: stands")]
    public void A_panel_with_a_fault_is_caught(string fault, string said)
    {
        var plan = BenchPlans.Everything(ControllerChip.ATmega2560);
        var scenario = BenchScenes.OneByOne(plan, 6);
        var faults = scenario.Faults(PanelBench.Run(plan, $"{fault}\n{scenario.Script()}"), inOrder: true);
        Assert.Contains(faults, found => found.StartsWith(said, StringComparison.Ordinal));
    }

    /// <summary>Three closed switches at the corners of a rectangle make the fourth read closed, unless each has its diode.</summary>
    [Theory]
    [InlineData("", false)]
    [InlineData("fault bridge contact.1.diode", false)]
    [InlineData("fault bridge contact.8.diode", false)]
    [InlineData("fault bridge contact.0.diode", true)]
    [InlineData("fault bridge contact.0.diode\nfault bridge contact.1.diode\nfault bridge contact.8.diode", true)]
    public void A_wire_in_place_of_a_diode_shows_a_contact_that_nobody_closed(string fault, bool isPhantom)
    {
        // Column 0 joins rows 0 and 1 (contacts 0 and 1), column 1 row 0 (contact 8); contact 9 is the fourth corner.
        var plan = BenchPlans.Everything(ControllerChip.ATmega2560);
        var script = $"{fault}\nuntil 60000\nclose contact.1\nrun 50000\nclose contact.8\nrun 50000\nclose contact.0\nrun 100000\n";
        var told = PanelBench.Run(plan, script).Contacts().Select(change => change.Number).ToList();
        Assert.Equal(isPhantom, told.Contains(9));
        Assert.Equal([0, 1, 8], told.Where(number => number != 9).Order());
    }

    [Fact]
    public void A_plan_without_diodes_shows_phantoms_and_without_a_rectangle_none()
    {
        var plan = BenchPlans.Everything(ControllerChip.ATmega2560) with { Diodes = false };
        const string Script = "until 60000\nclose contact.1\nrun 50000\nclose contact.8\nrun 50000\nclose contact.0\nrun 100000\n";
        Assert.Contains(PanelBench.Run(plan, Script).Contacts(), change => change.Number == 9);
        Assert.Equal([1, 8], PanelBench.Run(plan, Script.Replace("close contact.0\n", string.Empty, StringComparison.Ordinal)).Contacts().Select(change => change.Number));
    }
}
