using System.Collections.Generic;
using Microsoft.CodeAnalysis;
using Xunit;

namespace Lampblack.Tests.Architecture;

public sealed class PublicShapeTests
{
    private const string InkAmount = "an ink's amount from 0 (none) to 1 (full); the parameter is named after the ink, and a share is the only way to give it";

    private const string MapShare = "an element of a map's matrix, mm for each mm; the usual names say row and column";

    /// <summary>Numbers that have no unit, and why their name is enough.</summary>
    private const string OpticalDensity = "an optical density, a pure number, in a band of light";
    private const string DialValue = "a value of the maker's own scale, in the maker's own unit";
    private const string LinearLight = "linear light, 1 for the white of the picture";
    private const string Unknown = "arithmetic on whatever the caller measures, in the caller's own unit";
    private const string NamedByKey = "a number of many kinds; the key beside it ends with its unit";
    private const string Statistic = "a pure number: a chi-square, or a factor on what was believed";
    private const string Money = "money in the maker's own currency, which the file names";
    private const string Worth = "what a piece is worth to the maker, in the maker's own measure";
    private const string Pages = "whole pages that a cartridge is rated for, a count";
    private const string AsWritten = "a number as a user's file has it; the key tells what it is";

    private static readonly Dictionary<string, string> Unitless = new()
    {
        ["Affine.Xx"] = MapShare,
        ["Affine.Xy"] = MapShare,
        ["Affine.Yx"] = MapShare,
        ["Affine.Yy"] = MapShare,
        ["Affine.Determinant"] = "the usual name of how areas change, mm2 for each mm2",
        ["Ink.Cmyk(cyan)"] = InkAmount,
        ["Ink.Cmyk(magenta)"] = InkAmount,
        ["Ink.Cmyk(yellow)"] = InkAmount,
        ["Ink.Cmyk(black)"] = InkAmount,
        ["Ink.Rgb(red)"] = InkAmount,
        ["Ink.Rgb(green)"] = InkAmount,
        ["Ink.Rgb(blue)"] = InkAmount,
        ["BandDensities.Red"] = OpticalDensity,
        ["ChangeTest.ChiSquare"] = Statistic,
        ["ChangeTest.Limit"] = Statistic,
        ["ScatterEstimate.TimesPrior"] = Statistic,
        ["BandDensities.Green"] = OpticalDensity,
        ["BandDensities.Blue"] = OpticalDensity,
        ["KeyNumber.Value"] = "its unit is that of the key which it is set to",
        ["Dial.From"] = DialValue,
        ["Dial.To"] = DialValue,
        ["Dial.Major"] = DialValue,
        ["Dial.Minor"] = DialValue,
        ["DialFigures.StepsFor(range)"] = DialValue,
        ["DialRange.From"] = DialValue,
        ["DialRange.To"] = DialValue,
        ["DiffuseLayer.OfScattering(scatteringPower)"] = "the usual name of SX, a pure number",
        ["EmitterColours.OfChromaticity(x)"] = "CIE chromaticity, a pure number",
        ["EmitterColours.OfChromaticity(y)"] = "CIE chromaticity, a pure number",
        ["LightField.Add(times)"] = "a pure factor, read as add(field, times)",
        ["LightField.Scale(times)"] = "a pure factor, read as scale(times)",
        ["LinearColour.Red"] = LinearLight,
        ["LinearColour.Green"] = LinearLight,
        ["LinearColour.Blue"] = LinearLight,
        ["LinearColour.Luminance"] = LinearLight,
        ["LinearColour.Peak"] = LinearLight,
        ["LinearColour.Grey(level)"] = LinearLight,
        ["NumberNode.Value"] = AsWritten,
        ["CutPiece.Value"] = Worth,
        ["CutPlan.Bound"] = Worth,
        ["CutPlan.Value"] = Worth,
        ["CutStock.Price"] = Money,
        ["PlateStock.Price"] = Money,
        ["Bill.Total"] = Money,
        ["Bill.Guessed"] = Money,
        ["Bill.Money(price)"] = Money,
        ["BillLine.Amount"] = "how much of a line; the line names what it is counted in",
        ["BillLine.EachPrice"] = Money,
        ["BillLine.Price"] = Money,
        ["BookFacts.TonerPrice"] = Money,
        ["BookFacts.SheetPrice"] = Money,
        ["BookPlate.Price"] = Money,
        ["Price.Amount"] = Money,
        ["Observation.Sd"] = Unknown,
        ["Observation.Value"] = Unknown,
        ["PrintCost.CartridgePages"] = Pages,
        ["PrintCost.CartridgePrice"] = Money,
        ["PrintCost.ColourPages"] = Pages,
        ["PrintCost.ColourPrice"] = Money,
        ["PrintCost.SheetPrice"] = Money,
        ["PrintCost.UsualPages"] = Pages,
        ["PanelPictures.OpenLegend"] = LinearLight,
        ["PrinterFigure.Sd"] = NamedByKey,
        ["PrinterFigure.Value"] = NamedByKey,
        ["Srgb.Encode(linear)"] = LinearLight,
        ["Srgb.Decode(stored)"] = "an sRGB value from 0 to 1, as stored",
        ["Srgb.Code(linear)"] = LinearLight,
        ["Srgb.FromXyz(x)"] = "CIE tristimulus value, relative to the white",
        ["Srgb.FromXyz(y)"] = "CIE tristimulus value, relative to the white",
        ["Srgb.FromXyz(z)"] = "CIE tristimulus value, relative to the white",
        ["TableReader.Numbers(min)"] = AsWritten,
        ["TableReader.Numbers(max)"] = AsWritten,
        ["TableReader.NumberPairs(min)"] = AsWritten,
        ["TableReader.NumberPairs(max)"] = AsWritten,
        ["TableReader.Number(min)"] = AsWritten,
        ["TableReader.Number(max)"] = AsWritten,
    };

    [Fact]
    public void Every_public_type_of_the_core_is_closed() => Offences.AssertNone(PublicShape.OpenTypes(LiveCode.Core.Compilation));

    [Fact]
    public void Every_public_number_of_the_core_tells_its_unit() =>
        Offences.AssertNone(PublicShape.NumbersWithoutUnit(LiveCode.Core.Compilation, Unitless));

    [Theory]
    [InlineData("public class A;", 1)]
    [InlineData("public record A;", 1)]
    [InlineData("public static class O { public class A; }", 1)]
    [InlineData("public abstract class O { protected class A; }", 1)]
    [InlineData("public sealed class A;", 0)]
    [InlineData("public sealed record A;", 0)]
    [InlineData("public record struct A;", 0)]
    [InlineData("public static class A;", 0)]
    [InlineData("public abstract class A;", 0)]
    [InlineData("public interface A;", 0)]
    [InlineData("public enum A { B }", 0)]
    [InlineData("public delegate void A();", 0)]
    [InlineData("class A;", 0)]
    [InlineData("class O { public class A; }", 0)]
    public void An_open_public_type_is_an_offence(string code, int count) => Assert.Equal(
        count == 0 ? [] : [$"a.cs(1): {(code.Contains(" O ", System.StringComparison.Ordinal) ? "O.A" : "A")} must be sealed, static or abstract"],
        PublicShape.OpenTypes(Compile(code)));

    [Theory]
    [InlineData("public static class A { public const double Width = 1; }", "A.Width")]
    [InlineData("public static class A { public static double Width => 1; }", "A.Width")]
    [InlineData("public static class A { public static double? Width => 1; }", "A.Width")]
    [InlineData("public static class A { public static float Width => 1; }", "A.Width")]
    [InlineData("public static class A { public static void M(double width) { } }", "A.M(width)")]
    [InlineData("public sealed record A(double Width);", "A.Width")]
    [InlineData("public readonly record struct A(double Width);", "A.Width")]
    [InlineData("public sealed class A(double width) { int M() => (int)width; }", "A(width)")]
    [InlineData("public interface A { double Width { get; } }", "A.Width")]
    [InlineData("public delegate void A(double width);", "A.Invoke(width)")]
    [InlineData("public sealed class A { public int this[double width] => 1; }", "A.this[](width)")]
    [InlineData("public static class O { public struct A { public double Width; } }", "O.A.Width")]
    public void A_public_number_without_a_unit_is_an_offence(string code, string key) =>
        Assert.Equal([$"a.cs(1): {key} does not tell its unit"], PublicShape.NumbersWithoutUnit(Compile(code), new Dictionary<string, string>()));

    [Theory]
    [InlineData("public sealed record A(double WidthMm, double? SpreadMm, double XFactor);")]
    [InlineData("public static class A { public static void M(double mm, double degrees, double fromDegrees) { } }")]
    [InlineData("public static class A { internal const double Width = 1; private const double Height = 1; public const int Count = 1; }")]
    [InlineData("class A { public double Width; }")]
    public void A_number_with_its_unit_or_out_of_sight_is_fine(string code) =>
        Offences.AssertNone(PublicShape.NumbersWithoutUnit(Compile(code), new Dictionary<string, string>()));

    [Fact]
    public void Exceptions_are_needed_and_have_reasons() => Assert.Equal(
        ["A.Gone is listed as an exception, but there is no such number without a unit", "A.Width is listed as an exception without a reason"],
        PublicShape.NumbersWithoutUnit(
            Compile("public sealed record A(double Width);"),
            new Dictionary<string, string> { ["A.Width"] = "", ["A.Gone"] = "it was there once" }));

    [Theory]
    [InlineData("WidthMm", true)]
    [InlineData("mm", true)]
    [InlineData("mmPerDot", true)]
    [InlineData("Program", false)]
    [InlineData("comm", false)]
    [InlineData("width", false)]
    [InlineData("attempt", false)]
    public void A_unit_is_a_whole_word_at_the_end(string name, bool tells) => Assert.Equal(tells, PublicShape.TellsUnit(name));

    private static Compilation Compile(string code)
    {
        var compilation = SourceCompiler.Compile("Lampblack", [new("a.cs", code)], LiveCode.References);
        Offences.AssertNone(SourceCompiler.Blind(compilation));
        return compilation;
    }
}
