using System;
using System.Linq;
using CsCheck;
using Lampblack.SourceText;
using Xunit;

namespace Lampblack.Tests.SourceText;

public sealed class NearestTests
{
    private static readonly string[] Known = ["legend", "id", "at", "states", "size", "part"];

    [Theory]
    [InlineData("legnd", "legend")]
    [InlineData("legedn", "legend")]
    [InlineData("Legend", "legend")]
    [InlineData("LEGENDS", "legend")]
    [InlineData("di", "id")]
    [InlineData("state", "states")]
    [InlineData("sise", "size")]
    [InlineData("label", null)]
    [InlineData("a", null)]
    [InlineData("", null)]
    [InlineData("thickness", null)]
    public void A_slip_is_traced_to_the_word_that_was_meant(string written, string? meant) =>
        Assert.Equal(meant, Nearest.To(written, Known));

    [Fact]
    public void Two_neighbours_swapped_are_one_slip_and_not_two()
    {
        // Three letters allow one slip: (3 + 1) / 3.
        Assert.Equal("abc", Nearest.To("acb", ["abc"]));
        Assert.Null(Nearest.To("cba", ["abc"]));
    }

    [Fact]
    public void Of_equally_near_words_the_first_is_taken() =>
        Assert.Equal("pins", Nearest.To("pinx", ["pins", "pint"]));

    [Fact]
    public void The_nearest_word_is_as_near_as_the_textbook_distance_says() =>
        Gen.Select(Gen.String[Gen.Char["abc"], 0, 7], Gen.String[Gen.Char["abc"], 0, 7].Array[1, 4]).Sample((word, known) =>
        {
            var nearest = Nearest.To(word, known);
            var limit = (word.Length + 1) / 3;
            var distances = known.Select(candidate => Distance(word, candidate)).ToArray();
            Assert.Equal(distances.Min() <= limit ? known[Array.IndexOf(distances, distances.Min())] : null, nearest);
        });

    /// <summary>The recursive definition of the restricted Damerau-Levenshtein distance (Boytsov, ACM Journal of Experimental Algorithmics 16, 2011).</summary>
    private static int Distance(string a, string b)
    {
        if (a.Length == 0 || b.Length == 0)
        {
            return a.Length + b.Length;
        }

        var least = Math.Min(
            Distance(a[..^1], b[..^1]) + (a[^1] == b[^1] ? 0 : 1),
            Math.Min(Distance(a[..^1], b), Distance(a, b[..^1])) + 1);
        return a.Length > 1 && b.Length > 1 && a[^1] == b[^2] && a[^2] == b[^1]
            ? Math.Min(least, Distance(a[..^2], b[..^2]) + 1)
            : least;
    }
}
