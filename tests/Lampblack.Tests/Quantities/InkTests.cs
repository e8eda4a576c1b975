using System;
using CsCheck;
using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Quantities;

public sealed class InkTests
{
    [Fact]
    public void Coverage_of_four_inks_is_their_sum()
    {
        // The trade's total area coverage: 60 C 40 M 40 Y 100 K is 240 %.
        Assert.Equal(2.4, Ink.Cmyk(0.6, 0.4, 0.4, 1).TotalCoverage, 1e-12);
        Assert.Equal(0, Ink.None.TotalCoverage);
        Assert.Equal(1, Ink.FullK.TotalCoverage);
        Assert.Equal(4, Ink.Cmyk(1, 1, 1, 1).TotalCoverage);
    }

    [Fact]
    public void Coverage_of_light_spaces_is_their_complement()
    {
        Assert.Equal(1, Ink.Gray(0).TotalCoverage);
        Assert.Equal(0, Ink.Gray(1).TotalCoverage);
        Assert.Equal(3, Ink.Rgb(0, 0, 0).TotalCoverage);
        Assert.Equal(0, Ink.Rgb(1, 1, 1).TotalCoverage);
    }

    [Fact]
    public void The_same_numbers_in_another_space_are_another_ink()
    {
        Assert.Equal(Ink.Rgb(0, 0, 0), Ink.Rgb(0, 0, 0));
        Assert.Equal(Ink.Rgb(0, 0, 0).GetHashCode(), Ink.Rgb(0, 0, 0).GetHashCode());
        Assert.NotEqual(Ink.Gray(0), Ink.FullK);
        Assert.NotEqual(Ink.Cmyk(1, 0, 0, 0), Ink.Cmyk(0, 1, 0, 0));
    }

    [Theory]
    [InlineData(-0.01)]
    [InlineData(1.01)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void An_amount_outside_0_to_1_is_refused(double amount)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Ink.Cmyk(amount, 0, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Ink.Cmyk(0, 0, 0, amount));
        Assert.Throws<ArgumentOutOfRangeException>(() => Ink.Gray(amount));
        Assert.Throws<ArgumentOutOfRangeException>(() => Ink.Rgb(0, amount, 0));
    }

    [Fact]
    public void Coverage_is_never_less_than_none_or_more_than_four_layers() =>
        Gen.Double[0, 1].Array[4].Sample(share => Assert.InRange(Ink.Cmyk(share[0], share[1], share[2], share[3]).TotalCoverage, 0, 4));
}
