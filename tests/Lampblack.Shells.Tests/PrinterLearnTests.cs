using System;
using System.Collections.Generic;
using System.Diagnostics;
using System.IO;
using System.Linq;
using System.Text.Json;
using Xunit;

namespace Lampblack.Shells.Tests;

public sealed class PrinterLearnTests
{
    [Fact]
    public void What_was_seen_is_stored_and_answered_in_words()
    {
        using WorkFolder work = new();
        NewPrinter(work);
        ProgramRun run = ProgramRun.Of(work.Full, "printer", "learn", "study.toml", "--reading", "NE:x=+0,3,y=-0.1", "SW: x=+1c y=0", "--dots", "6-21:", "N=0", "E=4", "S=0", "W=0", "--tick", "a");
        Assert.Equal((0, string.Empty), (run.Exit, run.Error));
        Assert.Contains("register 1", run.Output, StringComparison.Ordinal);
        Assert.Contains("Tick in A", run.Output, StringComparison.Ordinal);
        Assert.Contains("Stored in study.toml", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_machine_gets_the_same_as_one_object()
    {
        using WorkFolder work = new();
        NewPrinter(work);
        ProgramRun run = ProgramRun.Of(work.Full, "printer", "learn", "study.toml", "--dots", "4@10-15:N=0,E=1,S=2,W=0", "--step", "0.7mm", "--json");
        JsonElement answer = JsonDocument.Parse(run.Output).RootElement;
        Assert.Equal("lampblack-printer-learn/1", answer.GetProperty("schema").GetString());
        Assert.Equal((0, 1, 4), (run.Exit, answer.GetProperty("register").GetInt32(), answer.GetProperty("keeper").GetInt32()));
        Assert.True(answer.GetProperty("stored").GetBoolean());
        Assert.True(answer.GetProperty("anotherSheet").GetBoolean());
        Assert.Equal(0.85, answer.GetProperty("figures").GetProperty("rightMm").GetDouble(), 0.03);
    }

    [Fact]
    public void A_wrong_answer_is_exit_code_1_and_changes_nothing()
    {
        using WorkFolder work = new();
        NewPrinter(work);
        string before = File.ReadAllText(work.Below("study.toml"));
        ProgramRun run = ProgramRun.Of(work.Full, "printer", "learn", "study.toml", "--tick", "A", "--reading", "EN:x=0.3");
        Assert.Equal(1, run.Exit);
        Assert.Contains("stop answer-form", run.Output, StringComparison.Ordinal);
        Assert.Contains("did you mean `--reading NE:x=0.3`?", run.Output, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllText(work.Below("study.toml")));
    }

    [Fact]
    public void Dots_at_a_place_where_the_sheets_of_a_build_have_no_rows_are_told_the_places_that_have()
    {
        using WorkFolder work = new();
        NewPrinter(work);
        ProgramRun.Of(work.Full, "new", "desk");
        ProgramRun built = ProgramRun.Of(work.Full, "build", "desk", "--printer", "study.toml", "--only", "print");
        Assert.Equal(0, built.Exit);
        string place = JsonDocument.Parse(File.ReadAllBytes(work.Below("desk/out/report.json"))).RootElement.GetProperty("sheets")[0].GetProperty("dotRows").GetString()!;
        ProgramRun elsewhere = ProgramRun.Of(work.Full, "printer", "learn", "study.toml", "--dots", "10-15:N=1,E=0,S=0,W=0", "--sheets", "desk/out");
        Assert.Equal(1, elsewhere.Exit);
        Assert.Contains("stop place-without-rows", elsewhere.Output, StringComparison.Ordinal);
        Assert.Contains($"rows are at {place} (sheet-1)", elsewhere.Output, StringComparison.Ordinal);
        Assert.Equal(0, ProgramRun.Of(work.Full, "printer", "learn", "study.toml", "--dots", $"{place}:N=1,E=0,S=0,W=0", "--sheets", "desk/out").Exit);
        Assert.Equal(3, ProgramRun.Of(work.Full, "printer", "learn", "study.toml", "--dots", $"{place}:N=1,E=0,S=0,W=0", "--sheets", "desk").Exit);
    }

    [Fact]
    public void What_must_be_dealt_with_is_followed_by_nothing_else()
    {
        using WorkFolder work = new();
        NewPrinter(work);
        ProgramRun run = ProgramRun.Of(work.Full, "printer", "learn", "study.toml", "--dots", "6-21:N=6,E=0,S=0,W=0", "5-20:N=1,E=0,S=1,W=0", "--reading", "NE:x=3,y=0", "NW:x=0,y=0", "SE:x=0,y=0", "SW:x=0,y=0");
        Assert.Equal(1, run.Exit);
        Assert.Contains("stop readings-contradict", run.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("note ", run.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("warn ", run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Nothing_told_and_nobody_to_ask_is_wrong_use_with_examples(bool json)
    {
        using WorkFolder work = new();
        NewPrinter(work);
        ProgramRun run = json ? ProgramRun.Of(work.Full, "printer", "learn", "study.toml", "--json") : ProgramRun.Of(work.Full, "printer", "learn", "study.toml");
        Assert.Equal(2, run.Exit);
        Assert.Contains("--dots 6-21:N=2,E=0,S=0,W=1", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_programs_that_learn_at_once_both_leave_their_lesson_in_the_file()
    {
        using WorkFolder work = new();
        NewPrinter(work);
        Process[] programs;
        using (FileStream _ = new(work.Below(".lampblack-lock"), FileMode.CreateNew, FileAccess.ReadWrite, FileShare.None, 0, FileOptions.DeleteOnClose))
        {
            // Both read a sheet of register 0: which of them is first must not matter. Both have started and stand before the lock before either may go on: whoever had read the file already would lose the other's lesson.
            programs =
            [
                .. new[] { "NE:x=0.3,y=0.1", "SW:x=0.2,y=0.1" }.Select(reading => ProgramRun.Start(
                    work.Full, new Dictionary<string, string>(), "printer", "learn", "study.toml", "--reading", reading, "--register", "0", "--verbose")),
            ];
            Assert.All(programs, program => Assert.True(SaysThatItWaits(program)));
        }

        Assert.All(programs, program => Assert.Equal(0, ProgramRun.Finish(program).Exit));
        string[] lines = File.ReadAllLines(work.Below("study.toml"));
        Assert.Equal(["number = 1", "number = 2"], lines.Where(line => line.StartsWith("number", StringComparison.Ordinal)));
        Assert.Single(lines, line => line.Contains("right = 0.3,", StringComparison.Ordinal));
        Assert.Single(lines, line => line.Contains("right = 0.2,", StringComparison.Ordinal));
        Assert.Equal(2, lines.Count(line => line.Contains("right =", StringComparison.Ordinal)));
        Assert.False(File.Exists(work.Below(".lampblack-lock")));
    }

    [Theory]
    [InlineData(3, "There is no file", "study.toml", "gone.jpg")]
    [InlineData(3, "There is no file", "gone.jpg", "--printer", "study.toml")]
    [InlineData(1, "stop photo-", "study.toml", "gauge.png")]
    [InlineData(1, "stop photo-", "gauge.png", "--printer", "study.toml")]
    [InlineData(1, "stop photo-unreadable", "study.toml", "text.jpg")]
    [InlineData(1, "stop photo-", "study.toml", "gauge.png", "text.jpg", "-o", "arrows")]
    public void A_photo_that_shows_no_sheet_teaches_nothing_and_says_why(int exit, string words, params string[] arguments)
    {
        using WorkFolder work = new();
        NewPrinter(work);
        File.Copy(Path.Combine(LauncherTests.Root(), "examples", "gauge", "gauge.png"), work.Below("gauge.png"));
        File.WriteAllText(work.Below("text.jpg"), "no photo");
        string before = File.ReadAllText(work.Below("study.toml"));
        ProgramRun run = ProgramRun.Of(work.Full, ["printer", "learn", .. arguments]);
        Assert.Equal(exit, run.Exit);
        Assert.Contains(words, run.Output + run.Error, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllText(work.Below("study.toml")));
        Assert.False(Directory.Exists(work.Below("arrows")));
    }

    private static bool SaysThatItWaits(Process program)
    {
        while (program.StandardError.ReadLine() is { } line)
        {
            if (line.Contains("waiting for another program", StringComparison.Ordinal))
            {
                return true;
            }
        }

        return false;
    }

    [Fact]
    public void A_printer_that_is_not_there_is_exit_code_3()
    {
        using WorkFolder work = new();
        Assert.Equal(3, ProgramRun.Of(work.Full, "printer", "learn", "attic", "--tick", "A").Exit);
    }

    private static void NewPrinter(WorkFolder work) =>
        Assert.Equal(0, ProgramRun.Of(work.Full, "printer", "new", "study.toml", "--paper", "A4").Exit);
}
