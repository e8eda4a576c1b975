using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Firmware;
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

    /// <summary>Plans that the rules refuse are not run; of 200 that is one or two, for the room of their banks.</summary>
    [Fact]
    public void Plans_made_by_chance_work()
    {
        var (ran, laden) = (0, 0);
        List<string> faults = [];
        for (var seed = FirstPlan; seed < FirstPlan + PlanCount; seed++)
        {
            var plan = BenchPlans.ByChance(new Random(seed));
            if (PanelTable.Of(plan) is { HasStop: true } refused)
            {
                Assert.All(refused.Findings, finding => Assert.Contains(finding.Code, (string[])["firmware-room", "firmware-pace", "firmware-dimmer"]));
                continue;
            }

            faults.AddRange(Run(plan, BenchScenes.AtSpeed(plan, seed), seed).Faults);
            ran++;
            laden += PanelTable.Of(plan).Findings.Any(finding => finding.Code == "firmware-pace") ? 1 : 0;
        }

        TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant($"{ran} of {PlanCount} plans ran, {laden} of them over the beat's budget"));
        Assert.True(faults.Count == 0, string.Join('\n', faults));
        Assert.InRange(ran, 9 * PlanCount / 10, PlanCount);
    }

    /// <summary>Where no finding says otherwise, contacts, encoders and the line keep pace whatever moves at once.</summary>
    [Fact]
    public void Plans_within_the_beat_hold_while_everything_moves_at_once()
    {
        var ran = 0;
        for (var seed = FirstPlan; seed < FirstPlan + PlanCount; seed++)
        {
            var plan = BenchPlans.ByChance(new Random(seed));
            if (PanelTable.Of(plan) is { HasStop: false } table && table.Findings.All(finding => finding.Code != "firmware-pace"))
            {
                var (log, faults) = Run(plan, BenchScenes.AllAtOnce(plan, seed), seed);
                Assert.Empty(faults);
                var load = log.Lines.Where(line => line[0] == "load").ElementAt(1);
                var shareInInterrupts = int.Parse(load[^1], CultureInfo.InvariantCulture) / 1000.0;
                Assert.InRange(shareInInterrupts * EnginePace.BeatCycles, 100, EnginePace.LadenCycles(plan));
                ran++;
            }
        }

        TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant($"{ran} of {PlanCount} plans"));
        Assert.True(ran > 0);
    }

    private static (BenchLog Log, IReadOnlyList<string> Faults) Run(ControllerPlan plan, PanelScenario scenario, int seed)
    {
        var log = PanelBench.Run(plan, scenario.Script());
        var name = FormattableString.Invariant($"plan {seed}, {plan.Chip}, {plan.Contacts.Length} contacts, {plan.Encoders.Length} encoders, laden {EnginePace.LadenCycles(plan)}: ");
        TestContext.Current.TestOutputHelper?.WriteLine(name + string.Join("; ", log.Lines.Where(line => line[0] == "load").Select(line => string.Join(' ', line))));
        return (log, [.. scenario.Faults(log, inOrder: false).Select(fault => name + fault)]);
    }

    // LAMPBLACK_PLANS=100-149 runs only those, to share a long set among several.
    private static (int First, int Count) Asked =>
        Environment.GetEnvironmentVariable("LAMPBLACK_PLANS") is { } range && range.Split('-') is [var first, var last]
            ? (int.Parse(first, CultureInfo.InvariantCulture), int.Parse(last, CultureInfo.InvariantCulture) - int.Parse(first, CultureInfo.InvariantCulture) + 1)
            : (0, Environment.GetEnvironmentVariable("LAMPBLACK_LONG") == "1" ? 200 : 20);

    private static int FirstPlan => Asked.First;

    private static int PlanCount => Asked.Count;

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
