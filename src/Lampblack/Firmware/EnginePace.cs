using System;
using System.Linq;
using Lampblack.Wiring;

namespace Lampblack.Firmware;

/// <summary>
/// What a beat of the engine takes while everything goes on at once: every encoder makes an edge, all contacts of the column that is read move or are locked,
/// the line is full both ways. Single beats take longer and are made up for in the next; more than a beat in the long run can't be.
/// The figures are measured cycles of the committed images, rounded up; docs/engine.md tells how.
/// </summary>
public static class EnginePace
{
    /// <summary>Cycles of one beat: 16 MHz over 8000.</summary>
    public const int BeatCycles = 2000;

    private const int FixedCycles = 330;
    private const int AnalogCycles = 80;
    private const int EncoderCycles = 78;
    private const int BankCycles = 150;
    private const int ContactCycles = 14;
    private const int ChipCycles = 320;
    private const int LineCycles = 400;
    private const double LineBaud = 250_000;

    // firmware/source/analog.c and ladders.c: one conversion thrown away and four added, each at the beat after the last one's end; then 20 ms.
    private const int ConversionsEach = 5;
    private const int SteadyMs = 20;
    private const double BeatMs = 0.125;

    // What the main loop may be busy with from one look at the ladders to the next, twice: the first look and the last one come late.
    private const int LookMs = 5;

    /// <summary>Cycles that a beat takes on average at the column, the pins or the register that has most to do.</summary>
    /// <param name="plan">The plan.</param>
    public static int LadenCycles(ControllerPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var banks = ContactBanks.Of(plan);
        var costs = banks.Banks.Select(bank => BankCycles + ContactCycles * int.PopCount(bank.There)).ToList();
        var matrix = plan.Columns.Length * banks.RowPorts.Length;
        var column = banks.RowPorts.IsEmpty ? 0 : costs.Take(matrix).Chunk(banks.RowPorts.Length).Select(chunk => chunk.Sum()).DefaultIfEmpty().Max();
        var direct = costs.Skip(matrix).Take(banks.DirectPorts.Length).Sum();
        var chip = costs.Skip(matrix + banks.DirectPorts.Length).Select(cost => cost + ChipCycles).DefaultIfEmpty().Max();
        var analog = plan.Wipers.Length + plan.Ladders.Length > 0 ? AnalogCycles : 0;
        return FixedCycles + analog + EncoderCycles * plan.Encoders.Length + Math.Max(column, Math.Max(direct, chip)) + (int)(LineCycles * plan.Baud / LineBaud);
    }

    /// <summary>Whether the engine has time for a plan whatever moves at once. What it holds at all, and pins that a chip has not, are other rules' matter.</summary>
    /// <param name="plan">The plan.</param>
    public static bool Keeps(ControllerPlan plan) => LadenCycles(plan) <= BeatCycles;

    /// <summary>
    /// How long a selector on a ladder has to stand at a position for it to be told, in ms: the reading that was under way and a whole one, each with every
    /// conversion one beat late (or what a beat's work takes, if that is longer), and 20 ms for which it has to stay. 0 without a ladder.
    /// </summary>
    /// <param name="plan">The plan.</param>
    public static int LadderHoldMs(ControllerPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        if (plan.Ladders.IsEmpty)
        {
            return 0;
        }

        var beats = Math.Max(2, (LadenCycles(plan) + BeatCycles - 1) / BeatCycles);
        var roundMs = (plan.Wipers.Length + plan.Ladders.Length) * ConversionsEach * beats * BeatMs;
        return (int)Math.Ceiling(SteadyMs + 2 * roundMs + 2 * LookMs);
    }
}
