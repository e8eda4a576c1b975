using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Books;
using Lampblack.Geometry;
using Lampblack.Jobs;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>Every wire on a lamp board's picture can be followed with the eye: read back from the picture, of the examples and of boards whose emitters stand where chance has put them.</summary>
public sealed class BoardPictureTests
{
    // Two lines of 0.5 mm with more air than line between them; a dot of 0.75 mm, a line, and as much air again.
    private const double ApartMm = 1.2;
    private const double PastLegMm = 1.4;

    // On a straight piece that is so long a number has room, even where another wire crosses it.
    private const double LongMm = 16;

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void Wires_of_the_examples_can_be_told_apart(string name)
    {
        var made = ExampleBooks.Of(name);
        Assert.Empty(Faults(made));
        Assert.All(made.Facts.Boxes, box => Assert.Single(BoardPicture.Of(made.Book, box.Panel)));
    }

    [Theory]
    [MemberData(nameof(Chances))]
    public void Wires_of_boards_by_chance_can_be_told_apart(int chance) => Assert.Empty(Faults(Made(chance)));

    public static TheoryData<int> Chances => [.. Enumerable.Range(1, 20)];

    /// <summary>An emitter's number is nearest to its own emitter, and a wire's on its own wire, or joined to it by a thin line.</summary>
    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void Numbers_belong_to_what_they_stand_at(string name)
    {
        var made = ExampleBooks.Of(name);
        foreach (var picture in BoardPicture.Of(made.Book))
        {
            var lamps = picture.Words.Where(word => word.IsLight).ToList();
            Assert.Equal(picture.Legs.Count, lamps.Count);
            foreach (var (words, at, _) in lamps)
            {
                var far = picture.Legs.Select(legs => at.DistanceMm(legs.Plus, legs.Minus)).Order().ToList();
                Assert.True(far.Count < 2 || far[1] > 1.2 * far[0], $"{picture.Seen}: {words} is {far[0]:0.0} mm and {far[1]:0.0} mm from two emitters");
            }

            var numbers = picture.Words.Where(word => word.Words.StartsWith('L') && char.IsAsciiDigit(word.Words[^1]) && !word.IsLight).ToDictionary(word => word.Words, word => word.At);
            var named = picture.Seen[(picture.Seen.IndexOf("wires ", StringComparison.Ordinal) + 6)..].Split(", ");
            Assert.Equal(named.Length, picture.Wires.Count);
            foreach (var (wire, label) in picture.Wires.Zip(named))
            {
                var own = Far(wire, numbers[label]);
                Assert.True(own < (BoardPicture.Pieces(wire).Max(piece => piece.From.DistanceMm(piece.To)) > LongMm ? 0.05 : 12), $"{picture.Seen}: {label} stands {own:0.0} mm off its wire");
                Assert.True(own > 0.05 || picture.Wires.All(other => other == wire || Far(other, numbers[label]) > 0.9), $"{picture.Seen}: {label} stands on two wires");
            }
        }
    }

    private static double Far(List<Point<PageSpace>> wire, Point<PageSpace> at) => BoardPicture.Pieces(wire).Min(piece => at.DistanceMm(piece.From, piece.To));

    /// <summary>What cannot be told apart, in words; that there was something to look at is looked at, too.</summary>
    private static List<string> Faults(MadeBook made)
    {
        var faults = new List<string>();
        var pictures = BoardPicture.Of(made.Book);
        Assert.Equal(ExampleBooks.Rows(made.Book, "lamp-wire").Count(row => IsOnBoard(row)), pictures.Sum(picture => picture.Wires.Count));
        Assert.NotEmpty(pictures);
        Assert.DoesNotContain(ExampleBooks.Pictures(made.Book), picture => picture.Caption.Contains("no way was found", StringComparison.Ordinal));
        foreach (var picture in pictures)
        {
            Assert.True(picture.Legs.Count == made.Facts.Lamps.Count(lamp => picture.Seen.Contains($"board of {made.Facts.Boxes.First(box => box.Id == lamp.Panel).Panel} seen", StringComparison.Ordinal)));
            foreach (var (index, wire) in picture.Wires.Index())
            {
                foreach (var (piece, other) in from piece in BoardPicture.Pieces(wire) from next in picture.Wires.Skip(index + 1) from other in BoardPicture.Pieces(next) select (piece, other))
                {
                    if (Apart(piece, other) < ApartMm && !IsSquare(piece, other))
                    {
                        faults.Add($"{picture.Seen}: {piece} and {other} are {Apart(piece, other):0.00} mm apart");
                    }
                }

                foreach (var leg in picture.Legs.SelectMany(legs => new[] { legs.Plus, legs.Minus }).Where(leg => leg.DistanceMm(wire[0]) > 0.03 && leg.DistanceMm(wire[^1]) > 0.03 && Far(wire, leg) < PastLegMm))
                {
                    faults.Add($"{picture.Seen}: a wire passes {leg} at {Far(wire, leg):0.00} mm");
                }
            }
        }

        return faults;
    }

    private static bool IsOnBoard(BookRow row) => new[] { row.Cells[5], row.Cells[6] }.Any(end => ExampleBooks.Plain(end) is var words && (words.Contains(", long ", StringComparison.Ordinal) || words.Contains(", short ", StringComparison.Ordinal)));

    /// <summary>Whether two pieces cross at a right angle, well within both.</summary>
    private static bool IsSquare((Point<PageSpace> From, Point<PageSpace> To) one, (Point<PageSpace> From, Point<PageSpace> To) other)
    {
        static (double X, double Y) Way((Point<PageSpace> From, Point<PageSpace> To) piece) => (piece.To.XMm - piece.From.XMm, piece.To.YMm - piece.From.YMm);
        var (a, b) = (Way(one), Way(other));
        return Math.Abs((a.X * b.X) + (a.Y * b.Y)) < 0.02 * Math.Sqrt(((a.X * a.X) + (a.Y * a.Y)) * ((b.X * b.X) + (b.Y * b.Y)))
            && Apart(one, other) == 0
            && new[] { one.From, one.To }.All(end => end.DistanceMm(other.From, other.To) > 0.8) && new[] { other.From, other.To }.All(end => end.DistanceMm(one.From, one.To) > 0.8);
    }

    private static double Apart((Point<PageSpace> From, Point<PageSpace> To) one, (Point<PageSpace> From, Point<PageSpace> To) other)
    {
        static double Side(Point<PageSpace> p, Point<PageSpace> q, Point<PageSpace> r) => ((q.XMm - p.XMm) * (r.YMm - p.YMm)) - ((q.YMm - p.YMm) * (r.XMm - p.XMm));
        var isCrossed = Side(one.From, one.To, other.From) * Side(one.From, one.To, other.To) < 0 && Side(other.From, other.To, one.From) * Side(other.From, other.To, one.To) < 0;
        return isCrossed ? 0 : new[] { one.From.DistanceMm(other.From, other.To), one.To.DistanceMm(other.From, other.To), other.From.DistanceMm(one.From, one.To), other.To.DistanceMm(one.From, one.To) }.Min();
    }

    /// <summary>A board with eight to twenty-two emitters, none nearer to another than two that stand in one cell.</summary>
    private static MadeBook Made(int chance)
    {
        var draw = new Random(chance);
        var places = new List<Point<PanelSpace>>();
        for (var turn = 0; turn < 400 && places.Count < 8 + (chance % 15); turn++)
        {
            var at = new Point<PanelSpace>(Math.Round(12 + (draw.NextDouble() * 176), 1), Math.Round(12 + (draw.NextDouble() * 96), 1));
            if (places.TrueForAll(other => other.DistanceMm(at) > 8))
            {
                places.Add(at);
            }
        }

        var emitters = string.Concat(places.Select(at => FormattableString.Invariant($"\n  [[panel.emitter]]\n  at = [{at.XMm}, {at.YMm}]\n")));
        var text = SmallDesk.Text().Replace("size = [120, 70]", "size = [200, 120]", StringComparison.Ordinal);
        var cut = text.IndexOf("  [[panel.emitter]]", StringComparison.Ordinal);
        return SmallDesk.Build(text[..cut] + emitters).MadeBook!;
    }
}
