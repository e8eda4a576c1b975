using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Link;
using Lampblack.Wiring;

namespace Lampblack.RollCalls;

/// <summary>
/// Calls one control after the other and judges by what the panel says alone. Frames, times and the maker's answers in; questions, commands and sentences out.
/// Controls that are not called may be wired or not: they are taken as they read.
/// </summary>
public sealed partial class RollCall
{
    /// <summary>A contact is quiet after its lock-out of 20 ms; three of them leave room for the last frame.</summary>
    private const long QuietMs = 60;

    /// <summary>A hand that turns pauses between two grips for less (own measure, no source).</summary>
    private const long TurnQuietMs = 300;

    /// <summary>After so long without the right answer, what was heard so far is told.</summary>
    private const long HintMs = 700;

    private readonly ControllerPlan plan;
    private readonly ImmutableArray<WiredControl> every;
    private readonly ImmutableArray<WiredControl> called;
    private readonly ImmutableArray<CalledStep> steps;
    private readonly WiringModel good;
    private readonly FaultWords words;
    private readonly List<Observed> observed = [];
    private readonly Dictionary<string, RollCallResult> results = [];
    private readonly Dictionary<int, (int Changes, int Ticks)> bounces = [];
    private readonly List<HostFrame> commands = [];
    private readonly List<string> said = [];
    private PanelReadings readings;
    private PanelReadings readBefore;
    private ImmutableHashSet<int> touched = [];
    private ImmutableArray<int> edges;
    private ImmutableArray<int> firstEdges;
    private Hands hands;
    private long changedMs;
    private bool isHinted;
    private bool hasChanged;
    private bool isAnew;
    private (ImmutableArray<Fault> One, ImmutableArray<(int Control, ImmutableArray<Fault> Faults)> Each)? explained;
    private ImmutableArray<int> levelsBefore;

    /// <summary>A roll-call of one controller.</summary>
    /// <param name="desk">The desk's pins.</param>
    /// <param name="controller">The controller's index.</param>
    /// <param name="only">Ids, or beginnings of ids that end with '/', that are called; empty for all.</param>
    /// <param name="answered">Ids that have answered before and are not called again.</param>
    public RollCall(PinPlan desk, int controller, ImmutableArray<string> only, ImmutableHashSet<string> answered)
    {
        ArgumentNullException.ThrowIfNull(desk);
        ArgumentNullException.ThrowIfNull(answered);
        plan = desk.Controllers[controller];
        every = [.. desk.Controls.Where(control => control.Controller == controller)];
        var wanted = every.Where(control => (only.IsDefaultOrEmpty || only.Any(one => Covers(one, control.Id))) && !answered.Contains(control.Id)).ToImmutableArray();
        called = [.. wanted.Where(control => control.Kind is not (WiredKind.Indicator or WiredKind.Meter))];
        lamps =
        [
            .. wanted.Where(control => control.Kind == WiredKind.Indicator).Select(control => new Lamp(control.Id, control.Name, control.Number, false)),
            .. wanted.Where(control => control.Kind == WiredKind.Meter).SelectMany(control => new[] { 0, 0.5, 1 }.Select(level => new Lamp(control.Id, control.Name, control.Number, true) { MeterShare = level })),
            .. plan.Dimmers.Index().Where(one => !one.Item.IsMeter && (only.IsDefaultOrEmpty || only.Contains(one.Item.Channel)) && !answered.Contains(one.Item.Channel))
                .Select(one => new Lamp(one.Item.Channel, one.Item.Channel, one.Index, true)),
        ];
        steps = [.. called.Index().SelectMany(one => StepsOf(one.Index, one.Item))];
        good = new(plan, null);
        words = new(plan, every);
        readings = readBefore = PanelReadings.Blank(plan);
        hands = Hands.Blank(plan);
        edges = firstEdges = NoEdges;
    }

    /// <summary>Whether the roll is through, or was stopped.</summary>
    public bool IsDone => phase == Phase.Done;

    /// <summary>How many are called; a meter, which is asked for at three places, once.</summary>
    public int Count => called.Select(control => control.Id).Concat(lamps.Select(lamp => lamp.Id)).Distinct().Count();

    /// <summary>How many were judged or left out so far.</summary>
    public int JudgedCount => results.Count;

    /// <summary>Commands for the panel since the last call.</summary>
    public ImmutableArray<HostFrame> TakeCommands() => Taken(commands);

    /// <summary>Sentences for the maker since the last call.</summary>
    public ImmutableArray<string> TakeSaid() => Taken(said);

    /// <summary>What the panel said.</summary>
    /// <param name="frames">Frames, in order.</param>
    /// <param name="now">Where everything stands after them.</param>
    /// <param name="isLive">Whether the panel is connected.</param>
    /// <param name="ms">The time.</param>
    public void Hear(ImmutableArray<PanelFrame> frames, PanelReadings now, bool isLive, long ms)
    {
        ArgumentNullException.ThrowIfNull(now);
        foreach (var frame in frames)
        {
            switch (frame)
            {
                case ContactFrame contact:
                    touched = touched.Add(contact.Number);
                    (changedMs, hasChanged, judged) = (ms, true, null);
                    break;
                case EncoderFrame encoder when encoder.Number < edges.Length:
                    // A knob whose neighbour touches it goes an edge on and back: where it ends shows nothing.
                    firstEdges = edges[encoder.Number] == 0 ? firstEdges.SetItem(encoder.Number, Math.Sign(encoder.Delta)) : firstEdges;
                    edges = edges.SetItem(encoder.Number, edges[encoder.Number] + Math.Abs(encoder.Delta));
                    (changedMs, hasChanged, judged) = (ms, true, null);
                    break;
                case WiperFrame or LadderFrame:
                    (changedMs, hasChanged, judged) = (ms, true, null);
                    break;
                case BounceFrame bounce:
                    var worst = bounces.GetValueOrDefault(bounce.Number);
                    bounces[bounce.Number] = (Math.Max(worst.Changes, bounce.Changes), Math.Max(worst.Ticks, bounce.Ticks));
                    break;
            }
        }

        if (!isLive)
        {
            isConnected = false;
            return;
        }

        if (phase == Phase.Done)
        {
            return;
        }

        if (!isConnected)
        {
            // A panel that started anew reports no bounce; and what it says first is news to nobody.
            isConnected = true;
            commands.Add(new ReportBounce(true));

            // Later the panel tells the light as the roll-call itself has set it.
            levelsBefore = levelsBefore.IsDefault ? now.Dimmers : levelsBefore;
            (changedMs, isAnew) = (ms, true);
        }

        if (!ReferenceEquals(readings, now))
        {
            (readings, judged) = (now, null);
        }

        if (isAnew)
        {
            // Its encoders count from nothing again, and its lamps are off: what is asked is begun once more.
            isAnew = false;
            if (phase == Phase.Calling)
            {
                Start(ms);
            }
            else if (phase == Phase.Lamps)
            {
                Switch(lamps[at], true);
            }
        }

        Tick(ms);
    }

    /// <summary>Time went by.</summary>
    /// <param name="ms">The time.</param>
    public void Tick(long ms)
    {
        if (!isConnected)
        {
            return;
        }

        switch (phase)
        {
            case Phase.Waiting:
                Prepare(ms);
                break;
            case Phase.Preparing when ms - changedMs >= QuietMs && NotStanding().Count == 0:
                Begin(ms);
                break;
            case Phase.Calling:
                var step = steps[at];
                var quietMs = ms - changedMs;
                if (hasChanged && quietMs >= (step.Kind == StepKind.State ? QuietMs : TurnQuietMs) && IsFine(step))
                {
                    Finish(ms);
                }
                else if (hasChanged && quietMs >= HintMs && !isHinted && !IsFine(step))
                {
                    isHinted = true;
                    Hint(step);
                }

                break;
        }
    }

    /// <summary>The roll's record so far.</summary>
    public RollCallRecord Record()
    {
        var (one, each) = Explained();

        // What came later may have ruled out what was said of a control when it was judged.
        foreach (var (control, faults) in each)
        {
            if (results.GetValueOrDefault(called[control].Id) is { Verdict: RollCallVerdict.Wrong } result)
            {
                results[result.Id] = result with { Said = CausesOf(control, one, faults) };
            }
        }

        // Several things at once: each control by itself, and only what is likeliest.
        ImmutableArray<string> causes = one.IsEmpty ? [.. each.Where(entry => !entry.Faults.IsEmpty).Select(entry => words.Of(entry.Faults[0])).Distinct()] : words.Of(one);
        return new(
            [
                .. every.Select(control => (control.Id, control.Name)).Concat(lamps.Where(lamp => lamp is { IsDimmer: true, MeterShare: null }).Select(lamp => (lamp.Id, lamp.Name)))
                    .Where(one => results.ContainsKey(one.Id) || called.Any(control => control.Id == one.Id) || lamps.Any(lamp => lamp.Id == one.Id))
                    .Select(one => results.GetValueOrDefault(one.Id) ?? new(one.Id, one.Name, RollCallVerdict.NotCalled, [])),
            ],
            causes,
            !one.IsEmpty,
            [.. bounces.OrderBy(one => one.Key).Select(one => new ContactBounce(words.Contact(one.Key), one.Value.Changes, one.Value.Ticks))]);
    }

    private ImmutableArray<int> NoEdges => [.. new int[plan.Encoders.Length]];

    private static ImmutableArray<T> Taken<T>(List<T> list)
    {
        ImmutableArray<T> taken = [.. list];
        list.Clear();
        return taken;
    }

    private static bool Covers(string only, string id) => only == id || (only.EndsWith('/') && id.StartsWith(only, StringComparison.Ordinal));

    private static IEnumerable<CalledStep> StepsOf(int index, WiredControl control)
    {
        if (control.Kind == WiredKind.Encoder)
        {
            return [new(index, StepKind.Clockwise), new(index, StepKind.CounterClockwise)];
        }

        if (control.Kind == WiredKind.Analog)
        {
            return [new(index, StepKind.ToEnd), new(index, StepKind.ToBeginning)];
        }

        var first = RollCallWords.First(control);
        return Enumerable.Range(0, control.States.Length).Where(state => state != first).Append(first).Select(state => new CalledStep(index, StepKind.State, state));
    }

    /// <summary>What explains all that was heard, and what explains each control that answered wrong.</summary>
    private (ImmutableArray<Fault> One, ImmutableArray<(int Control, ImmutableArray<Fault> Faults)> Each) Explained()
    {
        // Asked for when a control is judged and again when the record is kept.
        ImmutableArray<Observed> all = [.. observed];
        return explained ??= (Diagnosis.Explain(plan, called, all), Diagnosis.ExplainEach(plan, called, all));
    }

    /// <summary>What is told of one control: what explains all, or else what explains this one; never what another has.</summary>
    private ImmutableArray<string> CausesOf(int control, ImmutableArray<Fault> one, ImmutableArray<Fault> own)
    {
        var faults = one.IsEmpty ? own : one;
        if (!faults.IsEmpty)
        {
            return [.. words.Of(faults).Take(Named)];
        }

        var misfits = observed.Where(seen => seen.Step.Control == control).SelectMany(seen => Comparison.Misfits(plan, good, called[control], seen));
        return [$"More than one thing is wrong, or something that is not known here. What did not fit: {string.Join(", ", misfits.Distinct().Select(words.Of).Distinct().Take(6))}."];
    }
}
