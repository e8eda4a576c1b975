using System;
using System.Linq;
using Lampblack.Wiring;

namespace Lampblack.Tests.Peers.Avr;

/// <summary>Ways of moving everything on a panel.</summary>
internal static class BenchScenes
{
    private const int LongestBounceUs = 6000;
    private const int HeldUs = 30_000;

    // At 28 changes a second each; the line takes 3125.
    private const int MostMoving = 64;
    private const string BrokenFrame = "0841010203040500";

    /// <summary>One contact after the other, each told before the next one moves; with encoders, wipers and ladders moved beside them.</summary>
    public static PanelScenario OneByOne(ControllerPlan plan, int seed)
    {
        var random = new Random(seed);
        var scenario = new PanelScenario(plan, random);
        var gap = LongestBounceUs + 16 * scenario.ScanUs + 14_000;
        foreach (var closing in new[] { true, false })
        {
            for (var number = 0; number < plan.Contacts.Length; number++)
            {
                scenario.Flip(scenario.Now, number, random.Next(LongestBounceUs + 1));
                scenario.Now += gap;
            }

            scenario.Now += closing ? HeldUs + gap : 0;
        }

        Others(scenario, random);
        return scenario;
    }

    /// <summary>
    /// Many contacts at once, each as fast as it may: every state is held for 30 ms or a little more after its bounce.
    /// On a large panel they begin apart, because the line takes 3125 changes a second.
    /// </summary>
    public static PanelScenario AtSpeed(ControllerPlan plan, int seed)
    {
        var random = new Random(seed);
        var scenario = new PanelScenario(plan, random);
        var steadyUs = Math.Max(16 * scenario.ScanUs, 13_000);
        for (var number = 0; number < plan.Contacts.Length; number++)
        {
            var us = scenario.Now + random.Next(Math.Max(50_000, plan.Contacts.Length * 2500));
            var held = plan.Contacts[number].Steady ? Math.Max(HeldUs, steadyUs) : HeldUs;
            for (var change = 0; change < 4; change++)
            {
                var bounce = random.Next(LongestBounceUs + 1);
                scenario.Flip(us, number, bounce);
                us += bounce + held + random.Next(5000);
            }
        }

        Others(scenario, random);
        return scenario;
    }

    /// <summary>
    /// More than hands can do: for 0.3 s as many contacts as the line takes, column by column, move as soon as they may; every encoder makes
    /// 7000 edges a second, wipers and encoders keep the line full one way, and a host that sends what the panel refuses the other way.
    /// </summary>
    public static PanelScenario AllAtOnce(ControllerPlan plan, int seed)
    {
        var random = new Random(seed);
        var scenario = new PanelScenario(plan, random);
        var steadyUs = Math.Max(16 * scenario.ScanUs, 13_000);
        const long LastUs = PanelScenario.StartUs + 300_000;
        var columns = Enumerable.Range(0, plan.Contacts.Length).OrderBy(number => plan.Contacts[number].Place is MatrixInput place ? place.Column : int.MaxValue).Take(MostMoving);
        foreach (var number in columns)
        {
            var held = plan.Contacts[number].Steady ? Math.Max(HeldUs, steadyUs) : HeldUs;
            for (var us = scenario.Now + random.Next(40_000); us < LastUs; us += LongestBounceUs + held + random.Next(5000))
            {
                scenario.Flip(us, number, random.Next(LongestBounceUs + 1));
            }
        }

        for (var encoder = 0; encoder < plan.Encoders.Length; encoder++)
        {
            scenario.Turn(PanelScenario.StartUs + random.Next(200), encoder, 2000 * (random.Next(2) == 0 ? 1 : -1), 7000);
        }

        for (var us = (long)PanelScenario.StartUs; us < LastUs; us += 2000)
        {
            for (var wiper = 0; wiper < plan.Wipers.Length; wiper++)
            {
                scenario.Slide(us, wiper, random.Next(1000) / 1000.0);
            }
        }

        for (long us = PanelScenario.StartUs; us < LastUs; us += 400)
        {
            scenario.At(us, $"send {BrokenFrame}");
        }

        scenario.SelectUntil(LastUs);
        scenario.At(PanelScenario.StartUs + 40_000, $"load");
        scenario.At(LastUs, $"load");

        return scenario;
    }

    /// <summary>Contacts that do not bounce, one after the other, while encoders and wipers keep the line full.</summary>
    public static PanelScenario Clean(ControllerPlan plan, int seed)
    {
        var random = new Random(seed);
        var scenario = new PanelScenario(plan, random);
        for (var round = 0; round < 4; round++)
        {
            foreach (var number in Enumerable.Range(0, plan.Contacts.Length).Where(number => !plan.Contacts[number].Steady))
            {
                scenario.Flip(scenario.Now, number, 0);
                scenario.Now += 9000 + random.Next(4000);
            }

            scenario.Now += HeldUs;
        }

        for (var encoder = 0; encoder < plan.Encoders.Length; encoder++)
        {
            scenario.Turn(PanelScenario.StartUs + encoder * 31, encoder, (int)((scenario.Now - PanelScenario.StartUs) * 5000 / 1_000_000), 5000);
        }

        for (var us = (long)PanelScenario.StartUs; us < scenario.Now; us += 5000)
        {
            for (var wiper = 0; wiper < plan.Wipers.Length; wiper++)
            {
                scenario.Slide(us, wiper, random.Next(1000) / 1000.0);
            }
        }

        return scenario;
    }

    private static void Others(PanelScenario scenario, Random random)
    {
        var plan = scenario.Plan;
        for (var turn = 0; turn < 6; turn++)
        {
            for (var encoder = 0; encoder < plan.Encoders.Length; encoder++)
            {
                scenario.Turn(PanelScenario.StartUs + turn * 100_000 + random.Next(2000), encoder, random.Next(1, 500) * (random.Next(2) == 0 ? 1 : -1), 7000);
            }

            for (var wiper = 0; wiper < plan.Wipers.Length; wiper++)
            {
                scenario.Slide(PanelScenario.StartUs + turn * 100_000 + random.Next(90_000), wiper, turn == 4 ? random.Next(2) : random.Next(1001) / 1000.0);
            }
        }

        scenario.SelectUntil(PanelScenario.StartUs + 600_000);
    }
}
