using System;
using System.Collections.Immutable;
using Lampblack.Formats;
using Lampblack.Geometry;
using Xunit;

namespace Lampblack.Tests.Peers;

/// <summary>Our PDF on the four plates of Ghostscript, pixel by pixel, at the resolution of an office printer.</summary>
public sealed class GhostscriptPlatesTests
{
    private const int Dpi = 600;
    private const double PixelMm = 25.4 / Dpi;
    private const double WidthMm = 30;
    private const double HeightMm = 40;

    private static readonly Box<PageSpace> FieldBox = new(4.3, 5.1, 21.7, 30.2);
    private static readonly Point<PageSpace> HoleCentre = new(13.37, 22.2);
    private const double HoleRadiusMm = 6.3;

    private static readonly Region<PageSpace> Field =
        Region<PageSpace>.Rectangle(FieldBox).Except(Region<PageSpace>.Disc(HoleCentre, HoleRadiusMm));

    public static TheoryData<string, byte, byte, byte, byte> Inks => new()
    {
        { "cmyk 1 1 1 1", 255, 255, 255, 255 },
        { "cmyk 0 0 0 1", 0, 0, 0, 255 },
        { "cmyk 0.6 0.4 0.4 1", 153, 102, 102, 255 },
        { "gray 0", 0, 0, 0, 255 }, // ISO 32000-1 clause 10.3.3: gray goes to black alone, as 1 - gray.
        { "gray 0.2", 0, 0, 0, 204 },
    };

    [Theory]
    [MemberData(nameof(Inks))]
    public void The_field_gets_its_ink_everywhere_and_the_hole_none(string ink, byte cyan, byte magenta, byte yellow, byte black)
    {
        var page = Assert.Single(GhostscriptPlates.Render(Pdf(new Painted<PageSpace>(Field, Ink(ink))).AsSpan(), Dpi));
        Check(page, (0, 0), (cyan, magenta, yellow, black));
    }

    [Fact]
    public void Rgb_black_is_left_to_the_printer_and_full_four_inks_are_not()
    {
        // Ghostscript's own conversion of RGB black does not reach full K: the reason why an ink keeps its colour space.
        var page = GhostscriptPlates.Render(Pdf(new Painted<PageSpace>(Field, Lampblack.Quantities.Ink.Rgb(0, 0, 0))).AsSpan(), Dpi)[0];
        Assert.InRange(page.AtMm(6, 7, Dpi).Black, 1, 254);
        Assert.InRange(page.AtMm(6, 7, Dpi).Cyan, 1, 254);
    }

    [Fact]
    public void A_later_area_covers_an_earlier_one_on_every_plate()
    {
        var whole = Region<PageSpace>.Rectangle(FieldBox);
        var inner = Region<PageSpace>.Rectangle(FieldBox.Grow(-3));
        var page = GhostscriptPlates.Render(
            Pdf(
                new(whole, Lampblack.Quantities.Ink.Cmyk(1, 1, 1, 1)),
                new(inner, Lampblack.Quantities.Ink.FullK),
                new(Region<PageSpace>.Rectangle(FieldBox.Grow(-6)), Lampblack.Quantities.Ink.None)).AsSpan(),
            Dpi)[0];
        Assert.Equal((255, 255, 255, 255), page.AtMm(FieldBox.LeftMm + 1.5, FieldBox.Centre.YMm, Dpi));
        Assert.Equal((0, 0, 0, 255), page.AtMm(FieldBox.LeftMm + 4.5, FieldBox.Centre.YMm, Dpi));
        Assert.Equal((0, 0, 0, 0), page.AtMm(FieldBox.LeftMm + 7.5, FieldBox.Centre.YMm, Dpi));
    }

    [Fact]
    public void A_moved_print_is_moved_by_just_so_much_to_the_right_and_up()
    {
        const double rightPt = 2.4;
        const double upPt = -1.2;
        var pdf = Pdf(new Painted<PageSpace>(Field, Lampblack.Quantities.Ink.FullK));
        var page = Assert.Single(GhostscriptPlates.Render(pdf.AsSpan(), Dpi, rightPt, upPt));
        Check(page, (rightPt * 25.4 / 72, upPt * 25.4 / 72), (0, 0, 0, 255));
    }

    [Fact]
    public void Every_page_has_plates_of_its_own()
    {
        var box = new Box<PageSpace>(0, 0, WidthMm, HeightMm);
        var front = new PdfPage(WidthMm, HeightMm, box, box, [new(Field, Lampblack.Quantities.Ink.FullK)]);
        var back = front with { Areas = [] };
        var pages = GhostscriptPlates.Render(PdfFile.Write([front, back], new("two", PdfSides.TwoSidedLongEdge)).AsSpan(), 150);
        Assert.Equal(2, pages.Length);
        Assert.Contains((byte)255, pages[0].Black);
        Assert.DoesNotContain((byte)255, pages[1].Black);
    }

    private static ImmutableArray<byte> Pdf(params ReadOnlySpan<Painted<PageSpace>> areas) => PdfFile.Write(
        [new(WidthMm, HeightMm, FieldBox, FieldBox, [.. areas])], new("plates", PdfSides.OneSided));

    private static Lampblack.Quantities.Ink Ink(string text)
    {
        var words = text.Split(' ');
        double Amount(int index) => double.Parse(words[index], System.Globalization.CultureInfo.InvariantCulture);
        return words[0] == "gray" ? Lampblack.Quantities.Ink.Gray(Amount(1)) : Lampblack.Quantities.Ink.Cmyk(Amount(1), Amount(2), Amount(3), Amount(4));
    }

    /// <summary>Looks at every pixel: one deeper than a pixel inside the field has the ink, one farther than a pixel from it has none; both kinds occur.</summary>
    private static void Check(InkPlates page, (double RightMm, double UpMm) moved, (byte Cyan, byte Magenta, byte Yellow, byte Black) expected)
    {
        // Half a pixel's diagonal from its centre to its corner, and one pixel for the rule that a touched pixel is painted.
        const double margin = PixelMm * (1 + 0.7072);
        var inside = 0;
        var outside = 0;
        for (var row = 0; row < page.HeightPx; row++)
        {
            for (var column = 0; column < page.WidthPx; column++)
            {
                var depth = DepthMm(((column + 0.5) * PixelMm) - moved.RightMm, HeightMm - ((row + 0.5) * PixelMm) - moved.UpMm);
                if (Math.Abs(depth) <= margin)
                {
                    continue;
                }

                var found = page.At(column, row);
                if (found != (depth > 0 ? expected : default))
                {
                    Assert.Fail($"column {column}, row {row}, {depth:0.000} mm inside: {found}");
                }

                (inside, outside) = depth > 0 ? (inside + 1, outside) : (inside, outside + 1);
            }
        }

        Assert.InRange(inside * PixelMm * PixelMm, Field.AreaMm2 * 0.95, Field.AreaMm2);
        Assert.InRange(outside * PixelMm * PixelMm, ((WidthMm * HeightMm) - Field.AreaMm2) * 0.95, (WidthMm * HeightMm) - Field.AreaMm2);
    }

    /// <summary>How deep a place lies inside the field, worked out from the rectangle and the circle themselves; negative outside.</summary>
    private static double DepthMm(double xMm, double yMm)
    {
        var inBox = Math.Min(
            Math.Min(xMm - FieldBox.LeftMm, FieldBox.RightMm - xMm),
            Math.Min(yMm - FieldBox.BottomMm, FieldBox.TopMm - yMm));
        return Math.Min(inBox, HoleCentre.DistanceMm(new(xMm, yMm)) - HoleRadiusMm);
    }
}
