using System;
using System.Collections.Concurrent;
using System.Collections.Generic;
using System.Linq;
using System.Net;
using System.Text.RegularExpressions;
using Lampblack.Books;
using Lampblack.Jobs;

namespace Lampblack.Tests.Books;

/// <summary>The books of the examples, each made once for all tests that only read them.</summary>
internal static partial class ExampleBooks
{
    private static readonly ConcurrentDictionary<string, Lazy<MadeBook>> Made = new(StringComparer.Ordinal);

    public static MadeBook Of(string name) => Made.GetOrAdd(name, one => new(() => BenchOrderTests.Of(one))).Value;

    /// <summary>All rows about things of a kind.</summary>
    public static List<BookRow> Rows(Book book, string kind) => [.. book.Steps.SelectMany(step => step.Blocks.OfType<BookTable>()).SelectMany(table => table.Rows).Where(row => row.Kind == kind)];

    /// <summary>All pictures.</summary>
    public static IEnumerable<BookPicture> Pictures(Book book) => book.Chapters.SelectMany(chapter => chapter.Blocks.Concat(chapter.Steps.SelectMany(step => step.Blocks))).OfType<PictureRow>().SelectMany(row => row.All);

    /// <summary>What one reads of markup.</summary>
    public static string Plain(string markup) => WebUtility.HtmlDecode(Tag().Replace(markup, string.Empty));

    /// <summary>All words of a step's orders and its gate.</summary>
    public static string Words(BookStep step) => Plain(string.Join(' ', step.Blocks.SelectMany(block => block switch
    {
        Paragraph one => [one.Markup],
        Doings doings => doings.Markups,
        _ => Enumerable.Empty<string>(),
    }).Append(step.Gate.GoOnIf).Append(step.Gate.Otherwise)));

    [GeneratedRegex("<[^>]+>")]
    private static partial Regex Tag();
}
