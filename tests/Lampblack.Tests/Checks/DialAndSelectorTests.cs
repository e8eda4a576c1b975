using Lampblack.Findings;
using Xunit;
using static Lampblack.Tests.Checks.CheckedDesk;

namespace Lampblack.Tests.Checks;

/// <summary>Scales and selectors, each figure just inside and just outside.</summary>
public sealed class DialAndSelectorTests
{
    private static string Dial(string keys) => $"[[panel.dial]]\nat = [100, 60]\n{keys}\n";

    private static string Selector(int positions, double step, string more = "") => Toml(
        Control("own", 100, 60, more), $"[[part]]\nid = \"own\"\nclass = \"rotary\"\nhole = 9.8\nbezel = 14\nknob = 25\npositions = {positions}\nstep = {N(step)}\n");

    // GOST 27626-88: small marks of 2.0 mm, 0.2 mm allowed; numbered ones are longer.
    [Theory]
    [InlineData(10)]
    [InlineData(20)]
    [InlineData(45)]
    public void Numbered_marks_are_longer_than_the_shortest_small_ones(double radius) => Turns(
        "dial-marks-short", Severity.Warn, length => Toml(Dial($"radius = {N(radius)}\nmark-length = {N(length)}"), size: "[200, 120]"), 1.8, 1.79);

    [Fact]
    public void A_dial_without_numerals_is_a_pattern() =>
        Assert.Empty(Of("dial-marks-short", Toml(Dial("radius = 20\nmark-length = 1\nnumerals = \"none\""))));

    // MIL-STD-1472 figures 2 and 3, from memory: 0.89 mm at 710 mm, 1.75 mm in low light; a mark each 1.8 degrees.
    [Theory]
    [InlineData("distance = 710", 28.34, 28.32)]
    [InlineData("distance = 355", 14.17, 14.15)]
    [InlineData("distance = 355\ndim = true", 27.86, 27.84)]
    public void Marks_stand_apart_for_the_distance(string use, double inside, double outside) => Turns(
        "dial-marks-close", Severity.Warn, radius => Toml(Dial($"radius = {N(radius)}\nfrom = 0\nto = 100\nmajor = 10\nminor = 1\nstart = -90\nend = 90"), $"[use]\n{use}"), inside, outside);

    // GOST 27626-88: 5 to 8 numbers on 100 to 150 mm; 141 mm here.
    [Theory]
    [InlineData(2.5, null)]
    [InlineData(1.4, null)]
    [InlineData(1.25, Severity.Note)]
    [InlineData(2.6, Severity.Note)]
    public void A_scale_has_as_many_numbers_as_its_length_allows(double major, Severity? expected) =>
        Assert.Equal(expected, SeverityOf("dial-numbers", Toml(Dial($"radius = 30\nfrom = 0\nto = 10\nmajor = {N(major)}"))));

    [Fact]
    public void The_scale_around_a_knob_is_no_instrument() =>
        Assert.Null(SeverityOf("dial-numbers", Toml(Control("pot-9mm", 100, 60, "dial = { from = 0, to = 10, major = 1 }"))));

    // MIL-STD-1472E beside figure 4.
    [Theory]
    [InlineData(3, "", null)]
    [InlineData(2, "", Severity.Warn)]
    [InlineData(12, "", null)]
    [InlineData(13, "", Severity.Warn)]
    [InlineData(13, "A", null)]
    public void Positions_without_words_are_fewer(int positions, string word, Severity? expected)
    {
        var states = word.Length == 0 ? string.Empty : $"states = [{string.Join(", ", System.Linq.Enumerable.Repeat($"\"{word}\"", positions))}]";
        Assert.Equal(expected, SeverityOf("selector-positions", Selector(positions, 20, states)));
    }

    [Theory]
    [InlineData(15, null)]
    [InlineData(14.9, Severity.Warn)]
    [InlineData(90, null)]
    [InlineData(91, Severity.Warn)]
    public void Steps_are_told_apart_by_hand(double step, Severity? expected) => Assert.Equal(expected, SeverityOf("selector-step", Selector(3, step)));

    // MIL-STD-1472E beside figure 4: positions not opposite each other.
    [Theory]
    [InlineData(6, null)]
    [InlineData(7, Severity.Note)]
    public void Opposite_positions_are_told_of(int positions, Severity? expected) => Assert.Equal(expected, SeverityOf("selector-opposite", Selector(positions, 30)));
}
