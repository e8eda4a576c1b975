using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Quantities;

public sealed class PaperWeightTests
{
    /// <summary>
    /// Bond: published conversion 1 lb = 3.760 g/m2, so 20 lb is 75.2, 24 lb 90.2, 28 lb 105.3, 32 lb 120.3. Text 1.4802, cover 2.7042 g/m2 for each pound in a
    /// published weight guide (it rounds its constant up by 0.026 %).
    /// </summary>
    [Theory]
    [InlineData("90", 90, 1e-9)]
    [InlineData("90 g/m2", 90, 1e-9)]
    [InlineData(" 120g/m² ", 120, 1e-9)]
    [InlineData("90 gsm", 90, 1e-9)]
    [InlineData("67,5 g/m2", 67.5, 1e-9)]
    [InlineData("20 lb", 75.2, 0.03)]
    [InlineData("24 lb bond", 90.2, 0.05)]
    [InlineData("28 LB", 105.3, 0.05)]
    [InlineData("32 lb", 120.3, 0.05)]
    [InlineData("32 lbs writing", 120.3, 0.05)]
    [InlineData("32#", 120.3, 0.05)]
    [InlineData("90 lb text", 133.218, 0.05)]
    [InlineData("90 lb book", 133.218, 0.05)]
    [InlineData("100 lb cover", 270.42, 0.1)]
    [InlineData("110 lb index", 198.9, 0.1)]
    public void Weights_are_read_as_packets_have_them(string written, double gramsPerM2, double within)
    {
        Assert.True(PaperWeight.TryRead(written, out var read, out var problem), problem);
        Assert.Equal(gramsPerM2, read, within);
    }

    /// <summary>By hand: 500 sheets of 17 x 22 in at 20 lb are 9071.8474 g over 500 x 0.4318 x 0.5588 m².</summary>
    [Fact]
    public void Bond_is_worked_out_exactly()
    {
        Assert.True(PaperWeight.TryRead("20 lb bond", out var read, out _));
        Assert.Equal(9071.8474 / (500 * 0.4318 * 0.5588), read, 9);
    }

    [Theory]
    [InlineData("")]
    [InlineData("heavy")]
    [InlineData("lb 32")]
    [InlineData("-90 g/m2")]
    [InlineData("90 kg")]
    [InlineData("80 lb vellum")]
    [InlineData("90 g/m2 cover")]
    [InlineData("99999999 g/m2")]
    public void What_is_no_weight_says_how_to_write_one(string written)
    {
        Assert.False(PaperWeight.TryRead(written, out var read, out var problem));
        Assert.Equal(0, read);
        Assert.Contains("cover", problem, System.StringComparison.Ordinal);
    }
}
