using System;
using Lampblack.Findings;
using Xunit;
using static Lampblack.Tests.Checks.CheckedDesk;

namespace Lampblack.Tests.Checks;

/// <summary>What fits behind and between: bodies, depth, bushings.</summary>
public sealed class BehindTests
{
    private const string Boxes = "[[part]]\nid = \"box\"\nhole = 6\nbezel = 9\nbody = [20, 20, 20]\n";

    [Fact]
    public void Measured_bodies_that_collide_stop_the_build() => Turns(
        "bodies-collide", Severity.Stop, pitch => Toml(Control("box", 60, 60) + Control("box", 60 + pitch, 60), Boxes), 20, 19.9);

    [Fact]
    public void Bodies_turned_aslant_are_compared_as_they_stand()
    {
        // Two squares of 20 mm, one on its corner, touch at 10 + 14.14 mm.
        Turns("bodies-collide", Severity.Stop, pitch => Toml(Control("box", 60, 60) + Control("box", 60 + pitch, 60, "turn = 45"), Boxes), 24.2, 24.0);
    }

    [Fact]
    public void Bodies_from_memory_are_to_be_measured_first()
    {
        var desk = Toml(Control("button-16-lit", 60, 60) + Control("button-16-lit", 77, 60));
        Assert.Equal(Severity.Warn, SeverityOf("bodies-collide", desk));
        var measured = "[[caliper]]\npart = \"button-16-lit\"\nbody = [17.9, 17.9, 28]\n";
        Assert.Equal(Severity.Stop, SeverityOf("bodies-collide", Toml(Control("button-16-lit", 60, 60) + Control("button-16-lit", 77, 60), measured)));
        Assert.Null(SeverityOf("bodies-collide", Toml(Control("button-16-lit", 60, 60) + Control("button-16-lit", 78, 60), measured)));
    }

    [Fact]
    public void A_body_stays_within_the_panel() => Turns("body-over-edge", Severity.Warn, x => Toml(Control("box", x, 60), Boxes), 10, 9.9);

    // A washer of 7 mm lies over a screw at 40 mm.
    [Fact]
    public void A_body_leaves_room_for_screws() => Turns(
        "body-on-fixing", Severity.Warn, x => Toml(Control("box", x, 60), Boxes, "fixings = { part = \"screw-m3\", at = [[40, 60]] }"), 53.6, 53.4);

    // Room for wires: 10 mm, from memory.
    [Theory]
    [InlineData(30, null)]
    [InlineData(29.9, Severity.Warn)]
    [InlineData(20, Severity.Warn)]
    [InlineData(19.9, Severity.Stop)]
    public void Body_terminals_and_wires_fit_into_the_depth(double depth, Severity? expected) =>
        Assert.Equal(expected, SeverityOf("depth-short", Toml(Control("box", 60, 60), $"[lighting]\ndepth = {N(depth)}\n{Boxes}")));

    [Fact]
    public void A_depth_from_memory_stops_nobody() =>
        Assert.Equal(Severity.Warn, SeverityOf("depth-short", Toml(Control("toggle-standard-on-on", 60, 60), "[lighting]\ndepth = 20")));

    [Fact]
    public void Without_a_depth_nothing_is_said_of_it() => Assert.Null(SeverityOf("depth-short", Toml(Control("toggle-standard-on-on", 60, 60))));

    // 3 mm of plate, 0.05 mm of glue, 0.14 mm of paper.
    [Fact]
    public void A_part_clamps_plate_glue_and_paper() => Turns(
        "bushing-short", Severity.Stop, most => Toml(Control("box", 60, 60), $"{Boxes}panel-max = {N(most)}"), 3.19, 3.18);

    [Fact]
    public void Cover_and_diffuser_are_clamped_too() => Turns(
        "bushing-short", Severity.Stop, most => Toml(Control("box", 60, 60), $"[stack]\nplate = 2\nglue = 0.1\ncover = 1\ndiffuser = 1.5\n{Boxes}panel-max = {N(most)}"), 4.74, 4.73);

    // Where only the thread is known: 0.8 mm of washer and 2 mm of nut, from memory.
    [Fact]
    public void A_thread_holds_washer_and_nut_as_well() => Turns(
        "bushing-short", Severity.Stop, length => Toml(Control("box", 60, 60), $"{Boxes}bushing = {N(length)}"), 5.99, 5.98);

    [Fact]
    public void A_thickness_from_memory_warns_and_a_measured_one_wins()
    {
        Assert.Equal(Severity.Warn, SeverityOf("bushing-short", Toml(Control("rotary-12x30", 60, 60))));
        Assert.Null(SeverityOf("bushing-short", Toml(Control("rotary-12x30", 60, 60), "[[caliper]]\npart = \"rotary-12x30\"\npanel-max = 4\nbushing = 7")));
        Assert.Equal(Severity.Stop, SeverityOf("bushing-short", Toml(Control("rotary-12x30", 60, 60), "[[caliper]]\npart = \"rotary-12x30\"\npanel-max = 3")));
    }

    [Fact]
    public void A_part_without_a_body_is_told_of_and_all_else_is_checked()
    {
        var findings = Check(Toml(Control("own", 60, 60) + Control("box", 100, 60) + Control("box", 110, 60), $"{Boxes}[[part]]\nid = \"own\"\nclass = \"toggle\"\nhole = 6\nbezel = 9\n"));
        var note = Assert.Single(findings, finding => finding.Code == "body-unknown");
        Assert.Equal(Severity.Note, note.Severity);
        Assert.Contains("`own`", note.Message, StringComparison.Ordinal);
        Assert.Contains(findings, finding => finding.Code == "bodies-collide");
    }

    [Fact]
    public void Holes_that_overlap_leave_the_other_findings_alone()
    {
        var findings = Check(Toml(Control("box", 60, 60) + Control("box", 62, 60) + Control("toggle-submini-on-on", 150, 60), Boxes));
        Assert.Contains(findings, finding => finding.Code == "bodies-collide");
        Assert.Contains(findings, finding => finding.Code == "cover-short");
        Assert.DoesNotContain(findings, finding => finding.Code == "holes-close");
    }
}
