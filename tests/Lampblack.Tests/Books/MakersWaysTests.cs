using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading.Tasks;
using Lampblack.Books;
using Lampblack.Printers;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>A book holds the steps of its maker's own ways and of no other, over all combinations of ways.</summary>
public sealed class MakersWaysTests
{
    /// <summary>What stands in a book of that way, and in no book without it.</summary>
    private static readonly ImmutableArray<(string Way, ImmutableArray<string> Words)> Marks =
    [
        (Way.OrderA, ["A (glue, cut, drill through)", "Open the paper of every hole", "Lay the print where the drawing has its panel", "Drill into the marks that you pricked"]),
        (Way.OrderB, ["B (drill, glue", "Open the holes from behind", "Glue the print on the drilled plate"]),
        (Way.OrderC, ["C (the print lies behind the plate)", "lay it behind the plate", "Lay the print behind the plate, its face towards the plate"]),
        (Way.OwnPrinter, ["which-way sheet", "sheet-1/front.pdf as it comes out", "front, then mask"]),
        (Way.CopyShop, ["job.pdf", "tells the operator", "nine copies"]),
        (Way.TurnsItself, ["Your printer turns the sheet", "that turns the sheet itself, "]),
        (Way.ByHand, ["that is fed by hand"]),
        (Way.BlackOnly, ["--second-pass mask"]),
        (Way.Colour, ["take a denser black build"]),
        (Way.LeftHand, ["the left hand, lengths in", "drill with the left hand", "iron in the left one"]),
        (Way.RightHand, ["the right hand, lengths in", "drill with the right hand", "iron in the right one"]),
        (Way.Inch, ["lengths in inches", "x, in", "3.937 in", "4 23/32 x 2 3/4 in"]),
        (Way.Millimetre, ["lengths in mm", "x, mm", "Length, mm", "120 x 70 mm"]),
        (Way.Saw, ["Saw the plate", "fine saw for plastics", "keep hands away from the blade", "then saw there", "beside the line on the side of the waste"]),
        (Way.Snap, ["Score and snap the plate", "scoring knife", "gloves for snapping", "then score there"]),
        (Way.Full, ["Parts differ from shop to shop", "Acrylic leads light along"]),
        (Way.Brief, []),
    ];

    /// <summary>Explained words that a brief book leaves out, and words of one order alone.</summary>
    private static readonly ImmutableArray<string> OnlyWithOrderA = ["then saw there", "then score there"];
    private static readonly ImmutableArray<string> Explained = ["scoring knife along", "beside the line on the side of the waste"];

    private static readonly ImmutableArray<(PrinterFile? Printer, double? StepMm)> Prints =
    [
        (null, null), (Printer(Turning.ByHand), null), (Printer(Turning.Automatic), null), (null, 0.7),
    ];

    [Fact]
    public async Task Every_combination_of_ways_has_its_own_steps_and_no_others()
    {
        var cases = from order in new[] { "A", "B", "C" }
                    from way in new[] { "snap", "saw" }
                    from print in Prints
                    from black in new[] { "safe", "gray" }
                    from units in new[] { "mm", "inch" }
                    select (order, way, print, black, units);
        var seen = 0;
        await Parallel.ForEachAsync(cases.ToList(), TestContext.Current.CancellationToken, (one, _) =>
        {
            var text = SmallDesk.Text(one.order, one.way, $"units = \"{one.units}\"\n");
            var made = SmallDesk.Build(text, one.print.Printer, one.print.StepMm, one.black).MadeBook ?? throw new InvalidOperationException("no book");
            foreach (var (isLeft, isBrief) in new[] { (false, false), (true, true), (true, false), (false, true) })
            {
                var facts = made.Facts with { Maker = made.Facts.Maker with { IsLeftHanded = isLeft, IsBrief = isBrief } };
                Check(BuildBook.Of(facts, made.Bill, "TESTED"), isBrief);
                System.Threading.Interlocked.Increment(ref seen);
            }

            return ValueTask.CompletedTask;
        });
        Assert.Equal(3 * 2 * 4 * 2 * 2 * 4, seen);
    }

    [Fact]
    public void A_step_that_needs_what_a_later_one_makes_would_be_seen()
    {
        var book = SmallDesk.Build(SmallDesk.Text()).MadeBook!.Book;
        Assert.Empty(TooEarly(book));
        var turned = book with { Chapters = [.. book.Chapters.Reverse()] };
        Assert.NotEmpty(TooEarly(turned));
        foreach (var chapter in book.Chapters.Where(chapter => !chapter.Steps.IsEmpty).SkipLast(1))
        {
            // No chapter of work but what nobody waits for can be left out.
            var without = book with { Chapters = book.Chapters.Remove(chapter) };
            Assert.True(TooEarly(without).Count > 0 || chapter.Id is "close-up", chapter.Id);
        }
    }

    private static void Check(Book book, bool isBrief)
    {
        var ways = book.Maker.Ways;
        Assert.Empty(TooEarly(book));
        Assert.Empty(StepPictures.Faults(book));
        Assert.Empty(ToolWords.Missing(book));
        Assert.All(book.Steps, step => Assert.Subset(new HashSet<string>(ways), new HashSet<string>(step.OnlyOn)));
        Assert.All(book.Steps, step => Assert.True(step.Gate.GoOnIf.Length > 15 && step.Gate.Otherwise.Length > 6 && step.Minutes > 0, step.Id));
        var words = SmallDesk.Words(SmallDesk.Xml(System.Text.Encoding.UTF8.GetString(BookHtml.Write(book).AsSpan())));
        foreach (var (way, marks) in Marks)
        {
            foreach (var mark in marks)
            {
                var belongs = ways.Contains(way) && (!OnlyWithOrderA.Contains(mark) || ways.Contains(Way.OrderA)) && !(isBrief && Explained.Any(explained => explained.StartsWith(mark, StringComparison.Ordinal)));
                if (belongs)
                {
                    Assert.True(words.Contains(mark, StringComparison.OrdinalIgnoreCase), $"a book of {string.Join(' ', ways)} lacks \"{mark}\"");
                }
                else if (!ways.Contains(way))
                {
                    Assert.False(words.Contains(mark, StringComparison.OrdinalIgnoreCase), $"a book of {string.Join(' ', ways)} has \"{mark}\"");
                }
            }
        }

        // Whatever is cautioned at a step is gathered, and nothing else; what the panel is not for always.
        var cautions = book.Steps.SelectMany(step => step.Cautions).Append(Caution.Use).ToHashSet();
        Assert.True(cautions.SetEquals(Caution.Gathered(book.Steps)));
        Assert.All(cautions, caution => Assert.Contains(caution.Words, words, StringComparison.Ordinal));
    }

    /// <summary>Steps that need what no step before them made.</summary>
    internal static List<string> TooEarly(Book book)
    {
        var made = new HashSet<Made>();
        var early = new List<string>();
        foreach (var step in book.Steps)
        {
            early.AddRange(step.Needs.Where(need => !made.Contains(need)).Select(need => $"{step.Id} needs {need}"));
            made.UnionWith(step.Makes);
        }

        return early;
    }

    private static PrinterFile Printer(Turning turning) => PrinterFile.New("attic", new(true, null, "A4", 120, FirstEdge.Short, turning, SideOrder.FrontFirst, null, 5, 10));
}
