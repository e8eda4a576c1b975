using System;
using System.Collections.Immutable;
using Lampblack.Edits;

namespace Lampblack.Jobs;

/// <summary>Edits a desk file by exchanging stretches of its text; everything else in it stays as it was written.</summary>
public static class Edit
{
    /// <summary>Makes an edit. What can't be done is a finding, and then the bytes are the old ones.</summary>
    /// <param name="source">The desk file.</param>
    /// <param name="edit">What is wanted.</param>
    public static EditResult Apply(DeskSource source, DeskEdit edit)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(edit);
        return EditRun.Apply(source.Name, source.Bytes, edit);
    }

    /// <summary>What an edit would cost at the bench, in a sentence, before it is made: a new print only, a new hole, a new plate; and whose wiring changes.</summary>
    /// <param name="source">The desk file.</param>
    /// <param name="edit">What is wanted.</param>
    public static string Cost(DeskSource source, DeskEdit edit)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(edit);
        return EditRun.Cost(source.Name, source.Bytes, edit);
    }

    /// <summary>The same in the few words that stand near the hand: <c>a new print</c>, <c>a new print and a new hole</c>, <c>a new plate</c>, and whose wires change where some are laid. Empty where nothing changes or the edit is refused.</summary>
    /// <param name="source">The desk file.</param>
    /// <param name="edit">What is wanted.</param>
    /// <param name="lastWiring">The pin plan of the last build that planned wires; empty where nothing is wired yet.</param>
    public static string Price(DeskSource source, DeskEdit edit, ImmutableArray<byte> lastWiring)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(edit);
        return EditPrice.Words(source, edit, lastWiring);
    }
}
