using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using System.Text.RegularExpressions;
using Lampblack.Books;
using Lampblack.Tests.Architecture;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>Beside each command stands where the same is done in the workshop, in the words that stand there: read from the pages themselves.</summary>
public sealed partial class InWorkshopTests
{
    /// <summary>Commands that the workshop has no hand for, and what is only named in passing.</summary>
    private static readonly string[] Typed = ["lampblack flash", "lampblack build DESK --second-pass", "lampblack printer new", "lampblack printer export", "lampblack open", "lampblack check", "lampblack drilled", "lampblack printer which-way makes", "lampblack are typed", "lampblack on Linux", "lampblack build DESK makes"];

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    public void The_words_stand_on_the_station_s_page(string name)
    {
        var made = ExampleBooks.Of(name);
        var said = AllWords(made.Book).SelectMany(words => Hint().Matches(words)).ToList();
        Assert.True(said.Count >= 6, $"{said.Count} hints");
        Assert.Empty(said.SelectMany(Wrong));

        // The check itself sees a word that stands nowhere.
        Assert.NotEmpty(Wrong(Hint().Match("(in the workshop: station Printer, “Make two sheets”)")));
    }

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    public void No_command_stands_alone(string name)
    {
        foreach (var words in AllWords(ExampleBooks.Of(name).Book))
        {
            var commands = Command().Matches(words);
            foreach (var (index, command) in commands.Index())
            {
                // Up to the next command: what stands behind that is its own.
                var after = words[command.Index..(index + 1 < commands.Count ? commands[index + 1].Index : words.Length)];
                Assert.True(Typed.Any(typed => after.StartsWith(typed, StringComparison.Ordinal)) || after.Contains("(in the workshop:", StringComparison.Ordinal), after);
            }
        }
    }

    private static IEnumerable<string> AllWords(Book book) => book.Steps.SelectMany(step => step.Blocks.SelectMany(block => block switch { Paragraph one => [one.Markup], Doings doings => doings.Markups, _ => Enumerable.Empty<string>() }).Append(step.Gate.Otherwise))
        .Concat(book.Chapters[0].Blocks.OfType<Paragraph>().Select(one => one.Markup)).Select(ExampleBooks.Plain);

    private static IEnumerable<string> Wrong(Match hint)
    {
        var page = Path.Combine(Repository.Root, "src", "Lampblack.Workshop", "Pages", hint.Groups[1].Value.Replace("-call", "Call", StringComparison.Ordinal) + "Station.razor");
        var text = File.Exists(page) ? File.ReadAllText(page) : string.Empty;
        return hint.Groups.Cast<Group>().Skip(2).Where(group => group.Success && !text.Contains(group.Value, StringComparison.Ordinal)).Select(group => $"“{group.Value}” is not on {page}");
    }

    [GeneratedRegex("\\(in the workshop: station ([A-Z][A-Za-z-]+), “([^”]+)”(?:, then “([^”]+)”)?\\)")]
    private static partial Regex Hint();

    [GeneratedRegex("\\blampblack [a-z]+")]
    private static partial Regex Command();
}
