using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using Lampblack.Cli;
using Lampblack.Cli.Commands;
using Lampblack.Jobs;
using Lampblack.Printers;
using Xunit;

namespace Lampblack.Shells.Tests;

public sealed class LearnQuestionsTests
{
    private static readonly PrinterFile Fresh = PrinterFiles.Start(new("study", false, null, "A4", null, null, null, null, null, null, null)).Value;

    [Fact]
    public void Every_question_can_be_skipped()
    {
        (LearnAnswers said, string shown) = Ask(Fresh, Enumerable.Repeat("", 9));
        Assert.True(said.IsEmpty);
        Assert.Equal(9, shown.Split("Enter to skip").Length - 1);
    }

    [Fact]
    public void A_wrong_answer_is_asked_for_again_and_the_rest_is_kept()
    {
        (LearnAnswers said, string shown) = Ask(
            Fresh, ["b", "front", "x=3;y", "+0,3", "far", "-0.1", "", "", "y=0.2", "5:N=1,E=0,S=0,W=7", "5:N=1,E=0,S=0,W=2", "", "0.5", "front=94", "front=99.8", "C300", "C320", "C240"]);
        Assert.Equal(("b", "front", "0.5"), (said.Tick, said.Cross, said.Step));
        Assert.Equal(["NE:x=+0,3,y=-0.1", "SW:y=0.2"], said.Readings);
        Assert.Equal(["5:N=1,E=0,S=0,W=2"], said.Dots);
        Assert.Equal(["front=99.8"], said.Bars);
        Assert.Equal(["C300"], said.Flaked);
        Assert.Equal(["C240"], said.Held);
        Assert.Contains("A4 fitted to Letter", shown, StringComparison.Ordinal);
    }

    [Fact]
    public void A_printer_that_has_learned_is_asked_for_the_number_on_the_sheet()
    {
        PrinterFile known = Learn.Run(Fresh, LearnAnswers.Nothing with { Readings = ["NE:x=0.3,y=0.1"] }).Value.File;
        (LearnAnswers said, string shown) = Ask(known, ["", "4", "1", "x=0.1,y=0", "", "", "", "", "", "", ""]);
        Assert.Equal("1", said.Register);
        Assert.Contains("only up to register 1", shown, StringComparison.Ordinal);
        Assert.True(shown.IndexOf("behind 'register'", StringComparison.Ordinal) < shown.IndexOf("Scale NE", StringComparison.Ordinal));
    }

    [Fact]
    public void A_reading_that_fits_another_sheet_leads_to_its_number_at_once()
    {
        // The first sheet, read once more: it bears no number, and the newest was taken for granted.
        PrinterFile known = Learn.Run(Fresh, LearnAnswers.Nothing with { Readings = ["NE:x=2.5,y=2", "SW:x=2.5,y=2"] }).Value.File;
        (LearnAnswers said, string shown) = Ask(known, ["", "", "2.5", "", "0", "2", "", "", "", "", "", "", ""]);
        Assert.Contains("it would fit a sheet that says `register 0`", shown, StringComparison.Ordinal);
        Assert.Equal("0", said.Register);
        Assert.Equal(["NE:x=2.5,y=2"], said.Readings);
    }

    [Fact]
    public void A_reading_far_from_all_sheets_is_taken_when_it_is_typed_twice()
    {
        PrinterFile known = Learn.Run(Fresh, LearnAnswers.Nothing with { Readings = ["NE:x=0.2,y=0", "SW:x=0.2,y=0"] }).Value.File;
        (LearnAnswers said, string shown) = Ask(known, ["", "1", "3", "3", "", "", "", "", "", "", "", ""]);
        Assert.Contains("type the same once more", shown, StringComparison.Ordinal);
        Assert.Equal(["NE:x=3"], said.Readings);
        (LearnAnswers other, string _) = Ask(known, ["", "1", "3", "0.3", "", "", "", "", "", "", "", ""]);
        Assert.Equal(["NE:x=0.3"], other.Readings);
    }

    [Fact]
    public void A_number_alone_is_no_answer()
    {
        PrinterFile known = Learn.Run(Fresh, LearnAnswers.Nothing with { Readings = ["NE:x=0.3,y=0.1"] }).Value.File;
        Assert.True(Ask(known, ["", "1", "", "", "", "", "", "", "", ""]) is { Said: { IsEmpty: true, Register: null } });
    }

    private static (LearnAnswers Said, string Shown) Ask(PrinterFile file, IEnumerable<string> lines)
    {
        using StringWriter shown = new();
        using StringReader answers = new(string.Join('\n', lines) + "\n");
        return (LearnQuestions.Ask(new Prompt(answers, shown), file, []), shown.ToString());
    }
}
