using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Wiring;

namespace Lampblack.Link;

/// <summary>
/// The host's side of one line: bytes and times in, events and bytes out. Times are ms of any clock that only goes forward.
/// Whatever comes in, rubbish too, is taken without an exception.
/// </summary>
public sealed partial class LinkSession
{
    /// <summary>How often a panel that has not answered is greeted again: a board may stay in its boot loader for 2 s after the port was opened.</summary>
    private const long GreetAgainMs = 500;

    /// <summary>Three times the panel's own pulse.</summary>
    private const long SilenceMs = 3000;

    /// <summary>The longest snapshot has about 60 frames, 60 ms on the line.</summary>
    private const long SnapshotMs = 1000;

    private readonly LinkExpectation expected;
    private readonly PacketReader reader = new();
    private readonly CommandQueue commands = new();
    private readonly PanelUptime uptime = new();
    private readonly List<LinkEvent> events = [];
    private readonly List<PanelFrame> frames = [];
    private Phase phase = Phase.Closed;
    private ControlStates? states;
    private int controller = -1;
    private byte nextSequence;
    private long heardMs;
    private long askedMs;
    private bool isRebased;
    private bool mustGreet;

    /// <summary>A hello that may be a late answer or a start; null where there is no doubt. Whether frames were missing before it.</summary>
    private bool? doubt;

    /// <summary>Whether the newest question where everything stands was acknowledged and nothing was lost since.</summary>
    private bool isAnswered;

    /// <summary>A session with no port yet.</summary>
    /// <param name="expected">What the panel should be.</param>
    public LinkSession(LinkExpectation expected)
    {
        ArgumentNullException.ThrowIfNull(expected);
        this.expected = expected;
        Readings = new([], [], [], []);
    }

    private enum Phase
    {
        Closed,
        Greeting,
        Refused,
        Reading,
        Live,
    }

    /// <summary>What the panel last said.</summary>
    public PanelReadings Readings { get; private set; }

    /// <summary>Whether the panel is the right one and where everything stands is known.</summary>
    public bool IsLive => phase == Phase.Live;

    /// <summary>The controller that answered, as index into the plan's; -1 before.</summary>
    public int Controller => controller;

    /// <summary>The panel's last hello; null before.</summary>
    public HelloFrame? Hello { get; private set; }

    /// <summary>Packets that were refused so far.</summary>
    public int Refused => reader.Refused;

    /// <summary>The port was opened.</summary>
    /// <param name="ms">The time.</param>
    public LinkStep Open(long ms)
    {
        reader.Forget();
        commands.Clear();
        phase = Phase.Greeting;
        (heardMs, askedMs) = (ms, ms);
        Tell(ms, LineState.Waiting, "The port is open; waiting for the panel to say who it is.");
        return Step(ms, commands.Past(new AskHello()));
    }

    /// <summary>The port is gone.</summary>
    /// <param name="ms">The time.</param>
    public LinkStep Close(long ms)
    {
        if (phase != Phase.Closed)
        {
            Tell(ms, LineState.Closed, "The port is gone. Plug the panel in again; nothing else is to be done.");
        }

        phase = Phase.Closed;
        reader.Forget();
        commands.Clear();
        return Step(ms, []);
    }

    /// <summary>Bytes came from the panel.</summary>
    /// <param name="bytes">Any bytes.</param>
    /// <param name="ms">The time.</param>
    public LinkStep Receive(ReadOnlySpan<byte> bytes, long ms)
    {
        foreach (var payload in reader.Read(bytes))
        {
            if (PanelFrames.Read(payload.AsSpan()) is { } frame && phase != Phase.Closed)
            {
                heardMs = ms;
                frames.Add(frame);
                Take(frame, ms);
            }
        }

        return Tick(ms);
    }

    /// <summary>Time went by.</summary>
    /// <param name="ms">The time.</param>
    public LinkStep Tick(long ms)
    {
        switch (phase)
        {
            case Phase.Greeting or Phase.Refused when ms - askedMs >= GreetAgainMs:
                askedMs = ms;
                return Step(ms, commands.Past(new AskHello()));
            case Phase.Reading or Phase.Live when ms - heardMs >= SilenceMs:
                phase = Phase.Greeting;
                commands.Clear();
                askedMs = ms;
                Tell(ms, LineState.Silent, "The panel has said nothing for 3 seconds. Is it powered, and its cable in?");
                return Step(ms, commands.Past(new AskHello()));
            case Phase.Reading when ms - askedMs >= SnapshotMs:
                AskWhere(ms);
                break;
            case Phase.Live:
                events.AddRange(states!.Compare(Readings, ms));
                break;
        }

        return Step(ms, []);
    }

    /// <summary>When <see cref="Tick"/> should be called at the latest, if nothing comes before.</summary>
    public long DueMs
    {
        get
        {
            var due = phase is Phase.Greeting or Phase.Refused ? askedMs + GreetAgainMs : phase == Phase.Reading ? askedMs + SnapshotMs : heardMs + SilenceMs;

            // Commands wait for the panel: before it is known nothing is sent, however long they wait.
            due = Math.Min(due, phase is Phase.Reading or Phase.Live ? commands.DueMs ?? long.MaxValue : long.MaxValue);
            return Math.Min(due, phase == Phase.Live ? states!.DueMs ?? long.MaxValue : long.MaxValue);
        }
    }

    /// <summary>Whether the panel is there and a command was not acknowledged or given up yet.</summary>
    public bool IsBusy => phase is Phase.Reading or Phase.Live && commands.DueMs is not null;

    /// <summary>Tells the panel something, as soon as it is connected.</summary>
    /// <param name="command">The command.</param>
    /// <param name="ms">The time.</param>
    public LinkStep Tell(HostFrame command, long ms)
    {
        commands.Add(command);
        return Step(ms, []);
    }

    /// <summary>The command that sets a lamp or a dimmed channel.</summary>
    /// <param name="id">An indicator's id, or a channel's name.</param>
    /// <param name="levelShare">0 for dark to 1 for full.</param>
    /// <returns>The command; null where this controller has no such lamp.</returns>
    public HostFrame? SetOf(string id, double levelShare)
    {
        var at = Math.Max(controller, 0);
        if (!(levelShare is >= 0 and <= 1) || at >= expected.Plan.Controllers.Length)
        {
            return null;
        }

        var lamp = expected.Plan.Controls.FirstOrDefault(control => control.Controller == at && control.Kind == WiredKind.Indicator && control.Id == id);
        var dimmers = expected.Plan.Controllers[at].Dimmers;
        var dimmer = dimmers.IndexOf(dimmers.FirstOrDefault(one => one.Channel == id)!);
        return lamp is not null ? new SetIndicator((byte)lamp.Number, levelShare > 0)
            : dimmer >= 0 ? new SetDimmer((byte)dimmer, (ushort)Math.Round(levelShare * 65535, MidpointRounding.AwayFromZero))
            : null;
    }

    private void Take(PanelFrame frame, long ms)
    {
        if (frame is HelloFrame hello)
        {
            Greet(hello, ms);
            nextSequence = (byte)(frame.Sequence + 1);
            return;
        }

        var leap = (byte)(frame.Sequence - nextSequence);
        nextSequence = (byte)(frame.Sequence + 1);
        if (frame is AcknowledgeFrame answer && commands.Take(answer) is { } finished)
        {
            isAnswered |= finished is AskSnapshot && !commands.Awaits<AskSnapshot>();
            if (answer.Result != CommandResult.Done)
            {
                Tell(ms, LineState.Refused, $"The panel will not {LinkWords.Of(finished)} ({LinkWords.Of(answer.Result)}).");
            }
        }

        if (phase is not (Phase.Reading or Phase.Live))
        {
            return;
        }

        if (leap > MostLost && uptime.IsFirstSecond)
        {
            Restart(ms);
            return;
        }

        var isGap = leap != 0 || (phase == Phase.Live && !CarriesOn(frame));
        var wasTold = false;
        if (frame is AliveFrame alive)
        {
            if (uptime.WentBack(alive.UpSeconds))
            {
                Restart(ms);
                return;
            }

            wasTold = Settle(ms);
        }

        Readings = Readings.With(frame);
        if (isGap && wasTold)
        {
            AskWhere(ms);
        }
        else if (isGap)
        {
            Miss(ms);
        }
        else if (frame is SnapshotFrame { Kind: SnapshotKind.End } && phase == Phase.Reading)
        {
            // The end of an answer that lacks something, or of one to an older question, says nothing: what was lost would be taken as it was, or as 0.
            if (isAnswered)
            {
                Arrive(ms);
            }
        }
        else if (phase == Phase.Live)
        {
            // Frame by frame, so that a quick press is told although both its frames came at once.
            events.AddRange(states!.Compare(Readings, ms));
        }
    }

    private void AskWhere(long ms)
    {
        (phase, askedMs, isAnswered) = (Phase.Reading, ms, false);
        commands.Add(new AskSnapshot());
    }

    private void Arrive(long ms)
    {
        phase = Phase.Live;
        if (doubt is not null)
        {
            // An engine that does not tell its time before the answer: rather a start too many than a turn that nobody made.
            Tell(ms, LineState.Restarted, Started(Hello!));
            (doubt, isRebased) = (null, false);
        }

        if (!isRebased)
        {
            states!.Rebase(Readings);
            isRebased = true;
            Tell(ms, LineState.Connected, "The panel is connected.");
        }

        events.AddRange(states!.Compare(Readings, ms));
    }

    private void Tell(long ms, LineState state, string said) =>
        events.Add(new LineEvent(ms, FormattableString.Invariant($"controller-{Math.Max(controller, 0) + 1}"), state, said));

    private LinkStep Step(long ms, ImmutableArray<byte> first)
    {
        var send = mustGreet ? [.. first, .. commands.Past(new AskHello())] : first;
        mustGreet = false;
        if (phase is Phase.Reading or Phase.Live)
        {
            send = [.. send, .. commands.Next(ms, out var givenUp)];
            if (givenUp is not null)
            {
                Tell(ms, LineState.Refused, $"The panel did not answer when it was told to {LinkWords.Of(givenUp)}.");
            }
        }

        LinkStep step = new(send, [.. events], [.. frames]);
        events.Clear();
        frames.Clear();
        return step;
    }
}
