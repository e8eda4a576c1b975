using System;
using System.Linq;
using Lampblack.Layout;
using Lampblack.Lettering;
using Lampblack.Tests.Checks;
using Xunit;

namespace Lampblack.Tests.Lettering;

/// <summary>A font that nobody has: mistyped ones are told by their letters, others by the kind that their name tells. The names are invented.</summary>
public sealed class FontKindsTests
{
    [Theory]
    [InlineData("Quillmark", "overpass", "")]
    [InlineData("Quillmark Narrow", "barlow-condensed", "")]
    [InlineData("Quillmark Condensed Black", "barlow-condensed-bold", "")]
    [InlineData("Quillmark Light", "overpass-regular", "")]
    [InlineData("Quillmark Mono", "overpass", "letters of one width")]
    [InlineData("Quillmark Serif", "overpass", "serifs")]
    [InlineData("Quillmark Sans Serif", "overpass", "")]
    [InlineData("Quillmark Bold", "overpass-bold", "")]
    [InlineData("QuillmarkBold", "overpass-bold", "")]
    [InlineData("quillmark-semibold", "overpass-bold", "")]
    [InlineData("QMBoldMono", "overpass-bold", "letters of one width")]
    [InlineData("Quillmark Unicode", "overpass", "")]
    [InlineData("Quillmark Ultralight", "overpass-regular", "")]
    [InlineData("Quillmark UltraLight", "overpass-regular", "")]
    [InlineData("Quillmark Ultra", "overpass-bold", "")]
    [InlineData("Quillmark SemiCondensed", "barlow-condensed", "")]
    [InlineData("Quillmark Book", "overpass", "")]
    [InlineData("Quillmark Old Style", "overpass", "serifs")]
    [InlineData("Goldmark", "overpass", "")]
    public void Words_of_a_name_tell_the_kind(string name, string font, string lacks)
    {
        var (nearest, what) = FontKinds.Nearest(name);
        Assert.Equal(font, nearest);
        Assert.NotNull(BundledFonts.Find(nearest));
        Assert.Equal(lacks.Length == 0, what.Length == 0);
        Assert.Contains(lacks, what, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Quillmark Narrow", "nearest by its name is `barlow-condensed`")]
    [InlineData("barlow-condensd", "did you mean `barlow-condensed`?")]
    [InlineData("overpas bold", "did you mean `overpass-bold`?")]
    [InlineData("barlow", "did you mean `barlow-condensed`?")]
    public void A_font_that_is_not_there_is_answered_by_its_letters_or_by_its_kind(string name, string hint)
    {
        var read = Lampblack.Desks.DeskReader.Read("desk.toml", System.Text.Encoding.UTF8.GetBytes(CheckedDesk.Toml($"[[panel.legend]]\ntext = \"A\"\nat = [50, 50]\nfont = \"{name}\"\n", string.Empty)));
        var findings = DeskLayout.Place(read.Value, FontShelf.Bundled).Findings.Where(finding => finding.Code == "font-unknown");
        Assert.Contains(hint, Assert.Single(findings).Hint, StringComparison.Ordinal);
    }
}
