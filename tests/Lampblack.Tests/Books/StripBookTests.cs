using System;
using System.Collections.Generic;
using System.Linq;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>Strips and pixels in a book: every piece lies on plus and on its channel's line, data goes from pixel to pixel, and every wire has its row and, on the board, its picture.</summary>
public sealed class StripBookTests
{
    [Theory]
    [InlineData("strip-60")]
    [InlineData("strip-120")]
    [InlineData("pixels-60")]
    public void Every_piece_is_fed(string emitter)
    {
        var desk = string.Join('\n', SmallDesk.Text().Replace("emitter-5mm-wide", emitter, StringComparison.Ordinal).Split('\n').Where(line => !line.Contains("panel.emitter", StringComparison.Ordinal) && !line.Contains("at = [45, 20]", StringComparison.Ordinal) && !line.Contains("at = [76, 52]", StringComparison.Ordinal)));
        var made = SmallDesk.Build(desk).MadeBook!;
        var rows = ExampleBooks.Rows(made.Book, "lamp-wire").ConvertAll(row => (Name: row.Cells[0], Net: ExampleBooks.Plain(row.Cells[1]), From: ExampleBooks.Plain(row.Cells[5]), To: ExampleBooks.Plain(row.Cells[6])));
        Assert.Equal(Enumerable.Range(1, rows.Count).Select(number => $"L{number}"), rows.Select(row => row.Name));
        var isPixels = emitter.StartsWith("pixels", StringComparison.Ordinal);
        var pieces = rows.Where(row => row.To.EndsWith(", +", StringComparison.Ordinal)).Select(row => row.To[..^3]).ToList();
        Assert.Equal(made.Facts.Lamps.Length, isPixels ? pieces.Count : 3 * pieces.Count);
        Assert.Equal(pieces.Count, pieces.Distinct().Count());

        // Plus comes to each piece from the rail or the piece before it, and so does what leads back.
        Chain(", +", "plus rail");
        Chain(", −", isPixels ? "0 V rail" : "QL1, D line");
        if (isPixels)
        {
            // Data enters each pixel once and goes on from where it came out.
            var data = rows.Where(row => row.To.EndsWith("data in", StringComparison.Ordinal)).ToList();
            Assert.Equal(pieces, data.Select(row => row.To.Split(',')[0]));
            Assert.All(data.Zip(data.Skip(1)), pair => Assert.Equal($"{pair.First.To.Split(',')[0]}, data out", pair.Second.From));
        }

        var pictures = string.Join(' ', ExampleBooks.Pictures(made.Book).Select(picture => picture.Content).Where(content => content.StartsWith("<svg", StringComparison.Ordinal)));
        var board = Assert.Single(ExampleBooks.Pictures(made.Book), picture => picture.Content.Contains("The lamp board of Levers seen from behind", StringComparison.Ordinal)).Content;
        Assert.All(rows.Where(row => row.To.EndsWith(", +", StringComparison.Ordinal) || row.To.EndsWith(", −", StringComparison.Ordinal)), row => Assert.Contains($">{row.Name}<", board, StringComparison.Ordinal));
        Assert.DoesNotContain("NaN", pictures, StringComparison.Ordinal);
        Assert.Empty(StepPictures.Faults(made.Book));
        Assert.Empty(MakersWaysTests.TooEarly(made.Book));

        void Chain(string end, string first)
        {
            var from = new HashSet<string> { first };
            foreach (var row in rows.Where(row => row.To.EndsWith(end, StringComparison.Ordinal)))
            {
                Assert.Contains(row.From, from);
                from.Add(row.To);
            }

            Assert.Equal(pieces.Select(piece => piece + end).Append(first).Order(StringComparer.Ordinal), from.Order(StringComparer.Ordinal));
        }
    }
}
