using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Link;
using Lampblack.Wiring;

namespace Lampblack.RollCalls;

/// <content>One step after the other.</content>
public sealed partial class RollCall
{
    private readonly ImmutableArray<Lamp> lamps;
    private Phase phase = Phase.Waiting;
    private bool isConnected;
    private int at;
    private Predicted[] expected = [];
    private bool? judged;

    private enum Phase
    {
        Waiting,
        Preparing,
        Calling,
        Lamps,
        Done,
    }

    /// <summary>What is asked at the moment; null while the panel is not connected, and at the end.</summary>
    public RollCallAsk? Ask => !isConnected ? null : phase switch
    {
        Phase.Preparing => new(string.Empty, string.Empty, RollCallWords.Before(called), 0, Count, false),
        Phase.Calling => new(
            Called.Id, Called.Name, RollCallWords.Of(Called, steps[at], Called.States.Length == 2), steps[at].Control + 1, Count, false),
        Phase.Lamps => new(
            lamps[at].Id,
            lamps[at].Name,
            Question(lamps[at]),
            called.Length + at + 1,
            Count,
            true)
        {
            MayBeOther = MayBeOther(lamps[at]),
        },
        _ => null,
    };

    private WiredControl Called => called[steps[at].Control];

    /// <summary>The maker says something.</summary>
    /// <param name="answer">What.</param>
    /// <param name="ms">The time.</param>
    public void Answer(RollCallAnswer answer, long ms)
    {
        if (answer == RollCallAnswer.Stop)
        {
            End();
            return;
        }

        switch (phase)
        {
            case Phase.Preparing when answer == RollCallAnswer.Done:
                Begin(ms);
                break;
            case Phase.Calling when answer == RollCallAnswer.Done:
                Finish(ms);
                break;
            case Phase.Calling when answer == RollCallAnswer.Again:
                Start(ms);
                break;
            case Phase.Calling when answer == RollCallAnswer.Skip:
                Leave(ms);
                break;
            case Phase.Lamps when answer != RollCallAnswer.Again && (answer != RollCallAnswer.Other || MayBeOther(lamps[at])):
                Light(answer);
                break;
        }
    }

    private void Prepare(long ms)
    {
        phase = Phase.Preparing;
        changedMs = ms;
        hands = Standing();
        foreach (var one in NotStanding().Take(8))
        {
            said.Add($"{RollCallWords.Standing(one)}, and does not read so.");
        }
    }

    /// <summary>Called controls in their first states, all others as they read.</summary>
    private Hands Standing()
    {
        Hands standing = new(
            readings.Contacts,
            [.. plan.Encoders.Select(encoder => encoder.EdgesPerDetent == 4 ? 0 : -1)],
            [.. readings.Wipers.Select(value => value / (double)WiperFrame.Full)],
            [.. readings.Ladders.Select(ladder => ladder.Position == LadderFrame.None ? -1 : (int)ladder.Position)]);
        foreach (var control in called)
        {
            standing = control.Kind switch
            {
                WiredKind.States => standing.InState(control, RollCallWords.First(control)),
                WiredKind.Analog => standing.Travelled(control.Number, 0),
                _ => standing,
            };
        }

        return standing;
    }

    private List<WiredControl> NotStanding() =>
    [
        .. called.Where(control => control.Kind switch
        {
            WiredKind.States => ControlStates.StateOf(control, readings) != RollCallWords.First(control),
            WiredKind.Analog => readings.Wipers[control.Number] > Comparison.EndShare * WiperFrame.Full,
            _ => false,
        }),
    ];

    private void Begin(long ms)
    {
        hands = Standing();
        at = 0;
        if (steps.IsEmpty)
        {
            StartLamps();
            return;
        }

        phase = Phase.Calling;
        Start(ms);
    }

    private void Start(long ms)
    {
        readBefore = readings;
        (touched, edges, firstEdges) = ([], NoEdges, NoEdges);
        (changedMs, hasChanged, isHinted, judged) = (ms, false, false, null);
        expected = Comparison.Predict(good, Called, Seen(steps[at])).First();
    }

    private Hands After(CalledStep step) => step.Kind switch
    {
        StepKind.State => hands.InState(called[step.Control], step.State),
        StepKind.ToEnd => hands.Travelled(called[step.Control].Number, 1),
        StepKind.ToBeginning => hands.Travelled(called[step.Control].Number, 0),
        _ => hands.AtRest(plan, called[step.Control].Number),
    };

    private Observed Seen(CalledStep step) => new(step, hands, After(step), readBefore, readings, touched, edges, firstEdges);

    private IEnumerable<Misfit> Misfits(CalledStep step) => Comparison.Misfits(plan, expected, called[step.Control], Seen(step));

    /// <summary>Whether all is as it should be; asked each few milliseconds, so looked at once for each change.</summary>
    private bool IsFine(CalledStep step)
    {
        judged ??= !Misfits(step).Any();
        return judged.Value;
    }

    private void Hint(CalledStep step)
    {
        var own = Called.Kind switch
        {
            WiredKind.Encoder => new HashSet<Misfit> { new(MisfitKind.Encoder, Called.Number) },
            WiredKind.Analog => [new(MisfitKind.Wiper, Called.Number)],
            _ when Called.Contacts.IsEmpty => [new(MisfitKind.Ladder, Called.Number)],
            _ => [.. Called.Contacts.Select(contact => new Misfit(MisfitKind.Contact, contact))],
        };
        var misfits = Misfits(step).ToList();
        var others = misfits.Where(misfit => !own.Contains(misfit)).Select(words.Of).Distinct().Take(4).ToList();
        var state = Called.Kind == WiredKind.States ? ControlStates.StateOf(Called, readings) : -1;
        said.Add(
            (state >= 0 && misfits.Any(own.Contains) ? $"It reads as {Called.States[state].Name}. " : misfits.Any(own.Contains) ? "It does not read as it should yet. " : string.Empty)
            + (others.Count > 0 ? $"Besides, this answers: {string.Join(", ", others)}. " : string.Empty)
            + "If it is done as asked, press Enter; if not, do it, or type 'again'.");
    }

    private void Finish(long ms)
    {
        var step = steps[at];
        observed.Add(Seen(step));
        explained = null;
        hands = After(step);
        if (at + 1 == steps.Length || steps[at + 1].Control != step.Control)
        {
            Judge(step.Control);
        }

        Next(ms);
    }

    private void Leave(long ms)
    {
        var control = steps[at].Control;
        results[called[control].Id] = new(called[control].Id, called[control].Name, RollCallVerdict.Skipped, []);
        observed.RemoveAll(one => one.Step.Control == control);
        explained = null;

        // Nobody knows where it was left; it is taken as it reads from now on.
        hands = Called.Kind switch
        {
            WiredKind.States when !Called.Contacts.IsEmpty => hands with { Closed = [.. hands.Closed.Select((closed, contact) => Called.Contacts.Contains(contact) ? readings.Contacts[contact] : closed)] },
            WiredKind.Analog => hands.Travelled(Called.Number, readings.Wipers[Called.Number] / (double)WiperFrame.Full),
            _ => hands,
        };
        while (at + 1 < steps.Length && steps[at + 1].Control == control)
        {
            at++;
        }

        Next(ms);
    }

    private void Judge(int control)
    {
        var isWrong = observed.Where(one => one.Step.Control == control).Any(one => Comparison.Misfits(plan, good, called[control], one).Any());
        ImmutableArray<string> found = [];
        if (isWrong)
        {
            var (one, each) = Explained();
            found = CausesOf(control, one, each.First(entry => entry.Control == control).Faults);
        }

        results[called[control].Id] = new(called[control].Id, called[control].Name, isWrong ? RollCallVerdict.Wrong : RollCallVerdict.Answered, found);
        said.Add(isWrong ? $"{called[control].Name} does not answer as it should." : $"{called[control].Name} answers.");
        said.AddRange(found.Select((sentence, number) => number == 0 ? $"So far it looks like this: {sentence}" : $"Or: {sentence}"));
    }

    private void Next(long ms)
    {
        at++;
        if (at < steps.Length)
        {
            Start(ms);
        }
        else
        {
            StartLamps();
        }
    }
}
