using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Findings;

namespace Lampblack.Separations;

/// <summary>Where only colour tells marks apart, and a printer with black only can't.</summary>
internal static class ColourChecks
{
    public static ImmutableArray<Finding> Check(PanelArtwork artwork, HatchKey key)
    {
        var findings = new List<Finding>();
        var printed = artwork.Marks.Where(mark => mark.Style.Ink is not null && !mark.Shape.IsEmpty && !HatchKey.CanHatch(mark)).ToList();
        Lines([.. printed.Where(mark => mark.Kind != MarkKind.Text && !mark.Filled)], findings);
        Lines([.. printed.Where(mark => mark.Filled)], findings);
        Words([.. printed.Where(mark => mark.Kind == MarkKind.Text)], findings);
        Again(artwork, key, findings);
        return [.. findings];
    }

    /// <summary>Lines, marks, and what is too small for a hatch: colour may be all that tells one from the other.</summary>
    private static void Lines(List<Mark> marks, List<Finding> findings)
    {
        foreach (var (first, count) in Colours(marks))
        {
            if (first.Kind == MarkKind.Dial)
            {
                findings.Add(Finding.Note(
                    "colour-carries-meaning",
                    $"the marks of `{first.Origin.Item}`{More(count)} are in a colour, which black toner prints as a gray",
                    "see that their place or a word says what the colour says; ranges become hatches of themselves",
                    first.Origin.Span,
                    first.Origin.Item));
                continue;
            }

            findings.Add(Finding.Warn(
                "colour-carries-meaning",
                $"{SeparationChecks.Name(first)}{More(count)} is told from others by its colour, which black toner prints as a gray",
                first.Filled
                    ? "it is too small for a hatch: make it larger, or put a word beside it"
                    : "give it another width, break it into several short lines, or put a word beside it; filled shapes become hatches of themselves",
                first.Origin.Span,
                first.Origin.Item));
        }
    }

    /// <summary>Words tell themselves apart, but not whether one means a warning.</summary>
    private static void Words(List<Mark> marks, List<Finding> findings)
    {
        foreach (var (first, count) in Colours(marks))
        {
            findings.Add(Finding.Note(
                "colour-carries-meaning",
                $"the words {SeparationChecks.Name(first)}{More(count)} are in a colour, which black toner prints as a gray{(first.Style.Role == LightRole.Hidden ? ", so that an indicator's colour doesn't say what it means" : string.Empty)}",
                "see that the words alone say what the colour says; a coloured lamp behind them keeps an indicator's colour",
                first.Origin.Span,
                first.Origin.Item));
        }
    }

    /// <summary>The first mark of each colour and how many have it, where there are marks in other inks beside it.</summary>
    private static IEnumerable<(Mark First, int Count)> Colours(List<Mark> marks)
    {
        var inks = marks.GroupBy(mark => mark.Style.Ink!).ToList();
        return inks.Count < 2 ? [] : inks.Where(group => HatchKey.IsColour(group.Key)).Select(group => (group.First(), group.Count()));
    }

    private static void Again(PanelArtwork artwork, HatchKey key, List<Finding> findings)
    {
        foreach (var ink in key.Inks.Skip(HatchPatterns.Count))
        {
            if (artwork.Marks.FirstOrDefault(mark => mark.Style.Ink == ink && HatchKey.CanHatch(mark)) is { } first && key.PatternOf(ink) is { } pattern)
            {
                findings.Add(Finding.Warn(
                    "colour-carries-meaning",
                    $"{SeparationChecks.Name(first)} gets a hatch that another ink has too ({HatchPatterns.Words(pattern)}): there are {HatchPatterns.Count} for {key.Inks.Length} inks",
                    "use fewer inks for filled shapes, or put a word beside them",
                    first.Origin.Span,
                    first.Origin.Item));
            }
        }
    }

    private static string More(int count) => count switch
    {
        1 => string.Empty,
        2 => " (and another one)",
        _ => string.Create(CultureInfo.InvariantCulture, $" (and {count - 1} others)"),
    };
}
