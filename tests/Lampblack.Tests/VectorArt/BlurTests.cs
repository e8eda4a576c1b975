using System;
using System.Linq;
using Lampblack.VectorArt;
using Xunit;

namespace Lampblack.Tests.VectorArt;

/// <summary>How fine the dots of blurred things are: as the blur holds it, unless something sharp stands beside.</summary>
public sealed class BlurTests
{
    private const double DotsOfDeviation = 12;
    private const string Square = "<rect x=\"30\" y=\"30\" width=\"40\" height=\"40\" filter=\"url(#f)\"/>";

    [Theory]
    [InlineData(0.2, 1200)]
    [InlineData(0.4, 762)]
    [InlineData(1, 304.8)]
    [InlineData(5, 300)]
    public void What_is_blurred_all_over_is_drawn_no_finer_than_its_blur_holds(double deviationMm, double dpi) =>
        Assert.Equal(dpi, Dpi(Drawn($"<filter id=\"f\"><feGaussianBlur stdDeviation=\"{Svg.Number(deviationMm)}\"/></filter>{Square}")), 0.5);

    [Theory]
    [InlineData("<feGaussianBlur stdDeviation=\"1\"/><feMerge><feMergeNode/><feMergeNode in=\"SourceGraphic\"/></feMerge>", 1200)]
    [InlineData("<feDropShadow stdDeviation=\"1\" dx=\"2\"/>", 1200)]
    [InlineData("<feGaussianBlur stdDeviation=\"1\"/><feColorMatrix values=\"1 0 0 0 0 0 1 0 0 0 0 0 1 0 0 0 0 0 20 -9\"/>", 1200)]
    [InlineData("<feGaussianBlur stdDeviation=\"1\"/><feComposite in2=\"SourceGraphic\" operator=\"in\"/>", 1200)]
    [InlineData("<feGaussianBlur stdDeviation=\"1 0\"/>", 1200)]
    [InlineData("<feGaussianBlur stdDeviation=\"1\"/><feMorphology radius=\"0.1\"/>", 1200)]
    [InlineData("<feGaussianBlur stdDeviation=\"1\" result=\"a\"/><feGaussianBlur in=\"SourceAlpha\" stdDeviation=\"0.5\"/><feBlend in2=\"a\"/>", 609.6)]
    [InlineData("<feOffset dx=\"1\"/><feGaussianBlur stdDeviation=\"1\"/><feColorMatrix type=\"saturate\" values=\"0.5\"/>", 304.8)]
    [InlineData("<feGaussianBlur stdDeviation=\"1\" result=\"a\"/><feFlood flood-color=\"#fa0\"/><feComposite in2=\"a\" operator=\"in\"/>", 304.8)]
    public void What_stays_sharp_beside_a_blur_keeps_its_fine_dots(string steps, double dpi) =>
        Assert.Equal(dpi, Dpi(Drawn($"<filter id=\"f\">{steps}</filter>{Square}")), 0.5);

    [Fact]
    public void A_sharp_mask_over_a_blur_keeps_its_fine_dots()
    {
        const string blur = "<filter id=\"f\"><feGaussianBlur stdDeviation=\"1\"/></filter>";
        const string mask = "<mask id=\"m\"><circle cx=\"50\" cy=\"50\" r=\"15\" fill=\"#fff\"/></mask>";
        Assert.Equal(1200, Dpi(Drawn($"{blur}{mask}<g mask=\"url(#m)\">{Square}</g>")), 0.5);
    }

    [Fact]
    public void The_edge_of_a_blur_is_a_bells_integral_at_its_own_dots()
    {
        const double deviationMm = 1;
        var picture = Drawn($"<filter id=\"f\"><feGaussianBlur stdDeviation=\"{Svg.Number(deviationMm)}\"/></filter>{Square}");
        var row = picture.HeightPx / 2;
        for (var column = 0; column < picture.WidthPx / 2; column++)
        {
            var x = picture.Box.LeftMm + ((column + 0.5) * picture.Box.WidthMm / picture.WidthPx);
            Assert.Equal(Below((x - 30) / deviationMm), picture.Rgba[(4 * ((row * picture.WidthPx) + column)) + 3] / 255.0, 1.0 / DotsOfDeviation / 4);
        }
    }

    private static double Dpi(DrawnPicture picture) => picture.WidthPx / picture.Box.WidthMm * 25.4;

    private static DrawnPicture Drawn(string elements) => Assert.IsType<DrawnPicture>(Assert.Single(Svg.Read(Svg.Page(elements)).Value!.Items));

    /// <summary>The share of a bell that lies below a place, by summing it up.</summary>
    private static double Below(double deviations)
    {
        const double step = 0.001;
        var steps = (int)Math.Round(Math.Abs(deviations) / step);
        var half = Enumerable.Range(0, steps).Sum(index => Math.Exp(-0.5 * Math.Pow((index + 0.5) * step, 2))) * step / Math.Sqrt(2 * Math.PI);
        return 0.5 + (Math.Sign(deviations) * half);
    }
}
