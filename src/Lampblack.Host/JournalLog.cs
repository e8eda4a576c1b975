using System;
using System.Collections.Generic;
using System.Globalization;
using System.IO;
using System.Linq;
using Lampblack.Jobs;

namespace Lampblack.Host;

/// <summary>The journal's file: entries behind one another, each proven by its checksum and joined to the one before by the desk's hash.</summary>
/// <param name="disk">The disk.</param>
/// <param name="path">The file.</param>
internal sealed class JournalLog(JournalDisk disk, string path)
{
    private const long LimitBytes = 1L << 30;

    private readonly List<(JournalEntry Entry, long Start)> entries = [];
    private long length;
    private long seen;
    private DateTime written;

    /// <summary>The entries that tell of a change, the oldest first.</summary>
    internal IEnumerable<JournalEntry> Entries => entries.Select(entry => entry.Entry);

    /// <summary>The last entry; null where there is none.</summary>
    internal JournalEntry? Last => entries.Count == 0 ? null : entries[^1].Entry;

    /// <summary>Whether the last entry is known to have reached the desk file.</summary>
    internal bool IsLastDone { get; private set; }

    /// <summary>Whether somebody else wrote into the file since it was last read or written here.</summary>
    internal bool IsChanged()
    {
        FileInfo file = new(path);
        return (file.Exists ? file.Length : 0) != seen || (file.Exists && file.LastWriteTimeUtc != written);
    }

    /// <summary>Reads the file.</summary>
    /// <returns>False where it holds something that is no journal.</returns>
    internal bool Load() => Load(File.Exists(path) ? BoundedReading.Read(path, LimitBytes) : new([], null));

    /// <summary>Adds an entry, on the disk before this returns.</summary>
    internal void Append(JournalEntry entry)
    {
        byte[] line = entry.Line();
        try
        {
            disk.Append(path, length, line, flush: true);
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception))
        {
            TryCut(length);
            Settle(length);
            throw;
        }

        entries.Add((entry, length));
        IsLastDone = false;
        Settle(length + line.Length);
    }

    /// <summary>Notes that the last entry has reached the desk file. Nobody waits for it: without the note the hashes tell.</summary>
    internal void MarkDone()
    {
        IsLastDone = true;
        byte[] line = JournalEntry.IsDone.Line();
        try
        {
            disk.Append(path, length, line, flush: false);
            Settle(length + line.Length);
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception))
        {
            TryCut(length);
            Settle(length);
        }
    }

    /// <summary>Takes the last entry back: its edit did not reach the desk file.</summary>
    internal void TakeBack()
    {
        long start = entries[^1].Start;
        entries.RemoveAt(entries.Count - 1);
        IsLastDone = true;
        TryCut(start);
        Settle(start);
    }

    /// <summary>Gives the file another name, so that a new journal can begin and this one is still there.</summary>
    /// <returns>Its new name.</returns>
    internal string SetAside()
    {
        int number = 1;
        string kept;
        do
        {
            kept = string.Create(CultureInfo.InvariantCulture, $"{path}.kept-{number++}");
        }
        while (RealPath.IsTaken(kept));

        File.Move(path, kept, overwrite: false);
        entries.Clear();
        IsLastDone = true;
        Settle(0);
        return kept;
    }

    private bool Load(FileReading reading)
    {
        entries.Clear();
        IsLastDone = true;
        length = 0;
        if (reading.Problem is not null)
        {
            return false;
        }

        ReadOnlySpan<byte> rest = reading.Bytes.AsSpan();
        while (rest.IndexOf((byte)'\n') is var end && end >= 0)
        {
            if (JournalEntry.Read(rest[..end]) is not { } entry)
            {
                // The last line may be torn; one with others behind it is damage.
                if (rest[(end + 1)..].Contains((byte)'\n'))
                {
                    return false;
                }

                break;
            }

            if (entry.Kind == JournalKind.Done)
            {
                IsLastDone = true;
            }
            else if (entries.Count > 0 && entries[^1].Entry.After != entry.Before)
            {
                return false;
            }
            else
            {
                entries.Add((entry, length));
                IsLastDone = false;
            }

            length += end + 1;
            rest = rest[(end + 1)..];
        }

        Settle(length);
        return true;
    }

    private void Settle(long end)
    {
        FileInfo file = new(path);
        length = end;
        (seen, written) = file.Exists ? (file.Length, file.LastWriteTimeUtc) : (0, default);
    }

    private void TryCut(long at)
    {
        try
        {
            disk.CutBack(path, at);
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception))
        {
            // Behind the known end it is cut by the next entry; a whole line that stays is dealt with when the file is next read.
        }
    }
}
