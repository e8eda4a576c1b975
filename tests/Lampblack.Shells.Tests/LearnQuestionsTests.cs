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
            Fresh, ["b", "front", "x=3;y", "x=+0,3,y=-0.1", "", "", "y=0.2", "5:N=1,E=0,S=0,W=7", "5:N=1,E=0,S=0,W=2", "", "0.5", "front=94", "front=99.8", "C300", "C320", "C240"]);
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
        (LearnAnswers said, string shown) = Ask(known, ["", "x=0.1,y=0", "", "", "", "", "4", "1", "", "", ""]);
        Assert.Equal("1", said.Register);
        Assert.Contains("only up to register 1", shown, StringComparison.Ordinal);
    }

    private static (LearnAnswers Said, string Shown) Ask(PrinterFile file, IEnumerable<string> lines)
    {
        using StringWriter shown = new();
        using StringReader answers = new(string.Join('\n', lines) + "\n");
        return (LearnQuestions.Ask(new Prompt(answers, shown), file), shown.ToString());
    }
}
