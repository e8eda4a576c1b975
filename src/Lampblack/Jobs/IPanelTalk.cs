using System;
using System.Collections.Immutable;

namespace Lampblack.Jobs;

/// <summary>Somebody who talks with a panel: bytes and times in, bytes out. Times are ms of one clock that only goes forward. Called from one thread.</summary>
public interface IPanelTalk
{
    /// <summary>Bits a second on a serial line.</summary>
    int Baud { get; }

    /// <summary>Whether everything is said, so that the line may be closed.</summary>
    bool IsDone { get; }

    /// <summary>When <see cref="Tick"/> should be called at the latest.</summary>
    long DueMs { get; }

    /// <summary>Whether the one who talks has something to put right at the panel before the line is closed.</summary>
    bool HasEnding { get; }

    /// <summary>The line is to be closed soon: what is put right first. It stays open until <see cref="IsDone"/>, a second at most.</summary>
    /// <param name="ms">The time.</param>
    /// <returns>Bytes to send.</returns>
    ImmutableArray<byte> End(long ms);

    /// <summary>The port was opened.</summary>
    /// <param name="ms">The time.</param>
    /// <returns>Bytes to send.</returns>
    ImmutableArray<byte> Opened(long ms);

    /// <summary>The port is gone.</summary>
    /// <param name="ms">The time.</param>
    void Closed(long ms);

    /// <summary>Bytes came.</summary>
    /// <param name="bytes">The bytes.</param>
    /// <param name="ms">The time.</param>
    /// <returns>Bytes to send.</returns>
    ImmutableArray<byte> Received(ReadOnlySpan<byte> bytes, long ms);

    /// <summary>Time went by.</summary>
    /// <param name="ms">The time.</param>
    /// <returns>Bytes to send.</returns>
    ImmutableArray<byte> Tick(long ms);

    /// <summary>A line came from the one who uses the program.</summary>
    /// <param name="line">The line.</param>
    /// <param name="ms">The time.</param>
    /// <returns>Bytes to send.</returns>
    ImmutableArray<byte> Typed(string line, long ms);
}
