using System;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Parts;
using Xunit;
using static Lampblack.Tests.Checks.CheckedDesk;

namespace Lampblack.Tests.Checks;

/// <summary>What keeps a part from turning in its hole. Common practice, no source: a tab, a notch, a flat, a hole that is not round.</summary>
public sealed class TurningTests
{
    private const string Washer = "accept = [{ finding = \"turns-loose\", because = \"a toothed washer lies between body and plate\" }]";

    // A knob with a stop turns its part at every twist too many, a lever or an endless knob only once the nut is loose.
    [Theory]
    [InlineData("pot-9mm", Severity.Note)]
    [InlineData("pot-16mm-m7", null)]
    [InlineData("pot-10-turn", null)]
    [InlineData("rotary-12x30", null)]
    [InlineData("rotary-4x30", null)]
    [InlineData("encoder-m7-push", Severity.Note)]
    [InlineData("toggle-mini-on-on", Severity.Note)]
    [InlineData("toggle-mini-on-on-keyed", null)]
    [InlineData("toggle-standard-covered", Severity.Note)]
    [InlineData("button-16-momentary", null)]
    [InlineData("key-19", null)]
    [InlineData("slider-60", null)]
    [InlineData("lamp-5mm-bezel", null)]
    public void A_plain_round_hole_holds_nothing_that_is_turned_or_thrown(string part, Severity? expected) =>
        Assert.Equal(expected, SeverityOf("turns-loose", Toml(Control(part, 60, 60))));

    [Theory]
    [InlineData("class = \"rotary\"\nhole = 9", Severity.Note)]
    [InlineData("class = \"rotary\"\nhole = [9, 9]", null)]
    [InlineData("class = \"rotary\"\nhole = 9\nextra-hole = [{ at = [-9, 0], hole = 3, for = \"tab\" }]", null)]
    [InlineData("class = \"encoder\"\nhole = 7.2", Severity.Note)]
    [InlineData("class = \"plain\"\nhole = 9", null)]
    [InlineData("like = \"pot-9mm\"\nextra-hole = [{ at = [-6, 0], hole = 2, for = \"tab\" }]", null)]
    [InlineData("like = \"toggle-mini-on-on-keyed\"", null)]
    [InlineData("like = \"toggle-mini-on-on-keyed\"\nhole = 6.5", Severity.Note)]
    public void A_part_of_ones_own_is_held_by_what_its_hole_has(string own, Severity? expected) =>
        Assert.Equal(expected, SeverityOf("turns-loose", Toml(Control("own", 60, 60), $"[[part]]\nid = \"own\"\n{own}")));

    [Fact]
    public void Each_part_is_told_of_once_and_its_controls_are_counted()
    {
        const string Grid = "grid = { columns = 20, rows = 20, step = [40, 40] }";
        var toml = Toml(
            Control("toggle-mini-on-on", 20, 780, Grid) + Control("toggle-mini-on-on", 840, 20) + Control("encoder-m7", 840, 100) + Control("pot-9mm", 840, 200) + Control("pot-9mm", 840, 300),
            size: "[900, 900]");
        var findings = Of("turns-loose", toml);
        Assert.Equal(
            [("p/control-1.1", Severity.Note, "(400 more with this part on this panel)"), ("p/control-3", Severity.Note, string.Empty), ("p/control-4", Severity.Note, "(1 more with this part on this panel)")],
            findings.OrderBy(finding => finding.Item, StringComparer.Ordinal).Select(finding => (finding.Item!, finding.Severity, After(finding.Message))));
    }

    [Theory]
    [InlineData(Washer, "", 1)]
    [InlineData("", Washer, 0)]
    public void A_toothed_washer_is_a_reason(string item, string panel, int left)
    {
        var findings = Of("turns-loose", Toml(Control("pot-9mm", 60, 60, item) + Control("pot-9mm", 120, 60), panel: panel));
        Assert.Equal(left, findings.Count(finding => finding.Accepted is null));
        var stands = Assert.Single(findings, finding => finding.Accepted is not null);
        Assert.Equal(Severity.Note, stands.Severity);
        Assert.Empty(Of("accept-idle", Toml(Control("pot-9mm", 60, 60, item), panel: panel)));
    }

    [Fact]
    public void The_list_has_a_selector_and_a_ten_turn_knob_only_with_what_holds_them() => Assert.All(
        PartCatalogue.BuiltIn.All.Where(part => part.Class is PartClass.Rotary || part.SweepDegrees > 360),
        part => Assert.Null(SeverityOf("turns-loose", Toml(Control(part.Id, 60, 60)))));

    private static string After(string message)
    {
        var at = message.IndexOf(" (1 more", StringComparison.Ordinal) is var one and >= 0 ? one : message.IndexOf(" (400 more", StringComparison.Ordinal);
        return at < 0 ? string.Empty : message[(at + 1)..];
    }
}
