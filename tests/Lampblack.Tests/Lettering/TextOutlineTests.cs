using System;
using System.Collections.Immutable;
using System.Linq;
using System.Threading.Tasks;
using CsCheck;
using Lampblack.Lettering;
using Xunit;

namespace Lampblack.Tests.Lettering;

public sealed class TextOutlineTests
{
    private static readonly Typeface Overpass = BundledFonts.Find("overpass")!;

    public static TheoryData<string> Names => [.. BundledFonts.Names];

    public static TheoryData<string> Faces => [.. FontBytes.All.Select(face => face.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void Capitals_are_as_high_as_asked_and_stand_on_the_baseline(string name)
    {
        foreach (var capHeightMm in new[] { 1.5, 2.3, 4, 12.7, 40 })
        {
            var bounds = TextOutline.Line(BundledFonts.Find(name)!, "H", capHeightMm).Shape.Bounds;
            Assert.Equal(0, bounds.BottomMm, 0.001);
            Assert.Equal(capHeightMm, bounds.TopMm, 0.001);
        }
    }

    [Theory]
    [MemberData(nameof(Faces))]
    public void Heights_agree_with_those_the_font_states(string name)
    {
        var (face, reader) = (BundledFonts.Find(name)!, new SfntReader(FontBytes.Of(name)));
        Assert.Equal(reader.UnitsPerEm, face.UnitsPerEm);

        // A designer may state a height a unit or two beside what is drawn; 1 % of the em is more than that and less than any real mistake.
        Assert.Equal((double)reader.CapHeightOfOs2 / reader.UnitsPerEm, face.CapHeightShare, 0.01);
        Assert.Equal((double)reader.XHeightOfOs2 / reader.UnitsPerEm, face.XHeightShare, 0.01);
    }

    [Theory]
    [MemberData(nameof(Faces))]
    public void Letters_fill_the_boxes_that_the_font_file_states(string name)
    {
        var (face, reader) = (BundledFonts.Find(name)!, new SfntReader(FontBytes.Of(name)));
        var mmPerUnit = 10 / (face.CapHeightShare * face.UnitsPerEm);
        foreach (var letter in "HITElxOBQSagjß8&°")
        {
            var (left, bottom, right, top) = reader.Box(reader.Glyph(letter));
            var bounds = TextOutline.Line(face, letter.ToString(), 10).Shape.Bounds;

            // The header bounds the control points too, and a curve may stay inside of those; straight letters can't.
            var slackMm = "HITEl".Contains(letter, StringComparison.Ordinal) ? 0.001 : 1;
            Assert.InRange(bounds.LeftMm, (left * mmPerUnit) - 0.001, (left * mmPerUnit) + slackMm);
            Assert.InRange(bounds.BottomMm, (bottom * mmPerUnit) - 0.001, (bottom * mmPerUnit) + slackMm);
            Assert.InRange(bounds.RightMm, (right * mmPerUnit) - slackMm, (right * mmPerUnit) + 0.001);
            Assert.InRange(bounds.TopMm, (top * mmPerUnit) - slackMm, (top * mmPerUnit) + 0.001);
        }
    }

    [Theory]
    [InlineData("overpass")]
    [InlineData("saira-condensed")]
    public void A_capital_I_without_serifs_is_a_rectangle(string name)
    {
        var shape = TextOutline.Line(BundledFonts.Find(name)!, "I", 10).Shape;
        Assert.Equal(4, Assert.Single(shape.Borders()).Points.Length);
        Assert.Equal(shape.Bounds.WidthMm * shape.Bounds.HeightMm, shape.AreaMm2, 0.001);
    }

    [Theory]
    [InlineData("O", 1, 1)]
    [InlineData("8", 1, 2)]
    [InlineData("B", 1, 2)]
    [InlineData("A", 1, 1)]
    [InlineData("C", 1, 0)]
    [InlineData("i", 2, 0)]
    [InlineData("Ä", 3, 1)]
    [InlineData("%", 3, 2)]
    [InlineData("ON 8", 3, 3)]
    public void Letters_have_the_counters_and_dots_that_readers_know(string text, int pieces, int holes)
    {
        foreach (var name in BundledFonts.Names)
        {
            var shape = TextOutline.Line(BundledFonts.Find(name)!, text, 5).Shape;
            Assert.Equal(pieces, shape.Pieces.Length);
            Assert.Equal(holes, shape.Borders().Count(border => border.SignedAreaMm2 < 0));
        }
    }

    [Fact]
    public void Spaces_move_on_without_ink()
    {
        var space = TextOutline.Line(Overpass, " ", 4);
        Assert.True(space.Shape.IsEmpty);
        Assert.True(space.WidthMm > 0.5);
        Assert.Empty(space.Missing);
        Assert.Equal(2 * space.WidthMm, TextOutline.Line(Overpass, "  ", 4).WidthMm, 6);
        Assert.Equal(0, TextOutline.Line(Overpass, string.Empty, 4).WidthMm);
    }

    [Fact]
    public void Letter_spacing_stands_between_letters_only()
    {
        var plain = TextOutline.Line(Overpass, "ON OFF", 4);
        var spaced = TextOutline.Line(Overpass, "ON OFF", 4, letterSpacingMm: 0.75);
        Assert.Equal(plain.WidthMm + (5 * 0.75), spaced.WidthMm, 6);
        Assert.Equal(plain.Shape.Bounds.RightMm + (5 * 0.75), spaced.Shape.Bounds.RightMm, 0.0003);
        Assert.Equal(plain.Shape.AreaMm2, spaced.Shape.AreaMm2, 0.01);
    }

    [Fact]
    public void A_base_and_its_mark_are_one_letter_for_the_spacing()
    {
        var together = TextOutline.Line(Overpass, "e\u0301e", 4, letterSpacingMm: 1);
        Assert.Equal(TextOutline.Line(Overpass, "ée", 4, letterSpacingMm: 1).WidthMm, together.WidthMm, 6);
        Assert.Empty(together.Missing);
    }

    [Fact]
    public void Spaced_letters_form_no_ligature()
    {
        // Overpass has one for ffi: as a word its dot is gone or joined, spaced out it is three letters and a dot.
        var (face, reader) = (Overpass, new SfntReader(FontBytes.Of("overpass-medium")));
        var single = "ffi".Sum(letter => reader.Advance(reader.Glyph(letter))) * 4 / (face.CapHeightShare * face.UnitsPerEm);
        var kern = (reader.Kern(reader.Glyph('f'), reader.Glyph('f')) + reader.Kern(reader.Glyph('f'), reader.Glyph('i'))) * 4
            / (face.CapHeightShare * face.UnitsPerEm);
        Assert.NotEqual(single + kern, TextOutline.Line(face, "ffi", 4).WidthMm, 0.001);
        Assert.Equal(single + kern + 2, TextOutline.Line(face, "ffi", 4, letterSpacingMm: 1).WidthMm, 0.001);
    }

    [Theory]
    [InlineData("A→B", "→")]
    [InlineData("A\tB\r\nC", "U+0009 U+000D U+000A")]
    [InlineData("🙂 שA ש", "🙂 ש")]
    [InlineData("co\u00ADop\u200E", "U+00AD U+200E")]
    [InlineData("é½°Ω", "")]
    public void What_cannot_be_drawn_is_named_in_the_order_of_the_text_and_leaves_no_gap(string text, string missing)
    {
        var face = BundledFonts.Find("barlow-condensed")!;
        var run = TextOutline.Line(face, text, 4);
        Assert.Equal(missing, string.Join(' ', run.Missing));
        var rest = string.Concat(text.EnumerateRunes().Select(rune => rune.ToString())
            .Where(rune => !run.Missing.Contains(rune) && !run.Missing.Contains($"U+{(int)rune[0]:X4}") && rune != "\uFFFD"));
        Assert.Equal(TextOutline.Line(face, rest, 4).WidthMm, run.WidthMm, 9);
    }

    [Fact]
    public void Half_a_surrogate_pair_is_named_by_its_number()
    {
        var run = TextOutline.Line(Overpass, "A\uD83D" + "B\uDE00", 4);
        Assert.Equal(["U+D83D", "U+DE00"], run.Missing);
        Assert.Equal(TextOutline.Line(Overpass, "AB", 4).WidthMm, run.WidthMm, 9);
    }

    [Fact]
    public void A_letter_is_the_same_shape_wherever_it_stands()
    {
        var shapes = TextOutline.Line(Overpass, "OOOO", 3.3).Shape.Pieces;
        var first = shapes[0].Bounds;
        Assert.Equal(4, shapes.Length);
        Assert.All(shapes, shape => Assert.Equal(shapes[0].AreaMm2, shape.AreaMm2, 1e-9));
        Assert.All(shapes, shape => Assert.Equal(first.WidthMm, shape.Bounds.WidthMm, 1e-9));
    }

    [Fact]
    public void Letters_that_overlap_become_one_piece()
    {
        var apart = TextOutline.Line(Overpass, "OO", 4);
        var overlapping = TextOutline.Line(Overpass, "OO", 4, letterSpacingMm: -1);
        Assert.Equal(2, apart.Shape.Pieces.Length);
        Assert.Single(overlapping.Shape.Pieces);
        Assert.True(overlapping.Shape.AreaMm2 < apart.Shape.AreaMm2);
    }

    [Fact]
    public void Any_text_is_set_without_failing()
    {
        var faces = BundledFonts.Names.Where(name => name.Count(letter => letter == '-') <= 1).Select(name => BundledFonts.Find(name)!).ToArray();
        var letters = Gen.OneOf(Gen.Char['\0', '\uFFFF'], Gen.Char[' ', '~'], Gen.Char['\u0300', '\u036F'], Gen.Char['\u0590', '\u06FF'], Gen.Char['\uD800', '\uDFFF']);
        Gen.Select(Gen.String[letters, 0, 30], Gen.Int[0, faces.Length - 1], Gen.Double[-2, 2]).Sample(
            (text, index, spacingMm) =>
            {
                var run = TextOutline.Line(faces[index], text, 4, spacingMm);
                return double.IsFinite(run.WidthMm) && run.Missing.All(name => name.Length > 0);
            },
            iter: 3000);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_cap_height_that_is_no_height_is_refused(double capHeightMm) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => TextOutline.Line(Overpass, "A", capHeightMm));

    [Fact]
    public async Task The_same_font_and_text_give_the_same_numbers_every_time_and_from_many_threads()
    {
        const string text = "SHUTTER 12.5 ° AVÄRg½";
        var expected = Numbers(BundledFonts.Find("saira-condensed")!, text);
        var fresh = Typeface.FromBytes("copy", FontBytes.Frozen(FontBytes.Of("saira-condensed-medium")), span: null).Value!;
        var runs = await Task.WhenAll(Enumerable.Range(0, 16).Select(_ => Task.Run(() => Numbers(fresh, text))));
        Assert.All(runs, run => Assert.Equal(expected, run));
    }

    private static ImmutableArray<double> Numbers(Typeface face, string text)
    {
        var run = TextOutline.Line(face, text, 4.2);
        return [run.WidthMm, .. run.Shape.Borders().SelectMany(border => border.Points).SelectMany(point => new[] { point.XMm, point.YMm })];
    }

    // A width is measured once for all heights: with ligatures and without, at whichever height it was asked first.
    [Fact]
    public void A_width_is_what_the_line_says_at_every_height_whichever_was_asked_first()
    {
        var face = BundledFonts.Find(BundledFonts.Names[0])!;
        foreach (var (height, spacing) in new[] { (3.0, 0.12), (3, 0), (1.7, 0), (12, -0.3), (1.7, 0.068), (3, 0) })
        {
            foreach (var text in new[] { "OFFICE fi", "AVATAR", "", "7 \u00b7 6.5" })
            {
                Assert.Equal(TextOutline.Line(face, text, height, spacing).WidthMm, TextOutline.WidthMm(face, text, height, spacing));
            }
        }
    }
}
