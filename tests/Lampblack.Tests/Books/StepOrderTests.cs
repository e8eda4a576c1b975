using System;
using System.Globalization;
using System.Linq;
using System.Text;
using Lampblack.Books;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>Within a step, too, nothing rests on what comes later, and what is done is counted once through.</summary>
public sealed class StepOrderTests
{
    [Theory]
    [InlineData("glue", "draw the cuts on the film of the back", "Pull the film off the plate's front alone")]
    [InlineData("box", "Saw the slots", "Glue the walls together")]
    [InlineData("feed", "Saw the perforated board", "Glue the strip of perforated board")]
    [InlineData("box", "two holes of 3.5 mm through the wall", "Glue the walls together")]
    [InlineData("box", "Drill each piece of strip through", "Glue the pieces to the walls")]
    [InlineData("close", "Screw the panels down", "screw the floor on")]
    [InlineData("lamps-dome", "Prick the corners of each cell’s frame", "Take the paper off")]
    [InlineData("feed", "hold the meter at volts", "Mark that wire red")]
    [InlineData("feed", "Leave one joint of the plus wire open", "put the meter into the gap that you left")]
    [InlineData("print-sheets", "Print each sheet three times", "front.pdf")]
    [InlineData("drill-dome", "Try each drill on the strip", "Drill into the marks")]
    [InlineData("house", "drill them", "screw it on spacers")]
    public void What_comes_first_is_told_first(string step, string first, string then)
    {
        var words = ExampleBooks.Words(ExampleBooks.Of("dome-desk").Book.Steps.Single(one => one.Id == step));
        var (at, later) = (words.IndexOf(first, StringComparison.Ordinal), words.IndexOf(then, StringComparison.Ordinal));
        Assert.True(at >= 0, $"{step} does not say {first}");
        Assert.True(later > at, $"{step} says {then} at {later}, {first} at {at}");
    }

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("kiln")]
    [InlineData("yard-board")]
    public void What_is_done_is_counted_through_a_step(string name)
    {
        var page = SmallDesk.Xml(Encoding.UTF8.GetString(BookHtml.Write(ExampleBooks.Of(name).Book).AsSpan()));
        var parted = 0;
        foreach (var step in page.Descendants().Where(one => one.Name.LocalName == "article"))
        {
            var done = 0;
            foreach (var list in step.Descendants().Where(one => one.Name.LocalName == "ol" && one.Attribute("class")?.Value == "doings"))
            {
                Assert.Equal(done + 1, int.Parse(list.Attribute("start")?.Value ?? "1", CultureInfo.InvariantCulture));
                parted += done > 0 ? 1 : 0;
                done += list.Elements().Count();
            }
        }

        Assert.True(parted > 0);
    }

    [Fact]
    public void What_such_a_panel_is_not_for_stands_at_a_step_of_every_book() =>
        Assert.All(new[] { "dome-desk", "kiln", "yard-board" }, name => Assert.Contains(ExampleBooks.Of(name).Book.Steps, step => step.Cautions.Contains(Caution.Use)));

    /// <summary>A plate's cuts call a panel as it is called everywhere else.</summary>
    [Fact]
    public void Cuts_name_panels_by_their_titles()
    {
        var words = string.Join(' ', ExampleBooks.Rows(ExampleBooks.Of("dome-desk").Book, "cut").SelectMany(row => row.Cells));
        Assert.Contains("part is DOME", words, StringComparison.Ordinal);
        Assert.DoesNotContain("\"dome\"", words, StringComparison.Ordinal);
    }

    /// <summary>Wires that no net has are tested, too.</summary>
    [Fact]
    public void The_adapters_wires_are_held_to_the_meter()
    {
        var made = ExampleBooks.Of("kiln");
        var tests = ExampleBooks.Rows(made.Book, "test").Select(row => string.Join(' ', row.Cells)).ToList();
        string[] wires = ["X1", "X2", "X3"];
        Assert.All(wires, wire => Assert.Contains(tests, test => test.Contains($"{wire},", StringComparison.Ordinal)));
    }
}
