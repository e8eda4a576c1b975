using System.Collections.Immutable;

namespace Lampblack.Host;

/// <summary>What became of an edit, or of a look at the file.</summary>
public enum JournalResult
{
    /// <summary>It is on the disk; or, of a look, nothing has changed.</summary>
    Done,

    /// <summary>There was nothing to do: no step to undo or redo, or an edit that changes nothing.</summary>
    Nothing,

    /// <summary>Another program had changed the file. Its text stays the desk file; what was to be written is kept under <see cref="JournalOutcome.KeptPath"/>.</summary>
    ChangedOutside,

    /// <summary>The disk refused it. The file is as it was, and the edit is still in memory.</summary>
    Refused,
}

/// <summary>What became of it.</summary>
/// <param name="Result">In one word.</param>
/// <param name="Message">In a plain sentence.</param>
/// <param name="KeptPath">The file that holds what could not become the desk file; null where nothing had to be kept.</param>
/// <param name="Items">The items that it was about.</param>
public sealed record JournalOutcome(JournalResult Result, string Message, string? KeptPath, ImmutableArray<string> Items);

/// <summary>A step that can be undone or redone.</summary>
/// <param name="Words">What it did: <c>SHUTTER moved 3 mm right</c>.</param>
/// <param name="Items">The items that it was about.</param>
public sealed record JournalStep(string Words, ImmutableArray<string> Items);
