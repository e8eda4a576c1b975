using System;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Printers;
using Lampblack.Tests.Printers;
using Xunit;

namespace Lampblack.Tests.Jobs;

public sealed class PrinterFilesTests
{
    private static readonly NewPrinter Answers = new("study", false, "tray \"2\"", "letter", "32 lb", "short", "by-hand", "mask-first", "heavy", "4 mm", "1/2 in");

    [Fact]
    public void Answers_become_a_printer_file_of_which_nothing_is_known()
    {
        var started = PrinterFiles.Start(Answers);
        Assert.Empty(started.Findings);
        var path = started.Value.Path;
        Assert.Equal((true, "tray \"2\"", "Letter", FirstEdge.Short), (path.Colour, path.Slot, path.Paper, path.Edge));
        Assert.Equal((Turning.ByHand, SideOrder.MaskFirst, "heavy"), (path.Turning, path.Order, path.HeavySetting));
        Assert.Equal((4, 12.7), (path.MarginMm, path.LeadingEdgeMm));
        Assert.Equal(120.31, path.WeightGramsPerM2!.Value, 2);
        Assert.Equal(0, started.Value.Revision);
    }

    [Fact]
    public void What_was_not_answered_is_common_practice()
    {
        var path = PrinterFiles.Start(new("attic", true, " ", "A4", null, null, null, null, "", null, null)).Value.Path;
        Assert.Equal(new PrinterPath(false, null, "A4", null, FirstEdge.Unknown, Turning.ByHand, SideOrder.FrontFirst, null, 5, 10), path);
    }

    [Theory]
    [InlineData("paper", "paper-unknown")]
    [InlineData("weight", "weight-unreadable")]
    [InlineData("edge", "choice-unknown")]
    [InlineData("margin", "value-range")]
    [InlineData("slot", "text-control-character")]
    public void Wrong_answers_are_findings_without_a_place(string which, string code)
    {
        var wrong = which switch
        {
            "paper" => Answers with { Paper = "B5" },
            "weight" => Answers with { Weight = "heavy" },
            "edge" => Answers with { Edge = "left" },
            "margin" => Answers with { Margin = "3 m" },
            _ => Answers with { Slot = "a\u001bb" },
        };
        var finding = Assert.Single(PrinterFiles.Start(wrong).Findings);
        Assert.Equal((Severity.Stop, code, null), (finding.Severity, finding.Code, finding.Span));
    }

    [Fact]
    public void One_thing_is_forgotten_and_the_rest_is_kept()
    {
        var file = PrinterSamples.New() with
        {
            Turns = [new(Tick.B, PrintedFace.Upper)],
            Register = [PrinterSamples.Entry((_, _) => (1, 0))],
            Bars = [new(100.1, 100.4, Number: 2)],
            Coverage = [new([3], [2.4])],
        };
        Assert.Empty(PrinterFiles.Forget(file, PrinterLore.Turn).Turns);
        Assert.Equal(file.Register, PrinterFiles.Forget(file, PrinterLore.Turn).Register);
        var unregistered = PrinterFiles.Forget(file, PrinterLore.Register);
        Assert.Equal(file.Bars, unregistered.Bars);
        Assert.Empty(unregistered.Register);
        Assert.Empty(PrinterFiles.Forget(file, PrinterLore.Bars).Bars);
        Assert.Empty(PrinterFiles.Forget(file, PrinterLore.Coverage).Coverage);
    }

    [Fact]
    public void Forgetting_gives_no_number_anew_and_old_sheets_are_refused()
    {
        var typed = LearnAnswers.Nothing with { Readings = ["NE:x=0.3,y=0.1", "SW:x=0.3,y=0.1"] };
        var once = Learn.Run(PrinterSamples.New(), typed).Value.File;
        var twice = Learn.Run(once, LearnAnswers.Nothing with { Bars = ["front=100.2,back=100.3"] }).Value.File;
        Assert.Equal((1, 2), (once.Revision, twice.Revision));

        // Sheets of the new state differ from all that were printed before, also after one more lesson.
        var forgotten = PrinterFiles.Forget(twice, PrinterLore.Register);
        Assert.Equal(3, forgotten.Revision);
        var again = Learn.Run(forgotten, typed).Value.File;
        Assert.Equal(4, again.Revision);
        Assert.Equal(4, PrinterFiles.Read("p.toml", PrinterFiles.Write(again)).Value.Revision);
        foreach (var (number, code) in new[] { ("1", "register-forgotten"), ("2", "register-forgotten"), ("5", "register-unknown") })
        {
            var learned = Learn.Run(again, typed with { Register = number });
            Assert.Equal(code, Assert.Single(learned.Findings).Code);
            Assert.Same(again, learned.Value.File);
        }

        // A sheet without a number had nothing undone, whatever was learned and forgotten since; and the newest are known.
        Assert.All(["0", "3", "4"], number => Assert.False(Learn.Run(again, typed with { Register = number }).HasStop));
        Assert.Equal(0, PrinterFiles.Forget(PrinterSamples.New(), PrinterLore.Register).Revision);
        Assert.Equal(3, PrinterFiles.Forget(twice, PrinterLore.Bars).Revision);
        Assert.Equal(2, PrinterFiles.Forget(twice, PrinterLore.Turn).Revision);
    }

    [Fact]
    public void A_bar_s_lesson_changes_the_number_on_the_sheets_and_readings_of_either_are_undone_by_what_they_were_made_with()
    {
        var read = Learn.Run(PrinterSamples.New(), LearnAnswers.Nothing with { Readings = ["NE:x=0.3,y=0.1", "SW:x=0.3,y=0.1"] }).Value.File;
        var barred = Learn.Run(read, LearnAnswers.Nothing with { Bars = ["front=100.5,back=100.5"] });
        Assert.Contains("register 2", string.Join(' ', barred.Value.Words), StringComparison.Ordinal);
        var (one, two) = (ScaleEstimate.Of(barred.Value.File, 1), ScaleEstimate.Of(barred.Value.File, 2));
        Assert.Equal(0, one.StretchXPercent);
        Assert.True(two.StretchXPercent > 0.05);

        // The same ruler on a sheet of register 1 and on one of register 2: the second had been made narrower, so that the printer is wider than it shows.
        var (older, newer) = (Bar("1"), Bar("2"));
        Assert.Equal(100.2, older, 9);
        Assert.Equal(100.2 * (1 + (two.StretchXPercent / 100)), newer, 0.001);

        double Bar(string register) =>
            Learn.Run(barred.Value.File, LearnAnswers.Nothing with { Bars = ["front=100.2"], Register = register }).Value.File.Bars[^1].FrontMm!.Value;
    }

    [Fact]
    public void The_account_says_what_is_known_how_well_and_what_comes_next()
    {
        var empty = PrinterFiles.Tell(PrinterSamples.New());
        Assert.Equal(["turn", "register", "bars", "coverage", "wedge", "gain", "planes"], empty.Facts.Select(fact => fact.Key));
        Assert.All(empty.Facts, fact => Assert.True(!fact.IsKnown && fact.Sheets == 0 && fact.Next.Length > 0));

        // By the conjugate formula: 1.5 mm before; four readings of 0.1 mm of a sheet that may lie elsewhere by what sheets scatter; the left and down words go with the signs.
        var known = PrinterFiles.Tell(PrinterSamples.New() with { Register = [PrinterSamples.Entry((_, _) => (-1, 0.5))], Turns = [new(Tick.Front, PrintedFace.Lower)] });
        var register = known.Facts[1];
        Assert.True(register is { IsKnown: true, Sheets: 1 });
        var scatter = register.Figures.Single(figure => figure.Key == "scatterMm").Value;
        Assert.InRange(scatter, 0.08, 0.12);
        Assert.Equal(1 / Math.Sqrt((1 / 2.25) + (1 / (0.0025 + (scatter * scatter)))), register.Figures[0].Sd!.Value, 9);
        Assert.Equal(-2.25 / (2.2525 + (scatter * scatter)), register.Figures[0].Value, 9);
        Assert.Contains(FormattableString.Invariant($"{-register.Figures[0].Value:0.00} mm left ± {register.Figures[0].Sd:0.00} and {register.Figures[1].Value:0.00} mm up ± {register.Figures[1].Sd:0.00}"), register.Text, StringComparison.Ordinal);
        Assert.Contains("Sheets scatter by", register.Text, StringComparison.Ordinal);
        Assert.Contains("wrong face", known.Facts[0].Text, StringComparison.Ordinal);
        Assert.Contains("face that lies down", known.Facts[0].Text, StringComparison.Ordinal);

        var black = PrinterFiles.Tell(PrinterSamples.New(PrinterSamples.Colour with { Colour = false }));
        Assert.Contains("black only", black.Facts[3].Text, StringComparison.Ordinal);
        Assert.Equal("black only", black.Path[0].Text);

        var limit = PrinterFiles.Tell(PrinterSamples.New() with { Coverage = [new([3], [2.4])] }).Facts[3];
        Assert.Contains("240 % held and 300 % flaked", limit.Text, StringComparison.Ordinal);
        Assert.Equal(["heldPercent", "flakedPercent"], limit.Figures.Select(figure => figure.Key));
    }
}
