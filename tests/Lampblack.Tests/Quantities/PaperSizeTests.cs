using System;
using System.Linq;
using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Quantities;

public sealed class PaperSizeTests
{
    [Theory]
    [InlineData("A3")]
    [InlineData("A4")]
    [InlineData("A5")]
    public void Sheets_of_the_A_row_are_as_ISO_216_makes_them(string name)
    {
        // ISO 216: A0 has 1 m2 and sides as 1 to the square root of 2; every halving rounds down to whole mm.
        var number = name[1] - '0';
        double longSide = 1189;
        double shortSide = 841;
        for (var i = 0; i < number; i++)
        {
            (longSide, shortSide) = (shortSide, Math.Floor(longSide / 2));
        }

        var size = PaperSize.Find(name)!;
        Assert.Equal((shortSide, longSide), (size.WidthMm, size.HeightMm));
    }

    [Theory]
    [InlineData("Letter", 8.5, 11)]
    [InlineData("Legal", 8.5, 14)]
    [InlineData("Tabloid", 11, 17)]
    public void Sheets_in_inches_are_their_inches(string name, double widthInches, double heightInches)
    {
        var size = PaperSize.Find(name)!;
        Assert.Equal(widthInches, size.WidthMm / 25.4, 1e-12);
        Assert.Equal(heightInches, size.HeightMm / 25.4, 1e-12);
    }

    [Fact]
    public void Every_sheet_stands_upright_and_has_a_name_of_its_own()
    {
        Assert.All(PaperSize.All, size => Assert.True(size.WidthMm < size.HeightMm));
        Assert.Equal(PaperSize.All.Length, PaperSize.All.Select(size => size.Name).Distinct(StringComparer.OrdinalIgnoreCase).Count());
    }

    [Fact]
    public void Names_are_found_in_capitals_or_not()
    {
        Assert.Same(PaperSize.Find("A4"), PaperSize.Find(" a4 "));
        Assert.Same(PaperSize.Find("Letter"), PaperSize.Find("LETTER"));
        Assert.Null(PaperSize.Find("A"));
        Assert.Null(PaperSize.Find(""));
    }

    [Theory]
    [InlineData("US", "Letter")]
    [InlineData("ca", "Letter")]
    [InlineData("MX", "Letter")]
    [InlineData("PH", "Letter")]
    [InlineData("CL", "Letter")]
    [InlineData("BR", "A4")]
    [InlineData("DE", "A4")]
    [InlineData("GB", "A4")]
    [InlineData("JP", "A4")]
    [InlineData("", "A4")]
    [InlineData(null, "A4")]
    public void The_usual_paper_follows_the_locale_data_of_the_region(string? region, string expected) =>
        Assert.Equal(expected, PaperSize.UsualFor(region).Name);
}
