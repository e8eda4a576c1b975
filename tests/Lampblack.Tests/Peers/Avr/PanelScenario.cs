using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Text;
using Lampblack.Firmware;
using Lampblack.Wiring;

namespace Lampblack.Tests.Peers.Avr;

/// <summary>What hands do at a panel, as a script, and what the panel must have told when they are done.</summary>
internal sealed class PanelScenario(ControllerPlan plan, Random random)
{
    /// <summary>A long table is checked for up to 40 ms before the contacts are looked at for 30.</summary>
    public const int StartUs = 100_000;

    private const int BetweenUs = 3000;

    private readonly StringBuilder script = new();
    private readonly List<(long Us, int Number, bool Closed)> changes = [];
    private readonly bool[] closed = new bool[plan.Contacts.Length];
    private readonly int[] edges = new int[plan.Encoders.Length];
    private readonly double?[] shares = new double?[plan.Wipers.Length];
    private readonly List<int>[] positions = [.. Enumerable.Range(0, plan.Ladders.Length).Select(_ => new List<int>())];
    private long end = StartUs;

    /// <summary>Where the next thing may begin.</summary>
    public long Now { get; set; } = StartUs;

    public ControllerPlan Plan => plan;

    /// <summary>Changes as they were made.</summary>
    public IReadOnlyList<(long Us, int Number, bool Closed)> Changes => changes;

    /// <summary>The longest time of a whole scan: one column, all direct inputs or one chip a tick, at least four.</summary>
    public int ScanUs => 125 * Math.Max(4, plan.Columns.Length + (plan.Contacts.Any(contact => contact.Place is DirectInput) ? 1 : 0) + (plan.Inputs?.ChipCount ?? 0));

    /// <summary>The time at which the script stops, with all told.</summary>
    public long EndUs => end + 400_000;

    /// <summary>Moves a contact; it bounces for so long.</summary>
    public void Flip(long us, int number, int bounceUs)
    {
        closed[number] = !closed[number];
        var state = closed[number];
        changes.Add((us, number, state));
        Set(us, number, state);
        var times = Enumerable.Range(0, bounceUs == 0 ? 0 : 2 * random.Next(1, 7)).Select(_ => us + 1 + random.Next(bounceUs)).Order().ToList();
        for (var index = 0; index < times.Count; index++)
        {
            Set(times[index], number, index % 2 == 0 ? !state : state);
        }

        Reach(us + bounceUs);
    }

    /// <summary>Turns an encoder by edges at a rate.</summary>
    public void Turn(long us, int encoder, int count, double hertz)
    {
        At(us, $"turn encoder.{encoder} {count} {hertz}");
        edges[encoder] += count;
        Reach(us + (long)(Math.Abs(count) * 1e6 / hertz));
    }

    /// <summary>Moves a wiper.</summary>
    public void Slide(long us, int wiper, double share)
    {
        At(us, $"slide wiper.{wiper} {share}");
        shares[wiper] = share;
        Reach(us);
    }

    /// <summary>Turns all selectors from position to position until then, as fast as they may: each stands as long as the plan asks for, not longer.</summary>
    public void SelectUntil(long lastUs)
    {
        for (var ladder = 0; ladder < plan.Ladders.Length; ladder++)
        {
            for (var us = StartUs + random.Next(9000); us < lastUs; us += BetweenUs + 1000 * EnginePace.LadderHoldMs(plan))
            {
                Select(us, ladder, random.Next(plan.Ladders[ladder].Windows.Length));
            }
        }
    }

    /// <summary>Turns a selector; between two positions there is none for a moment.</summary>
    public void Select(long us, int ladder, int position)
    {
        At(us, $"select ladder.{ladder} -1");
        At(us + BetweenUs, $"select ladder.{ladder} {position}");
        if (positions[ladder].LastOrDefault(0xFF) != position)
        {
            positions[ladder].Add(position);
        }

        Reach(us + BetweenUs);
    }

    /// <summary>Anything else.</summary>
    public void At(long us, FormattableString command) => script.Append(CultureInfo.InvariantCulture, $"@{us} ").Append(command.ToString(CultureInfo.InvariantCulture)).Append('\n');

    /// <summary>The script, to its end.</summary>
    public string Script() => script.ToString() + FormattableString.Invariant($"until {EndUs}\nlamps\nload\n");

    /// <summary>Everything that the log has wrong; empty where nothing is.</summary>
    /// <param name="log">What the panel told.</param>
    /// <param name="inOrder">Whether the changes of all contacts together must come in the order in which they were made.</param>
    /// <param name="converterSteps">Of the whole voltage: 1023 on libsimavr, 1024 on avr8js and the chip.</param>
    public IEnumerable<string> Faults(BenchLog log, bool inOrder, int converterSteps = 1023)
    {
        foreach (var fault in log.Faults)
        {
            yield return fault;
        }

        if (log.Of(FrameType.Hello).Count() is not 1 and var hellos)
        {
            yield return $"{hellos} hellos";
        }

        var told = log.Contacts().ToList();
        for (var number = 0; number < plan.Contacts.Length; number++)
        {
            var wanted = changes.Where(change => change.Number == number).Select(change => change.Closed).ToList();
            var got = told.Where(change => change.Number == number).Select(change => change.Closed).ToList();
            if (!wanted.SequenceEqual(got))
            {
                yield return $"contact {number} ({plan.Contacts[number].Place}): made {Row(wanted)}, told {Row(got)}";
            }
        }

        if (inOrder && !told.Select(change => (change.Number, change.Closed)).SequenceEqual(changes.Select(change => (change.Number, change.Closed))))
        {
            yield return "the contacts' changes are not told in order";
        }

        foreach (var fault in EncoderFaults(log).Concat(AnalogFaults(log, converterSteps)))
        {
            yield return fault;
        }
    }

    private IEnumerable<string> EncoderFaults(BenchLog log)
    {
        for (var encoder = 0; encoder < plan.Encoders.Length; encoder++)
        {
            var frames = log.Of(FrameType.Encoder).Where(frame => frame.Data[0] == encoder).ToList();
            var sum = frames.Sum(frame => (sbyte)frame.Data[1]);
            var place = frames.Count == 0 ? 0 : frames[^1].SignedWord(2);
            if ((short)edges[encoder] != place || sum != edges[encoder])
            {
                yield return $"encoder {encoder}: turned {edges[encoder]} edges, told {place}, in all {sum}";
            }

            if (frames.Count > 0 && frames[^1].Data[4] != 0)
            {
                yield return $"encoder {encoder}: {frames[^1].Data[4]} illegal steps";
            }
        }
    }

    private IEnumerable<string> AnalogFaults(BenchLog log, int converterSteps)
    {
        for (var wiper = 0; wiper < plan.Wipers.Length; wiper++)
        {
            var frame = log.Of(FrameType.Wiper).LastOrDefault(frame => frame.Data[0] == wiper);
            var count = Math.Min(1023, Math.Floor((shares[wiper] ?? 0) * converterSteps));
            if (shares[wiper] is not null && Math.Abs((frame?.Word(1) ?? 0) / 4.0 - count) > 1)
            {
                yield return FormattableString.Invariant($"wiper {wiper}: stands at {count} of 1023, told {(frame?.Word(1) ?? 0) / 4.0:0.00}");
            }
        }

        for (var ladder = 0; ladder < plan.Ladders.Length; ladder++)
        {
            var told = log.Of(FrameType.Ladder).Where(frame => frame.Data[0] == ladder).Select(frame => (int)frame.Data[1]).ToList();
            if (!told.SequenceEqual(positions[ladder]))
            {
                yield return $"ladder {ladder}: stood at {string.Join(' ', positions[ladder])}, told {string.Join(' ', told)}";
            }
        }
    }

    private static string Row(IEnumerable<bool> states) => string.Concat(states.Select(state => state ? 'c' : 'o'));

    private void Set(long us, int number, bool state) => At(us, $"{(state ? "close" : "open")} contact.{number}");

    private void Reach(long us) => end = Math.Max(end, us);
}
