using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Geometry;
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

        // No screw goes through a strip: what lies over one is told by its wall and place, and the others have a screw each.
        var fix = ExampleBooks.Words(made.Book.Steps.Single(step => step.Id == "lamps-in"));
        var inside = Assert.Single(made.Facts.Boxes).Inside;
        var middles = ExampleBooks.Rows(made.Book, "rest").Where(row => row.Cells[2] == "piece of strip").Select(row => (Wall: row.Cells[1], Middle: double.Parse(row.Cells[3], CultureInfo.InvariantCulture) + (double.Parse(row.Cells[4], CultureInfo.InvariantCulture) / 2)))
            .Select(rest => rest.Wall switch
            {
                "lower" => new Point<PanelSpace>(inside.LeftMm + rest.Middle, inside.BottomMm + 4),
                "upper" => new(inside.LeftMm + rest.Middle, inside.TopMm - 4),
                "left" => new(inside.LeftMm + 4, inside.BottomMm + rest.Middle),
                _ => new(inside.RightMm - 4, inside.BottomMm + rest.Middle),
            }).ToList();
        var under = middles.Count(middle => made.Facts.Lamps.Any(lamp => middle.DistanceMm(new(lamp.XMm, lamp.YMm)) < 7));
        Assert.True(under == 0 || fix.Contains("Without a screw", StringComparison.Ordinal), fix);
        var screws = made.Bill.Lines.Single(line => line.Key == "wood-screws").Amount - 4;
        Assert.InRange(screws, 0, middles.Count - under);

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
