using System;
using System.Collections.Immutable;
using System.IO;
using Lampblack.Edits;
using Lampblack.Host;
using Xunit;
using static Lampblack.Tests.Host.JournalDesk;

namespace Lampblack.Tests.Host;

/// <summary>Disks that run full, files that can't be written, and programs that end in the middle of a step.</summary>
public sealed class JournalDiskTests
{
    [Theory]
    [InlineData("append")]
    [InlineData("aside")]
    [InlineData("rename")]
    public void A_full_disk_loses_nothing_and_the_edit_is_offered_again(string where)
    {
        using WorkFolder work = new();
        work.Put("desk.toml", Text);
        FaultyDisk disk = new();
        using DeskJournal journal = DeskJournal.Open(work.Full, disk);
        journal.Write(Move(journal, 1));
        disk.Fails = where;
        EditResult edit = Move(journal, 5);
        JournalOutcome outcome = journal.Write(edit);
        Assert.Equal(JournalResult.Refused, outcome.Result);
        Assert.Contains("the disk is full", outcome.Message, StringComparison.Ordinal);
        Assert.Equal(Moved(21), On(work));
        Assert.Same(edit, journal.Pending);
        using (DeskJournal other = DeskJournal.Open(work.Full))
        {
            Assert.Null(other.Notice);
            Assert.Equal(Moved(21), On(work));
        }

        disk.Fails = string.Empty;
        Assert.Equal(JournalResult.Done, journal.Write(journal.Pending!).Result);
        Assert.Null(journal.Pending);
        Assert.Equal(Moved(26), On(work));
        journal.Undo();
        journal.Undo();
        Assert.Equal(Text, On(work));
        Assert.DoesNotContain(work.Files(), name => name.Contains("tmp", StringComparison.Ordinal));
    }

    [Fact]
    public void A_write_protected_desk_is_left_alone()
    {
        using WorkFolder work = new();
        work.Put("desk.toml", Text);
        using DeskJournal journal = DeskJournal.Open(work.Full);
        File.SetAttributes(work.Below("desk.toml"), FileAttributes.ReadOnly);
        JournalOutcome outcome = journal.Write(Move(journal, 1));
        Assert.Equal(JournalResult.Refused, outcome.Result);
        Assert.Contains("write-protected", outcome.Message, StringComparison.Ordinal);
        Assert.Equal(Text, On(work));
        File.SetAttributes(work.Below("desk.toml"), FileAttributes.Normal);
        Assert.Equal(JournalResult.Done, journal.Write(journal.Pending!).Result);
        using DeskJournal again = DeskJournal.Open(work.Full);
        Assert.Null(again.Notice);
        Assert.Equal(Moved(21), On(work));
    }

    [Fact]
    public void A_folder_that_can_only_be_read_is_told()
    {
        Assert.SkipWhen(Environment.UserName == "root", "permissions hold nobody back here");
        if (OperatingSystem.IsWindows())
        {
            Assert.Skip("folders have no such permissions there");
            return;
        }

        using WorkFolder work = new();
        work.Put("desk.toml", Text);
        File.SetUnixFileMode(work.Full, UnixFileMode.UserRead | UnixFileMode.UserExecute);
        using DeskJournal journal = DeskJournal.Open(work.Full);
        Assert.NotNull(journal.Problem);
        Assert.Equal(JournalResult.Refused, journal.Write(Move(journal, 1)).Result);
        File.SetUnixFileMode(work.Full, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        Assert.Equal(Text, On(work));
    }

    /// <summary>The disk dies before the step with this number; what was done until then stays. Then the desk is opened anew.</summary>
    [Theory]
    [InlineData(0, 20)]
    [InlineData(1, 21)]
    [InlineData(2, 21)]
    [InlineData(3, 21)]
    [InlineData(4, 21)]
    public void A_step_that_reached_the_journal_is_completed_and_one_that_did_not_is_not_there(int steps, int xMm)
    {
        using WorkFolder work = new();
        work.Put("desk.toml", Text);
        DyingDisk disk = new();
        DeskJournal journal = DeskJournal.Open(work.Full, disk);
        journal.Write(Move(journal, 7));
        journal.Undo();
        disk.Left = steps;
        Assert.Throws<DyingDisk.DeadException>(() => journal.Write(Move(journal, 1)));
        using DeskJournal again = DeskJournal.Open(work.Full);
        Assert.Equal(Moved(xMm), On(work));
        Assert.Equal(Moved(xMm), TextOf(again.Desk.Source.Bytes));
        Assert.Equal(steps is 1 or 2, again.Notice?.Contains("completed", StringComparison.Ordinal) ?? false);
        Assert.Equal(xMm > 20, again.NextUndo is not null);
        Assert.Equal(JournalResult.Done, again.Write(Move(again, 1)).Result);
        Assert.DoesNotContain(work.Files(), name => name.Contains("tmp", StringComparison.Ordinal));
        while (again.NextUndo is not null)
        {
            Assert.Equal(JournalResult.Done, again.Undo().Result);
        }

        Assert.Equal(Text, On(work));
    }

    /// <summary>Refuses one kind of writing as a full disk does, after half of it.</summary>
    private sealed class FaultyDisk : JournalDisk
    {
        internal string Fails { get; set; } = string.Empty;

        internal override void Append(string path, long at, byte[] line, bool flush)
        {
            base.Append(path, at, Fails == "append" ? line[..(line.Length / 2)] : line, flush);
            ThrowAt("append");
        }

        internal override string WriteAside(string folder, ImmutableArray<byte> bytes)
        {
            ThrowAt("aside");
            return base.WriteAside(folder, bytes);
        }

        internal override void Rename(string from, string to)
        {
            ThrowAt("rename");
            base.Rename(from, to);
        }

        private void ThrowAt(string what)
        {
            if (Fails == what)
            {
                throw new IOException("No space left on device", OperatingSystem.IsWindows() ? unchecked((int)0x80070070) : 28);
            }
        }
    }

    /// <summary>Does a number of things and then nothing more, as after a crash.</summary>
    private sealed class DyingDisk : JournalDisk
    {
        internal int Left { get; set; } = int.MaxValue;

        internal override void Append(string path, long at, byte[] line, bool flush)
        {
            Live();
            base.Append(path, at, line, flush);
        }

        internal override string WriteAside(string folder, ImmutableArray<byte> bytes)
        {
            Live();
            return base.WriteAside(folder, bytes);
        }

        internal override void Rename(string from, string to)
        {
            Live();
            base.Rename(from, to);
        }

        private void Live()
        {
            if (Left-- <= 0)
            {
                throw new DeadException();
            }
        }

        internal sealed class DeadException : Exception;
    }
}
