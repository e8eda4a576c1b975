using System;
using System.Collections.Immutable;
using Lampblack.Edits;

namespace Lampblack.Host;

/// <summary>Exchanges stretches of bytes, and takes such exchanges back.</summary>
internal static class ByteChanges
{
    /// <summary>The bytes with all changes made; null where they are not the bytes that the changes were made for.</summary>
    /// <param name="bytes">The bytes.</param>
    /// <param name="changes">Changes in ascending order, counted in these bytes.</param>
    internal static ImmutableArray<byte>? Apply(ImmutableArray<byte> bytes, ImmutableArray<ByteChange> changes)
    {
        ImmutableArray<byte>.Builder done = ImmutableArray.CreateBuilder<byte>(bytes.Length + 64);
        int at = 0;
        foreach (ByteChange change in changes)
        {
            if (change.Offset < at
                || change.Offset > bytes.Length - change.Removed.Length
                || !bytes.AsSpan(change.Offset, change.Removed.Length).SequenceEqual(change.Removed.AsSpan()))
            {
                return null;
            }

            done.AddRange(bytes.AsSpan(at, change.Offset - at));
            done.AddRange(change.Inserted);
            at = change.Offset + change.Removed.Length;
        }

        done.AddRange(bytes.AsSpan(at, bytes.Length - at));
        return done.ToImmutable();
    }

    /// <summary>The changes that lead back, counted in the bytes that the changes lead to.</summary>
    internal static ImmutableArray<ByteChange> Inverse(ImmutableArray<ByteChange> changes)
    {
        ImmutableArray<ByteChange>.Builder back = ImmutableArray.CreateBuilder<ByteChange>(changes.Length);
        int shift = 0;
        foreach (ByteChange change in changes)
        {
            back.Add(new(change.Offset + shift, change.Inserted, change.Removed));
            shift += change.Inserted.Length - change.Removed.Length;
        }

        return back.ToImmutable();
    }

    /// <summary>What parts two files: one stretch, from the first byte that differs to the last.</summary>
    internal static ImmutableArray<ByteChange> Between(ImmutableArray<byte> old, ImmutableArray<byte> now)
    {
        int most = Math.Min(old.Length, now.Length);
        int head = old.AsSpan().CommonPrefixLength(now.AsSpan());
        int tail = 0;
        while (tail < most - head && old[^(tail + 1)] == now[^(tail + 1)])
        {
            tail++;
        }

        return old.Length == now.Length && head == old.Length
            ? []
            : [new(head, old[head..(old.Length - tail)], now[head..(now.Length - tail)])];
    }

    /// <summary>Changes as they are to be counted after other ones were made, those themselves left alone; null where the two meddle with the same bytes.</summary>
    /// <param name="changes">Changes counted in some bytes.</param>
    /// <param name="others">Changes of the same bytes, in ascending order.</param>
    internal static ImmutableArray<ByteChange>? Rebase(ImmutableArray<ByteChange> changes, ImmutableArray<ByteChange> others)
    {
        ImmutableArray<ByteChange>.Builder moved = ImmutableArray.CreateBuilder<ByteChange>(changes.Length);
        foreach (ByteChange change in changes)
        {
            int end = change.Offset + change.Removed.Length;
            int shift = 0;
            foreach (ByteChange other in others)
            {
                if (change.Removed.IsEmpty && other.Removed.IsEmpty && change.Offset == other.Offset)
                {
                    // Nobody can say which of the two comes first.
                    return null;
                }

                if (other.Offset >= end)
                {
                    break;
                }

                if (other.Offset + other.Removed.Length > change.Offset)
                {
                    return null;
                }

                shift += other.Inserted.Length - other.Removed.Length;
            }

            moved.Add(change with { Offset = change.Offset + shift });
        }

        return moved.ToImmutable();
    }

    /// <summary>Whether two files hold the same bytes.</summary>
    internal static bool AreSame(ImmutableArray<byte> one, ImmutableArray<byte> other) => one.AsSpan().SequenceEqual(other.AsSpan());
}
