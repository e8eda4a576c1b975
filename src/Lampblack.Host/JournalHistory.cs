using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using Lampblack.Edits;

namespace Lampblack.Host;

/// <summary>What can be undone and redone, as the journal's entries leave it.</summary>
/// <remarks>
/// Steps lie on one another. What another program changed lies among them and is never undone; a step below it is still within reach where the bytes that it
/// put in are still there, counted through whatever lies above it.
/// </remarks>
internal sealed class JournalHistory
{
    private readonly List<Layer> made = [];
    private readonly List<Layer> undone = [];
    private int steps;

    /// <summary>Number of the next new step.</summary>
    internal int NextStep => steps + 1;

    /// <summary>The step that would be undone, and the changes that would do it; null where none is within reach.</summary>
    /// <param name="bytes">The desk file as it is.</param>
    internal (Layer Step, ImmutableArray<ByteChange> Changes)? NextUndo(ImmutableArray<byte> bytes)
    {
        for (int at = made.Count - 1; at >= 0; at--)
        {
            if (made[at].Step > 0 && Through(ByteChanges.Inverse(made[at].Changes), at + 1) is { } back && ByteChanges.Apply(bytes, back) is not null)
            {
                return (made[at], back);
            }
        }

        return null;
    }

    /// <summary>The step that would be redone; its changes fit as they are.</summary>
    internal Layer? NextRedo() => undone.Count == 0 ? null : undone[^1];

    /// <summary>Takes an entry in.</summary>
    /// <returns>False where it tells of a step that isn't there.</returns>
    internal bool Add(JournalEntry entry)
    {
        switch (entry.Kind)
        {
            case JournalKind.Edit:
                steps = Math.Max(steps, entry.Step);
                made.Add(new(entry.Step, entry.Changes, entry.Words, entry.Items));
                undone.Clear();
                return true;
            case JournalKind.Outside:
                made.Add(new(0, entry.Changes, entry.Words, entry.Items));
                undone.Clear();
                return true;
            case JournalKind.Undo:
                int at = made.FindLastIndex(layer => layer.Step == entry.Step);
                if (at < 0)
                {
                    return false;
                }

                Layer step = made[at];
                made.RemoveAt(at);
                SettleFrom(at, ByteChanges.Inverse(step.Changes));
                undone.Add(step with { Changes = ByteChanges.Inverse(entry.Changes) });
                return true;
            case JournalKind.Redo:
                if (undone.Count == 0 || undone[^1].Step != entry.Step)
                {
                    return false;
                }

                made.Add(undone[^1] with { Changes = entry.Changes });
                undone.RemoveAt(undone.Count - 1);
                return true;
            default:
                return true;
        }
    }

    /// <summary>Forgets everything.</summary>
    internal void Clear()
    {
        made.Clear();
        undone.Clear();
    }

    /// <summary>Changes counted below a layer, as they are counted above all layers; null where one of those meddles with the same bytes.</summary>
    private ImmutableArray<ByteChange>? Through(ImmutableArray<ByteChange> changes, int from)
    {
        ImmutableArray<ByteChange>? moved = changes;
        for (int at = from; at < made.Count && moved is { } so; at++)
        {
            moved = ByteChanges.Rebase(so, made[at].Changes);
        }

        return moved;
    }

    /// <summary>Counts the layers from one on anew, after a step below them was taken out.</summary>
    private void SettleFrom(int from, ImmutableArray<ByteChange> taken)
    {
        for (int at = from; at < made.Count; at++)
        {
            ImmutableArray<ByteChange> before = made[at].Changes;
            ImmutableArray<ByteChange>? next = ByteChanges.Rebase(taken, before);
            if (ByteChanges.Rebase(before, taken) is not { } settled || next is not { } above)
            {
                // Can't be: the step was within reach. What can't be counted any more can't be undone any more.
                made.RemoveRange(0, at + 1);
                return;
            }

            made[at] = made[at] with { Changes = settled };
            taken = above;
        }
    }

    /// <summary>A step, or a change by another program (step 0).</summary>
    internal sealed record Layer(int Step, ImmutableArray<ByteChange> Changes, string Words, ImmutableArray<string> Items);
}
