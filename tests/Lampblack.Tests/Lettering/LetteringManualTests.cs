using System;
using System.IO;
using System.Linq;
using Lampblack.Lettering;
using Xunit;

namespace Lampblack.Tests.Lettering;

/// <summary>What <c>docs/lettering.md</c> says of the fonts is what they have.</summary>
public sealed class LetteringManualTests
{
    /// <summary>What legends, dials and units on a panel need.</summary>
    private const string Needed =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789.,:;!?'\"()[]/\\|+-=<>#%&*@_°ΩµμΔ±×÷≤≥←↑→↓·–—½¼¾²³€ÄÖÜäöüßéñøåç…‘’“”";

    private static readonly string[] Manual = File.ReadAllLines(Path.Combine(Root(), "docs", "lettering.md"));

    public static TheoryData<string> Faces => [.. FontBytes.All.Select(face => face.Name)];

    [Theory]
    [MemberData(nameof(Faces))]
    public void The_manual_names_every_needed_character_that_a_font_lacks(string name)
    {
        var lacking = TextOutline.Line(BundledFonts.Find(name)!, Needed, 4).Missing;
        Assert.Equal(Cell(name, 2), lacking.IsEmpty ? "-" : string.Join(' ', lacking));
        Assert.DoesNotContain(lacking, character => char.IsAsciiLetterOrDigit(character[0]));

        // The tests' own reader of the character map agrees.
        var reader = new SfntReader(FontBytes.Of(name));
        Assert.Equal(Needed.Where(character => reader.Glyph(character) == 0).Select(character => character.ToString()), lacking);
    }

    [Theory]
    [MemberData(nameof(Faces))]
    public void The_manual_tells_whether_figures_share_one_width(string name)
    {
        var reader = new SfntReader(FontBytes.Of(name));
        var widths = "0123456789".Select(figure => reader.Advance(reader.Glyph(figure))).Distinct().Count();
        Assert.Equal(Cell(name, 3), widths == 1 ? "one width" : "each its own");
    }

    [Theory]
    [MemberData(nameof(Faces))]
    public void The_manual_tells_how_thick_strokes_are(string name)
    {
        var strokeMm = TextOutline.Line(BundledFonts.Find(name)!, "I", 1).Shape.Bounds.WidthMm;
        Assert.Equal(Cell(name, 4), FormattableString.Invariant($"1/{1 / strokeMm:F1}"));
    }

    [Theory]
    [MemberData(nameof(Faces))]
    public void The_manual_tells_how_wide_a_word_is(string name)
    {
        var run = TextOutline.Line(BundledFonts.Find(name)!, "SHUTTER", 4);
        Assert.Equal(Cell(name, 5), FormattableString.Invariant($"{run.WidthMm:F1}"));
    }

    private static string Cell(string name, int column) =>
        Manual.Single(line => line.StartsWith($"| {name} |", StringComparison.Ordinal)).Split('|')[column].Trim();

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Lampblack.slnx")))
        {
            folder = folder.Parent ?? throw new DirectoryNotFoundException("the repository's root");
        }

        return folder.FullName;
    }
}
