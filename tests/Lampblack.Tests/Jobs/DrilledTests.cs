using System;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Geometry;
using Lampblack.Layout;
using Xunit;

namespace Lampblack.Tests.Jobs;

public sealed class DrilledTests
{
    private const string Desk = SecondTime.Desk;

    private static readonly string Drilled = With("at = [30, 25]", "at = [30, 25]\ndrilled = [0.3, -0.2]");

    [Fact]
    public void A_drilled_control_is_laid_out_at_its_hole_with_everything_around_it()
    {
        const string Rich = "[[panel.control]]\nid = \"dew\"\npart = \"rotary-4x30\"\nat = [60, 25]\nlegend = \"DEW\"\nstates = [\"A\", \"B\", \"C\", \"D\"]\nleaders = 1.5\ndial = { from = 0, to = 10 }\n";
        var plain = Laid(Rich);
        var drilled = Laid(Rich + "drilled = [0.3, -0.2]\n");
        var way = Affine<PanelSpace, PanelSpace>.Shift(0.3, -0.2);
        Assert.Equal(plain.Parts[0].Centre + new Vector<PanelSpace>(0.3, -0.2), drilled.Parts[0].Centre);
        Assert.NotEmpty(plain.Texts);
        Assert.NotEmpty(plain.Leaders);
        Assert.NotEmpty(plain.Dials);
        Assert.All(plain.Texts.Zip(drilled.Texts), pair => AssertAlike(pair.First.Shape.Map(way), pair.Second.Shape));
        Assert.All(plain.Parts[0].Holes.Zip(drilled.Parts[0].Holes), pair => AssertAlike(pair.First.Map(way), pair.Second));
        Assert.All(plain.Leaders.Zip(drilled.Leaders), pair => Assert.Equal(0, way.Apply(pair.First.Start).DistanceMm(pair.Second.Start), 1e-9));
        Assert.All(plain.Dials.Zip(drilled.Dials), pair => Assert.Equal(0, way.Apply(pair.First.Centre).DistanceMm(pair.Second.Centre), 1e-9));
        AssertAlike(plain.Parts[0].Covered.Map(way), drilled.Parts[0].Covered);
    }

    [Fact]
    public void Checks_run_with_the_drilled_places()
    {
        const string Two = "[[panel.control]]\npart = \"hole-6\"\nat = [60, 25]\n[[panel.control]]\npart = \"hole-6\"\nat = [66.5, 25]\n";
        Assert.DoesNotContain("holes-overlap", SecondTime.Build(Panel(Two)).Stops());
        Assert.Contains("holes-overlap", SecondTime.Build(Panel(Two + "drilled = [-0.6, 0]\n")).Stops());
    }

    [Theory]
    [InlineData("drilled = [5.1, 0]", "stop value-range")]
    [InlineData("drilled = 0.3", "stop value-kind")]
    [InlineData("drilled = [0.3]", "stop value-range")]
    [InlineData("drilled = [\"much\", 0]", "stop length-unreadable")]
    [InlineData("drilled = [0, 3]", "warn drilled-far")]
    [InlineData("drilled = [0.3, 0]\nrow = { count = 2, step = 20 }", "stop drilled-copies")]
    public void A_bad_measurement_is_found_with_its_place(string key, string expected)
    {
        var result = SecondTime.Build(With("at = [30, 25]", "at = [30, 25]\n" + key));
        var finding = result.Findings.First();
        Assert.Equal(expected, $"{finding.Severity.ToString().ToLowerInvariant()} {finding.Code}");
        Assert.Equal(expected.StartsWith("stop", StringComparison.Ordinal) ? 1 : 0, result.Stops().Length);
        Assert.NotNull(finding.Span);
    }

    /// <summary>Each case: an edit of the drilled desk, and whether it would need another hole.</summary>
    public static TheoryData<string, string, bool> Moves => new()
    {
        { "at = [30, 25]", "at = [30.2, 25]", true },
        { "at = [30, 25]", "at = [30.04, 25]", false },
        { "toggle-mini-on-on", "button-16-lit", true },
        { "at = [30, 25]", "at = [30, 25]\nturn = 10", false },
        { "drilled = [0.3, -0.2]", "drilled = [0.5, 0.1]", false },
        { "drilled = [0.3, -0.2]\n", "", false },
        { "at = [30, 25]\ndrilled = [0.3, -0.2]", "at = [50, 35]", false },
        { "at = [30, 25]\ndrilled = [0.3, -0.2]", "at = [30.3, 24.8]\ndrilled = [0, 0]", false },
        { "at = [30, 25]\ndrilled = [0.3, -0.2]", "at = [31, 25]\ndrilled = [0.5, 0.1]", true },
        { "\"SHUTTER\"", "\"SHUTTERS\"", false },
        { "size = [120, 60]", "size = [130, 70]", false },
        { "id = \"dome\"", "id = \"roof\"", false },
        { "id = \"shutter\"", "id = \"slit\"", false },
        { "at = [60, 25]", "at = [70, 25]", false },
    };

    [Theory]
    [MemberData(nameof(Moves))]
    public void A_drilled_control_stays_where_its_hole_is(string old, string fresh, bool isMoved)
    {
        Assert.Contains(old, Drilled, StringComparison.Ordinal);
        var edited = Drilled.Replace(old, fresh, StringComparison.Ordinal);
        Assert.Equal(isMoved ? ["drilled-moved"] : [], SecondTime.Then(Drilled, edited).Stops());
        Assert.Empty(SecondTime.Build(edited).Stops());
    }

    [Fact]
    public void A_turn_moves_a_hole_that_is_not_round()
    {
        var window = "[[part]]\nid = \"window\"\nhole = [36, 24]\n" + Panel("[[panel.control]]\nid = \"a\"\npart = \"window\"\nat = [60, 30]\nturn = 0\ndrilled = [0.1, 0]\n")["lampblack = 1\n".Length..];
        var last = "lampblack = 1\n" + window;
        Assert.Empty(SecondTime.Then(last, last.Replace("turn = 0", "turn = 180", StringComparison.Ordinal)).Stops());
        Assert.Equal(["drilled-moved"], SecondTime.Then(last, last.Replace("turn = 0", "turn = 90", StringComparison.Ordinal)).Stops());
    }

    [Fact]
    public void A_renamed_panel_does_not_unfreeze_its_holes() => Assert.Equal(
        ["drilled-moved"],
        SecondTime.Then(Drilled, Drilled.Replace("\"dome\"", "\"roof\"", StringComparison.Ordinal).Replace("at = [30, 25]", "at = [33, 25]", StringComparison.Ordinal)).Stops());

    [Fact]
    public void A_move_is_told_from_where_to_where_and_at_what_cost()
    {
        var far = Assert.Single(SecondTime.Then(Drilled, Drilled.Replace("at = [30, 25]", "at = [30, 45]", StringComparison.Ordinal)).Findings, finding => finding.Code == "drilled-moved");
        Assert.Equal("dome/shutter", far.Item);
        Assert.Contains("drilled at [30.3, 24.8] and would now lie at [30.3, 44.8], 20 mm away", far.Message, StringComparison.Ordinal);
        Assert.Contains("or a second hole 20 mm beside the first", far.Message, StringComparison.Ordinal);
        Assert.Contains("`at = [30, 25]`", far.Hint, StringComparison.Ordinal);
        Assert.Contains("--clear dome/shutter", far.Hint, StringComparison.Ordinal);
        var near = Assert.Single(SecondTime.Then(Drilled, Drilled.Replace("at = [30, 25]", "at = [32, 25]", StringComparison.Ordinal)).Findings, finding => finding.Code == "drilled-moved");
        Assert.Contains("would run into it", near.Message, StringComparison.Ordinal);
        Assert.NotNull(near.Span);
    }

    [Fact]
    public void The_count_of_holes_of_a_new_plate_is_that_of_the_design()
    {
        // Four fixings, and every hole of both parts, as the layout drills them.
        var count = Laid("[[panel.control]]\npart = \"toggle-mini-on-on\"\nat = [30, 25]\n[[panel.control]]\npart = \"pot-9mm\"\nat = [60, 25]\n").Parts.Sum(part => part.Holes.Length) + 4;
        var found = SecondTime.Then(Drilled, Drilled.Replace("at = [30, 25]", "at = [32, 25]", StringComparison.Ordinal)).Findings.Single(finding => finding.Code == "drilled-moved");
        Assert.Contains(FormattableString.Invariant($"a new plate with {count} holes"), found.Message, StringComparison.Ordinal);
    }

    private static string With(string old, string fresh) => Desk.Replace(old, fresh, StringComparison.Ordinal);

    private static string Panel(string items) => $"lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [120, 60]\n{items}";

    private static LaidPanel Laid(string items)
    {
        var desk = DeskReader.Read("desk.toml", SecondTime.Source(Panel(items)).Bytes.AsSpan());
        Assert.Empty(desk.Findings);
        return DeskLayout.Place(desk.Value, new FontShelf([])).Value.Panels[0];
    }

    /// <summary>The same area, but for what the grid of 0.1 µm rounds away along the border.</summary>
    private static void AssertAlike(Region<PanelSpace> expected, Region<PanelSpace> found) =>
        Assert.True(expected.Except(found).AreaMm2 + found.Except(expected).AreaMm2 <= expected.PerimeterMm * 2 * Resolution.GridMm);
}
