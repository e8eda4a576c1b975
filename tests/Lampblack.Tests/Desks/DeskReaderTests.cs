using System;
using System.Globalization;
using System.Linq;
using System.Text;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Desks;

public sealed class DeskReaderTests
{
    private const string Legend = "[[panel.legend]]\nat = [10, 10]\ntext = \"A\"\n";

    private const string Head = "lampblack = 1\ntitle = \"T\"\n[[panel]]\nid = \"p\"\nsize = [100, 60]\n";

    /// <summary>Each case: what is written inside the panel, and every finding with its place, one to a line.</summary>
    public static TheoryData<string, string> WrongItems => new()
    {
        { "sise = 4", "stop key-unknown 6:1" },
        { "corner = -1", "stop value-range 6:10" },
        { "corner = 1e9", "stop value-range 6:10" },
        { "corner = nan", "stop number-not-finite 6:10" },
        { "corner = true", "stop value-kind 6:10" },
        { "corner = \"4 parsecs\"", "stop length-unreadable 6:10" },
        { "[[panel.control]]\npart = \"toggle-mini-on-on\"", "stop key-missing 6:1" },
        { "[[panel.control]]\nat = [10, 10]", "stop key-missing 6:1" },
        { "[[panel.control]]\npart = \"toggle-mini-onn-on\"\nat = [10, 10]", "stop part-unknown 7:8" },
        { "[[panel.legend]]\nat = [10, 10]", "stop key-missing 6:1" },
        { "[[panel.legend]]\nat = [10, 10]\ntext = \"\"", "stop text-empty 8:8" },
        { "[[panel.legend]]\nat = [10]\ntext = \"A\"", "stop value-range 7:6" },
        { "[[panel.legend]]\nat = [10, 10]\ntext = \"A\"\nrole = \"lid\"", "stop choice-unknown 9:8" },
        { "[[panel.legend]]\nat = [10, 10]\ntext = \"A\"\nink = \"ambr\"", "stop ink-unknown 9:7" },
        { "[[panel.legend]]\nat = [10, 10]\ntext = \"A\"\nink = \"black\"", "stop ink-black-cannot-shine 9:7" },
        { "[[panel.legend]]\nat = [10, 10]\ntext = \"A\"\nid = \"A b\"", "stop id-form 9:6" },
        { "[[panel.legend]]\nat = [10, 10]\ntext = \"A\"\nid = \"com1\"", "stop id-form 9:6" },
        { "[[panel.legend]]\nat = [10, 10]\ntext = \"A\"\nid = \"x\"\n[[panel.legend]]\nat = [10, 10]\ntext = \"A\"\nid = \"x\"", "stop id-twice 13:6" },
        { "[[panel.legend]]\nat = [10, 10]\ntext = \"A\"\nrow = { count = 2, step = 5 }\ngrid = { columns = 2, rows = 1, step = [5, 5] }", "stop row-and-grid 10:8" },
        { "[[panel.legend]]\nat = [10, 10]\ntexts = [\"A\"]\nrow = { count = 2, step = 5 }", "stop words-count 8:9" },
        { "[[panel.legend]]\nat = [10, 10]\ntext = \"A\"\ntexts = [\"A\"]", "stop words-twice 8:8" },
        { "[[panel.legend]]\nat = [10, 10]\ntext = \"A\"\nrow = { count = 10001, step = 5 }", "stop value-range 9:17" },
        { "[[panel.rule]]\nwidth = 1", "stop rule-form 6:1" },
        { "[[panel.rule]]\nline = [[0, 0], [1, 1]]\narc = [5, 5, 2]", "stop rule-form 6:1" },
        { "[[panel.rule]]\narc = [5, 5, 0]", "stop value-range 7:7" },
        { "[[panel.rule]]\nbracket = [[10, 10], [20, \"?\"]]", "stop length-unreadable 7:27" },
        { "[[panel.rule]]\narrow = [[10, 10], [20, \"?\"]]", "stop length-unreadable 7:25" },
        { "[[panel.rule]]\nline = [[10, 10], [20, \"?\"]]", "stop length-unreadable 7:24" },
        { "[[panel.rule]]\nline = [[0, 0], [1, 1]]\ntitle = \"A\"", "warn rule-title 8:9" },
        { "[[panel.area]]\nrole = \"unlit\"", "stop area-form 6:1" },
        { "[[panel.area]]\nbox = [0, 0, 0, 5]", "stop value-range 7:7" },
        { "[[panel.dial]]\nat = [50, 30]", "stop key-missing 6:1" },
        { "[[panel.dial]]\nat = [50, 30]\nradius = 10\nfrom = 1\nto = 1", "stop dial-scale 6:1" },
        { "[[panel.dial]]\nat = [50, 30]\nradius = 10\nscale = \"log\"\nfrom = 0\nto = 10", "stop dial-scale 6:1" },
        { "[[panel.dial]]\nat = [50, 30]\nradius = 10\nmajor = 0.001", "stop dial-scale 6:1" },
        { "[[panel.dial]]\nat = [50, 30]\nradius = 10\nscale = \"table\"\ntable = [[0, 0], [1, 10], [0.5, 20]]", "stop dial-scale 10:9" },
        { "[[panel.dial]]\nat = [50, 30]\nradius = 10\nmajor = 3", "note dial-step 9:9" },
        { "[[panel.dial]]\nat = [50, 30]\nradius = 10\nlabels = { a = \"A\" }", "stop dial-label 9:16" },
        { "fixings = { hole = 3 }", "stop fixings-place-missing 6:11" },
        { "fixings = { hole = 3, part = \"screw-m3\", inset = 6, at = [[6, 6]] }", "warn key-unused 6:30\nwarn key-unused 6:50" },
        { "[[panel.legend]]\nat = [10, 10]\ntext = \"A\"\nrow = { step = 5 }", "stop key-missing 9:7" },
        { "[[panel.legend]]\nat = [10, 10]\ntext = \"A\"\ngrid = { columns = 2, step = 5 }", "stop key-missing 9:8" },
        { "[[panel.control]]\npart = \"toggle-mini-on-on\"\nat = [50, 30]\nside = \"below\"\ngap = 3\nleaders = 1\nstate-height = 2\nstate-gap = 2", "warn key-unused 9:8\nwarn key-unused 10:7\nwarn key-unused 12:16\nwarn key-unused 13:13\nwarn key-unused 11:11" },
        { "[[panel.control]]\npart = \"toggle-mini-on-on\"\nat = [50, 30]\nside = \"below\"\ngap = 3\nleaders = 1\nstate-height = 2\nlegend = \"A\"\nstates = [\"B\", \"C\"]", "" },
        { "[[panel.rule]]\narc = [50, 30, 10]\ncorner = 2", "warn key-unused 8:10" },
        { "[[panel.area]]\ndisc = [50, 30, 10]\ncorner = 2", "warn key-unused 8:10" },
        { "[[panel.dial]]\nat = [50, 30]\nradius = 10\ntable = [[0, 0], [1, 10]]\nfrom = 3", "warn key-unused 10:8" },
        { "[[panel.dial]]\nat = [50, 30]\nradius = 10\nranges = [{ from = 8, to = 12, ink = \"red\" }]", "warn dial-range 9:10" },
        { "[[panel.dial]]\nat = [50, 30]\nradius = 10\nranges = [{ from = 8, to = 8, ink = \"red\" }]", "warn dial-range 9:11" },
        { "[[panel.dial]]\nat = [50, 30]\nradius = 10\nlabels = { \"11\" = \"MAX\" }", "warn dial-label 9:10" },
        { "[[panel.dial]]\nat = [50, 30]\nradius = 10\nmajor = 2\nlabels = { \"0\" = \"OFF\", \"3\" = \"LOW\" }", "warn dial-label 10:10" },
        { "[[panel.dial]]\nat = [50, 30]\nradius = 10\nscale = \"log\"\nfrom = 1\nto = 100\nlabels = { \"10\" = \"MID\", \"20\" = \"HIGH\" }", "warn dial-label 12:10" },
        { "[[panel.dial]]\nat = [50, 30]\nradius = 10\ntable = [[0, 0], [3, 10]]\nlabels = { \"3\" = \"MAX\", \"2\" = \"HIGH\" }", "warn dial-label 10:10" },
        { "[[panel.dial]]\nat = [50, 30]\nradius = 10\nfrom = 0.1\nto = 0.7\nmajor = 0.1\nlabels = { \"0.3\" = \"LOW\" }", "" },
        { "[[panel.dial]]\nat = [50, 30]\nradius = 10\nmajor = 3\nminor = 2", "note dial-step 9:9\nwarn dial-minor 10:9" },
        { "[[panel.dial]]\nat = [50, 30]\nradius = 10\nmajor = 2\nminor = 5", "warn dial-minor 10:9" },
        { "[[panel.dial]]\nat = [50, 30]\nradius = 10\nmajor = 2\nminor = 0.5", "" },
        { "[[panel.dial]]\nat = [50, 30]\nradius = 10\nmajor = 0.3\nto = 3\nminor = 0.1", "note dial-step 9:9" },
        { "[[panel.dial]]\nat = [50, 30]\nradius = 10\ntable = [[0, 0], [3, 10], [3, 20], [4, 30]]", "stop dial-scale 9:9" },
        { "[[panel.dial]]\nat = [50, 30]\nradius = 10\nnumerals = \"none\"\nnumeral-height = 2\nfont = \"overpass\"\nlabels = { \"1\" = \"MAX\" }", "warn key-unused 10:18\nwarn key-unused 11:8\nwarn key-unused 12:10" },
        { "[[panel.dial]]\nat = [50, 30]\nradius = 10\ntable = [[0, 0], [1000, 10]]\nmajor = 1e-6\nminor = 0.001", "warn key-unused 10:9\nwarn key-unused 11:9" },
    };

    /// <summary>Each case: an item with `cover` or `backed`, and every finding with its place. Nothing where one of its marks has a use for the key.</summary>
    public static TheoryData<string, string> Covers => new()
    {
        { Legend + "cover = 0.95", "warn key-unused 9:9" },
        { Legend + "role = \"unlit\"\ncover = 0.95\nbacked = true", "warn key-unused 10:9\nwarn key-unused 11:10" },
        { Legend + "role = \"hidden\"\ncover = 0.95", "" },
        { Legend + "backed = true", "warn key-unused 9:10" },
        { Legend + "backed = true\nink = \"red\"", "" },
        { Legend + "role = \"hidden\"\nbacked = true", "warn key-unused 10:10" },
        { Legend + "role = \"hidden\"\nink = \"red\"\nbacked = true", "" },
        { Legend + "role = \"unlit\"\nbacked = false", "" },
        { Legend + "role = \"hidden\"\nink = \"black\"\nbacked = true\ncover = 0.95", "stop ink-black-cannot-shine 10:7" },
        { "[[panel.area]]\nbox = [10, 10, 20, 5]\nink = \"red\"\nbacked = true", "warn key-unused 9:10" },
        { "[[panel.rule]]\nline = [[10, 10], [20, 10]]\ncover = 1", "warn key-unused 8:9" },
        { "[[panel.control]]\npart = \"hole-6\"\nat = [50, 30]\nlegend = \"A\"\nbacked = true", "warn key-unused 10:10" },
        { "[[panel.control]]\npart = \"hole-6\"\nat = [50, 30]\ncover = 0.95\ndial = { ranges = [{ from = 1, to = 2, role = \"hidden\" }] }", "" },
        { "[[panel.control]]\npart = \"nonesuch\"\nat = [50, 30]\ncover = 0.95\ndial = { ranges = [{ from = 1, to = 2, role = \"hidden\" }] }", "stop part-unknown 7:8" },
        { "[[panel.dial]]\nradius = 9\nat = [50, 30]\nbacked = true\nranges = [{ from = 1, to = 2, ink = \"red\" }]", "" },
        { "[[panel.dial]]\nradius = 9\nat = [50, 30]\nbacked = true\ncover = 0.95\nranges = [{ from = 1, to = 2, role = \"unlit\" }]", "warn key-unused 10:9\nwarn key-unused 9:10" },
        { "[[panel.dial]]\nradius = 9\nat = [50, 30]\nranges = [{ from = 1, to = 2, cover = 0.95 }]", "warn key-unused 9:39" },
    };

    public static TheoryData<string, string> WrongDesks => new()
    {
        { "title = \"T\"", "stop format-missing 1:1" },
        { "lampblack = 2", "stop format-newer 1:13" },
        { "lampblack = \"1\"", "stop format-missing 1:13\nstop value-kind 1:13" },
        { "lampblack = 1", "stop panel-missing 1:1" },
        { "lampblack = 1\n[[panel]]\nid = \"p\"", "stop key-missing 2:1" },
        { "lampblack = 1\norder = \"D\"\n[[panel]]\nsize = [50, 50]", "stop choice-unknown 2:9" },
        { "lampblack = 1\n[inks]\nblack = [0, 0, 0, 100]\n[[panel]]\nsize = [50, 50]", "stop ink-name-taken 3:9" },
        { "lampblack = 1\n[inks]\npink = [0, 0, 0]\n[[panel]]\nsize = [50, 50]", "stop value-range 3:8" },
        { "lampblack = 1\n[[font]]\nname = \"a\"\nfile = \"a.ttf\"\n[[font]]\nname = \"a\"\nfile = \"b.ttf\"\n[[panel]]\nsize = [50, 50]", "stop font-name-twice 6:8" },
        { "lampblack = 1\n[[part]]\nid = \"mine\"\n[[panel]]\nsize = [50, 50]", "stop key-missing 2:1" },
        { "lampblack = 1\n[[part]]\nhole = 20\nhole-corner = 2\nbezel-corner = 1\nstep = 20\n[[panel]]\nsize = [50, 50]", "warn key-unused 4:15\nwarn key-unused 5:16\nwarn key-unused 6:8" },
        { "lampblack = 1\n[[part]]\nhole = [20, 20]\nhole-corner = 2\nbezel = [25, 25]\nbezel-corner = 1\npositions = 3\nstep = 20\n[[panel]]\nsize = [50, 50]", "" },
        { "lampblack = 1\n[[part]]\nid = \"mine\"\nhole = 20\nbezel = 10\n[[panel]]\nsize = [50, 50]", "stop part-wrong 2:1" },
        { "lampblack = 1\n[lighting]\nsupply = \"60 V\"\n[[panel]]\nsize = [50, 50]", "" },
        { "lampblack = 1\n[lighting]\nsupply = \"60,5 V\"\n[[panel]]\nsize = [50, 50]", "stop supply-not-selv 3:10" },
        { "lampblack = 1\n[lighting]\nsupply = 230\n[[panel]]\nsize = [50, 50]", "stop supply-not-selv 3:10" },
        { "lampblack = 1\n[lighting]\nsupply = \"230 V AC\"\n[[panel]]\nsize = [50, 50]", "stop value-range 3:10" },
        { "lampblack = 1\n[[panel]]\nsize = [50, 50]\n[[control]]\npart = \"hole-6\"", "stop key-unknown 4:3" },
    };

    [Theory]
    [MemberData(nameof(WrongItems))]
    public void Every_fault_of_an_item_is_found_at_its_place(string inPanel, string expected) => Check(Head + inPanel, expected);

    [Theory]
    [MemberData(nameof(WrongDesks))]
    public void Every_fault_of_a_desk_is_found_at_its_place(string desk, string expected) => Check(desk, expected);

    [Theory]
    [MemberData(nameof(Covers))]
    public void A_cover_or_a_backing_that_no_mark_has_a_use_for_is_told(string inPanel, string expected) => Check(Head + inPanel, expected);

    [Theory]
    [InlineData("", "black", true)]
    [InlineData("", "field", true)]
    [InlineData("field = \"black\"\n", "black", true)]
    [InlineData("field = \"amber\"\n", "black", false)]
    [InlineData("field = \"amber\"\n", "field", true)]
    public void Black_is_the_fields_own_ink_only_where_the_field_is_black(string field, string ink, bool own)
    {
        var desk = Read("lampblack = 1\n[[panel]]\nsize = [90, 50]\nfield = \"amber\"\n[[panel]]\nsize = [90, 50]\n" + field + Legend + $"role = \"unlit\"\nink = \"{ink}\"");
        Assert.Empty(desk.Findings);
        Assert.Equal(own ? null : Ink.FullK, Assert.Single(desk.Value.Panels[1].Items).Style.Ink);
    }

    [Theory]
    [InlineData("", "black")]
    [InlineData("field = \"amber\"\n", "black")]
    [InlineData("field = \"amber\"\n", "field")]
    public void What_is_black_or_in_the_fields_own_ink_cannot_shine(string field, string ink) =>
        Assert.StartsWith("stop ink-black-cannot-shine", Told(Read(Head + field + Legend + $"ink = \"{ink}\"")), StringComparison.Ordinal);

    [Theory]
    [InlineData("grid = { columns = 3, rows = 1, step = 20 }", "0,0 20,0 40,0")]
    [InlineData("grid = { columns = 3, rows = 1, step = [20, 15] }", "0,0 20,0 40,0")]
    [InlineData("grid = { columns = 1, rows = 3, step = 15 }", "0,0 0,-15 0,-30")]
    [InlineData("grid = { columns = 2, rows = 2, step = 15 }", "0,0 15,0 0,-15 15,-15")]
    [InlineData("row = { count = 3, step = [20, 8] }", "0,0 20,8 40,16")]
    [InlineData("row = { count = 3, step = 20 }", "0,0 20,0 40,0")]
    public void Copies_stand_beside_and_below_the_first(string copies, string expected)
    {
        var desk = Read(Head + Legend + copies);
        Assert.Empty(desk.Findings);
        var all = Assert.Single(desk.Value.Panels[0].Items).Copies;
        Assert.Equal(expected, string.Join(' ', Enumerable.Range(0, all.Count).Select(copy => FormattableString.Invariant($"{all.ShiftOf(copy).DxMm},{all.ShiftOf(copy).DyMm}"))));
    }

    [Fact]
    public void A_misspelt_key_is_answered_with_the_nearest_one()
    {
        var desk = Read(Head + "[[panel.legend]]\nat = [10, 10]\ntext = \"A\"\nheigth = 3");
        Assert.Contains("`height`", Assert.Single(desk.Findings).Hint, StringComparison.Ordinal);
    }

    [Fact]
    public void A_supply_above_what_may_be_touched_is_left_to_licensed_people()
    {
        var desk = Read("lampblack = 1\n[lighting]\nsupply = \"110 V\"\n[[panel]]\nsize = [50, 50]");
        Assert.Null(desk.Value.Lighting.SupplyVolts);
        Assert.Contains("licensed people under your local code", Assert.Single(desk.Findings).Hint, StringComparison.Ordinal);
        Assert.Equal(Lampblack.Circuits.Ratings.SelvVolts, LightingWish.HighestSupplyVolts);
    }

    [Fact]
    public void Words_such_as_NO_and_ON_stay_words()
    {
        var desk = Read(Head + "[[panel.control]]\npart = \"toggle-mini-on-on\"\nat = [20, 20]\nlegend = \"NO\"\nstates = [\"ON\", \"OFF\"]");
        Assert.Empty(desk.Findings);
        var control = Assert.IsType<Control>(Assert.Single(desk.Value.Panels[0].Items));
        Assert.Equal("NO", control.Legends[0][0]);
        Assert.Equal(["ON", "OFF"], control.States);
    }

    [Fact]
    public void A_file_of_format_zero_is_read_as_format_one()
    {
        var desk = Read("lampblack = 0\nname = \"Old\"\n[[panel]]\nid = \"p\"\nwidth = 120\nheight = 80\n");
        Assert.Equal("note format-migrated 1:13", Told(desk));
        Assert.Equal(("Old", 120, 80), (desk.Value.Title, desk.Value.Panels[0].WidthMm, desk.Value.Panels[0].HeightMm));
    }

    [Fact]
    public void A_desk_with_faults_still_gives_what_could_be_read()
    {
        var desk = Read(Head + "[[panel.legend]]\nat = [10, 10]\ntext = \"GOOD\"\n[[panel.legend]]\nat = \"here\"\ntext = \"BAD\"");
        Assert.True(desk.HasStop);
        Assert.Equal("GOOD", Assert.IsType<Legend>(Assert.Single(desk.Value.Panels[0].Items)).Texts[0][0]);
    }

    [Fact]
    public void Too_many_copies_are_refused_once()
    {
        var text = new StringBuilder(Head);
        for (var index = 0; index < 5; index++)
        {
            text.Append("[[panel.legend]]\nat = [1, 1]\ntext = \"A\"\ngrid = { columns = 60, rows = 60, step = [1, 1] }\n");
        }

        Assert.Equal("stop items-too-many", string.Join(' ', Told(Read(text.ToString())).Split(' ')[..2]));
    }

    [Fact]
    public void Repetition_goes_from_left_to_right_and_from_top_to_bottom()
    {
        var grid = new Repetition(3, 2, 10, 20);
        Assert.Equal([(0, 0), (10, 0), (20, 0), (0, -20), (10, -20), (20, -20)], Enumerable.Range(0, grid.Count).Select(grid.ShiftOf));
    }

    private static Checked<Desk> Read(string text) => DeskReader.Read("desk.toml", Encoding.UTF8.GetBytes(text));

    private static string Told(Checked<Desk> desk) => string.Join('\n', desk.Findings.Select(finding => string.Create(
        CultureInfo.InvariantCulture,
        $"{finding.Severity.ToString().ToLowerInvariant()} {finding.Code} {finding.Span?.Line}:{finding.Span?.Column}")));

    private static void Check(string text, string expected)
    {
        var desk = Read(text);
        Assert.Equal(expected, Told(desk));
        Assert.All(desk.Findings, finding => Assert.False(string.IsNullOrWhiteSpace(finding.Hint), finding.Message));
    }

    [Fact]
    public void An_item_that_stands_beside_the_panels_is_sent_into_one()
    {
        var read = DeskReader.Read("desk.toml", Encoding.UTF8.GetBytes("lampblack = 1\n[[panel]]\nsize = [50, 50]\n[[legend]]\ntext = \"A\"\n"));
        Assert.Equal("It belongs to a panel: write [[panel.legend]] below its [[panel]].", Assert.Single(read.Findings).Hint);
    }

    [Fact]
    public void Small_marks_get_a_step_that_divides_the_numbered_one()
    {
        var read = DeskReader.Read("desk.toml", Encoding.UTF8.GetBytes("lampblack = 1\n[[panel]]\nsize = [50, 50]\n[[panel.dial]]\nat = [25, 25]\nradius = 10\nmajor = 2\nminor = 3\n"));
        var found = Assert.Single(read.Findings, finding => finding.Code == "dial-minor");
        Assert.Equal(("`minor = 3` does not divide `major = 2`: the small marks stand unevenly between the numbers", "such as `minor = 1`"), (found.Message, found.Hint));
    }

    [Theory]
    [InlineData("part = \"hole-6\"\nat = [25, 25]\nstates = [\"ON\"]", "1 word, and `hole-6` has no positions")]
    [InlineData("part = \"hole-6\"\nat = [25, 25]\nlegends = [\"ON\", \"OFF\"]", "2 entries for 1 copy")]
    public void One_of_a_thing_is_told_as_one(string keys, string words)
    {
        var read = DeskReader.Read("desk.toml", Encoding.UTF8.GetBytes($"lampblack = 1\n[[panel]]\nsize = [50, 50]\n[[panel.control]]\n{keys}\n"));
        Assert.Contains(read.Findings, finding => finding.Message.EndsWith(words, StringComparison.Ordinal));
    }

    [Fact]
    public void A_tab_in_a_text_parts_words_as_a_blank_does()
    {
        var read = DeskReader.Read("desk.toml", Encoding.UTF8.GetBytes("lampblack = 1\n[[panel]]\nsize = [50, 50]\n[[panel.legend]]\nat = [25, 25]\ntext = \"IN EACH\\tOTHER\"\n"));
        Assert.Equal(["IN EACH OTHER"], read.Value.Panels[0].Items.OfType<Legend>().Single().Texts[0]);
    }
}
