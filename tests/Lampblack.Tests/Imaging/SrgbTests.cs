using Lampblack.Imaging;
using Lampblack.Optics;
using Xunit;

namespace Lampblack.Tests.Imaging;

public sealed class SrgbTests
{
    // Values of the decoding function of IEC 61966-2-1, worked out with 40 digits and rounded.
    [Theory]
    [InlineData(0, 0)]
    [InlineData(10, 0.0030353)]
    [InlineData(11, 0.0033465)]
    [InlineData(64, 0.0512695)]
    [InlineData(127, 0.2122308)]
    [InlineData(128, 0.2158605)]
    [InlineData(186, 0.4910208)]
    [InlineData(188, 0.5028865)]
    [InlineData(255, 1)]
    public void A_code_decodes_to_the_light_that_the_standard_says(byte code, double linear) =>
        Assert.Equal(linear, Srgb.Decode(code), 7);

    [Fact]
    public void Every_code_comes_back_from_its_light()
    {
        for (var code = 0; code < 256; code++)
        {
            Assert.Equal(code, Srgb.Code(Srgb.Decode((byte)code)));
        }
    }

    [Fact]
    public void The_quick_codes_are_within_a_twentieth_of_a_code_of_the_exact_curve()
    {
        for (var step = 0; step <= 100_000; step++)
        {
            var linear = step / 100_000.0;
            Assert.InRange(Srgb.Code(linear) - (255 * Srgb.Encode(linear)), -0.55, 0.55);
        }
    }

    [Theory]
    [InlineData(-0.5, 0)]
    [InlineData(1.5, 255)]
    [InlineData(double.NaN, 0)]
    [InlineData(double.PositiveInfinity, 255)]
    public void Light_that_no_code_can_show_is_cut_off(double linear, byte code) => Assert.Equal(code, Srgb.Code(linear));

    // Source: example of the function srgb2xyz in the reference manual of the R package munsellinterpol (128, 200, 255).
    // It uses a matrix of more digits than the standard's four, hence the tolerance of 0.01 in 100.
    [Fact]
    public void Xyz_of_a_published_example_comes_out()
    {
        var (x, y, z) = Srgb.ToXyz(new(Srgb.Decode((byte)128), Srgb.Decode((byte)200), Srgb.Decode((byte)255)));
        Assert.Equal(47.60334, 100 * x, 0.01);
        Assert.Equal(53.11601, 100 * y, 0.01);
        Assert.Equal(102.3549, 100 * z, 0.01);
    }

    [Fact]
    public void The_two_matrices_are_each_others_inverse()
    {
        var colour = new LinearColour(0.2, 0.7, 0.4);
        var (x, y, z) = Srgb.ToXyz(colour);
        var back = Srgb.FromXyz(x, y, z);
        Assert.Equal(colour.Red, back.Red, 1e-3);
        Assert.Equal(colour.Green, back.Green, 1e-3);
        Assert.Equal(colour.Blue, back.Blue, 1e-3);
        Assert.Equal(y, colour.Luminance, 12);
    }
}
