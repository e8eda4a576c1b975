using System;
using System.Globalization;
using System.Linq;
using Lampblack.Tests.Wiring;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Peers.Avr;

/// <summary>
/// The examples' panels moved for a long time: every contact as soon as it may, with bounce, encoders and knobs beside them. LAMPBLACK_CHANGES says how
/// many changes of contacts each example gets (by hand 420000,520000,60000: a million, shared by their contacts); LAMPBLACK_STRETCH with which stretch to
/// begin, so that a long run can be had in parts. docs/engine.md has what came of it.
/// </summary>
public sealed class ManyChangesTests
{
    private const int LongestBounceUs = 6000;
    private const long StretchUs = 10_000_000;

    [Theory]
    [InlineData("dome-desk", 0)]
    [InlineData("yard-board", 1)]
    [InlineData("kiln", 2)]
    public void No_change_is_lost_and_none_invented(string example, int place)
    {
        var laid = WiredDesk.Example(example);
        var plan = PinPlanning.Of(WiringNeeds.Of(laid).Value, [], laid.Desk.Controller!).Value.Controllers.MaxBy(controller => controller.Contacts.Length)!;
        var wanted = int.Parse((Environment.GetEnvironmentVariable("LAMPBLACK_CHANGES") ?? "1200,1500,300").Split(',')[place], CultureInfo.InvariantCulture);
        Assert.SkipWhen(wanted == 0, "no changes of this example were asked for");
        var first = int.Parse(Environment.GetEnvironmentVariable("LAMPBLACK_STRETCH") ?? "0", CultureInfo.InvariantCulture);
        var (made, told, seed) = (0, 0, first);
        while (made < wanted)
        {
            var scenario = Stretch(plan, seed++, wanted - made);
            var log = PanelBench.Run(plan, scenario.Script());
            Assert.Equal(string.Empty, string.Join('\n', scenario.Faults(log, inOrder: false)));
            made += scenario.Changes.Count;
            told += log.Contacts().Count();
        }

        TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant($"{example}, {plan.Chip}, {plan.Contacts.Length} contacts, {plan.Encoders.Length} encoders, {plan.Wipers.Length} wipers: {made} changes made, {told} told, in stretches {first} to {seed - 1}"));
        Assert.Equal(made, told);
    }

    /// <summary>Ten seconds, or less where fewer changes are left.</summary>
    private static PanelScenario Stretch(ControllerPlan plan, int seed, int most)
    {
        var random = new Random(seed);
        var scenario = new PanelScenario(plan, random);
        var steadyUs = Math.Max(16 * scenario.ScanUs, 13_000);
        var lastUs = PanelScenario.StartUs + Math.Min(StretchUs, 40_000L * (most / plan.Contacts.Length + 1));
        for (var number = 0; number < plan.Contacts.Length; number++)
        {
            var heldUs = plan.Contacts[number].Steady ? Math.Max(30_000, steadyUs) : 30_000;
            for (var us = scenario.Now + random.Next(30_000); us < lastUs;)
            {
                var bounceUs = random.Next(LongestBounceUs + 1);
                scenario.Flip(us, number, bounceUs);
                us += bounceUs + heldUs + random.Next(5000);
            }
        }

        for (var us = PanelScenario.StartUs + 1000L; us < lastUs; us += 250_000)
        {
            for (var encoder = 0; encoder < plan.Encoders.Length; encoder++)
            {
                scenario.Turn(us + random.Next(1000), encoder, random.Next(1, 1000) * (random.Next(2) == 0 ? 1 : -1), 5000);
            }

            for (var wiper = 0; wiper < plan.Wipers.Length; wiper++)
            {
                scenario.Slide(us + random.Next(200_000), wiper, random.Next(1001) / 1000.0);
            }
        }

        return scenario;
    }
}
