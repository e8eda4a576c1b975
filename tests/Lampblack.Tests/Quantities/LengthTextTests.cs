using System;
using System.Globalization;
using CsCheck;
using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Quantities;

/// <summary>Inches are held to their definition: the international yard of 1959 is 0.9144 m, so that 1 in = 0.9144 m / 36 = 25.4 mm exactly.</summary>
public sealed class LengthTextTests
{
    private const decimal MmPerInch = 914.4m / 36m;

    [Theory]
    [InlineData("12", 12)]
    [InlineData("12.5 mm", 12.5)]
    [InlineData("6,35 mm", 6.35)]
    [InlineData("0,250 mm", 0.25)]
    [InlineData("1,25 mm", 1.25)]
    [InlineData("1.250 mm", 1.25)]
    [InlineData("1.2 cm", 12)]
    [InlineData("0.3 m", 300)]
    [InlineData("0.25 in", 6.35)]
    [InlineData("0.5in", 12.7)]
    [InlineData(".5 in", 12.7)]
    [InlineData("3 inches", 76.2)]
    [InlineData("1 inch", 25.4)]
    [InlineData("1/4 in", 6.35)]
    [InlineData("2 3/4 in", 69.85)]
    [InlineData("2-3/4 in", 69.85)]
    [InlineData("-2 3/4 in", -69.85)]
    [InlineData("1/4\"", 6.35)]
    [InlineData("1/4″", 6.35)]
    [InlineData("1/4”", 6.35)]
    [InlineData("2¾ in", 69.85)]
    [InlineData("½\"", 12.7)]
    [InlineData("3/64 in", 1.190625)]
    [InlineData("25 um", 0.025)]
    [InlineData("25 µm", 0.025)]
    [InlineData("25 μm", 0.025)]
    [InlineData("12 pt", 127.0 / 30)]
    [InlineData("72 pt", 25.4)]
    [InlineData("  12 MM ", 12)]
    [InlineData("12\u00A0mm", 12)]
    [InlineData("\u22123 mm", -3)]
    [InlineData("+3 mm", 3)]
    [InlineData("100 m", 100000)]
    public void A_length_is_read_as_people_write_it(string written, double expectedMm)
    {
        Assert.True(LengthText.TryRead(written, out var mm, out var problem), problem);
        Assert.Equal(expectedMm, mm, 1e-12);
        Assert.Empty(problem);
    }

    [Theory]
    [InlineData("", "is empty")]
    [InlineData("   ", "is empty")]
    [InlineData("1,250 mm", "can be read in two ways, as 1.250 mm or as 1250 mm; write it without the comma")]
    [InlineData("12,500", "can be read in two ways, as 12.500 mm or as 12500 mm; write it without the comma")]
    [InlineData("1,250.5 mm", "has both a comma and a point; write one of them, for the decimals")]
    [InlineData("12 ft", "has no unit that is known: mm, cm, m, in, \", pt, um")]
    [InlineData("12 M", "has no unit that is known: mm, cm, m, in, \", pt, um")]
    [InlineData("12 mil", "has no unit that is known: mm, cm, m, in, \", pt, um")]
    [InlineData("mm", "has no number")]
    [InlineData("NaN", "has no number")]
    [InlineData("Infinity mm", "has no number")]
    [InlineData("1e3 mm", "is not one number with a unit")]
    [InlineData("1 2 mm", "is not one number with a unit")]
    [InlineData("--1 mm", "is not one number with a unit")]
    [InlineData("5. mm", "is not one number with a unit")]
    [InlineData("1,2,3 mm", "is not one number with a unit")]
    [InlineData("12 mm 5 mm", "is not one number with a unit")]
    [InlineData("١٢ mm", "has no number")]
    [InlineData("1/4", "is a fraction without a unit: add in or mm")]
    [InlineData("1/0 in", "is not a fraction such as 1/4 or 2 3/4")]
    [InlineData("1/2/3 in", "is not a fraction such as 1/4 or 2 3/4")]
    [InlineData("--1/4 in", "is not a fraction such as 1/4 or 2 3/4")]
    [InlineData("1.5/4 in", "is not a fraction such as 1/4 or 2 3/4")]
    [InlineData("100001 mm", "is beyond 100 m")]
    [InlineData("-100001 mm", "is beyond 100 m")]
    [InlineData("99999999999999999999999999999999999 m", "is beyond 100 m")]
    [InlineData("999999999 999999999/1 in", "is beyond 100 m")]
    [InlineData("12.0000000000000000000000000000000000000000000 mm", "is too long to be a length")]
    public void What_is_no_length_is_refused_with_the_end_of_a_sentence(string written, string expected)
    {
        Assert.False(LengthText.TryRead(written, out var mm, out var problem));
        Assert.Equal(expected, problem);
        Assert.Equal(0, mm);
    }

    [Fact]
    public void Every_64th_of_an_inch_up_to_a_foot_is_the_number_nearest_to_its_exact_length()
    {
        for (var sixtyFourths = 1; sixtyFourths <= 64 * 12; sixtyFourths++)
        {
            var written = string.Create(CultureInfo.InvariantCulture, $"{sixtyFourths / 64} {sixtyFourths % 64}/64 in");
            Assert.True(LengthText.TryRead(written, out var mm, out _));
            Assert.Equal((double)(sixtyFourths * MmPerInch / 64m), mm);
        }
    }

    [Fact]
    public void Comma_and_point_read_alike() =>
        Gen.Select(Gen.Int[0, 99_999], Gen.Int[0, 99]).Sample((whole, hundredths) =>
        {
            var point = string.Create(CultureInfo.InvariantCulture, $"{whole}.{hundredths:00} mm");
            Assert.True(LengthText.TryRead(point, out var withPoint, out _));
            Assert.True(LengthText.TryRead(point.Replace('.', ','), out var withComma, out _));
            Assert.Equal((double)(whole + (hundredths / 100m)), withPoint);
            Assert.Equal(withPoint, withComma);
        });

    [Fact]
    public void Whatever_is_written_gives_a_finite_length_or_a_problem() =>
        Gen.String[Gen.Char["0123456789 .,/-+mincptu\"″µeE½NaM\u00A0"], 0, 48].Sample(written =>
        {
            var read = LengthText.TryRead(written, out var mm, out var problem);
            Assert.True(Math.Abs(mm) <= LengthText.LimitMm);
            Assert.Equal(read, problem.Length == 0);
        });

    [Theory]
    [InlineData("2 in", 25.4, "1 in")]
    [InlineData("2 in", 34.98596, "1.3774 in")]

    // 1.3774 in would be 0.06 µm off: by the length itself, not by what is left of it after rounding.
    [InlineData("2 in", 34.98602, "34.986 mm")]
    public void A_length_is_rewritten_in_its_unit_where_that_gives_it_to_half_of_0_1_micrometres(string written, double mm, string expected) =>
        Assert.Equal(expected, LengthText.Rewrite(written, mm));
}
