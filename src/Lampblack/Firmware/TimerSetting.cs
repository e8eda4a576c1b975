using System;
using System.Collections.Immutable;

namespace Lampblack.Firmware;

/// <summary>How a timer is set for the switchings a second that its dimmers want.</summary>
/// <param name="Timer">The timer's number.</param>
/// <param name="ClockBits">The bits that choose the divider.</param>
/// <param name="Steps">Steps of duty in a period.</param>
/// <param name="PwmHertz">Switchings a second that this gives.</param>
public sealed record TimerSetting(int Timer, int ClockBits, int Steps, double PwmHertz)
{
    private const int ClockHertz = 16_000_000;
    private const int TickHertz = 8000;
    private const int TickSteps = 250;

    /// <summary>Fewer steps than this and the dark end is too coarse.</summary>
    private const int FewestSteps = 256;

    private static readonly ImmutableArray<int> WideDividers = [1, 8, 64, 256, 1024];
    private static readonly ImmutableArray<int> NarrowDividers = [1, 8, 32, 64, 128, 256, 1024];

    /// <summary>
    /// The setting that switches at least so often, as long as the timer can, with as many steps as that leaves.
    /// Timer 0 beats the engine's time and can't be set; timer 2 has 256 steps; the others count as far as they are told.
    /// </summary>
    public static TimerSetting For(int timer, double wantedHertz)
    {
        var wanted = Math.Max(wantedHertz, 1);
        return timer switch
        {
            0 => new(0, 0, TickSteps, TickHertz),
            2 => Narrow(wanted),
            _ => Wide(timer, wanted),
        };
    }

    private static TimerSetting Narrow(double wantedHertz)
    {
        var choice = NarrowDividers.Length - 1;
        while (choice > 0 && Reached(NarrowDividers[choice], 256) < wantedHertz)
        {
            choice--;
        }

        return new(2, choice + 1, 256, Reached(NarrowDividers[choice], 256));
    }

    private static TimerSetting Wide(int timer, double wantedHertz)
    {
        for (var choice = 0; choice < WideDividers.Length; choice++)
        {
            var steps = Math.Floor(ClockHertz / (WideDividers[choice] * wantedHertz));
            if (steps <= 65535)
            {
                var kept = Math.Max((int)steps, FewestSteps);
                return new(timer, choice + 1, kept, Reached(WideDividers[choice], kept));
            }
        }

        return new(timer, WideDividers.Length, 65535, Reached(1024, 65535));
    }

    private static double Reached(int divider, int steps) => ClockHertz / ((double)divider * steps);
}
