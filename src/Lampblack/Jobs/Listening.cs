using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Text.Json;
using Lampblack.Findings;
using Lampblack.Link;

namespace Lampblack.Jobs;

/// <summary>A move of the virtual game controller, for the one who drives it.</summary>
/// <param name="IsAxis">Whether it is an axis.</param>
/// <param name="Number">The button or axis, from 0.</param>
/// <param name="Value">A button: 1 pressed, 0 released. An axis: 0 to 4092.</param>
public readonly record struct HeardMove(bool IsAxis, int Number, int Value);

/// <summary>Listens to one panel and passes on what its controls do.</summary>
public sealed class Listening : IPanelTalk
{
    private readonly LinkSession session;
    private readonly LinkExpectation expected;
    private readonly List<HeardEvent> heard = [];
    private readonly List<HeardMove> moves = [];
    private readonly List<string> complaints = [];
    private GameControls game;
    private long? startMs;
    private int gameOf;

    internal Listening(LinkExpectation expected)
    {
        this.expected = expected;
        session = new(expected);
        game = new(expected.Plan, 0);
    }

    /// <summary>Buttons that a virtual game controller needs for the desk's first controller.</summary>
    public int Buttons => game.Buttons;

    /// <summary>Axes that it needs.</summary>
    public int Axes => game.Axes;

    /// <summary>Ids that can be set: indicators and dimmed channels.</summary>
    public ImmutableArray<string> Lamps => LinkPlans.Lamps(expected.Plan);

    /// <inheritdoc />
    public int Baud => expected.Plan.Controllers[0].Baud;

    /// <inheritdoc />
    public bool IsDone => false;

    /// <inheritdoc />
    public bool HasEnding => false;

    /// <inheritdoc />
    public long DueMs => (startMs ?? 0) + Math.Min(session.DueMs, game.DueMs ?? long.MaxValue - int.MaxValue);

    /// <summary>What was heard since the last call.</summary>
    public ImmutableArray<HeardEvent> TakeHeard() => Taken(heard);

    /// <summary>What the virtual game controller does since the last call.</summary>
    public ImmutableArray<HeardMove> TakeMoves() => Taken(moves);

    /// <summary>What was wrong with lines that were typed since the last call, as sentences.</summary>
    public ImmutableArray<string> TakeComplaints() => Taken(complaints);

    /// <inheritdoc />
    public ImmutableArray<byte> End(long ms) => [];

    /// <inheritdoc />
    public ImmutableArray<byte> Opened(long ms) => Keep(session.Open(Since(ms)), ms);

    /// <inheritdoc />
    public void Closed(long ms) => Keep(session.Close(Since(ms)), ms);

    /// <inheritdoc />
    public ImmutableArray<byte> Received(ReadOnlySpan<byte> bytes, long ms) => Keep(session.Receive(bytes, Since(ms)), ms);

    /// <inheritdoc />
    public ImmutableArray<byte> Tick(long ms) => Keep(session.Tick(Since(ms)), ms);

    /// <inheritdoc />
    public ImmutableArray<byte> Typed(string line, long ms)
    {
        ArgumentNullException.ThrowIfNull(line);
        if (line.Trim().Length == 0)
        {
            return [];
        }

        if (IsKeep(line))
        {
            return Keep(session.Tell(new KeepLevels(), Since(ms)), ms);
        }

        return ReadSet(line) is var (id, level) ? Set(id, level, ms) : Complain($"{Shown.Code(line)} is not understood; write {{\"set\": \"dome/lamp\", \"level\": 1}}, or {{\"keep\": true}}");
    }

    /// <summary>Sets a lamp or a dimmed channel.</summary>
    /// <param name="id">Its id.</param>
    /// <param name="levelShare">0 for dark to 1 for full.</param>
    /// <param name="ms">The time.</param>
    /// <returns>Bytes to send.</returns>
    public ImmutableArray<byte> Set(string id, double levelShare, long ms)
    {
        if (!(levelShare is >= 0 and <= 1))
        {
            return Complain($"the level for {Shown.Code(id)} must be from 0 to 1");
        }

        return session.SetOf(id, levelShare) is { } command
            ? Keep(session.Tell(command, Since(ms)), ms)
            : Complain(Lamps.IsEmpty ? "the desk has no lamp that can be set" : $"there is no lamp {Shown.Code(id)}; there are {Shown.List(Lamps)}");
    }

    /// <summary>Whether levels are to be kept over power-off: <c>{"keep": true}</c>.</summary>
    private static bool IsKeep(string line)
    {
        try
        {
            using var document = JsonDocument.Parse(line);
            return document.RootElement is { ValueKind: JsonValueKind.Object } root && root.TryGetProperty("keep", out var keep) && keep.ValueKind == JsonValueKind.True;
        }
        catch (JsonException)
        {
            return false;
        }
    }

    private static (string Id, double Level)? ReadSet(string line)
    {
        try
        {
            using var document = JsonDocument.Parse(line);
            var root = document.RootElement;
            return root.ValueKind == JsonValueKind.Object && root.TryGetProperty("set", out var id) && id.ValueKind == JsonValueKind.String
                && root.TryGetProperty("level", out var level) && level.ValueKind == JsonValueKind.Number && level.TryGetDouble(out var number)
                ? (id.GetString()!, number)
                : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static ImmutableArray<T> Taken<T>(List<T> list)
    {
        ImmutableArray<T> taken = [.. list];
        list.Clear();
        return taken;
    }

    private ImmutableArray<byte> Complain(string sentence)
    {
        complaints.Add(sentence);
        return [];
    }

    private long Since(long ms) => ms - (startMs ??= ms);

    private ImmutableArray<byte> Keep(LinkStep step, long ms)
    {
        if (session.Controller > 0 && session.Controller != gameOf)
        {
            gameOf = session.Controller;
            game = new(expected.Plan, gameOf);
        }

        foreach (var happened in step.Events)
        {
            heard.Add(HeardEvent.Of(happened));
            AddMoves(game.Take(happened));
        }

        AddMoves(game.Tick(Since(ms)));
        return step.Send;
    }

    private void AddMoves(ImmutableArray<GameMove> made)
    {
        foreach (var move in made)
        {
            moves.Add(new(move.IsAxis, move.Number, move.Value));
        }
    }
}
