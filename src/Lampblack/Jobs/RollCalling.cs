using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text.Json;
using Lampblack.Layout;
using Lampblack.Link;
using Lampblack.RollCalls;

namespace Lampblack.Jobs;

/// <summary>What the maker is asked.</summary>
/// <param name="Id">The control; empty before the roll is called.</param>
/// <param name="Sentence">What to do, or a question.</param>
/// <param name="Number">Which control it is, from 1; 0 before.</param>
/// <param name="Count">How many are called.</param>
/// <param name="IsQuestion">Whether yes or no is expected.</param>
/// <param name="Map">Where the control is, in letters, line by line; empty where that is not known.</param>
public sealed record RollCallQuestion(string Id, string Sentence, int Number, int Count, bool IsQuestion, ImmutableArray<string> Map)
{
    /// <summary>Whether another one may answer in its place.</summary>
    public bool MayBeOther { get; init; }
}

/// <summary>Calls the roll of one panel.</summary>
public sealed class RollCalling : IPanelTalk
{
    private readonly LinkSession session;
    private readonly LinkExpectation expected;
    private readonly ImmutableArray<string> only;
    private readonly ImmutableArray<RollCallResult> earlier;
    private readonly LaidDesk? desk;
    private readonly bool isSimulated;
    private readonly List<string> said = [];
    private RollCall? roll;
    private bool isStopped;
    private long? endingMs;
    private int controller;
    private bool isOther;

    internal RollCalling(LinkExpectation expected, ImmutableArray<string> only, ImmutableArray<RollCallResult> earlier, LaidDesk? desk, bool isSimulated)
    {
        this.isSimulated = isSimulated;
        (this.expected, this.only, this.earlier, this.desk) = (expected, only, earlier, desk);
        session = new(expected);
    }

    /// <inheritdoc />
    public int Baud => expected.Plan.Controllers[0].Baud;

    /// <inheritdoc />
    public bool IsDone => (isStopped || roll is { IsDone: true }) && (!session.IsBusy || isOther || lastMs - endingMs >= MostEndingMs);

    /// <inheritdoc />
    public bool HasEnding => roll is not null && session.IsLive;

    /// <summary>Whether it was stopped before its end.</summary>
    public bool IsStopped => isStopped;

    /// <inheritdoc />
    public long DueMs => Math.Min(session.DueMs, lastMs + StepMs);

    /// <summary>Whether the panel answered, so that there is something to keep.</summary>
    public bool HasBegun => roll is not null;

    /// <summary>How many controls and lamps were judged or left out so far; whenever it grows there is something new to keep.</summary>
    public int JudgedCount => roll?.JudgedCount ?? 0;

    /// <summary>Whether every control that was called answered, now or before.</summary>
    public bool IsGood => Record.IsGood && !Record.Results.IsEmpty;

    /// <summary>What is asked at the moment; null while the panel is not connected, and at the end.</summary>
    public RollCallQuestion? Question => roll?.Ask is { } ask
        ? new(ask.Id, ask.Sentence, ask.Number, ask.Count, ask.IsQuestion, RollCallPlace.Of(desk, ask.Id)) { MayBeOther = ask.MayBeOther }
        : null;

    /// <summary>The record so far in words.</summary>
    public ImmutableArray<string> Lines => [.. RollCallLines.Of(Record)];

    private const long StepMs = 50;

    /// <summary>Lamps and reports are put out in a few ms; a panel that does not answer is not waited for any longer (own measure, no source).</summary>
    private const long MostEndingMs = 1000;

    private long lastMs;

    private RollCallRecord Record
    {
        get
        {
            var record = roll?.Record() ?? new([], [], false, []);

            // Who was not called this time stays as it was, wrong ones too.
            return record with
            {
                Results =
                [
                    .. earlier.Where(one => record.Results.All(other => other.Id != one.Id || other.Verdict == RollCallVerdict.NotCalled)),
                    .. record.Results.Where(one => one.Verdict != RollCallVerdict.NotCalled || earlier.All(other => other.Id != one.Id)),
                ],
            };
        }
    }

    /// <summary>The mark of the plan that the record belongs to.</summary>
    internal static string MarkOf(LinkExpectation expected, bool isSimulated) => (isSimulated ? "simulated " : string.Empty) + string.Join('-', expected.PlanHashes.Select(hash => hash.ToString("X8", System.Globalization.CultureInfo.InvariantCulture)));

    /// <summary>Writes the record into an object whose start is written.</summary>
    /// <param name="json">The writer.</param>
    public void WriteTo(Utf8JsonWriter json)
    {
        ArgumentNullException.ThrowIfNull(json);
        RollCallFile.Write(json, MarkOf(expected, isSimulated), Record);
    }

    /// <summary>The record as a file.</summary>
    public ImmutableArray<byte> File() => JsonBytes.Write(json =>
    {
        json.WriteString("schema", RollCallFile.Schema);
        WriteTo(json);
    });

    /// <summary>Whether a file is a record of this very plan, and of a panel of this kind (real or simulated).</summary>
    /// <param name="record">The file.</param>
    public bool Owns(ReadOnlySpan<byte> record) => RollCallFile.IsOf(record, MarkOf(expected, isSimulated));

    /// <summary>Sentences for the maker since the last call.</summary>
    public ImmutableArray<string> TakeSaid()
    {
        ImmutableArray<string> taken = [.. said];
        said.Clear();
        return taken;
    }

    /// <inheritdoc />
    public ImmutableArray<byte> Opened(long ms) => Keep(session.Open(ms), ms);

    /// <inheritdoc />
    public void Closed(long ms) => Keep(session.Close(ms), ms);

    /// <inheritdoc />
    public ImmutableArray<byte> Received(ReadOnlySpan<byte> bytes, long ms) => Keep(session.Receive(bytes, ms), ms);

    /// <inheritdoc />
    public ImmutableArray<byte> Tick(long ms) => Keep(session.Tick(ms), ms);

    /// <inheritdoc />
    public ImmutableArray<byte> Typed(string line, long ms)
    {
        ArgumentNullException.ThrowIfNull(line);
        RollCallAnswer? answer = line.Trim().ToLowerInvariant() switch
        {
            "" or "y" or "yes" or "d" or "done" => RollCallAnswer.Done,
            "n" or "no" => RollCallAnswer.No,
            "o" or "other" => RollCallAnswer.Other,
            "a" or "again" => RollCallAnswer.Again,
            "s" or "skip" => RollCallAnswer.Skip,
            "q" or "quit" or "stop" => RollCallAnswer.Stop,
            _ => null,
        };
        if (answer == RollCallAnswer.Stop)
        {
            return End(ms);
        }

        if (answer is not { } known)
        {
            said.Add("Type Enter for done or yes, n for no, o for another one, a for again, s to skip, q to stop.");
        }
        else
        {
            roll?.Answer(known, ms);
        }

        return Carry(ms);
    }

    /// <inheritdoc />
    public ImmutableArray<byte> End(long ms)
    {
        isStopped |= roll is not { IsDone: true };
        roll?.Answer(RollCallAnswer.Stop, ms);
        return Carry(ms);
    }

    private ImmutableArray<byte> Keep(LinkStep step, long ms)
    {
        lastMs = ms;
        foreach (var line in step.Events.OfType<LineEvent>())
        {
            said.Add(line.Said);
        }

        if (roll is null && session.IsLive)
        {
            controller = session.Controller;
            roll = new(expected.Plan, controller, only, [.. earlier.Where(one => one.Verdict == RollCallVerdict.Answered).Select(one => one.Id)]);
            if (roll.Count == 0)
            {
                said.Add("There is nothing left to call.");
                isStopped = earlier.IsEmpty;
            }
        }

        // Its numbers would mean other controls.
        var isNowOther = roll is not null && session.IsLive && session.Controller != controller;
        if (isNowOther && !isOther)
        {
            said.Add(System.FormattableString.Invariant($"That is controller {session.Controller + 1} of this desk; controller {controller + 1} is being called. Plug that one in."));
        }

        isOther = isNowOther;
        if (!isOther)
        {
            roll?.Hear(step.Frames, session.Readings, session.IsLive, ms);
        }

        return [.. step.Send, .. Carry(ms)];
    }

    private ImmutableArray<byte> Carry(long ms)
    {
        if (isStopped || roll is { IsDone: true })
        {
            endingMs ??= ms;
        }

        if (roll is null)
        {
            return [];
        }

        said.AddRange(roll.TakeSaid());
        var commands = roll.TakeCommands();

        // On another controller its numbers mean other lamps.
        return isOther ? [] : [.. commands.SelectMany(command => Sent(session.Tell(command, ms)))];
    }

    private ImmutableArray<byte> Sent(LinkStep step)
    {
        said.AddRange(step.Events.OfType<LineEvent>().Select(line => line.Said));
        return step.Send;
    }
}
