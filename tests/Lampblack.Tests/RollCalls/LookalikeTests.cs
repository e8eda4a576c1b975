using System;
using Lampblack.Tests.Link;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.RollCalls;

/// <summary>Faults that look much alike from outside: what can be told apart is, and what can't is one sentence.</summary>
public sealed class LookalikeTests
{
    private static ControllerPlan Yard => YardPlan.Plan.Controllers[0];

    /// <summary>A wire in the place of one at which nothing is read: nobody can hear which of them, and at the bench it is one wire to follow.</summary>
    [Fact]
    public void Exchanges_with_lines_at_which_nothing_is_read_are_one_sentence()
    {
        var desk = YardPlan.Plan with { Controllers = [Yard with { Columns = [.. Yard.Columns, new('C', 2, "D35"), new('C', 3, "D34")] }] };
        var causes = Causes(desk, panel => panel.ExchangePins(Yard.Encoders[0].PhaseA, new('C', 3, "D34")));
        Assert.Single(causes, cause => cause.Contains("D34", StringComparison.Ordinal) && cause.Contains("D49", StringComparison.Ordinal) && cause.Contains("exchanged", StringComparison.Ordinal));
        Assert.Contains(
            "Two wires are exchanged: the wire at D49 (SPEED, terminal A) with the one at D35 (column 3) or D34 (column 4). Nothing is read there, so each looks the same: see at which of them it is, and swap the two.",
            causes);
    }

    /// <summary>A terminal that is off leaves the other: A alone goes an edge up and back, B alone an edge down and back.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Which_terminal_of_an_encoder_is_off_is_heard_from_its_first_edge(bool isFirst)
    {
        var (off, other) = isFirst ? (Yard.Encoders[0].PhaseA, Yard.Encoders[0].PhaseB) : (Yard.Encoders[0].PhaseB, Yard.Encoders[0].PhaseA);
        var causes = Causes(YardPlan.Plan, panel => panel.CutPin(off));
        Assert.StartsWith($"No wire reaches {off.Header} ", causes[0], StringComparison.Ordinal);

        // A hand may shake the knob first: the other one is not ruled out.
        Assert.Contains(causes, cause => cause.StartsWith($"No wire reaches {other.Header} ", StringComparison.Ordinal));
    }

    private static string[] Causes(PinPlan desk, Action<NetPanel> fault)
    {
        NetPanel panel = new(desk.Controllers[0], new(11));
        fault(panel);
        Maker maker = new(desk, panel, new(12), new(desk, 0, [], []));
        maker.Prepare();
        return [.. maker.Call().Causes];
    }
}
