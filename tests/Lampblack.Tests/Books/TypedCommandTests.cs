using System;
using System.Linq;
using System.Text;
using System.Text.RegularExpressions;
using Lampblack.Books;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>What the book tells to type about holes is taken by the program; and what stays dark by plan is told as such.</summary>
public sealed partial class TypedCommandTests
{
    private const string Rows = """
        [[panel]]
        id = "yard"
        size = [150, 60]
        fixings = { inset = 6 }
        [[panel.control]]
        id = "line"
        part = "toggle-mini-on-on"
        at = [30, 30]
        row = { count = 4, step = 25 }

        """;

    [Theory]
    [InlineData("B", false)]
    [InlineData("B", true)]
    [InlineData("C", true)]
    public void A_hole_is_told_by_words_that_the_program_takes(string order, bool hasRows)
    {
        // A panel of screws and rows comes first, so that the first hole is none that could be told.
        var text = SmallDesk.Text(order, more: hasRows ? Rows : string.Empty);
        var book = SmallDesk.Build(text).MadeBook!.Book;
        var step = book.Steps.Single(one => one.Id == "measure-holes");
        var words = ExampleBooks.Words(step);
        Assert.DoesNotContain("--photo", words, StringComparison.Ordinal);
        var told = Mark().Match(words);
        Assert.True(told.Success, words);
        var marked = DrilledMarks.Mark(ExampleDesks.Alone(Encoding.UTF8.GetBytes(text)), [told.Groups[1].Value], []);
        Assert.DoesNotContain(marked.Findings, finding => finding.Severity == Severity.Stop);
        Assert.True(marked.Value.IsChanged);
        Assert.Equal(hasRows, words.Contains("one by one", StringComparison.Ordinal));
    }

    [Fact]
    public void A_desk_of_rows_alone_is_told_of_the_photo_only()
    {
        var text = "lampblack = 1\norder = \"B\"\n" + Rows;
        var words = ExampleBooks.Words(SmallDesk.Build(text).MadeBook!.Book.Steps.Single(one => one.Id == "measure-holes"));
        Assert.DoesNotMatch(Mark(), words);
        Assert.Contains("lampblack drilled DESK photo.jpg", words, StringComparison.Ordinal);
    }

    [Fact]
    public void Words_that_no_light_reaches_are_told_as_dark_by_plan()
    {
        var text = SmallDesk.Text(more: "[[panel]]\nid = \"dial\"\nsize = [120, 80]\n[[panel.legend]]\nid = \"c\"\ntext = \"UNDER\"\nat = [60, 40]\n[[panel.legend]]\nid = \"d\"\ntext = \"FREE\"\nat = [20, 70]\n"
            + "[[panel.control]]\nid = \"s\"\npart = \"meter-round-45\"\nat = [60, 40]\n");
        var made = SmallDesk.Build(text).MadeBook!;
        Assert.Contains(made.Facts.Shadows, shadow => shadow is { Words: "UNDER", IsDark: true });
        var lit = ExampleBooks.Words(made.Book.Steps.Single(step => step.Id == "look-lit"));
        Assert.Contains("stay dark there by plan: “UNDER” at c", lit, StringComparison.Ordinal);
        Assert.DoesNotContain("“FREE”", lit, StringComparison.Ordinal);
        Assert.Contains("of those that get light", lit, StringComparison.Ordinal);
        var dark = BuildBook.Of(made.Facts with { EvennessFactor = double.PositiveInfinity }, made.Bill, "TESTED").Steps.Single(step => step.Id == "look-lit");
        Assert.Contains("no light comes to the dimmest legend", ExampleBooks.Words(dark), StringComparison.Ordinal);
        Assert.DoesNotContain("nfinity", ExampleBooks.Words(dark), StringComparison.Ordinal);
    }

    [GeneratedRegex("lampblack drilled DESK ([a-z0-9/-]+=[0-9.,-]+)")]
    private static partial Regex Mark();
}
