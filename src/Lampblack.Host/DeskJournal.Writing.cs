using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.IO;
using System.Linq;
using Lampblack.Edits;
using Lampblack.Jobs;

namespace Lampblack.Host;

/// <content>Writing a step, and dealing with what is found on the disk.</content>
public sealed partial class DeskJournal
{
    private JournalOutcome Commit(JournalEntry step, ImmutableArray<byte> bytes, EditResult? edit)
    {
        try
        {
            return Locked(() => Exchange(step, bytes, edit)) ?? Busy(edit);
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception))
        {
            return Refused(exception, edit);
        }
    }

    private JournalOutcome Exchange(JournalEntry step, ImmutableArray<byte> bytes, EditResult? edit)
    {
        FileReading now = BoundedReading.Read(file, DeskSource.LimitBytes);
        if (now.Problem is { } problem)
        {
            Pending = edit ?? Pending;
            return new(JournalResult.Refused, $"'{Desk.FilePath}' {problem}; nothing was written.", null, step.Items);
        }

        if (Refresh() || !ByteChanges.AreSame(now.Bytes, Desk.Source.Bytes))
        {
            return TakeOver(edit);
        }

        if (ByteChanges.Apply(now.Bytes, step.Changes) is not { } made || !ByteChanges.AreSame(made, bytes))
        {
            return Conflict(edit, "The edit was made of an older state of the desk", []);
        }

        JournalEntry entry = step with { Before = JournalEntry.HashOf(now.Bytes), After = JournalEntry.HashOf(bytes) };
        if (Problem is null)
        {
            versions.Keep(now.Bytes);
            log.Append(entry);
        }

        try
        {
            DeskWriting.Put(disk, file, Desk.FilePath, Problem is null ? folder : Path.GetDirectoryName(file)!, bytes);
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception) || exception is FileProblemException)
        {
            if (Problem is null)
            {
                log.TakeBack();
            }

            return Refused(exception, edit);
        }

        history.Add(entry);
        Hold(bytes);
        Pending = null;
        if (Problem is null)
        {
            log.MarkDone();
            versions.Keep(bytes);
        }

        string verb = step.Kind switch
        {
            JournalKind.Undo => "Undone: ",
            JournalKind.Redo => "Redone: ",
            _ => string.Empty,
        };
        return new(JournalResult.Done, verb + step.Words, null, step.Items);
    }

    /// <summary>The first look into the journal: whatever a crash or another program left is settled.</summary>
    private string Begin()
    {
        TemporaryFiles.Sweep(folder);
        TemporaryFiles.Sweep(Path.Combine(folder, "versions"));
        Refresh();
        if (BoundedReading.Read(file, DeskSource.LimitBytes) is { Problem: null } now)
        {
            // Between the first reading and the lock another window may have written.
            Hold(now.Bytes);
        }

        if (log.Last is not { } last)
        {
            return string.Empty;
        }

        ImmutableArray<byte> bytes = Desk.Source.Bytes;
        string hash = JournalEntry.HashOf(bytes);
        if (hash == last.After)
        {
            versions.Keep(bytes);
        }
        else if (!log.IsLastDone && hash == last.Before && ByteChanges.Apply(bytes, last.Changes) is { } completed && JournalEntry.HashOf(completed) == last.After)
        {
            Complete(last, completed);
        }
        else
        {
            Notice = NoteOutside(bytes) is { } version
                ? $"'{Desk.FilePath}' was changed by another program since it was last edited here. Its text is shown as it is; how it was here lies in '{version}'."
                : Notice ?? $"'{Desk.FilePath}' was changed by another program since it was last edited here. Its text is shown as it is.";
        }

        return string.Empty;
    }

    /// <summary>Writes the step that was in the journal, but not in the desk file yet, when the program was ended.</summary>
    private void Complete(JournalEntry last, ImmutableArray<byte> bytes)
    {
        try
        {
            DeskWriting.Put(disk, file, Desk.FilePath, folder, bytes);
            Hold(bytes);
            log.MarkDone();
            versions.Keep(bytes);
            Notice = $"The program ended in the middle of a step, which is completed now: {last.Words}.";
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception) || exception is FileProblemException)
        {
            log.TakeBack();
            Replay();
            Notice = $"The program ended in the middle of a step, which could not be completed and is dropped: {last.Words}.";
        }
    }

    /// <summary>Reads the journal again where somebody else wrote into it; one that can't be read is kept aside.</summary>
    /// <returns>Whether the history is another one now.</returns>
    private bool Refresh()
    {
        if (Problem is not null || !log.IsChanged())
        {
            return false;
        }

        if (!log.Load() || !Replay())
        {
            SetAside("can't be read");
        }

        return true;
    }

    private bool Replay()
    {
        history = new();
        return log.Entries.All(history.Add);
    }

    private void SetAside(string why)
    {
        string kept = log.SetAside();
        history = new();
        Notice = $"The journal of '{Desk.FilePath}' {why}. It is kept as '{kept}', and a new one begins.";
    }

    /// <summary>The desk file is another one than was known: its text is taken over, and what was to be written is kept.</summary>
    private JournalOutcome TakeOver(EditResult? edit)
    {
        FileReading now = BoundedReading.Read(file, DeskSource.LimitBytes);
        if (now.Problem is { } problem)
        {
            Pending = edit ?? Pending;
            return new(JournalResult.Refused, $"'{Desk.FilePath}' {problem}; nothing was written.", null, []);
        }

        Refresh();
        bool isWindow = Problem is null && log.Last?.After == JournalEntry.HashOf(now.Bytes);
        string? version = isWindow ? null : NoteOutside(now.Bytes);
        Hold(now.Bytes);
        return Conflict(edit, $"'{Desk.FilePath}' was changed {(isWindow ? "in another window" : "by another program")}, and its text is shown now", version is null ? [] : [version]);
    }

    /// <summary>Notes what another program made of the last known state.</summary>
    /// <returns>The file that holds that state; null where there is none.</returns>
    private string? NoteOutside(ImmutableArray<byte> theirs)
    {
        if (Problem is not null)
        {
            history.Add(Outside(Desk.Source.Bytes, theirs));
            return null;
        }

        if (log.Last is not { } last)
        {
            // Nothing was ever edited here.
            return null;
        }

        if (Known(last.After) is not { } ours)
        {
            SetAside("does not fit the file, which was changed elsewhere");
            return null;
        }

        JournalEntry entry = Outside(ours, theirs);
        versions.Keep(ours);
        history.Add(entry);
        try
        {
            log.Append(entry);
            log.MarkDone();
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception))
        {
            // Without this entry the next one would not fit; the next opening notes what lies between.
            Problem = $"The journal in '{FolderName}' beside the desk can't be written: {FileProblemException.Reason(exception)}. Undo lasts only as long as this program runs.";
        }

        return versions.Find(last.After)?.Path;
    }

    private static JournalEntry Outside(ImmutableArray<byte> ours, ImmutableArray<byte> theirs) => new(
        JournalKind.Outside, 0, JournalEntry.HashOf(ours), JournalEntry.HashOf(theirs), LineChanges.Between(ours, theirs), "changed by another program", []);

    /// <summary>The bytes of a state: from memory, from a version, or from an older version and the steps since.</summary>
    private ImmutableArray<byte>? Known(string hash)
    {
        if (JournalEntry.HashOf(Desk.Source.Bytes) == hash)
        {
            return Desk.Source.Bytes;
        }

        Stack<JournalEntry> since = new();
        foreach (JournalEntry entry in log.Entries.Reverse().Take(2 * VersionShelf.Most))
        {
            if (versions.Find(entry.After) is var (_, known))
            {
                return Forward(known, since);
            }

            since.Push(entry);
        }

        return since.TryPeek(out JournalEntry? first) && versions.Find(first.Before) is var (_, oldest) ? Forward(oldest, since) : null;

        ImmutableArray<byte>? Forward(ImmutableArray<byte> bytes, IEnumerable<JournalEntry> steps)
        {
            ImmutableArray<byte>? at = bytes;
            foreach (JournalEntry step in steps)
            {
                at = at is { } so ? ByteChanges.Apply(so, step.Changes) : null;
            }

            return at is { } end && JournalEntry.HashOf(end) == hash ? end : null;
        }
    }

    private JournalOutcome Conflict(EditResult? edit, string what, ImmutableArray<string> lies)
    {
        string? kept = lies.IsEmpty ? null : lies[0];
        string where = kept is null ? string.Empty : $" How it was here lies in '{kept}'.";
        if (edit is not null)
        {
            kept = KeepEdit(edit.Bytes);
            Pending = kept is null ? edit : Pending;
            where = kept is null
                ? " What you were about to write could not be kept on the disk; it is still in memory."
                : $" What you were about to write is kept as '{kept}'.";
        }

        return new(JournalResult.ChangedOutside, $"{what}; nothing was overwritten.{where}", kept, edit?.Items ?? []);
    }

    private string? KeepEdit(ImmutableArray<byte> bytes)
    {
        string path = Path.Combine(folder, $"{stem}-{VersionShelf.Short(JournalEntry.HashOf(bytes))}.toml");
        try
        {
            disk.Rename(disk.WriteAside(folder, bytes), path);
            return path;
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception))
        {
            return null;
        }
    }

    private JournalOutcome Refused(Exception exception, EditResult? edit)
    {
        Pending = edit ?? Pending;
        string why = exception is FileProblemException ? exception.Message : $"Cannot write '{Desk.FilePath}': {FileProblemException.Reason(exception)}. The file is as it was.";
        return new(JournalResult.Refused, why, null, []);
    }

    private void Hold(ImmutableArray<byte> bytes) => Desk = Desk with { Source = Desk.Source with { Bytes = bytes } };
}
