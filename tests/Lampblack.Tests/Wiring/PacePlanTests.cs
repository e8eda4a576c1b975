using System;
using System.Linq;
using Lampblack.Firmware;
using Lampblack.Tests.Checks;
using Lampblack.Tests.Peers.Avr;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Wiring;

/// <summary>Plans that the engine has no time for are left for others that it has; what it has time for stays as it was.</summary>
public sealed class PacePlanTests
{
    private const string Button = "button-12-momentary";

    /// <summary>Pins of their own are read all at once: over many ports that takes more than a beat has. The rest goes into a matrix, on one controller; the simulator moves everything at once.</summary>
    [Theory]
    [InlineData(48, 0)]
    [InlineData(60, 2)]
    [InlineData(200, 2)]
    public void Contacts_go_on_whole_ports_and_into_a_matrix_before_the_engine_falls_behind(int buttons, int encoders)
    {
        var items = WiredDesk.Many(Button, buttons) + WiredDesk.Many("encoder-m7", encoders, "e", top: 500);
        var (easy, paced) = Both(items);
        Assert.False(EnginePace.Keeps(Assert.Single(easy.Controllers)));
        var one = Assert.Single(paced.Controllers);
        Assert.True(EnginePace.Keeps(one));
        Assert.Equal(buttons, one.Contacts.Length);
        Assert.Equal(buttons, one.Contacts.Select(contact => contact.Place).Distinct().Count());
        Assert.InRange(one.Columns.Length, 0, 8);
        Assert.DoesNotContain(PanelTable.Of(one).Findings, finding => finding.Code is "firmware-pace" or "firmware-room");
        var diodes = one.Contacts.Count(contact => contact.Place is MatrixInput);
        TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant(
            $"{buttons} buttons, {encoders} encoders: {EnginePace.LadenCycles(easy.Controllers[0])} cycles with {easy.Controllers[0].Contacts.Count(contact => contact.Place is MatrixInput)} diodes, {EnginePace.LadenCycles(one)} with {diodes}"));

        var scenario = BenchScenes.AllAtOnce(one, 5);
        Assert.Equal(string.Empty, string.Join('\n', scenario.Faults(PanelBench.Run(one, scenario.Script()), inOrder: false)));
    }

    [Fact]
    public void Encoders_that_are_too_many_for_one_controller_are_shared()
    {
        var (easy, paced) = Both(WiredDesk.Many("encoder-m7", 16, "e") + WiredDesk.Many(Button, 8, top: 500));
        Assert.False(EnginePace.Keeps(Assert.Single(easy.Controllers)));
        Assert.Equal([12, 4], paced.Controllers.Select(one => one.Encoders.Length));
        Assert.All(paced.Controllers, one => Assert.True(EnginePace.Keeps(one)));
    }

    [Fact]
    public void What_keeps_pace_is_planned_as_before()
    {
        var (easy, paced) = Both(WiredDesk.Many(Button, 24) + WiredDesk.Many("pot-9mm", 4, "p", top: 500));
        Assert.True(EnginePace.Keeps(Assert.Single(easy.Controllers)));
        Assert.Equal(WiredDesk.Wires(easy), WiredDesk.Wires(paced));
    }

    /// <summary>A link of 1,000,000 baud leaves no time for anything on any number of controllers: the plan is the cheapest one, and the engine's finding tells.</summary>
    [Fact]
    public void Where_no_plan_keeps_pace_the_cheapest_is_taken_and_told_of()
    {
        var (easy, paced) = Both(WiredDesk.Many(Button, 24), "baud = 1000000");
        Assert.Equal(WiredDesk.Wires(easy), WiredDesk.Wires(paced));
        Assert.Contains(PanelTable.Of(Assert.Single(paced.Controllers)).Findings, finding => finding.Code == "firmware-pace");
    }

    /// <summary>Wires may be soldered: a plan of an earlier build is kept, and told of.</summary>
    [Fact]
    public void A_plan_that_was_built_already_is_kept_whatever_its_pace()
    {
        var toml = WiredDesk.Toml(WiredDesk.Many(Button, 48));
        var laid = CheckedDesk.Laid(toml);
        var needs = WiringNeeds.Of(laid).Value;
        var built = PinPlanning.Of(needs, [], laid.Desk.Controller!).Value;
        Assert.Equal(WiredDesk.Wires(built), WiredDesk.Wires(PinPlanning.Of(needs, [], laid.Desk.Controller!, built, EnginePace.Keeps).Value));
    }

    private static (PinPlan Easy, PinPlan Paced) Both(string items, string controller = "")
    {
        var laid = CheckedDesk.Laid(WiredDesk.Toml(items, controller: controller));
        var needs = WiringNeeds.Of(laid).Value;
        return (PinPlanning.Of(needs, [], laid.Desk.Controller!).Value, PinPlanning.Of(needs, [], laid.Desk.Controller!, null, EnginePace.Keeps).Value);
    }
}
