using System;
using System.IO;
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
    public void A_printer_that_is_not_there_is_exit_code_3()
    {
        using WorkFolder work = new();
        Assert.Equal(3, ProgramRun.Of(work.Full, "printer", "learn", "attic", "--tick", "A").Exit);
    }

    private static void NewPrinter(WorkFolder work) =>
        Assert.Equal(0, ProgramRun.Of(work.Full, "printer", "new", "study.toml", "--paper", "A4").Exit);
}
