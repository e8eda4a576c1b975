using System;
using System.Linq;
using Lampblack.Findings;
using Xunit;
using static Lampblack.Tests.Checks.CheckedDesk;

namespace Lampblack.Tests.Checks;

/// <summary>Lettering, each figure just inside and just outside.</summary>
public sealed class LegendRuleTests
{
    private static string Word(double height, string more = "") => $"[[panel.legend]]\ntext = \"FOCUS\"\nat = [100, 60]\nheight = {N(height)}\n{more}\n";

    // 700 mm: 10 minutes are 2.036 mm (a summary of HF-STD-001B), 15 are 3.054 mm (NUREG-0700 Rev. 3, 11.4.1.5-1, by angle).
    [Theory]
    [InlineData("", 3.06, null)]
    [InlineData("", 3.05, Severity.Note)]
    [InlineData("", 2.04, Severity.Note)]
    [InlineData("", 2.03, Severity.Warn)]
    [InlineData("[use]\ndistance = 700\ndim = true", 3.06, null)]
    [InlineData("[use]\ndistance = 700\ndim = true", 3.05, Severity.Warn)]
    [InlineData("[use]\ndistance = 500", 2.19, null)]
    [InlineData("[use]\ndistance = 500", 1.45, Severity.Warn)]
    public void Letters_are_high_enough_for_the_distance(string use, double height, Severity? expected) =>
        Assert.Equal(expected, SeverityOf("legend-small", Toml(Word(height), use)));

    [Fact]
    public void The_rule_that_is_used_is_said_beside_what_others_ask_for()
    {
        var finding = Of("legend-small", Toml(Word(2))).Single();
        Assert.Contains("10 minutes, 2.04 mm, to be read (a summary of HF-STD-001B)", finding.Message, StringComparison.Ordinal);
        Assert.Contains("2.8 mm to 4.2 mm (NUREG-0700 by its factors), signs 2.33 mm (DIN 4844-1), MIL-STD-1472 4.7 mm (from memory)", finding.Hint, StringComparison.Ordinal);
    }

    [Fact]
    public void Small_letters_of_a_panel_are_told_of_once_with_their_count()
    {
        var finding = Of("legend-small", Toml(string.Concat(Enumerable.Range(0, 5).Select(index => $"[[panel.legend]]\ntext = \"A\"\nat = [20, {N(20 + (index * 15))}]\nheight = {N(2.5 + (index * 0.1))}\n")))).Single();
        Assert.StartsWith("`A` is 2.5 mm high", finding.Message, StringComparison.Ordinal);
        Assert.EndsWith("(and 4 more on this panel)", finding.Message, StringComparison.Ordinal);
    }

    // 1/12 to 1/6 of the height (a summary of HF-STD-001B), uprights a twentieth more.
    [Theory]
    [InlineData("barlow-condensed-semibold", null)]
    [InlineData("barlow-condensed-regular", null)]
    [InlineData("barlow-condensed-bold", Severity.Note)]
    [InlineData("overpass-bold", Severity.Note)]
    public void Strokes_are_neither_thick_nor_thin(string font, Severity? expected)
    {
        var toml = Toml(Word(4, $"font = \"{font}\""));
        var letters = Laid(toml).Panels[0].Texts[0].Letters!;
        Assert.Equal(expected is null, letters.StrokeMm / letters.CapitalsMm is >= 1 / 12.0 and <= 1.05 / 6);
        Assert.Equal(expected, SeverityOf("stroke-width", toml));
    }

    // MIL-STD-1472, from memory: one stroke from letter to letter.
    [Fact]
    public void Letters_stand_one_stroke_apart()
    {
        var letters = Laid(Toml(Word(4, "spacing = 0"))).Panels[0].Texts[0].Letters!;
        var least = letters.StrokeMm - letters.LetterGapMm;
        Turns("letters-close", Severity.Warn, spacing => Toml(Word(4, $"spacing = {N(spacing)}")), least + 0.01, least - 0.01);
    }

    // MIL-STD-1472 and NUREG-0700, from memory: half a capital from line to line.
    [Fact]
    public void Lines_stand_half_a_capital_apart() => Turns(
        "lines-close", Severity.Warn, leading => Toml($"[[panel.legend]]\ntext = [\"FLAT\", \"FIELD\"]\nat = [100, 60]\nheight = 4\nleading = {N(leading)}\n"), 1.5, 1.49);

    [Theory]
    [InlineData(3.0, null)]
    [InlineData(3.3, Severity.Note)]
    [InlineData(3.35, Severity.Note)]
    [InlineData(3.37, null)]
    [InlineData(3.75, null)]
    public void Sizes_are_the_same_or_told_apart(double other, Severity? expected) => Assert.Equal(
        expected, SeverityOf("sizes-alike", Toml(Word(3) + $"[[panel.legend]]\ntext = \"RATE\"\nat = [100, 30]\nheight = {N(other)}\n")));

    // A summary of HF-STD-001B, chapter 4: above the control.
    [Theory]
    [InlineData("toggle-mini-on-on", "above", null)]
    [InlineData("toggle-mini-on-on", "below", Severity.Note)]
    [InlineData("pot-9mm", "below", Severity.Note)]
    [InlineData("button-12-momentary", "below", null)]
    public void A_hand_hides_what_stands_below_lever_or_knob(string part, string side, Severity? expected) =>
        Assert.Equal(expected, SeverityOf("legend-below", Toml(Control(part, 100, 60, $"legend = \"RATE\"\nside = \"{side}\""))));

    // 17.5 mm of lever with a tip of 6 mm, 13 degrees either way: 6.94 mm from the middle.
    [Fact]
    public void Words_keep_out_from_under_a_lever_in_any_position()
    {
        const string Nut = "[[caliper]]\npart = \"toggle-standard-on-on\"\nbezel = 12.4";
        string Desk(double top) => Toml(Control("toggle-standard-on-on", 100, 60) + $"[[panel.legend]]\ntext = \"I\"\nat = [100, {N(60 - top)}]\nanchor = \"top\"\nheight = 3\n", Nut);
        Turns("legend-under-lever", Severity.Warn, Desk, 7, 6.8);
    }
}
