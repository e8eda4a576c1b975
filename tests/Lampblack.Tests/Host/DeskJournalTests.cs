using System;
using System.IO;
using System.Linq;
using Lampblack.Edits;
using Lampblack.Host;
using Xunit;
using static Lampblack.Tests.Host.JournalDesk;

namespace Lampblack.Tests.Host;

public sealed class DeskJournalTests
{
    [Fact]
    public void Opening_a_desk_leaves_nothing_behind()
    {
        using WorkFolder work = Desk();
        using DeskJournal journal = DeskJournal.Open(work.Full);
        Assert.Null(journal.Problem);
        Assert.Null(journal.Notice);
        Assert.Null(journal.NextUndo);
        Assert.Equal(JournalResult.Done, journal.Look().Result);
        Assert.Equal(JournalResult.Nothing, journal.Undo().Result);
        Assert.Equal(JournalResult.Nothing, journal.Redo().Result);
        Assert.Equal(["desk.toml"], work.Files());
        Assert.False(Directory.Exists(work.Below(".lampblack")));
    }

    [Fact]
    public void Steps_are_undone_and_redone_also_after_restarts()
    {
        using WorkFolder work = Desk();
        for (int step = 1; step <= 30; step++)
        {
            using DeskJournal journal = DeskJournal.Open(work.Full);
            JournalOutcome outcome = journal.Write(Move(journal, 1));
            Assert.Equal((JournalResult.Done, "LAMP moved 1 mm right", "p/lamp"), (outcome.Result, outcome.Message, outcome.Items.Single()));
            Assert.Equal(Moved(20 + step), On(work));
            Assert.Null(journal.Notice);
        }

        Assert.Equal(VersionShelf.Most, Directory.GetFiles(work.Below(".lampblack/versions")).Length);
        Assert.Contains(Directory.GetFiles(work.Below(".lampblack/versions")), path => File.ReadAllText(path) == Moved(50));
        for (int step = 29; step >= 0; step--)
        {
            using DeskJournal journal = DeskJournal.Open(work.Full);
            Assert.Equal("LAMP moved 1 mm right", journal.NextUndo!.Words);
            Assert.Equal(JournalResult.Done, journal.Undo().Result);
            Assert.Equal(Moved(20 + step), On(work));
            Assert.NotNull(journal.NextRedo);
        }

        using DeskJournal last = DeskJournal.Open(work.Full);
        Assert.Null(last.NextUndo);
        Assert.Equal(JournalResult.Done, last.Redo().Result);
        Assert.Equal(JournalResult.Done, last.Redo().Result);
        Assert.Equal(Moved(22), On(work));
        Assert.Equal(JournalResult.Done, last.Write(Move(last, 5)).Result);
        Assert.Null(last.NextRedo);
        Assert.Equal(["desk.journal", "desk.toml"], work.Files().Select(Path.GetFileName).Where(name => !name!.StartsWith("desk-", StringComparison.Ordinal)));
    }

    [Fact]
    public void An_edit_of_an_older_state_is_not_written_and_is_kept()
    {
        using WorkFolder work = Desk();
        using DeskJournal journal = DeskJournal.Open(work.Full);
        EditResult older = Move(journal, 7);
        journal.Write(Move(journal, 1));
        JournalOutcome outcome = journal.Write(older);
        Assert.Equal(JournalResult.ChangedOutside, outcome.Result);
        Assert.Equal(Moved(21), On(work));
        Assert.Equal(Moved(27), File.ReadAllText(outcome.KeptPath!));
        Assert.Contains(outcome.KeptPath!, outcome.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void What_another_program_wrote_stays_and_what_was_to_be_written_is_kept()
    {
        using WorkFolder work = Desk();
        using DeskJournal journal = DeskJournal.Open(work.Full);
        journal.Write(Move(journal, 1));
        journal.Write(Move(journal, 2, "word"));
        string theirs = "# theirs\n" + On(work).Replace("RAIN", "SNOW", StringComparison.Ordinal);
        work.Put("desk.toml", theirs);
        EditResult edit = Move(journal, 9);
        JournalOutcome outcome = journal.Write(edit);
        Assert.Equal(JournalResult.ChangedOutside, outcome.Result);
        Assert.Equal(theirs, On(work));
        Assert.Equal(theirs, TextOf(journal.Desk.Source.Bytes));
        Assert.Equal(edit.Bytes.ToArray(), File.ReadAllBytes(outcome.KeptPath!));

        // Both steps are still within reach, as what they wrote is still there, further down.
        Assert.Equal("RAIN moved 2 mm right", journal.NextUndo!.Words);
        Assert.Equal(JournalResult.Done, journal.Undo().Result);
        Assert.Equal(theirs.Replace("[82, 40]", "[80, 40]", StringComparison.Ordinal), On(work));
        using DeskJournal again = DeskJournal.Open(work.Full);
        Assert.Null(again.Notice);
        Assert.Equal("LAMP moved 1 mm right", again.NextUndo!.Words);
        Assert.Equal(JournalResult.Done, again.Undo().Result);
        Assert.Equal("# theirs\n" + Text.Replace("RAIN", "SNOW", StringComparison.Ordinal), On(work));
        Assert.Null(again.NextUndo);
        Assert.Equal(JournalResult.Done, again.Redo().Result);
        Assert.Equal(JournalResult.Done, again.Redo().Result);
        Assert.Equal(theirs, On(work));
    }

    [Fact]
    public void A_step_that_another_program_wrote_over_is_passed_by()
    {
        using WorkFolder work = Desk();
        using DeskJournal journal = DeskJournal.Open(work.Full);
        journal.Write(Move(journal, 2, "word"));
        journal.Write(Move(journal, 1));
        work.Put("desk.toml", On(work).Replace("[21, 20]", "[33, 33]", StringComparison.Ordinal));
        JournalOutcome look = journal.Look();
        Assert.Equal(JournalResult.ChangedOutside, look.Result);
        Assert.Equal(Moved(21).Replace("[80, 40]", "[82, 40]", StringComparison.Ordinal), File.ReadAllText(look.KeptPath!));
        Assert.Equal(JournalResult.Done, journal.Look().Result);
        Assert.Equal("RAIN moved 2 mm right", journal.NextUndo!.Words);
        Assert.Equal(JournalResult.Done, journal.Undo().Result);
        Assert.Equal(Text.Replace("[20, 20]", "[33, 33]", StringComparison.Ordinal), On(work));
        Assert.Null(journal.NextUndo);
    }

    [Fact]
    public void A_change_while_nobody_looked_is_told_and_the_last_state_is_named()
    {
        using WorkFolder work = Desk();
        using (DeskJournal journal = DeskJournal.Open(work.Full))
        {
            journal.Write(Move(journal, 1));
        }

        work.Put("desk.toml", Text);
        using DeskJournal again = DeskJournal.Open(work.Full);
        Assert.Contains("changed by another program", again.Notice, StringComparison.Ordinal);
        Assert.Equal(Moved(21), File.ReadAllText(again.Notice!.Split('\'')[3]));
        Assert.Equal(Text, TextOf(again.Desk.Source.Bytes));

        // The state before the step was put back by hand; it must not be taken for a crash.
        Assert.Equal(Text, On(work));
    }

    [Fact]
    public void Two_windows_never_overwrite_each_other_and_share_their_steps()
    {
        using WorkFolder work = Desk();
        using DeskJournal one = DeskJournal.Open(work.Full);
        using DeskJournal two = DeskJournal.Open(work.Below("desk.toml"));
        one.Write(Move(one, 1));
        EditResult edit = Move(two, 5, "word");
        JournalOutcome outcome = two.Write(edit);
        Assert.Equal(JournalResult.ChangedOutside, outcome.Result);
        Assert.Contains("another window", outcome.Message, StringComparison.Ordinal);
        Assert.Equal(Moved(21), TextOf(two.Desk.Source.Bytes));
        Assert.Equal(JournalResult.Done, two.Write(Move(two, 5, "word")).Result);
        Assert.Equal(JournalResult.ChangedOutside, one.Look().Result);
        Assert.Equal("RAIN moved 5 mm right", one.NextUndo!.Words);
        one.Undo();
        one.Undo();
        Assert.Equal(Text, On(work));
    }

    [Fact]
    public void A_damaged_journal_is_kept_aside_and_never_stops_a_desk_from_opening()
    {
        using WorkFolder work = Desk();
        using (DeskJournal journal = DeskJournal.Open(work.Full))
        {
            Enumerable.Range(0, 5).ToList().ForEach(_ => journal.Write(Move(journal, 1)));
        }

        byte[] whole = File.ReadAllBytes(work.Below(".lampblack/desk.journal"));
        Random random = new(5);
        for (int round = 0; round < 60; round++)
        {
            byte[] damaged = [.. whole];
            damaged[random.Next(damaged.Length - 1)] ^= (byte)random.Next(1, 256);
            damaged = round % 3 == 0 ? damaged[..random.Next(damaged.Length)] : round % 3 == 1 ? damaged : [.. damaged, .. "nonsense\n\n"u8];
            File.WriteAllBytes(work.Below(".lampblack/desk.journal"), damaged);
            using DeskJournal again = DeskJournal.Open(work.Full);
            Assert.Equal(Moved(25), TextOf(again.Desk.Source.Bytes));
            Assert.Equal(Moved(25), On(work));
            string[] kept = Directory.GetFiles(work.Below(".lampblack"), "*.kept-*");
            Assert.True(kept.Length == 0 || kept.Any(path => File.ReadAllBytes(path).AsSpan().SequenceEqual(damaged)));
            Assert.Equal(JournalResult.Done, again.Write(Move(again, 1)).Result);
            Assert.Equal(JournalResult.Done, again.Undo().Result);
            Array.ForEach(kept, File.Delete);
        }
    }

    [Fact]
    public void A_torn_last_line_is_passed_over()
    {
        using WorkFolder work = Desk();
        using (DeskJournal journal = DeskJournal.Open(work.Full))
        {
            journal.Write(Move(journal, 1));
            journal.Write(Move(journal, 1));
        }

        File.AppendAllText(work.Below(".lampblack/desk.journal"), "0123456789abcdef {\"v\":1,\"kind\":\"ed");
        using DeskJournal again = DeskJournal.Open(work.Full);
        Assert.Null(again.Notice);
        Assert.Equal(JournalResult.Done, again.Write(Move(again, 1)).Result);
        Enumerable.Range(0, 3).ToList().ForEach(_ => Assert.Equal(JournalResult.Done, again.Undo().Result));
        Assert.Equal(Text, On(work));
    }

    [Fact]
    public void Without_a_folder_of_its_own_steps_last_as_long_as_the_program()
    {
        using WorkFolder work = Desk();
        work.Put(".lampblack", "not ours");
        using DeskJournal journal = DeskJournal.Open(work.Full);
        Assert.NotNull(journal.Problem);
        Assert.Equal(JournalResult.Done, journal.Write(Move(journal, 1)).Result);
        Assert.Equal(Moved(21), On(work));
        work.Put("desk.toml", "# theirs\n" + On(work));
        Assert.Equal(JournalResult.ChangedOutside, journal.Write(Move(journal, 1)).Result);
        Assert.NotNull(journal.Pending);
        Assert.Equal(JournalResult.Done, journal.Undo().Result);
        Assert.Equal("# theirs\n" + Text, On(work));
        Assert.Equal("not ours", work.Text(".lampblack"));
        Assert.Equal([".lampblack", "desk.toml"], work.Files());
    }

    [Fact]
    public void A_link_stays_a_link()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "links take rights there");
        using WorkFolder work = Desk();
        Directory.CreateDirectory(work.Below("elsewhere"));
        File.CreateSymbolicLink(work.Below("elsewhere/linked.toml"), work.Below("desk.toml"));
        using (DeskJournal journal = DeskJournal.Open(work.Below("elsewhere/linked.toml")))
        {
            Assert.Equal(JournalResult.Done, journal.Write(Move(journal, 1)).Result);
        }

        Assert.NotNull(new FileInfo(work.Below("elsewhere/linked.toml")).LinkTarget);
        Assert.Equal(Moved(21), On(work));
        using DeskJournal direct = DeskJournal.Open(work.Full);
        Assert.Equal(JournalResult.Done, direct.Undo().Result);
    }

    private static WorkFolder Desk()
    {
        WorkFolder work = new();
        work.Put("desk.toml", Text);
        return work;
    }
}
