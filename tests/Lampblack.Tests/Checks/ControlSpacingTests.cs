using System;
using System.Linq;
using Lampblack.Findings;
using Xunit;
using static Lampblack.Tests.Checks.CheckedDesk;

namespace Lampblack.Tests.Checks;

/// <summary>Controls far enough apart and large enough, each figure just inside and just outside.</summary>
public sealed class ControlSpacingTests
{
    // Half widths of what fingers touch: lever tips of 3 mm, knobs of 15 and 25 mm, bezels of 14 mm, a slot of 2.5 mm.
    [Theory]
    [InlineData("toggle-mini-on-on", 1.5, "toggle-mini-on-on", 1.5, 19)] // NUREG-0700 Rev. 3, table 11.5
    [InlineData("button-12-momentary", 7, "toggle-mini-on-on", 1.5, 13)] // the same; MIL-STD-1472E table VII
    [InlineData("button-12-momentary", 7, "button-12-latching", 7, 13)] // the same
    [InlineData("button-12-momentary", 7, "pot-9mm", 7.5, 13)] // the same
    [InlineData("button-12-momentary", 7, "rotary-4x30", 12.5, 13)] // the same
    [InlineData("toggle-mini-on-on", 1.5, "pot-9mm", 7.5, 19)] // the same
    [InlineData("toggle-mini-on-on", 1.5, "rotary-4x30", 12.5, 19)] // the same
    [InlineData("key-12", 7, "key-12", 7, 25)] // NUREG-0700 Rev. 3, table 11.5
    [InlineData("key-12", 7, "button-12-momentary", 7, 13)] // the same
    [InlineData("key-12", 7, "toggle-mini-on-on", 1.5, 19)] // the same
    [InlineData("slider-30", 1.25, "slider-30", 1.25, 13)] // the same
    [InlineData("slider-30", 1.25, "toggle-mini-on-on", 1.5, 19)] // the same
    [InlineData("slider-30", 1.25, "pot-9mm", 7.5, 13)] // the same
    [InlineData("rotary-4x30", 12.5, "pot-9mm", 7.5, 25)] // MIL-STD-1472E table VII
    [InlineData("rotary-4x30", 12.5, "rotary-4x30", 12.5, 25)] // MIL-STD-1472E figure 4
    [InlineData("pot-9mm", 7.5, "pot-9mm", 7.5, 25)] // MIL-STD-1472 figure 7, from memory
    public void Two_controls_stand_as_far_apart_as_their_kinds_ask(string one, double half, string other, double otherHalf, double least) => Turns(
        "controls-close",
        Severity.Warn,
        gap => Toml(Control(one, 60, 60) + Control(other, 60 + half + otherHalf + gap, 60)),
        least + 0.03,
        least - 0.03);

    [Theory]
    [InlineData("hands = \"two\"", "rotary-4x30", 12.5, 75)] // MIL-STD-1472E figure 4
    [InlineData("hands = \"two\"", "pot-9mm", 7.5, 50)] // MIL-STD-1472 figure 7, from memory
    [InlineData("gloves = true", "button-19-momentary", 11, 25)] // MIL-STD-1472 figure 11, from memory
    public void Two_hands_and_gloves_ask_for_more(string use, string part, double half, double least) => Turns(
        "controls-close",
        Severity.Warn,
        gap => Toml(Control(part, 40, 60) + Control(part, 40 + (2 * half) + gap, 60), $"[use]\n{use}"),
        least + 0.01,
        least - 0.01);

    [Theory]
    [InlineData("toggle-mini-on-on", 3, 13)] // MIL-STD-1472 figure 13, one finger in sequence, from memory
    [InlineData("button-12-momentary", 14, 6)] // MIL-STD-1472 figure 11, one finger in sequence, from memory
    public void A_row_is_worked_one_after_the_other(string part, double width, double least) => Turns(
        "controls-close",
        Severity.Warn,
        gap => Toml(Control(part, 40, 60, $"row = {{ count = 3, step = {N(width + gap)} }}")),
        least + 0.01,
        least - 0.01);

    // NUREG-0700 Rev. 3, table 11.5: an array keeps away from what is not of it.
    [Theory]
    [InlineData("button-12-latching", 7, 50)]
    [InlineData("toggle-mini-on-on", 1.5, 38)]
    public void A_keyboard_keeps_its_distance(string part, double half, double least) => Turns(
        "controls-close",
        Severity.Warn,
        gap => Toml(Control("button-12-momentary", 20, 80, "grid = { columns = 2, rows = 2, step = [20, 20] }") + Control(part, 47 + half + gap, 80)),
        least + 0.01,
        least - 0.01);

    [Fact]
    public void A_finding_names_both_the_distance_the_source_and_what_to_do()
    {
        var finding = Of("controls-close", Toml(Control("toggle-mini-on-on", 60, 60) + Control("toggle-mini-on-on", 75, 60))).Single();
        Assert.Equal("`p/control-1` (toggle) and `p/control-2` (toggle) stand 12 mm apart, edge to edge; fingers ask for 19 mm (NUREG-0700 Rev. 3, table 11.5)", finding.Message);
        Assert.Equal("p/control-2", finding.Item);
        Assert.NotNull(finding.Span);
        Assert.Contains("7.1 mm further apart", finding.Hint, StringComparison.Ordinal);
    }

    [Fact]
    public void A_lever_that_swings_sideways_needs_its_room_there()
    {
        // 10.4 mm of lever, 13 degrees either way: the tip goes 2.34 mm to either side.
        string Desk(double turn) => Toml(Control("toggle-mini-on-on", 60, 60, $"turn = {N(turn)}") + Control("toggle-mini-on-on", 60 + 3 + 20, 60));
        Assert.Null(SeverityOf("controls-close", Desk(0)));
        Assert.Equal(Severity.Warn, SeverityOf("controls-close", Desk(90)));
    }

    [Theory]
    [InlineData("pot-9mm", "", 10)] // MIL-STD-1472 figure 7, from memory
    [InlineData("rotary-4x30", "", 25)] // MIL-STD-1472E figure 4
    public void A_knob_is_large_enough_for_its_hand(string part, string use, double least) => Turns(
        "control-small",
        Severity.Warn,
        knob => Toml(Control(part, 60, 60), $"{use}\n[[caliper]]\npart = \"{part}\"\nknob = {N(knob)}\nbezel = {N(Math.Min(knob, 14))}"),
        least,
        least - 0.01);

    [Theory]
    [InlineData("", 10)] // MIL-STD-1472 figure 11, from memory
    [InlineData("[use]\ngloves = true", 19)] // the same, gloved
    public void A_button_is_large_enough_for_its_finger(string use, double least) => Turns(
        "control-small",
        Severity.Warn,
        across => Toml(Control("small", 60, 60), $"{use}\n[[part]]\nid = \"small\"\nclass = \"push-button\"\nhole = 8\nbezel = {N(across)}"),
        least,
        least - 0.01);

    // MIL-STD-1472 figure 13, from memory: 38 mm of lever for gloves.
    [Fact]
    public void A_gloved_hand_finds_no_short_lever()
    {
        Assert.Null(SeverityOf("control-small", Toml(Control("toggle-mini-on-on", 60, 60))));
        Assert.Equal(Severity.Warn, SeverityOf("control-small", Toml(Control("toggle-mini-on-on", 60, 60), "[use]\ngloves = true")));
    }

    [Fact]
    public void What_a_caliper_says_wins_over_the_list()
    {
        string Desk(string knob) => Toml(Control("pot-9mm", 60, 60) + Control("pot-9mm", 102, 60), $"[[caliper]]\npart = \"pot-9mm\"\n{knob}");
        Assert.Null(SeverityOf("controls-close", Desk("knob = 16")));
        Assert.Equal(Severity.Warn, SeverityOf("controls-close", Desk("knob = 18")));
    }
}
