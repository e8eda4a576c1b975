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
            Bars = [new(100.1, 100.4, Revision: 1)],
            Coverage = [new([3], [2.4])],
        };
        Assert.Empty(PrinterFiles.Forget(file, PrinterLore.Turn).Turns);
        Assert.Equal(file.Register, PrinterFiles.Forget(file, PrinterLore.Turn).Register);
        var unregistered = PrinterFiles.Forget(file, PrinterLore.Register);
        Assert.Equal((0, 0), (unregistered.Revision, unregistered.Bars[0].Revision));
        Assert.Empty(PrinterFiles.Forget(file, PrinterLore.Bars).Bars);
        Assert.Empty(PrinterFiles.Forget(file, PrinterLore.Coverage).Coverage);
    }

    [Fact]
    public void The_account_says_what_is_known_how_well_and_what_comes_next()
    {
        var empty = PrinterFiles.Tell(PrinterSamples.New());
        Assert.Equal(["turn", "register", "bars", "coverage"], empty.Facts.Select(fact => fact.Key));
        Assert.All(empty.Facts, fact => Assert.True(!fact.IsKnown && fact.Sheets == 0 && fact.Next.Length > 0));

        // By the conjugate formula: 1.5 mm before, four readings of 0.1 mm; the left and down words go with the signs.
        var known = PrinterFiles.Tell(PrinterSamples.New() with { Register = [PrinterSamples.Entry((_, _) => (-1, 0.5))], Turns = [new(Tick.Front, PrintedFace.Lower)] });
        var register = known.Facts[1];
        Assert.True(register is { IsKnown: true, Sheets: 1 });
        Assert.Contains("1.00 mm left ± 0.05 and 0.50 mm up ± 0.05", register.Text, StringComparison.Ordinal);
        Assert.Equal(1 / Math.Sqrt((1 / 2.25) + 400), register.Figures[0].Sd!.Value, 9);
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
