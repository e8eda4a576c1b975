using System;
using System.IO;
using System.Linq;
using System.Text.Json;
using Xunit;

namespace Lampblack.Shells.Tests;

/// <summary>The calibration sheet from the command line, and what its verniers teach.</summary>
public sealed class PrinterSheetTests
{
    [Fact]
    public void A_sheet_for_a_printer_that_is_not_there_starts_it_without_asking()
    {
        using WorkFolder work = new();
        ProgramRun made = ProgramRun.Of(work.Full, "printer", "sheet", "--paper", "A4", "--printer", "study", "-o", "sheets", "--copies", "3");
        Assert.Equal((0, string.Empty), (made.Exit, made.Error));
        Assert.True(File.Exists(work.Below("own folder/printers/study.toml")));
        Assert.Equal(["sheets/back.pdf", "sheets/duplex.pdf", "sheets/front.pdf", "sheets/manifest.json"], work.Files());
        Assert.Contains("Started the printer 'study'", made.Output, StringComparison.Ordinal);
        Assert.Contains("lampblack printer which-way --printer study", made.Output, StringComparison.Ordinal);
        Assert.Contains("print back.pdf", made.Output, StringComparison.Ordinal);
        Assert.Contains("the same copy number", made.Output, StringComparison.Ordinal);
        Assert.Contains("lampblack printer learn study --vernier", made.Output, StringComparison.Ordinal);
        Assert.Contains("/Count 3 ", File.ReadAllText(work.Below("sheets/back.pdf")), StringComparison.Ordinal);

        // The same again: the same bytes, and the printer is there now.
        byte[] before = File.ReadAllBytes(work.Below("sheets/front.pdf"));
        ProgramRun again = ProgramRun.Of(work.Full, "printer", "sheet", "--printer", "study", "-o", "sheets", "--copies", "3");
        Assert.DoesNotContain("Started", again.Output, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllBytes(work.Below("sheets/front.pdf")));
    }

    [Fact]
    public void A_printer_by_path_is_started_there_and_machines_get_one_object()
    {
        using WorkFolder work = new();
        ProgramRun made = ProgramRun.Of(work.Full, "printer", "sheet", "--printer", "mine.toml", "--black-only", "--paper", "letter", "--json");
        using JsonDocument answer = JsonDocument.Parse(made.Output);
        JsonElement root = answer.RootElement;
        Assert.Equal((0, string.Empty), (made.Exit, made.Error));
        Assert.Equal(("lampblack-printer-sheet/1", "mine", "option", true), (root.GetProperty("schema").GetString(), root.GetProperty("printer").GetString(), root.GetProperty("paperFrom").GetString(), root.GetProperty("printerStarted").GetBoolean()));
        Assert.Equal(["back.pdf", "duplex.pdf", "front.pdf", "manifest.json"], root.GetProperty("files").EnumerateArray().Select(file => file.GetProperty("path").GetString()));
        Assert.Contains("colour = false", File.ReadAllText(work.Below("mine.toml")), StringComparison.Ordinal);
        Assert.True(File.Exists(work.Below("calibration/front.pdf")));
    }

    [Fact]
    public void A_sheet_that_cannot_be_made_starts_no_printer_and_writes_nothing()
    {
        using WorkFolder work = new();
        foreach (string[] options in new[] { new[] { "--paper", "A5" }, ["--copies", "0"], ["--paper", "A7"] })
        {
            ProgramRun run = ProgramRun.Of(work.Full, ["printer", "sheet", "--printer", "mine.toml", .. options]);
            Assert.Equal(1, run.Exit);
            Assert.Contains("stop ", run.Output, StringComparison.Ordinal);
        }

        Assert.Equal(2, ProgramRun.Of(work.Full, "printer", "sheet").Exit);
        Assert.Equal(2, ProgramRun.Of(work.Full, "printer", "sheet", "--printer", "mine.toml", "--copies", "many").Exit);
        Assert.Empty(work.Files());
        ProgramRun.Of(work.Full, "printer", "new", "other.toml", "--paper", "A4");
        Assert.Contains("printer-other-paper", ProgramRun.Of(work.Full, "printer", "sheet", "--printer", "other.toml", "--paper", "A3").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_printer_that_turns_the_sheet_itself_is_told_of_the_two_sided_file()
    {
        using WorkFolder work = new();
        ProgramRun.Of(work.Full, "printer", "new", "hall", "--turning", "automatic", "--paper", "A4");
        string output = ProgramRun.Of(work.Full, "printer", "sheet", "--printer", "hall").Output;
        Assert.Contains("Print duplex.pdf, two-sided, long edge", output, StringComparison.Ordinal);
        Assert.DoesNotContain("print back.pdf", output, StringComparison.Ordinal);
    }

    [Fact]
    public void The_help_shows_how_it_is_used()
    {
        using WorkFolder work = new();
        ProgramRun help = ProgramRun.Of(work.Full, "printer", "sheet", "--help");
        Assert.Equal(0, help.Exit);
        Assert.Contains("lampblack printer sheet --printer study --paper A4 --copies 3", help.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void What_the_verniers_read_is_learned_and_the_next_build_undoes_it()
    {
        using WorkFolder work = new();
        ProgramRun.Of(work.Full, "printer", "new", "study", "--paper", "A4");

        // Typed with blanks, commas for points and capitals, as people do.
        ProgramRun learned = ProgramRun.Of(work.Full, "printer", "learn", "study", "--vernier", "1x=5.3,1Y=4.8", "2x=5,3", "2y=4,9", "--vernier", "4x=5.3;", "4y=4.8", "--json");
        using JsonDocument answer = JsonDocument.Parse(learned.Output);
        Assert.Equal((0, 1), (learned.Exit, answer.RootElement.GetProperty("register").GetInt32()));
        Assert.Equal(0.3, answer.RootElement.GetProperty("figures").GetProperty("rightMm").GetDouble(), 0.03);
        Assert.Contains("from = \"verniers\"", File.ReadAllText(work.Below("own folder/printers/study.toml")), StringComparison.Ordinal);

        ProgramRun wrong = ProgramRun.Of(work.Full, "printer", "learn", "study", "--vernier", "1x=+0.3");
        Assert.Equal(1, wrong.Exit);
        Assert.Contains("answer-form", wrong.Output, StringComparison.Ordinal);
    }
}
