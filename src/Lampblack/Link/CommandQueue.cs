using System;
using System.Collections.Generic;
using System.Collections.Immutable;

namespace Lampblack.Link;

/// <summary>Sends commands one at a time and again until each is acknowledged.</summary>
public sealed class CommandQueue
{
    /// <summary>The panel answers in about 1 ms; this leaves room for a host that is busy itself.</summary>
    private const long PatienceMs = 150;

    /// <summary>How often a command is sent before it is given up.</summary>
    private const int MostAttempts = 5;

    private readonly List<HostFrame> waiting = [];
    private readonly List<byte> sentAs = [];
    private byte sequence;
    private long sentAtMs;

    /// <summary>The next time at which <see cref="Next"/> has something to do; null where it waits for nothing.</summary>
    public long? DueMs => waiting.Count == 0 ? null : sentAs.Count == 0 ? 0 : sentAtMs + PatienceMs;

    /// <summary>Lines a command up. One about the same thing that was not sent yet is replaced.</summary>
    /// <param name="frame">The command.</param>
    public void Add(HostFrame frame)
    {
        var first = sentAs.Count > 0 ? 1 : 0;
        var at = waiting.FindIndex(first, other => IsSameTarget(other, frame));
        if (at >= 0)
        {
            waiting[at] = frame;
        }
        else
        {
            waiting.Add(frame);
        }
    }

    /// <summary>A command that goes past the queue and that nobody waits for: nothing acknowledges a greeting before the panel is up.</summary>
    /// <param name="frame">The command.</param>
    public ImmutableArray<byte> Past(HostFrame frame) => PacketReader.Pack(HostFrames.Write(frame, sequence++).AsSpan());

    /// <summary>What to send now.</summary>
    /// <param name="ms">The time.</param>
    /// <param name="givenUp">A command that was never acknowledged; null for none.</param>
    public ImmutableArray<byte> Next(long ms, out HostFrame? givenUp)
    {
        givenUp = null;
        if (sentAs.Count > 0 && ms - sentAtMs < PatienceMs)
        {
            return [];
        }

        if (sentAs.Count == MostAttempts)
        {
            givenUp = waiting[0];
            Done();
        }

        if (waiting.Count == 0)
        {
            return [];
        }

        sentAtMs = ms;
        sentAs.Add(sequence);
        return PacketReader.Pack(HostFrames.Write(waiting[0], sequence++).AsSpan());
    }

    /// <summary>Whether a command of a kind is waiting, sent or not.</summary>
    /// <typeparam name="T">The kind.</typeparam>
    public bool Awaits<T>()
        where T : HostFrame => waiting.Exists(frame => frame is T);

    /// <summary>Takes the panel's answer.</summary>
    /// <param name="answer">The answer.</param>
    /// <returns>The command that is answered by it, for better or worse; null where it answers none.</returns>
    public HostFrame? Take(AcknowledgeFrame answer)
    {
        ArgumentNullException.ThrowIfNull(answer);

        // An answer may come late, after the command was sent again.
        if (!sentAs.Contains(answer.Command) || answer.Result == CommandResult.Busy)
        {
            return null;
        }

        var frame = waiting[0];
        Done();
        return frame;
    }

    /// <summary>Forgets all commands, as when the port closes; the panel that comes back may be another.</summary>
    public void Clear()
    {
        waiting.Clear();
        sentAs.Clear();
    }

    private void Done()
    {
        waiting.RemoveAt(0);
        sentAs.Clear();
    }

    private static bool IsSameTarget(HostFrame one, HostFrame other) => (one, other) switch
    {
        (SetIndicator a, SetIndicator b) => a.Number == b.Number,
        (SetDimmer a, SetDimmer b) => a.Number == b.Number,
        _ => one.GetType() == other.GetType() && one is not (SetIndicator or SetDimmer),
    };
}
