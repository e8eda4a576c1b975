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
    private const int ShortestReason = 15;

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

            var again = new HashSet<string>();
            foreach (var picture in pictures)
            {
                faults.AddRange(Alone(step.Id, picture));
                if (!seen.TryAdd(picture.Content, step.Id) && seen[picture.Content] is var first && first != step.Id)
                {
                    again.Add(first);
                }
            }

            // What is shown twice says so, with its reason; and says nothing of what is not.
            faults.AddRange(again.Except(step.ShowsAgain.Select(one => one.Step)).Select(first => $"{step.Id} shows a picture of {first}"));
            faults.AddRange(step.ShowsAgain.Select(one => one.Step).Except(again).Select(first => $"{step.Id} says that it shows a picture of {first}, and does not"));
            faults.AddRange(step.ShowsAgain.Where(one => one.Because.Length < ShortestReason).Select(one => $"{step.Id} does not say why it shows a picture of {one.Step}"));
        }

        return faults;
    }

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
