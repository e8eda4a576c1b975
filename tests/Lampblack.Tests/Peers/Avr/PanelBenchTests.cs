using System;
using System.Linq;
using Lampblack.Parts;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Peers.Avr;

/// <summary>The engine with tables for plans of every kind, on a chip simulated by libsimavr 1.6.</summary>
public sealed class PanelBenchTests
{
    public static TheoryData<string> Kinds => new(BenchKinds.Names);

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Every_control_is_told_once_and_in_order(string kind) => Check(BenchScenes.OneByOne(BenchKinds.Of(kind), 1), inOrder: true);

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Nothing_is_lost_and_nothing_invented_at_speed(string kind) => Check(BenchScenes.AtSpeed(BenchKinds.Of(kind), 2), inOrder: false);

    [Fact]
    public void Plans_made_by_chance_work()
    {
        for (var seed = 0; seed < (Environment.GetEnvironmentVariable("LAMPBLACK_LONG") == "1" ? 200 : 20); seed++)
        {
            var plan = BenchPlans.ByChance(new Random(seed));
            var scenario = BenchScenes.AtSpeed(plan, seed);
            var faults = scenario.Faults(PanelBench.Run(plan, scenario.Script()), inOrder: false).ToList();
            Assert.True(faults.Count == 0, FormattableString.Invariant($"plan {seed}, {plan.Chip}: ") + string.Join("\n", faults));
        }
    }

    /// <summary>
    /// Two scans to be believed and a third for what the moment of closing adds, and 1 ms for the frame itself and one that is on the line.
    /// simavr sends a byte in 11 bits where the line takes 10, so its figures are too long rather than too short.
    /// </summary>
    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_clean_contact_is_told_within_three_scans_and_a_millisecond_under_full_traffic(string kind)
    {
        var plan = BenchKinds.Of(kind);
        var scenario = BenchScenes.Clean(plan, 3);
        var log = PanelBench.Run(plan, scenario.Script());
        Assert.Empty(scenario.Faults(log, inOrder: true));
        var latencies = scenario.Changes.Zip(log.Contacts(), (made, told) => told.Us - made.Us).Order().ToList();
        TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant($"{kind}: scan {scenario.ScanUs} us, {latencies.Count} changes: {latencies[0]} to {latencies[^1]} us, median {latencies[latencies.Count / 2]}; {string.Join(' ', log.Last("load"))}"));
        Assert.InRange(latencies[^1], 0, 3 * scenario.ScanUs + 1000);
    }

    private static void Check(PanelScenario scenario, bool inOrder)
    {
        var log = PanelBench.Run(scenario.Plan, scenario.Script());
        Assert.Equal(string.Empty, string.Join('\n', scenario.Faults(log, inOrder)));
        TestContext.Current.TestOutputHelper?.WriteLine(string.Join(' ', log.Last("load")));
    }
}

/// <summary>The plans made by hand, by name.</summary>
internal static class BenchKinds
{
    public static readonly string[] Names =
    [
        "direct 2560", "direct 328P", "direct 32U4", "whole ports", "scattered matrix", "matrix 328P", "chains 2560", "chains 328P", "chains 32U4",
        "everything 2560", "everything 328P", "everything 32U4",
    ];

    public static ControllerPlan Of(string kind) => kind switch
    {
        "direct 2560" => BenchPlans.Direct(ControllerChip.ATmega2560),
        "direct 328P" => BenchPlans.Direct(ControllerChip.ATmega328P),
        "direct 32U4" => BenchPlans.Direct(ControllerChip.ATmega32U4),
        "whole ports" => BenchPlans.WholePorts(),
        "scattered matrix" => BenchPlans.Matrix(ControllerChip.ATmega2560, BenchPlans.Pins("PA0", "PC7", "PL3", "PB4"), BenchPlans.Pins("PA7", "PC0", "PG5", "PH3", "PJ1", "PK7", "PF0"), (column, row) => (column + 2 * row) % 3 != 0),
        "matrix 328P" => BenchPlans.Matrix(ControllerChip.ATmega328P, BenchPlans.Port('C', 6), BenchPlans.Pins("PD2", "PD3", "PD4", "PB0", "PB1")),
        "chains 2560" => BenchPlans.Chains(ControllerChip.ATmega2560, 12, 4),
        "chains 328P" => BenchPlans.Chains(ControllerChip.ATmega328P, 5, 2),
        "chains 32U4" => BenchPlans.Chains(ControllerChip.ATmega32U4, 25, 1),
        "everything 2560" => BenchPlans.Everything(ControllerChip.ATmega2560),
        "everything 328P" => BenchPlans.Everything(ControllerChip.ATmega328P),
        _ => BenchPlans.Everything(ControllerChip.ATmega32U4),
    };
}
