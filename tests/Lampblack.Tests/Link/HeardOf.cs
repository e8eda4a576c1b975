using System;
using System.Collections.Generic;
using System.IO;
using Lampblack.Firmware;
using Lampblack.Jobs;
using Lampblack.Tests.Architecture;

namespace Lampblack.Tests.Link;

/// <summary>What the product's door says of a scripted panel.</summary>
internal static class HeardOf
{
    /// <summary>The yard's pins as a file.</summary>
    public static byte[] PlanFile => File.ReadAllBytes(Path.Combine(Repository.Root, "tests/Lampblack.Tests/Link/yard-pins.json"));

    public static Listening Listening()
    {
        var begun = Listen.Begin(null, [.. PlanFile], "yard-pins.json");
        return begun.Value ?? throw new InvalidOperationException(begun.Findings[0].Message);
    }

    /// <summary>A panel that carries the yard's plan.</summary>
    public static ScriptedPanel YardPanel() => new(YardPlan.Plan.Controllers[0], PanelTable.Of(YardPlan.Plan.Controllers[0]).Value.PlanHash);

    /// <summary>Connects at 100 ms, does something 5 ms later, and waits 25 ms.</summary>
    public static IReadOnlyList<HeardEvent> Yard(Action<ScriptedPanel> hands)
    {
        var listening = Listening();
        ScriptedPanel panel = YardPanel();
        List<HeardEvent> heard = [];
        void Pass(long ms)
        {
            for (var bytes = panel.Take(); bytes.Length > 0; bytes = panel.Take())
            {
                panel.Receive(listening.Received(bytes, ms).AsSpan());
            }
        }

        panel.Receive(listening.Opened(100).AsSpan());
        Pass(100);
        hands(panel);
        Pass(105);
        for (var ms = 106; ms <= 130; ms++)
        {
            listening.Tick(ms);
        }

        heard.AddRange(listening.TakeHeard());
        return heard;
    }
}
