using System;
using System.Linq;
using System.Threading.Tasks;
using Lampblack.Lettering;
using Xunit;

namespace Lampblack.Tests.Lettering;

public sealed class BundledFontsTests
{
    public static TheoryData<string> Names => [.. BundledFonts.Names];

    [Fact]
    public void There_are_three_families_in_four_weights_and_each_family_alone()
    {
        Assert.Equal(15, BundledFonts.Names.Length);
        Assert.Equal(BundledFonts.Names.Order(StringComparer.Ordinal), BundledFonts.Names);
        Assert.All(BundledFonts.Names, name => Assert.NotNull(BundledFonts.Find(name)));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void A_bundled_font_comes_with_its_own_open_licence(string name)
    {
        var licence = BundledFonts.LicenceOf(name);
        Assert.StartsWith("Copyright", licence, StringComparison.Ordinal);
        Assert.Contains("SIL OPEN FONT LICENSE Version 1.1", licence, StringComparison.Ordinal);

        // The copyright line names the family, so no family shows another one's licence.
        Assert.Contains(name.Split('-')[0], licence.Split('\n')[0], StringComparison.OrdinalIgnoreCase);
        Assert.Equal(licence, BundledFonts.Find(name)!.EmbeddedLicence);
    }

    [Theory]
    [InlineData("Overpass Bold", "overpass-bold")]
    [InlineData("SAIRA_CONDENSED_MEDIUM", "saira-condensed-medium")]
    [InlineData(" barlow-condensed ", "barlow-condensed-medium")]
    public void Capitals_and_spaces_are_taken_too(string asked, string meant) => Assert.Same(BundledFonts.Find(meant), BundledFonts.Find(asked));

    [Theory]
    [InlineData("barlow", "barlow-condensed")]
    [InlineData("sarai", "saira-condensed")]
    [InlineData("overpas bold", "overpass-bold")]
    [InlineData("barlow-condensed-heavy", "barlow-condensed")]
    public void An_unknown_name_is_answered_with_the_likeliest_ones(string asked, string likeliest)
    {
        Assert.Null(BundledFonts.Find(asked));
        Assert.Equal(3, BundledFonts.Near(asked).Length);
        Assert.Equal(likeliest, BundledFonts.Near(asked)[0]);
    }

    [Theory]
    [InlineData("")]
    [InlineData("\0")]
    [InlineData("-medium")]
    public void Nonsense_is_no_font_and_does_no_harm(string asked)
    {
        Assert.Null(BundledFonts.Find(asked));
        Assert.Equal(3, BundledFonts.Near(asked + new string('x', 10_000)).Length);
        Assert.Throws<ArgumentException>(() => BundledFonts.LicenceOf(asked));
    }

    // DOD-HDBK-791(AM), 6-5.3.2.3: strokes of light letters on dark are a seventh to an eighth of the height.
    // Light strokes in a black field shrink where toner spreads, so of two weights the heavier is the safe one.
    [Theory]
    [InlineData("barlow-condensed")]
    [InlineData("overpass")]
    [InlineData("saira-condensed")]
    public void A_family_alone_is_its_lightest_weight_with_strokes_of_at_least_an_eighth(string family)
    {
        var lightest = new[] { "regular", "medium", "semibold", "bold" }
            .Select(weight => BundledFonts.Find($"{family}-{weight}")!)
            .First(face => TextOutline.Line(face, "I", 1).Shape.Bounds.WidthMm >= 1.0 / 8);
        Assert.Same(lightest, BundledFonts.Find(family));
    }

    [Fact]
    public async Task Many_askers_at_once_get_the_same_font()
    {
        var faces = await Task.WhenAll(Enumerable.Range(0, 32).Select(_ => Task.Run(() => BundledFonts.Find("saira-condensed-bold"))));
        Assert.All(faces, face => Assert.Same(faces[0], face));
    }
}
