using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Link;
using Lampblack.RollCalls;
using Lampblack.Tests.Link;
using Lampblack.Wiring;

namespace Lampblack.Tests.RollCalls;

/// <summary>Somebody at the bench who reads what is asked and does it; and says so when nothing happens.</summary>
internal sealed class Maker(PinPlan desk, NetPanel panel, XorShift chance, RollCall roll)
{
    private const int TickMs = 20;
    private readonly LinkSession session = new(new(desk, []));
    private readonly Dictionary<string, int> states = [];
    private long ms = 5000;

    public List<string> Said { get; } = [];

    /// <summary>How often Enter was needed because the right answer did not come.</summary>
    public int Entered { get; private set; }

    /// <summary>Controls stand as somebody left them who did as asked before the roll is called.</summary>
    public void Prepare()
    {
        foreach (var control in desk.Controls)
        {
            if (control.Kind == WiredKind.States)
            {
                Put(control, control.Momentary ? control.RestState : 0);
            }
        }
    }

    public RollCallRecord Call(Func<string, RollCallAnswer>? lamp = null)
    {
        // What pins in the air said before anybody listened is chance.
        panel.Log.Clear();
        Carry(session.Open(ms));
        string? done = null;
        for (var patience = 0; !roll.IsDone;)
        {
            ms += TickMs;
            Carry(session.Receive(panel.Take(), ms));
            roll.Tick(ms);
            Tell();
            if (roll.Ask is not { } ask)
            {
                continue;
            }

            if (ask.Sentence != done)
            {
                (done, patience) = (ask.Sentence, 0);
                if (ask.IsQuestion)
                {
                    roll.Answer(lamp?.Invoke(ask.Id) ?? RollCallAnswer.Done, ms);
                }
                else
                {
                    Obey(ask);
                }
            }
            else if (++patience > 60)
            {
                Entered++;
                done = null;
                roll.Answer(RollCallAnswer.Done, ms);
                if (roll.Ask?.Sentence == ask.Sentence)
                {
                    throw new InvalidOperationException($"asked twice: {ask.Sentence}");
                }
            }
        }

        Tell();
        return roll.Record();
    }

    private void Obey(RollCallAsk ask)
    {
        if (ask.Id.Length == 0)
        {
            return;
        }

        var control = desk.Controls.Single(one => one.Id == ask.Id);
        var words = ask.Sentence;
        if (control.Kind == WiredKind.Encoder)
        {
            Turn(control, words.Contains("counter-", StringComparison.Ordinal) ? -1 : 1);
        }
        else if (control.Kind == WiredKind.Analog)
        {
            var end = words.Contains("to its end", StringComparison.Ordinal) ? 1.0 : 0.0;
            for (var part = 1; part <= 5; part++)
            {
                panel.Travel[control.Number] = (end * part / 5) + ((1 - end) * (5 - part) / 5);
                Look();
            }
        }
        else
        {
            var state = words.Contains(" go.", StringComparison.Ordinal) ? control.RestState
                : words.StartsWith("Press", StringComparison.Ordinal) ? 1 - control.RestState
                : control.States.IndexOf(control.States.Single(one => words.EndsWith($" {one.Name}.", StringComparison.Ordinal)));

            // A selector passes every position on its way.
            for (var at = states[control.Id]; control.BreaksBetween && Math.Abs(state - at) > 1;)
            {
                at += Math.Sign(state - at);
                Put(control, at);
            }

            Put(control, state);
        }
    }

    private void Put(WiredControl control, int state)
    {
        if (control.Contacts.IsEmpty)
        {
            panel.Positions[control.Number] = state;
        }
        else
        {
            // Throws break before they make.
            foreach (var (contact, isClosed) in control.Contacts.Zip(control.States[state].Closed))
            {
                panel.Closed[contact] &= isClosed;
            }

            Look();
            foreach (var (contact, isClosed) in control.Contacts.Zip(control.States[state].Closed))
            {
                panel.Closed[contact] = isClosed;
            }
        }

        states[control.Id] = state;
        Look();
    }

    private void Turn(WiredControl control, int way)
    {
        var edges = desk.Controllers[0].Encoders[control.Number].EdgesPerDetent * (6 + chance.Below(18));
        for (var edge = 0; edge < edges; edge++)
        {
            var (a, b) = (panel.Phases[2 * control.Number], panel.Phases[(2 * control.Number) + 1]);
            var quarter = ((a, b) switch { (false, false) => 0, (true, false) => 1, (true, true) => 2, _ => 3 } + way + 4) % 4;
            panel.Phases[2 * control.Number] = quarter is 1 or 2;
            panel.Phases[(2 * control.Number) + 1] = quarter is 2 or 3;
            Look();
        }
    }

    private void Look()
    {
        panel.Scan();
        ms += 2;
        Carry(session.Receive(panel.Take(), ms));
    }

    private void Carry(LinkStep step)
    {
        panel.Receive(step.Send.AsSpan());
        roll.Hear(step.Frames, session.Readings, session.IsLive, ms);
        Tell();
    }

    private void Tell()
    {
        Said.AddRange(roll.TakeSaid());
        foreach (var command in roll.TakeCommands())
        {
            panel.Receive(session.Tell(command, ms).Send.AsSpan());
        }
    }
}
