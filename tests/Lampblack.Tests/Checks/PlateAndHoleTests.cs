using System;
using System.Linq;
using Lampblack.Findings;
using Xunit;
using static Lampblack.Tests.Checks.CheckedDesk;

namespace Lampblack.Tests.Checks;

/// <summary>Holes, covers, plates: each figure just inside and just outside.</summary>
public sealed class PlateAndHoleTests
{
    // Shop practice: what covers reaches past drill error and paper-cut error.
    [Theory]
    [InlineData("", 0.8)]
    [InlineData("[bench]\ndrill-error = 0.2", 0.5)]
    [InlineData("[bench]\ndrill-error = 0.6\npaper-error = 0.4", 1.0)]
    public void A_nut_covers_the_errors_of_drill_and_knife(string bench, double least) => Turns(
        "cover-short",
        Severity.Warn,
        cover => Toml(Control("toggle-mini-on-on", 60, 60), $"{bench}\n[[caliper]]\npart = \"toggle-mini-on-on\"\nbezel = {N(6.5 + (2 * cover))}"),
        least,
        least - 0.01);

    [Fact]
    public void A_washer_that_was_measured_wins_over_the_list()
    {
        Assert.Equal(Severity.Warn, SeverityOf("cover-short", Toml(Control("toggle-submini-on-on", 60, 60))));
        Assert.Null(SeverityOf("cover-short", Toml(Control("toggle-submini-on-on", 60, 60), "[[caliper]]\npart = \"toggle-submini-on-on\"\nbezel = 6.6")));
    }

    [Fact]
    public void A_rectangular_bezel_covers_all_round() => Turns(
        "cover-short",
        Severity.Warn,
        width => Toml(Control("counter", 60, 60), $"[[part]]\nid = \"counter\"\nhole = [36, 24]\nbezel = [{N(width)}, 34]"),
        37.62,
        37.5);

    // The tab's hole lies 11.1 mm out and is 3.3 mm wide; with half a millimetre of drill error it reaches 13.25 mm.
    [Fact]
    public void A_knob_covers_the_hole_of_the_tab() => Turns(
        "tab-hole-open", Severity.Warn, knob => Toml(Control("rotary-4x30", 60, 60), $"[[caliper]]\npart = \"rotary-4x30\"\nknob = {N(knob)}"), 26.5, 26.4);

    // From memory: once the thickness at least, twice for comfort; 3 mm of plate, a hole of 6 mm.
    [Theory]
    [InlineData("A", 9, null)]
    [InlineData("A", 8.9, Severity.Note)]
    [InlineData("A", 6, Severity.Note)]
    [InlineData("A", 5.9, Severity.Warn)]
    [InlineData("B", 9, null)]
    [InlineData("B", 8.9, Severity.Warn)]
    [InlineData("C", 8.9, Severity.Note)]
    public void A_hole_keeps_away_from_the_edge_and_from_the_score_line(string order, double x, Severity? expected) =>
        Assert.Equal(expected, SeverityOf("hole-near-edge", Toml(Control("hole-6", x, 60), $"order = \"{order}\"")));

    // From memory: the middle of a screw's hole 1.5 diameters from the edge; 3.4 mm wide, so 5.1 mm.
    [Theory]
    [InlineData(5.1, Severity.Note)]
    [InlineData(5.0, Severity.Warn)]
    public void A_screws_hole_keeps_away_by_its_diameter(double inset, Severity expected) =>
        Assert.Equal(expected, SeverityOf("hole-near-edge", Toml(string.Empty, panel: $"fixings = {{ part = \"screw-m3\", inset = {N(inset)} }}")));

    [Fact]
    public void A_round_corner_counts_as_an_edge()
    {
        // 9 mm from both edges it lies 1.4 mm from a corner of radius 20.
        Assert.Null(SeverityOf("hole-near-edge", Toml(Control("hole-6", 9, 9))));
        Assert.Equal(Severity.Warn, SeverityOf("hole-near-edge", Toml(Control("hole-6", 9, 9), panel: "corner = 20")));
    }

    // Common practice: the thickness of the plate stays between two holes.
    [Fact]
    public void Plate_stays_between_holes() => Turns(
        "holes-close", Severity.Warn, web => Toml(Control("hole-6", 60, 60) + Control("hole-10", 60 + 8 + web, 60)), 3, 2.99);

    // From memory: two diameters between the middles of screws.
    [Fact]
    public void Screws_stand_two_diameters_apart() => Turns(
        "holes-close", Severity.Warn, pitch => Toml(string.Empty, panel: $"fixings = {{ hole = 5, at = [[60, 60], [{N(60 + pitch)}, 60]] }}"), 10, 9.9);

    // Roark's table 11.4 case 1b with 3100 MPa: 7.34 N bend a square of 300 mm by 1 mm; the limit is ours.
    [Fact]
    public void A_plate_does_not_give_by_more_than_a_millimetre() => Turns(
        "panel-bends", Severity.Warn, force => Toml(Control("pot-9mm", 100, 100), $"[bench]\nfinger = {N(force)}", size: "[300, 300]"), 7.33, 7.35);

    // The same case, 50.37 N stress a square of 100 mm by 10 MPa; the limit is from memory.
    [Fact]
    public void A_plate_is_not_stressed_by_more_than_10_megapascals() => Turns(
        "panel-bends", Severity.Warn, force => Toml(Control("pot-9mm", 50, 50), $"[bench]\nfinger = {N(force)}", size: "[100, 100]"), 50.3, 50.45);

    [Fact]
    public void A_plate_without_controls_is_pressed_by_nobody() =>
        Assert.Null(SeverityOf("panel-bends", Toml(string.Empty, "[bench]\nfinger = 100", size: "[300, 300]")));

    [Fact]
    public void A_plate_that_would_do_is_named_with_its_weight()
    {
        var hint = Of("panel-bends", Toml(Control("pot-9mm", 100, 100), "[bench]\nfinger = 20", size: "[300, 300]")).Single().Hint;

        // The cube root of 2.72 times 3 mm is 4.19: 4.5 mm; 300 x 300 x 4.5 mm of 1.19 g/cm3.
        Assert.Contains("a plate of 4.5 mm, which weighs 482 g", hint, StringComparison.Ordinal);
    }

    // 7.2e-5 per kelvin by a maker's guide; M3 in 3.4 mm (ISO 273) leaves 0.4 mm: 187.5 mm over 30 K.
    [Fact]
    public void Screws_leave_the_plate_room_to_grow() => Turns(
        "fixing-play", Severity.Warn, length => Toml(string.Empty, panel: $"fixings = {{ part = \"screw-m3\", at = [[10, 60], [{N(10 + length)}, 60]] }}", size: "[300, 120]"), 187.4, 187.6);

    [Fact]
    public void A_room_with_even_warmth_needs_less_play()
    {
        const string Fixings = "fixings = { part = \"screw-m3\", at = [[10, 60], [290, 60]] }";
        Assert.Equal(Severity.Warn, SeverityOf("fixing-play", Toml(string.Empty, panel: Fixings, size: "[300, 120]")));
        Assert.Null(SeverityOf("fixing-play", Toml(string.Empty, "[bench]\ntemperature-swing = 20", panel: Fixings, size: "[300, 120]")));
    }

    [Theory]
    [InlineData("", "", true)]
    [InlineData("[[panel.legend]]\ntext = \"A\"\nat = [50, 50]\n", "", false)]
    [InlineData("", "fixings = { hole = 3.4, inset = 6 }", false)]
    public void A_panel_with_nothing_on_it_is_worth_a_word(string items, string panel, bool told) =>
        Assert.Equal(told ? Lampblack.Findings.Severity.Note : null, SeverityOf("panel-empty", Toml(items, panel: panel)));

    [Theory]
    [InlineData("", true)]
    [InlineData("[[panel.legend]]\ntext = 5\n", false)]
    public void A_panel_is_called_empty_only_where_all_of_the_desk_could_be_read(string inPanel, bool told) =>
        Assert.Equal(told, Lampblack.Jobs.Build.Run(Suites.ExampleDesks.Alone(System.Text.Encoding.UTF8.GetBytes(Suites.ImpossibleDesk.Panel + inPanel)), new("A4", "option", Parts: Lampblack.Jobs.BuildParts.None), new System.Progress<string>(), System.Threading.CancellationToken.None)
            .Findings.Any(finding => finding.Code == "panel-empty"));
}
