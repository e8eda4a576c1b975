using System;
using System.Linq;
using System.Text;
using Lampblack.Findings;
using Lampblack.Jobs;
using Xunit;

namespace Lampblack.Tests.Art;

/// <summary>What is said of artwork that can't be used as it is: one finding each, with its place in the desk file.</summary>
public sealed class ArtFindingTests
{
    private const string White = "<svg xmlns='http://www.w3.org/2000/svg' width='40mm' height='40mm' viewBox='0 0 40 40'><rect width='40' height='40' fill='#111'/><rect x='10' y='10' width='20' height='20' fill='#fff'/></svg>";
    private const string Unsized = "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 40 40'><rect width='40' height='40'/><rect x='10' y='10' width='20' height='20' fill='#fff'/></svg>";

    [Theory]
    [InlineData("file = \"other.svg\"\nwidth = 40", "art-file", 6, Severity.Stop)]
    [InlineData("file = \"empty.svg\"\nwidth = 40", "art-file", 6, Severity.Stop)]
    [InlineData("file = \"art.svg\"\nwidth = 40\nheight = 40", "art-size-twice", 8, Severity.Warn)]
    [InlineData("file = \"unsized.svg\"", "art-size-unknown", 6, Severity.Stop)]
    [InlineData("file = \"art.svg\"\nkeep = [\"reddish\"]", "art-colour", 7, Severity.Stop)]
    [InlineData("file = \"art.svg\"\nhole-colour = \"#12\"", "art-colour", 7, Severity.Stop)]
    [InlineData("file = \"art.svg\"\nholes = \"drill\"", "art-no-holes", 6, Severity.Warn)]
    [InlineData("file = \"art.svg\"\nwidth = 60", "art-size-differs", 6, Severity.Warn)]
    [InlineData("file = \"art.svg\"\nlevels = [80, 20]", "value-range", 7, Severity.Stop)]
    [InlineData("file = \"art.svg\"\nlevels = 99.9", "art-threshold", 6, Severity.Note)]
    public void Artwork_that_cannot_be_used_as_it_is_has_one_finding_with_its_place(string keys, string code, int line, Severity severity)
    {
        var findings = Check(keys).Where(finding => finding.Code == code).ToList();
        Assert.Equal((severity, line), (Assert.Single(findings).Severity, findings[0].Span?.Line));
    }

    [Fact]
    public void Artwork_that_can_be_used_has_no_finding_but_notes() => Assert.All(Check("file = \"art.svg\""), finding => Assert.Equal(Severity.Note, finding.Severity));

    [Fact]
    public void A_picture_of_which_nothing_is_seen_is_told()
    {
        // A gradient stays dots; it lies off the panel.
        Assert.Contains(Check("file = \"gradient.svg\"\nat = [200, 200]"), finding => finding.Code == "art-not-seen");
        Assert.DoesNotContain(Check("file = \"gradient.svg\""), finding => finding.Code == "art-not-seen");
    }

    private static System.Collections.Immutable.ImmutableArray<Finding> Check(string keys)
    {
        var desk = $"lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [60, 60]\n[[panel.art]]\n{keys}\n";
        var source = new DeskSource("desk.toml", [.. Encoding.UTF8.GetBytes(desk)], new Drawings());
        return Build.Run(source, new("A4", "option", Parts: BuildParts.None), new Progress<string>(), TestContext.Current.CancellationToken).Findings;
    }

    private sealed class Drawings : IDeskFiles
    {
        private const string Gradient = "<svg xmlns='http://www.w3.org/2000/svg' width='40mm' height='40mm' viewBox='0 0 40 40'><linearGradient id='g'><stop offset='0' stop-color='#000'/><stop offset='1' stop-color='#fff'/></linearGradient><rect width='40' height='40' fill='url(#g)'/></svg>";

        public FileReading Read(string relativePath, long limitBytes) => relativePath switch
        {
            "art.svg" => new([.. Encoding.UTF8.GetBytes(White)], null),
            "empty.svg" => new([], null),
            "unsized.svg" => new([.. Encoding.UTF8.GetBytes(Unsized)], null),
            "gradient.svg" => new([.. Encoding.UTF8.GetBytes(Gradient)], null),
            _ => new([], "is not there"),
        };
    }
}
