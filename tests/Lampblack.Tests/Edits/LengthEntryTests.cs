using System;
using System.Globalization;
using Lampblack.Edits;
using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Edits;

/// <summary>Lengths as they are told and typed in the unit of the maker's rulers.</summary>
public sealed class LengthEntryTests
{
    [Theory]
    [InlineData("30", LengthUnit.Millimetre, "30 mm")]
    [InlineData("30, 25", LengthUnit.Millimetre, "30, 25 mm")]
    [InlineData("12.70", LengthUnit.Millimetre, "12.7 mm")]
    [InlineData("25, 1 in", LengthUnit.Millimetre, "25, 25.4 mm")]
    [InlineData("2 3/4\"", LengthUnit.Millimetre, "69.85 mm")]
    [InlineData("12.7", LengthUnit.Inch, "0.5 in")]
    [InlineData("30, 25", LengthUnit.Inch, "1.1811, 0.9843 in")]
    [InlineData("0.25 in", LengthUnit.Inch, "0.25 in")]
    [InlineData("1/4 in", LengthUnit.Inch, "1/4 in")]
    [InlineData("2 3/4 in, 12.7", LengthUnit.Inch, "2 3/4, 0.5 in")]
    [InlineData("6,35 mm", LengthUnit.Inch, "0.25 in")]
    [InlineData("-3", LengthUnit.Millimetre, "-3 mm")]
    [InlineData("-2", LengthUnit.Inch, "-0.0787 in")]
    [InlineData("0", LengthUnit.Inch, "0 in")]
    [InlineData("", LengthUnit.Inch, "")]
    [InlineData("as needed", LengthUnit.Inch, "as needed")]
    [InlineData("30, wide", LengthUnit.Millimetre, "30, wide")]
    public void A_length_is_told_with_its_unit(string written, LengthUnit unit, string told) => Assert.Equal(told, LengthEntry.Told(written, unit));

    [Theory]
    [InlineData("", "0.5", LengthUnit.Inch, "12.7")]
    [InlineData("", "0.5 in", LengthUnit.Inch, "12.7")]
    [InlineData("", ".5\"", LengthUnit.Inch, "12.7")]
    [InlineData("", "1/8", LengthUnit.Inch, "3.175")]
    [InlineData("", "1 1/4 in", LengthUnit.Inch, "31.75")]
    [InlineData("", "-0.1", LengthUnit.Inch, "-2.54")]
    [InlineData("", "0,5", LengthUnit.Inch, "12.7")]
    [InlineData("", "12 mm", LengthUnit.Inch, "12")]
    [InlineData("", "3", LengthUnit.Millimetre, "3")]
    [InlineData("", "3 mm", LengthUnit.Millimetre, "3")]
    [InlineData("", "1/8 in", LengthUnit.Millimetre, "1/8 in")]
    [InlineData("", "2 cm", LengthUnit.Inch, "2 cm")]
    [InlineData("", "1/8", LengthUnit.Millimetre, "1/8")]
    [InlineData("", "a bit", LengthUnit.Inch, "a bit")]
    [InlineData("5", "", LengthUnit.Inch, "")]
    public void A_plain_number_means_the_unit_that_is_shown(string written, string typed, LengthUnit unit, string meant) => Assert.Equal(meant, LengthEntry.Meant(written, typed, unit, isPair: false));

    [Theory]
    [InlineData("30, 25", "31, 25 mm", LengthUnit.Millimetre, "31, 25")]
    [InlineData("30, 25", "31 26", LengthUnit.Millimetre, "31, 26")]
    [InlineData("30, 25", "250 x 200", LengthUnit.Millimetre, "250, 200")]
    [InlineData("30, 25", "10 in x 8 in", LengthUnit.Millimetre, "10 in, 8 in")]
    [InlineData("", "10 x 8", LengthUnit.Inch, "254, 203.2")]
    [InlineData("", "1 1/4, 2 1/2 in", LengthUnit.Inch, "31.75, 63.5")]
    [InlineData("", "1,2", LengthUnit.Inch, "25.4, 50.8")]
    [InlineData("", "28", LengthUnit.Inch, "711.2")]
    [InlineData("", "30 mm, 1 in", LengthUnit.Inch, "30, 25.4")]
    [InlineData("", "wide, 3", LengthUnit.Inch, "wide, 3")]
    public void Of_two_lengths_the_unit_behind_the_last_holds_for_both(string written, string typed, LengthUnit unit, string meant) => Assert.Equal(meant, LengthEntry.Meant(written, typed, unit, isPair: true));

    [Theory]
    [InlineData("30, 25", "1.1811, 0.9843 in", "30, 25")]
    [InlineData("30, 25", "1.1811, 1", "30, 25.4")]
    [InlineData("30, 1 in", "2, 1 in", "50.8, 1 in")]
    public void What_was_not_changed_stays_as_the_file_has_it(string written, string typed, string meant) => Assert.Equal(meant, LengthEntry.Meant(written, typed, LengthUnit.Inch, isPair: true));

    [Fact]
    public void What_is_told_means_what_was_written_whatever_the_unit()
    {
        Random random = new(16);
        for (var round = 0; round < 2000; round++)
        {
            var written = Math.Round((random.NextDouble() * 400) - 20, random.Next(5)).ToString(CultureInfo.InvariantCulture);
            foreach (var unit in new[] { LengthUnit.Millimetre, LengthUnit.Inch })
            {
                Assert.Equal(written, LengthEntry.Meant(written, LengthEntry.Told(written, unit), unit, isPair: false));

                // And typed where nothing stood before, it is the same length as well as the digits tell.
                var meant = double.Parse(LengthEntry.Meant(string.Empty, LengthEntry.Told(written, unit), unit, isPair: false), CultureInfo.InvariantCulture);
                Assert.InRange(meant - double.Parse(written, CultureInfo.InvariantCulture), -0.0014, 0.0014);
            }
        }
    }
}
