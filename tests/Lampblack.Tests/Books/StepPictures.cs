using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Xml.Linq;
using Lampblack.Books;

namespace Lampblack.Tests.Books;

/// <summary>What is wrong with the pictures of a book's steps.</summary>
internal static class StepPictures
{
    private const int ShortestAlternative = 8;

    /// <summary>Pictures that two steps share, because the same thing is looked at twice: the tick that tells how a sheet was turned; the plate, which carries the print before it is cut.</summary>
    private static readonly ImmutableArray<(string First, string Second)> Shared = [("which-way", "gauges"), ("glue", "cut-plate")];

    public static List<string> Faults(Book book)
    {
        var faults = new List<string>();
        var seen = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var step in book.Steps)
        {
            ImmutableArray<BookPicture> pictures = [.. step.Blocks.OfType<PictureRow>().SelectMany(row => row.All)];
            if (pictures.IsEmpty)
            {
                faults.Add($"{step.Id} has no picture");
            }

            foreach (var picture in pictures)
            {
                faults.AddRange(Alone(step.Id, picture));
                if (!seen.TryAdd(picture.Content, step.Id) && seen[picture.Content] is var first && first != step.Id && !Shared.Any(pair => IsOf(pair, first, step.Id) || IsOf(pair, step.Id, first)))
                {
                    faults.Add($"{step.Id} shows a picture of {first}");
                }
            }
        }

        return faults;
    }

    private static bool IsOf((string First, string Second) pair, string one, string other) =>
        one.StartsWith(pair.First, StringComparison.Ordinal) && other.StartsWith(pair.Second, StringComparison.Ordinal);

    private static IEnumerable<string> Alone(string step, BookPicture picture)
    {
        var root = XElement.Parse(picture.Content);
        var told = root.Name.LocalName == "img" ? root.Attribute("alt")?.Value : root.Elements().FirstOrDefault(element => element.Name.LocalName == "title")?.Value;
        if (told is not { Length: >= ShortestAlternative })
        {
            yield return $"{step} has a picture without words: {told}";
        }

        if (string.IsNullOrWhiteSpace(picture.Caption))
        {
            yield return $"{step} has a picture without a caption";
        }

        // What is right stands beside what is wrong, each with its word.
        var words = root.Descendants().Where(element => element.Name.LocalName == "text").Select(element => element.Value).ToList();
        if (words.Any(word => word.StartsWith("Right", StringComparison.Ordinal)) != words.Any(word => word.StartsWith("Wrong", StringComparison.Ordinal)))
        {
            yield return $"{step} has a verdict without its opposite";
        }
    }
}
