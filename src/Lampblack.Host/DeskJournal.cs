using System;
using System.IO;
using System.Threading;
using Lampblack.Edits;
using Lampblack.Jobs;

namespace Lampblack.Host;

/// <summary>A desk file that is being edited, with every step kept beside it in <c>.lampblack</c>: steps can be undone after any number of restarts, and nothing that was written is lost.</summary>
/// <remarks>
/// A step is on the disk in the journal before the desk file is exchanged for a file written aside. Whoever else writes the desk file is noticed by its bytes,
/// and never overwritten. Safe to use from several threads.
/// </remarks>
public sealed partial class DeskJournal : IDisposable
{
    /// <summary>The folder beside the desk file.</summary>
    internal const string FolderName = ".lampblack";

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    private readonly Lock gate = new();
    private readonly JournalDisk disk;
    private readonly string file;
    private readonly string folder;
    private readonly string stem;
    private readonly JournalLog log;
    private readonly VersionShelf versions;
    private JournalHistory history = new();

    private DeskJournal(OpenedDesk desk, JournalDisk disk)
    {
        this.disk = disk;
        Desk = desk;
        file = RealPath.Of(desk.FilePath);
        folder = Path.Combine(Path.GetDirectoryName(file)!, FolderName);
        stem = Path.GetFileNameWithoutExtension(file);
        log = new(disk, Path.Combine(folder, stem + ".journal"));
        versions = new(disk, Path.Combine(folder, "versions"), stem);
    }

    /// <summary>The desk as it was last read or written.</summary>
    public OpenedDesk Desk { get; private set; }

    /// <summary>Why steps are kept only as long as the program runs; null where they are kept on the disk.</summary>
    public string? Problem { get; private set; }

    /// <summary>What was found on opening that the maker should know; null where there was nothing.</summary>
    public string? Notice { get; private set; }

    /// <summary>An edit that the disk refused; null where there is none. <see cref="Write"/> it again when the disk is in order.</summary>
    public EditResult? Pending { get; private set; }

    /// <summary>The step that would be undone next; null where there is none.</summary>
    public JournalStep? NextUndo
    {
        get
        {
            lock (gate)
            {
                return history.NextUndo(Desk.Source.Bytes) is var (step, _) ? new(step.Words, step.Items) : null;
            }
        }
    }

    /// <summary>The step that would be redone next; null where there is none.</summary>
    public JournalStep? NextRedo
    {
        get
        {
            lock (gate)
            {
                return history.NextRedo() is { } step ? new(step.Words, step.Items) : null;
            }
        }
    }

    /// <summary>Opens a desk with its journal. A journal that can't be read or doesn't fit is kept aside and never stops the desk from opening.</summary>
    /// <param name="desk">A <c>.toml</c> file, or a folder that holds <c>desk.toml</c>.</param>
    /// <exception cref="FileProblemException">The desk itself cannot be read.</exception>
    public static DeskJournal Open(string desk) => Open(desk, new JournalDisk());

    /// <summary>Makes an edit last. It must have been made of <see cref="Desk"/> as it is.</summary>
    /// <param name="edit">The edit.</param>
    public JournalOutcome Write(EditResult edit)
    {
        ArgumentNullException.ThrowIfNull(edit);
        lock (gate)
        {
            return edit.Changes.IsEmpty
                ? new(JournalResult.Nothing, "The edit changes nothing.", null, edit.Items)
                : Commit(new(JournalKind.Edit, history.NextStep, string.Empty, string.Empty, edit.Changes, edit.Words, edit.Items), edit.Bytes, edit);
        }
    }

    /// <summary>Takes the last step back that is within reach.</summary>
    public JournalOutcome Undo()
    {
        lock (gate)
        {
            return history.NextUndo(Desk.Source.Bytes) is var (step, changes)
                ? Commit(new(JournalKind.Undo, step.Step, string.Empty, string.Empty, changes, step.Words, step.Items), ByteChanges.Apply(Desk.Source.Bytes, changes)!.Value, null)
                : new(JournalResult.Nothing, "There is nothing to undo.", null, []);
        }
    }

    /// <summary>Makes the step again that was undone last.</summary>
    public JournalOutcome Redo()
    {
        lock (gate)
        {
            return history.NextRedo() is { } step && ByteChanges.Apply(Desk.Source.Bytes, step.Changes) is { } bytes
                ? Commit(new(JournalKind.Redo, step.Step, string.Empty, string.Empty, step.Changes, step.Words, step.Items), bytes, null)
                : new(JournalResult.Nothing, "There is nothing to redo.", null, []);
        }
    }

    /// <summary>Looks whether another program changed the file, and takes its text over.</summary>
    public JournalOutcome Look()
    {
        lock (gate)
        {
            FileReading now = BoundedReading.Read(file, DeskSource.LimitBytes);
            try
            {
                return now.Problem is { } problem ? new(JournalResult.Refused, $"'{Desk.FilePath}' {problem}.", null, [])
                    : ByteChanges.AreSame(now.Bytes, Desk.Source.Bytes) ? new(JournalResult.Done, string.Empty, null, [])
                    : Locked(() => TakeOver(null)) ?? Busy(null);
            }
            catch (Exception exception) when (FileProblemException.IsRefusal(exception))
            {
                return Refused(exception, null);
            }
        }
    }

    /// <inheritdoc />
    public void Dispose()
    {
        // Nothing is held between two calls; the name says when a user is done.
    }

    /// <summary>The same with a disk of the test's own.</summary>
    internal static DeskJournal Open(string desk, JournalDisk disk)
    {
        DeskJournal journal = new(OpenedDesk.Open(desk), disk);
        try
        {
            if (new FileInfo(journal.folder).LinkTarget is not null)
            {
                // Perhaps on another disk, where renaming would be copying.
                journal.Problem = $"'{FolderName}' beside the desk is a link. Undo lasts only as long as this program runs.";
            }
            else if (File.Exists(journal.folder) || journal.Locked(() => journal.Begin()) is null)
            {
                journal.Problem = $"The folder '{FolderName}' beside the desk can't be used. Undo lasts only as long as this program runs.";
            }
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception))
        {
            journal.Problem = $"The folder '{FolderName}' beside the desk can't be used: {FileProblemException.Reason(exception)}. Undo lasts only as long as this program runs.";
        }

        return journal;
    }

    /// <summary>Does something while no other program writes through a journal; null where one does all the time.</summary>
    private T? Locked<T>(Func<T> work)
        where T : class
    {
        if (Problem is not null)
        {
            return work();
        }

        using FolderLock? held = FolderLock.Take(folder, Patience, () => { }, CancellationToken.None);
        return held is null ? null : work();
    }

    private JournalOutcome Busy(EditResult? edit)
    {
        Pending = edit ?? Pending;
        return new(JournalResult.Refused, "Another window is writing this desk all the time; nothing was written.", null, []);
    }
}
