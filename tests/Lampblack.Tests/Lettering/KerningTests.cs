using System.Linq;
using Lampblack.Lettering;
using Xunit;

namespace Lampblack.Tests.Lettering;

/// <summary>Widths against the tests' own reading of the font's tables ('hmtx' and 'GPOS').</summary>
public sealed class KerningTests
{
    public static TheoryData<string> Faces => [.. FontBytes.All.Select(face => face.Name)];

    [Theory]
    [MemberData(nameof(Faces))]
    public void A_line_is_as_wide_as_its_advances_and_pair_kernings_together(string name)
    {
        var (face, reader) = (BundledFonts.Find(name)!, new SfntReader(FontBytes.Of(name)));
        foreach (var text in new[] { "AVATAR", "SHUTTER", "DEW HEATER", "LTVYW", "To.", "P.A,", "FOCUS", "Yard", "KILN", "7.4", "120" })
        {
            var glyphs = text.Select(reader.Glyph).ToArray();
            var advances = glyphs.Sum(reader.Advance);
            var kernings = glyphs.Zip(glyphs.Skip(1)).Sum(pair => reader.Kern(pair.First, pair.Second));
            Assert.DoesNotContain(0, glyphs);
            Check(face, text, advances + kernings);
        }
    }

    [Theory]
    [MemberData(nameof(Faces))]
    public void Pairs_that_gape_are_drawn_together(string name)
    {
        var face = BundledFonts.Find(name)!;
        var sumMm = "AVATAR".Sum(letter => TextOutline.Line(face, letter.ToString(), 10).WidthMm);
        Assert.True(TextOutline.Line(face, "AVATAR", 10).WidthMm < sumMm - 0.5);
    }

    private static void Check(Typeface face, string text, int units)
    {
        var widthMm = TextOutline.Line(face, text, 10).WidthMm;
        Assert.Equal(units, widthMm * face.CapHeightShare * face.UnitsPerEm / 10, 1e-6);
    }
}
