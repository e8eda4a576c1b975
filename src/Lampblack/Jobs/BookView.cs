using System.Collections.Immutable;
using Lampblack.Findings;

namespace Lampblack.Jobs;

/// <summary>A chapter as it is read on a page. All texts of the maker in it are made safe.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Title">Its title.</param>
/// <param name="Steps">How many steps it has.</param>
/// <param name="Time">How long it takes, in words.</param>
/// <param name="Markup">Its steps, as markup.</param>
public sealed record ChapterView(string Id, string Title, int Steps, string Time, string Markup);

/// <summary>A build book as the station for it shows.</summary>
/// <param name="Sentence">How long and what it costs, in a sentence.</param>
/// <param name="Chapters">Its chapters: what it will be, the cautions, then the work in its order.</param>
/// <param name="Legends">Items whose legend can be changed alone, with what they say.</param>
/// <param name="Files">The book and its bill, and the pages for one legend where one was chosen.</param>
/// <param name="Findings">What was noticed of the whole desk.</param>
public sealed record BookView(string Sentence, ImmutableArray<ChapterView> Chapters, ImmutableArray<LegendChoice> Legends, ImmutableArray<OutputFile> Files, ImmutableArray<Finding> Findings)
{
    /// <summary>A desk that something stops.</summary>
    public static BookView Nothing { get; } = new(string.Empty, [], [], [], []);
}

/// <summary>An item whose legend can be changed alone.</summary>
/// <param name="Item">Panel and item.</param>
/// <param name="Words">What it says.</param>
public sealed record LegendChoice(string Item, string Words);
