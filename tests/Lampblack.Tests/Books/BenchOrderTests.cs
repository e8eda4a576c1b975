using System;
using System.Collections.Generic;
using System.Linq;
using System.Threading;
using Lampblack.Books;
using Lampblack.Jobs;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>Nothing is closed, glued down or covered before what lies beneath it is soldered and tried. The order is common practice, no source: joints are made and tried on the bench.</summary>
public sealed class BenchOrderTests
{
    /// <summary>Each step of a lit desk before the next, where a book has both.</summary>
    private static readonly string[] Lamps = ["box", "lamps-", "feed", "lamps-in", "cells", "wire-", "board", "test-wires", "flash-board", "chips", "roll-call", "house", "look-lit", "close"];

    [Theory]
    [InlineData("dome-desk", true)]
    [InlineData("yard-board", false)]
    [InlineData("kiln", true)]
    public void The_circuit_is_tried_before_its_board_is_fixed_and_cells_come_last(string name, bool hasCells)
    {
        var book = Of(name).Book;
        Assert.Equal(hasCells, book.Steps.Any(step => step.Id == "cells"));
        Assert.Empty(Disorder(book));
        Assert.Empty(MakersWaysTests.TooEarly(book));

        // Each two neighbours of the lamps' chapter, exchanged, are seen by what they need.
        var lamps = book.Chapters.Single(chapter => chapter.Id == "lamps");
        foreach (var place in Enumerable.Range(0, lamps.Steps.Length - 1).Where(place => !(IsPlacing(lamps.Steps[place]) && IsPlacing(lamps.Steps[place + 1]))))
        {
            var turned = lamps with { Steps = lamps.Steps.SetItem(place, lamps.Steps[place + 1]).SetItem(place + 1, lamps.Steps[place]) };
            var wrong = book with { Chapters = book.Chapters.Replace(lamps, turned) };

            // With two panels the first one's emitters are placed when the second's are turned about with the circuit.
            Assert.True(MakersWaysTests.TooEarly(wrong).Count > 0 || Disorder(wrong).Count > 0, lamps.Steps[place].Id);
        }
    }

    [Fact]
    public void It_is_told_where_the_electronics_live()
    {
        var made = Of("dome-desk");
        var house = made.Book.Steps.Single(step => step.Id == "house");
        Assert.Contains(Made.Housed, house.Makes);
        Assert.Contains("below the lamp board", string.Join(' ', house.Blocks.OfType<Doings>().SelectMany(doings => doings.Markups)), StringComparison.Ordinal);
        var box = made.Book.Steps.Single(step => step.Id == "box");
        Assert.Contains("there the electronics live, out of the light", string.Join(' ', box.Blocks.OfType<Doings>().SelectMany(doings => doings.Markups)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void Every_tool_that_is_named_is_listed_at_its_step_and_on_the_first_page(string name)
    {
        var book = Of(name).Book;
        Assert.Empty(ToolWords.Missing(book));
        Assert.Empty(StepPictures.Faults(book));
        var all = book.Chapters[0].Blocks.OfType<ToolList>().Single().All;
        Assert.Equal(all.Select(use => use.Tool.Name).Distinct().Count(), all.Length);
        foreach (var tool in book.Steps.SelectMany(step => step.AllTools))
        {
            var listed = all.Single(use => use.Tool.Name == tool.Name).Tool;
            Assert.Subset(listed.Sizes.Select(size => size.Words).ToHashSet(), tool.Sizes.Select(size => size.Words).ToHashSet());
        }

        // The check itself sees a tool that is missing.
        var step = book.Steps.First(one => one.Id.StartsWith("drill-", StringComparison.Ordinal));
        var chapter = book.Chapters.Single(one => one.Steps.Contains(step));
        var without = book with { Chapters = book.Chapters.Replace(chapter, chapter with { Steps = chapter.Steps.Replace(step, step with { Tools = step.Tools.RemoveAll(tool => tool.Name.StartsWith("clamp", StringComparison.Ordinal)) }) }) };
        Assert.NotEmpty(ToolWords.Missing(without));
    }

    /// <summary>Sums are those of the figures above them, and all are told alike.</summary>
    [Theory]
    [InlineData(0, "none")]
    [InlineData(1, "5 min")]
    [InlineData(55, "55 min")]
    [InlineData(56, "1 h")]
    [InlineData(61, "1 h 05 min")]
    [InlineData(150, "2 h 30 min")]
    public void Times_are_told_in_hours_and_minutes(double minutes, string words) => Assert.Equal(words, BuildBook.Duration(minutes));

    internal static MadeBook Of(string name) =>
        Build.Run(ExampleDesks.Source(name), new("A4", "option", Parts: BuildParts.Book), new Progress<string>(), CancellationToken.None).MadeBook ?? throw new InvalidOperationException("no book");

    private static bool IsPlacing(BookStep step) => step.Id.StartsWith("lamps-", StringComparison.Ordinal) && step.Id != "lamps-in";

    private static List<string> Disorder(Book book)
    {
        var places = book.Steps.Select(step => (step.Id, Place: Array.FindLastIndex(Lamps, id => id == step.Id || (id.EndsWith('-') && IsOf(id, step.Id))))).Where(step => step.Place >= 0).ToList();
        return [.. places.Zip(places.Skip(1)).Where(pair => pair.First.Place > pair.Second.Place).Select(pair => $"{pair.First.Id} before {pair.Second.Id}")];
    }

    private static bool IsOf(string prefix, string id) => id.StartsWith(prefix, StringComparison.Ordinal) && !Array.Exists(Lamps, other => other == id);
}
