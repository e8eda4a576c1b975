using System;
using System.Linq;
using System.Text;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.Tests.Register;
using Xunit;

namespace Lampblack.Tests.Separations;

public sealed class SeparationCheckTests
{
    /// <summary>What stands in the panel, and the codes that must be found, in order.</summary>
    public static TheoryData<string, string> Cases => new()
    {
        { "[[panel.legend]]\ntext = \"A\"\nat = [40, 30]", "" },
        { "[[panel.area]]\nbox = [75, 20, 10, 5]\nrole = \"lit\"", "mark-off-panel" },
        { "[[panel.legend]]\ntext = \"AAAAAAAA\"\nat = [78, 30]\nrole = \"unlit\"\nink = \"red\"", "mark-off-panel" },
        { "[[panel.legend]]\ntext = \"AAAAAAAA\"\nat = [78, 30]", "mark-off-panel" },
        { "[[panel.rule]]\nline = [[70, 30], [90, 30]]\nrole = \"unlit\"", "" },
        { "[[panel.area]]\nbox = [70, 20, 9.8, 5]\nrole = \"lit\"", "opening-at-edge" },
        { "[[panel.area]]\nbox = [70, 20, 9, 5]\nrole = \"lit\"", "" },
        { "[[panel.area]]\nbox = [70, 20, 9.5, 5]\nrole = \"lit\"", "opening-at-edge" },
        { "[[panel.area]]\nbox = [70, 20, 9.25, 5]\nrole = \"lit\"", "opening-at-edge" },
        { "[[panel.area]]\nbox = [70, 20, 9.15, 5]\nrole = \"lit\"", "" },
        { "[[panel.area]]\nbox = [70, 20, 9.75, 5]\nrole = \"hidden\"", "opening-at-edge" },
        { "[[panel.area]]\nbox = [70, 20, 9.6, 5]\nrole = \"hidden\"", "" },
        { "[[panel.area]]\nbox = [30, 20, 10, 5]\nrole = \"lit\"\n[[panel.control]]\npart = \"hole-6\"\nat = [35, 22]", "mark-in-hole" },
        { "[[panel.area]]\nbox = [30, 20, 10, 5]\nrole = \"lit\"\n[[panel.control]]\npart = \"hole-6\"\nat = [43.3, 22]", "opening-at-hole" },
        { "[[panel.area]]\nbox = [30, 20, 10, 5]\nrole = \"lit\"\n[[panel.area]]\nbox = [40.9, 20, 10, 5]\nrole = \"lit\"\nink = \"red\"", "openings-meet" },
        { "[[panel.area]]\nbox = [30, 20, 10, 5]\nrole = \"lit\"\n[[panel.area]]\nbox = [41.1, 20, 10, 5]\nrole = \"lit\"\nink = \"red\"", "" },
        { "[[panel.area]]\nbox = [30, 20, 10, 5]\nrole = \"lit\"\n[[panel.area]]\nbox = [40.9, 20, 10, 5]\nrole = \"lit\"", "" },
        { "[[panel.area]]\nbox = [30, 20, 10, 5]\nrole = \"lit\"\n[[panel.area]]\nbox = [40.4, 20, 10, 5]\nrole = \"hidden\"", "openings-meet" },
        { "[[panel.area]]\nbox = [30, 20, 10, 5]\nrole = \"lit\"\n[[panel.area]]\nbox = [40.9, 20, 10, 5]\nrole = \"unlit\"", "unlit-near-lit" },
        { "[[panel.area]]\nbox = [30, 20, 10, 5]\nrole = \"lit\"\n[[panel.area]]\nbox = [41.1, 20, 10, 5]\nrole = \"unlit\"", "" },
        { "field = \"blue\"", "field-not-black" },
        { "[[panel.area]]\nbox = [30, 20, 10, 5]\nrole = \"hidden\"\ncover = 0.6", "cover-thin" },
        { "[[panel.area]]\nbox = [30, 20, 10, 5]\nrole = \"hidden\"\ncover = 0.95", "" },
        { "[[panel.rule]]\nline = [[20, 20], [20, 20]]", "mark-not-seen" },
        { "[[panel.rule]]\nbracket = [[20, 20], [20, 20]]", "mark-not-seen" },
        { "[[panel.rule]]\narc = [30, 30, 10]\nfrom = 40\nto = 40", "mark-not-seen" },
        { "[[panel.area]]\ncorners = [[20, 20], [30, 20], [40, 20]]", "mark-not-seen" },
        { "[[panel.area]]\nbox = [90, 20, 10, 5]", "mark-not-seen" },
        { "[[panel.area]]\nbox = [30, 20, 10, 5]\n[[panel.area]]\nbox = [25, 15, 20, 20]", "mark-not-seen" },
        { "[[panel.legend]]\nat = [40, 30]\ntext = \"A\"\nrole = \"unlit\"\nink = \"black\"", "mark-not-seen" },
        { "[[panel.area]]\nbox = [30, 20, 20, 20]\n[[panel.legend]]\nat = [40, 30]\ntext = \"A\"\nrole = \"unlit\"\nink = \"black\"", "" },
        { "[[panel.area]]\nbox = [-50, -50, 300, 60]", "" },
        { "field = \"amber\"\n[[panel.legend]]\nat = [40, 30]\ntext = \"A\"\nrole = \"unlit\"\nink = \"black\"", "field-not-black" },
        { "field = \"amber\"\n[[panel.legend]]\nat = [40, 30]\ntext = \"A\"\nrole = \"unlit\"\nink = \"field\"", "mark-not-seen field-not-black" },
        { "field = \"amber\"\n[[panel.area]]\nbox = [30, 20, 20, 20]\nrole = \"lit\"\n[[panel.legend]]\nat = [40, 30]\ntext = \"A\"\nrole = \"unlit\"\nink = \"black\"", "field-not-black" },
        { "[[panel.area]]\nbox = [30, 20, 20, 20]\n[[panel.area]]\nbox = [35, 25, 5, 5]\nrole = \"hidden\"", "unlit-near-lit hidden-seen" },
        { "field = \"gray\"\n[[panel.area]]\nbox = [35, 25, 5, 5]\nrole = \"hidden\"", "field-not-black hidden-seen" },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void What_can_go_wrong_between_the_sides_is_found_and_what_cannot_is_not(string inPanel, string codes)
    {
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes($"lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [80, 60]\n{inPanel}\n"), "full");
        Assert.Equal(codes, string.Join(' ', desk.Findings.Select(finding => finding.Code)));
    }

    [Theory]
    [InlineData("", 9.25, true)]
    [InlineData("[bench]\npaper-error = 0.2\n", 9.25, false)]
    [InlineData("[bench]\npaper-error = 1\n", 8.6, true)]
    [InlineData("[bench]\npaper-error = 0\n", 9.9, true)]
    [InlineData("[bench]\npaper-error = 0\n", 9.4, false)]
    public void How_far_an_opening_stays_from_the_edge_goes_by_what_the_makers_cuts_err(string bench, double widthMm, bool told)
    {
        var toml = FormattableString.Invariant($"lampblack = 1\n{bench}[[panel]]\nid = \"p\"\nsize = [80, 60]\n[[panel.area]]\nbox = [70, 20, {widthMm}, 5]\nrole = \"lit\"\n");
        Assert.Equal(told, SeparatedDesk.Of(Encoding.UTF8.GetBytes(toml), "full").Findings.Any(finding => finding.Code == "opening-at-edge"));
    }

    [Theory]
    [InlineData("full", InkSpace.Cmyk)]
    [InlineData("gray", InkSpace.Gray)]
    public void Black_words_on_a_coloured_field_are_printed_in_black(string build, InkSpace space)
    {
        var panel = Separated("field = \"amber\"\n[[panel.area]]\nbox = [30, 20, 10, 5]\nink = \"black\"", build);
        var last = panel.Front.Last(area => area.Region.Contains(new Point<PanelSpace>(35, 22)));
        Assert.Equal(space == InkSpace.Gray ? Ink.Gray(0) : Ink.FullK, last.Ink);
        Assert.True(panel.Shapes.MaskBlack.Contains(new Point<PanelSpace>(35, 22)));
    }

    [Fact]
    public void A_word_is_called_by_itself_even_if_it_is_the_name_of_a_kind_of_mark()
    {
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes("lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [80, 60]\n[[panel.legend]]\ntext = \"dial\"\nat = [79, 30]\n"), "full");
        Assert.StartsWith("`dial` reaches", Assert.Single(desk.Findings).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Openings_of_two_items_that_meet_many_times_are_told_once_with_their_count()
    {
        // Six copies of a red area each meet the white bar below; a green one meets it once and is told by itself.
        var desk = SeparatedDesk.Of(
            Encoding.UTF8.GetBytes(
                "lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [80, 60]\n[[panel.area]]\nid = \"a\"\nbox = [5, 20.5, 4, 4]\nrole = \"lit\"\nink = \"red\"\nrow = { count = 6, step = 9 }\n"
                + "[[panel.area]]\nid = \"b\"\nbox = [60, 20.5, 4, 4]\nrole = \"lit\"\nink = \"green\"\n[[panel.area]]\nid = \"bar\"\nbox = [5, 15, 70, 5]\nrole = \"lit\"\n"),
            "full");
        Assert.Equal(["openings-meet", "openings-meet"], desk.Findings.Select(finding => finding.Code));
        Assert.Equal(
            "the openings behind the area of `p/a.1` and the area of `p/bar` meet, and they differ in colour: light of one will show in the other (6 times between these two items)",
            desk.Findings[0].Message);
        Assert.Equal("the openings behind the area of `p/b` and the area of `p/bar` meet, and they differ in colour: light of one will show in the other", desk.Findings[1].Message);
        Assert.All(desk.Findings, finding => Assert.Equal("p/bar", finding.Item));
    }

    [Fact]
    public void Nothing_leaks_and_the_halo_is_the_ring_around_what_shines()
    {
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes("lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [80, 60]\n[[panel.area]]\ndisc = [40, 30, 5]\nrole = \"lit\"\n"), "full");
        var figures = desk.Panels[0].Figures;
        Assert.Equal(0, figures.LeakMm2);
        Assert.Equal(1, figures.Openings);
        Assert.InRange(figures.HaloMm2, Math.PI * ((5.5 * 5.5) - 25) * 0.999, Math.PI * ((5.5 * 5.5) - 25) * 1.001);
        Assert.InRange(figures.SmallestOpeningMm, 10.99, 11.01);

        // 86 x 66 mm of four full inks, less the ring of K alone and the disc.
        Assert.InRange(figures.FrontCoverage, 3.9, 4.0);
        Assert.InRange(figures.MaskCoverage, 3.9, 4.0);
    }

    [Fact]
    public void A_backed_colour_is_printed_in_its_opening()
    {
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes("lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [80, 60]\n[[panel.area]]\ndisc = [40, 30, 5]\nrole = \"lit\"\nink = \"amber\"\nbacked = true\n"), "full");
        var amber = desk.Panels[0].Mask.Single(area => area.Ink.Amounts[3] == 0);
        Assert.InRange(amber.Region.AreaMm2, Math.PI * 5.5 * 5.5 * 0.999, Math.PI * 5.5 * 5.5 * 1.001);
    }

    [Fact]
    public void A_hidden_mark_is_covered_on_the_front_by_its_own_share_of_K()
    {
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes("lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [80, 60]\n[[panel.area]]\ndisc = [40, 30, 5]\nrole = \"hidden\"\ncover = 0.6\n"), "full");
        var cover = desk.Panels[0].Front.Single(area => area.Ink == Ink.Cmyk(0, 0, 0, 0.6));
        var black = desk.Panels[0].Front.Single(area => area.Ink == Ink.FullK && area.Region.AreaMm2 > 1000);

        // The black lies over the cover's rim and leaves the hidden shape grown by the spread.
        Assert.True(cover.Region.Touches(black.Region));
        Assert.InRange(cover.Region.Except(black.Region).AreaMm2, Math.PI * 5.5 * 5.5 * 0.999, Math.PI * 5.5 * 5.5 * 1.001);
    }

    [Fact]
    public void A_hidden_mark_gets_its_outline_from_the_mask()
    {
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes("lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [80, 60]\n[[panel.area]]\ndisc = [40, 30, 5]\nrole = \"hidden\"\n"), "full");
        Assert.InRange(desk.Panels[0].Shapes.Openings.AreaMm2, Math.PI * 25 * 0.999, Math.PI * 25 * 1.001);
        var cover = Assert.Single(desk.Panels[0].Shapes.Covers);
        Assert.InRange(cover.Region.AreaMm2, Math.PI * 5.5 * 5.5 * 0.999, Math.PI * 5.5 * 5.5 * 1.001);
    }

    [Fact]
    public void A_hidden_mark_under_a_full_layer_leaves_no_trace_in_the_black()
    {
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes("lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [80, 60]\n[[panel.area]]\ndisc = [40, 30, 5]\nrole = \"hidden\"\n"), "gray");
        Assert.Equal(86 * 66, Assert.Single(desk.Panels[0].Front).Region.AreaMm2, 3);
    }

    [Fact]
    public void A_black_only_printer_gets_the_colours_of_lines_as_grays()
    {
        // ISO 32000-1 10.3.3: gray = 1 - min(1, 0.3 c + 0.59 m + 0.11 y + k); red, of full magenta and yellow, is 1 - 0.7.
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes("lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [80, 60]\n[[panel.rule]]\nline = [[20, 30], [60, 30]]\nwidth = 2\nrole = \"lit\"\nink = \"red\"\nbacked = true\n"), "gray");
        Assert.All(desk.Panels[0].Front.Concat(desk.Panels[0].Mask), area => Assert.Equal(InkSpace.Gray, area.Ink.Space));
        Assert.Contains(desk.Panels[0].Front, area => Math.Abs(area.Ink.Amounts[0] - 0.3) < 1e-9);
    }

    [Theory]
    [InlineData("role = \"hidden\"\nink = \"red\"", true)]
    [InlineData("role = \"lit\"\nink = \"red\"\nbacked = true", true)]
    [InlineData("role = \"hidden\"\nink = \"gray\"", false)]
    public void A_black_only_printer_prints_no_gray_in_an_opening_that_no_colour_could_come_of(string keys, bool isClear)
    {
        var panel = Separated($"[[panel.legend]]\ntext = \"HOT\"\nat = [40, 30]\nheight = 8\n{keys}\n", "gray");
        var opening = panel.Shapes.Openings;
        Assert.True(opening.AreaMm2 > 20);
        Assert.Equal(isClear, panel.Mask.All(area => area.Region.Intersect(opening).AreaMm2 < 0.01));
        Assert.Equal(isClear, panel.Shapes.Visible.All(mark => !mark.Style.Backed));
    }

    [Fact]
    public void A_black_only_build_has_no_stand_back_and_one_ink()
    {
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes("lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [80, 60]\n[[panel.legend]]\ntext = \"A\"\nat = [40, 30]\n"), "gray");
        Assert.Equal(Ink.Gray(0), Assert.Single(desk.Panels[0].Front).Ink);
        Assert.Equal(0, desk.Panels[0].StandBackMm);
    }

    [Fact]
    public void Nothing_is_painted_beyond_the_bleed()
    {
        var panel = Separated("[[panel.area]]\nbox = [-50, -50, 300, 100]\nink = \"amber\"\n[[panel.rule]]\nline = [[-40, 55], [200, 55]]", "full");
        var sheet = panel.Bleed.Grow(1e-6);
        Assert.All(panel.Front.Concat(panel.Mask), area => Assert.True(sheet.Contains(area.Region.Bounds), $"{area.Ink} at {area.Region.Bounds}"));
    }

    [Fact]
    public void Holes_stay_white_where_a_colour_lies_over_them()
    {
        var panel = Separated("[[panel.area]]\nbox = [10, 10, 60, 40]\nink = \"amber\"\n[[panel.control]]\npart = \"hole-10\"\nat = [40, 30]", "full");
        var amber = panel.Front.First(area => area.Ink.Amounts[2] == 1 && area.Ink.Amounts[3] == 0);
        Assert.False(amber.Region.Contains(new Point<PanelSpace>(40, 30)));
        Assert.True(amber.Region.Contains(new Point<PanelSpace>(30, 30)));
    }

    [Fact]
    public void The_mask_of_a_panel_with_a_coloured_field_keeps_K_at_its_edges()
    {
        var panel = Separated("field = \"amber\"\n[[panel.area]]\ndisc = [40, 30, 5]\nrole = \"lit\"", "full");
        var core = panel.Mask.Single(area => area.Ink.Amounts.Sum() > 3.9);
        var hole = core.Region.FilledHoles().Single();
        Assert.InRange(hole.Bounds.WidthMm, 2 * (5 + 0.5 + 0.1) - 0.01, (2 * (5 + 0.5 + 0.1)) + 0.01);
    }

    [Fact]
    public void A_hidden_mark_on_a_coloured_field_has_its_cover_of_K()
    {
        var panel = Separated("field = \"amber\"\n[[panel.area]]\ndisc = [40, 30, 5]\nrole = \"hidden\"", "full");
        var last = panel.Front.Last(area => area.Region.Contains(new Point<PanelSpace>(40, 30)));
        Assert.Equal(Ink.FullK, last.Ink);
    }

    [Theory]
    [InlineData("amber")]
    [InlineData("white")]
    public void A_black_only_printer_gets_a_coloured_field_as_gray(string field)
    {
        var panel = Separated($"field = \"{field}\"\n[[panel.area]]\ndisc = [40, 30, 5]\nrole = \"hidden\"\ncover = 0.6", "gray");
        Assert.All(panel.Front.Concat(panel.Mask), area => Assert.Equal(InkSpace.Gray, area.Ink.Space));
    }

    [Fact]
    public void A_hidden_mark_leaves_no_trace_in_a_black_of_light_values() =>
        Assert.Equal(86 * 66, Assert.Single(Separated("[[panel.area]]\ndisc = [40, 30, 5]\nrole = \"hidden\"", "rgb").Front).Region.AreaMm2, 3);

    [Fact]
    public void The_black_reaches_into_a_turned_slot_only_as_far_as_into_an_upright_one()
    {
        var upright = Separated(Slot(0), "full").Shapes.Windows;
        var turned = Separated(Slot(45), "full").Shapes.Windows;
        Assert.Equal(upright.AreaMm2, turned.AreaMm2, 2);
        static string Slot(double turn) => FormattableString.Invariant($"[[panel.control]]\npart = \"slit\"\nat = [40, 30]\nturn = {turn}\n[[part]]\nid = \"slit\"\nhole = [20, 1.5]");
    }

    /// <summary>The print names punches that are sold, as hole chart and build book do: 13 mm for a hole of 12.1, not 13.1; 13/16 in for one of 19.2 where inches are told. Letters are counted: an i has two pieces.</summary>
    [Theory]
    [InlineData("button-12-momentary", "", "punch 13")]
    [InlineData("button-19-momentary", "", "punch 20")]
    [InlineData("button-19-momentary", "[book]\nunits = \"inch\"\n", "punch 13/16 in")]
    [InlineData("button-22-momentary", "[book]\nunits = \"inch\"\n", "knife")]
    public void The_print_names_punches_that_are_sold(string part, string book, string words)
    {
        var toml = $"lampblack = 1\n{book}[[panel]]\nid = \"p\"\nsize = [80, 60]\n[[panel.control]]\npart = \"{part}\"\nat = [40, 30]\n";
        var below = SeparatedDesk.Of(Encoding.UTF8.GetBytes(toml), "full").Panels[0].Shapes.FrontCrosshairs.Pieces.Count(piece => piece.Bounds.TopMm < 30 - 2.1);
        Assert.Equal(words.Count(char.IsLetterOrDigit) + words.Count(letter => letter == '/') + words.Count(letter => letter == 'i'), below);
    }

    private static Lampblack.Separations.PanelSeparation Separated(string inPanel, string black) =>
        SeparatedDesk.Of(Encoding.UTF8.GetBytes($"lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [80, 60]\n{inPanel}\n"), black).Panels[0];
}
