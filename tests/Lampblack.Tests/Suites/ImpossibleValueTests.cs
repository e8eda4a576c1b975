using System;
using System.Collections.Generic;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Text;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;
using Lampblack.Tests.Peers;
using Xunit;

namespace Lampblack.Tests.Suites;

/// <summary>Values that no desk can have: each is told of, by its code and at its place.</summary>
public sealed class ImpossibleValueTests
{
    private const string Legend = "[[panel.legend]]\ntext = \"A\"\nat = [50, 30]\n";
    private const string Control = "[[panel.control]]\npart = \"rotary-4x30\"\nat = [50, 30]\n";
    private const string Dial = "[[panel.dial]]\nat = [50, 30]\n";

    /// <summary>Every key that holds a number: what stands before it, and the key. L for a length, S for one or two of them, N for a number, W for a whole number.</summary>
    private static readonly (string Before, char Kind, string[] Keys)[] Numbers =
    [
        (ImpossibleDesk.Panel, 'L', ["corner"]),
        (ImpossibleDesk.Panel + "[panel.text]\n", 'L', ["height", "spacing"]),
        (ImpossibleDesk.Panel + "[panel.text]\n", 'N', ["leading"]),
        (ImpossibleDesk.Panel + "[panel.fixings]\nat = [[5, 5]]\n", 'L', ["hole"]),
        (ImpossibleDesk.Panel + Legend, 'L', ["height", "spacing"]),
        (ImpossibleDesk.Panel + Legend, 'N', ["turn", "leading", "cover"]),
        (ImpossibleDesk.Panel + Control, 'L', ["gap", "leaders", "state-gap", "state-height", "height", "spacing"]),
        (ImpossibleDesk.Panel + Control, 'N', ["turn", "leading", "cover"]),
        (ImpossibleDesk.Panel + Control + "[panel.control.dial]\n", 'L', ["radius", "mark-length", "numeral-height"]),
        (ImpossibleDesk.Panel + Control + "[panel.control.dial]\n", 'N', ["start", "end", "major", "minor"]),
        (ImpossibleDesk.Panel + Dial + "radius = 9\n", 'L', ["mark-length", "numeral-height"]),
        (ImpossibleDesk.Panel + "[[panel.rule]]\nline = [[10, 10], [50, 10]]\n", 'L', ["width", "corner"]),
        (ImpossibleDesk.Panel + "[[panel.rule]]\narc = [50, 30, 20]\n", 'N', ["from", "to"]),
        (ImpossibleDesk.Panel + "[[panel.rule]]\narrow = [[10, 10], [50, 10]]\n", 'L', ["head"]),
        (ImpossibleDesk.Panel + "[[panel.rule]]\nbracket = [[10, 10], [50, 10]]\n", 'L', ["depth"]),
        (ImpossibleDesk.Panel + "[[panel.area]]\nbox = [10, 10, 5, 5]\n", 'L', ["corner"]),
        (ImpossibleDesk.Panel + Legend + "[panel.legend.row]\nstep = 5\n", 'W', ["count"]),
        (ImpossibleDesk.Panel + Legend + "[panel.legend.row]\ncount = 1\n", 'S', ["step"]),
        (ImpossibleDesk.Panel + Legend + "[panel.legend.grid]\nstep = [5, 5]\nrows = 1\n", 'W', ["columns"]),
        (ImpossibleDesk.Panel + Legend + "[panel.legend.grid]\nstep = [5, 5]\ncolumns = 1\n", 'W', ["rows"]),
        (ImpossibleDesk.Panel + "[stack]\n", 'L', ["plate", "glue", "cover", "diffuser"]),
        (ImpossibleDesk.Panel + "[[part]]\nid = \"mine\"\nhole = 6\n", 'L', ["bushing", "panel-max", "knob", "hole-corner", "bezel-corner"]),
        (ImpossibleDesk.Panel + "[[caliper]]\npart = \"pot-9mm\"\n", 'L', ["bushing", "panel-max", "knob"]),
        (ImpossibleDesk.Panel + "[[part]]\nid = \"mine\"\nhole = 6\n", 'N', ["sweep", "step"]),
        (ImpossibleDesk.Panel + "[[part]]\nid = \"mine\"\nhole = 6\n", 'W', ["positions"]),
        (ImpossibleDesk.Panel + "[[part]]\nid = \"mine\"\nhole = 6\n[[part.extra-hole]]\nat = [9, 0]\n", 'L', ["hole"]),
    ];

    public static TheoryData<string, char, string> NumberKeys
    {
        get
        {
            var data = new TheoryData<string, char, string>();
            foreach (var (before, kind, keys) in Numbers)
            {
                foreach (var key in keys)
                {
                    data.Add(before, kind, key);
                }
            }

            return data;
        }
    }

    [Theory]
    [MemberData(nameof(NumberKeys))]
    public void Every_number_refuses_what_no_desk_can_have(string before, char kind, string key)
    {
        foreach (var (value, code) in Impossible(kind))
        {
            var found = DeskReader.Read("desk.toml", Encoding.UTF8.GetBytes($"{before}{key} = {value}\n")).Findings;
            var line = before.Count(unit => unit == '\n') + 1;
            Assert.Equal(
                string.Create(CultureInfo.InvariantCulture, $"{value} {code} {line}:{key.Length + 4}"),
                string.Join('\n', found.Select(finding => string.Create(CultureInfo.InvariantCulture, $"{value} {finding.Code} {finding.Span!.Line}:{finding.Span.Column}"))));
        }
    }

    /// <summary>A table at every level of a desk; a key that nobody knows is put behind it.</summary>
    public static TheoryData<string> Tables =>
    [
        "lampblack = 1\nzzz = 1\n[[panel]]\nsize = [100, 60]",
        .. new[]
        {
            "", "[text]\n", "[stack]\n", "[lighting]\n", "[[font]]\nname = \"f\"\nfile = \"f.ttf\"\n", "[[part]]\nid = \"mine\"\nhole = 6\n",
            "[[part]]\nid = \"mine\"\nhole = 6\n[[part.extra-hole]]\nat = [9, 0]\nhole = 2\n", "[panel.text]\n", "[panel.fixings]\ninset = 5\n", Legend, Control, Dial + "radius = 10\n",
            "[[panel.rule]]\nline = [[10, 10], [50, 10]]\n", "[[panel.area]]\ndisc = [50, 30, 9]\n", Legend + "[panel.legend.row]\ncount = 2\nstep = 5\n",
            Legend + "[panel.legend.grid]\ncolumns = 2\nrows = 2\nstep = [5, 5]\n", Control + "[panel.control.dial]\n", Dial + "radius = 10\n[[panel.dial.ranges]]\nfrom = 0\nto = 5\n",
        }.Select(table => ImpossibleDesk.Panel + table + "zzz = 1\n"),
    ];

    [Theory]
    [MemberData(nameof(Tables))]
    public void A_key_that_nobody_knows_is_refused_at_every_level(string toml)
    {
        var stop = Assert.Single(DeskReader.Read("desk.toml", Encoding.UTF8.GetBytes(toml)).Findings, finding => finding.Severity == Severity.Stop);
        Assert.Equal(("key-unknown", ImpossibleDesk.PlaceOf("zzz", toml)), (stop.Code, string.Create(CultureInfo.InvariantCulture, $"{stop.Span!.Line}:{stop.Span.Column}")));
    }

    /// <summary>Each case: what is written inside the panel, and all that is found, one to a line. Nothing where it is possible after all.</summary>
    public static TheoryData<string, string> InPanel => new()
    {
        // Texts.
        { "[[panel.legend]]\nat = [50, 30]\ntext = \" \\t \"", "stop text-empty 8:8" },
        { "[[panel.legend]]\nat = [50, 30]\ntext = [\"A\", \"\"]", "stop text-empty 8:14" },
        { "[[panel.legend]]\nat = [50, 30]\ntext = []", "" },
        { "[[panel.legend]]\nat = [50, 30]\ntext = \"" + new string('W', 10_000) + "\"", "stop text-too-long 8:8" },
        { "[[panel.legend]]\nat = [50, 30]\ntext = \"" + new string('W', 1001) + "\"", "stop text-too-long 8:8" },
        { "[[panel.legend]]\nat = [50, 30]\ntext = \"" + new string('W', 1000) + "\"", "warn mark-off-panel 6:1" },
        { "[[panel.legend]]\nat = [50, 30]\ntext = \"A\\u0007B\"", "stop text-control-character 8:8" },
        { "[[panel.legend]]\nat = [50, 30]\ntext = 10", "stop value-kind 8:8" },

        // Ids.
        { Legend + "id = \"\"", "stop text-empty 9:6" },
        { Legend + "id = \"Dome\"", "stop id-form 9:6" },
        { Legend + "id = \"a\"\n" + Legend.Replace("50", "20", StringComparison.Ordinal) + "id = \"A\"", "stop id-form 13:6" },
        { Legend + "id = \"a/b\"", "stop id-form 9:6" },
        { Legend + "id = \"a\\\\b\"", "stop id-form 9:6" },
        { Legend + "id = \"..\"", "stop id-form 9:6" },
        { Legend + "id = \"a.b\"", "stop id-form 9:6" },
        { Legend + "id = \"nul\"", "stop id-form 9:6" },
        { Legend + "id = \"lpt9\"", "stop id-form 9:6" },
        { Legend + "id = \"ü\"", "stop id-form 9:6" },
        { Legend + "id = \"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa\"", "stop id-form 9:6" },
        { Legend + "id = \"a\"\nid = \"b\"", "stop key-twice 10:1" },

        // Places, copies.
        { "[[panel.legend]]\ntext = \"A\"\nat = [1e9, 30]", "stop value-range 8:7" },
        { "[[panel.legend]]\ntext = \"A\"\nat = [50, nan]", "stop number-not-finite 8:11" },
        { "[[panel.legend]]\ntext = \"A\"\nat = { x = 50 }", "stop value-kind 8:6" },
        { "[[panel.legend]]\ntext = \"A\"\nat = [2999, 2999]", "warn mark-not-seen 6:1" },
        { "[[panel.legend]]\ntext = \"A\"\nat = [99.9, 30]", "warn mark-off-panel 6:1" },
        { "[[panel.legend]]\ntext = \"A\"\nat = [500, 30]\nrole = \"unlit\"", "warn mark-not-seen 6:1" },
        { Legend + "row = { count = 4, step = 20 }", "warn mark-not-seen 6:1" },
        { Legend + "row = { count = 4, step = 0 }", "stop value-range 9:27" },
        { Legend + "row = { count = 4, step = [0, 0.09] }", "stop value-range 9:27" },
        { Legend + "grid = { columns = 2, rows = 2, step = [5, 0] }", "stop value-range 9:40" },
        { Legend + "grid = { columns = 1001, rows = 1, step = [5, 5] }", "stop value-range 9:20" },
        { Legend + "grid = { columns = 101, rows = 100, step = [5, 5] }", "stop items-too-many 6:1" },
        { Legend + "grid = { columns = 0, rows = 1, step = [5, 5] }", "stop value-range 9:20" },
        { Legend + "row = { count = 1.5, step = 5 }", "stop value-kind 9:17" },
        { Legend.Replace("\"A\"", "\"ABCDE\"", StringComparison.Ordinal) + "grid = { columns = 90, rows = 50, step = [1, 1] }", "stop marks-too-many 6:1" },
        { Control.Replace("rotary-4x30", "hole-6", StringComparison.Ordinal) + "grid = { columns = 50, rows = 41, step = [7, 7] }", "stop marks-too-many 6:1" },
        { "[[panel.control]]\npart = \"hole-6\"\nat = [20, 30]\nrow = { count = 4, step = 30 }", "stop hole-off-panel 6:1" },
        { "[[panel.control]]\npart = \"hole-6\"\nat = [20, 30]\nrow = { count = 40, step = 0.1 }", "stop holes-overlap 6:1" },

        // Rules and areas.
        { "[[panel.area]]\nbox = [0, 0, -5, 5]", "stop value-range 7:7" },
        { "[[panel.area]]\nbox = [0, 0, 5]", "stop value-range 7:7" },
        { "[[panel.area]]\nbox = [5, 5, 0.0000001, 5]", "warn mark-not-seen 6:1" },
        { "[[panel.area]]\ndisc = [5, 5, -1]", "stop value-range 7:8" },
        { "[[panel.area]]\ncorners = [[1, 1], [9, 9], [9, 1], [1, 9]]", "warn outline-crosses-itself 7:11" },
        { "[[panel.area]]\ncorners = [[1, 1], [9, 1], [9, 9], [1, 9]]", "" },
        { "[[panel.area]]\ncorners = [[1, 1], [2, 2], [3, 3]]", "warn mark-not-seen 6:1" },
        { "[[panel.area]]\ncorners = [[1, 1], [2, 2]]", "stop value-range 7:11" },
        { "[[panel.area]]\ncorners = [" + Corners(2001, tangled: false) + "]", "stop value-range 7:11" },
        { "[[panel.area]]\ncorners = [" + Corners(2000, tangled: false) + "]", "" },
        { "[[panel.area]]\ncorners = [" + Corners(100, tangled: true) + "]", "stop outline-crosses-itself 7:11" },
        { "[[panel.rule]]\nline = [" + Corners(100, tangled: true) + "]", "stop outline-crosses-itself 7:8" },
        { "[[panel.rule]]\nline = [" + Corners(20, tangled: true) + "]", "" },
        { "[[panel.rule]]\nline = [[5, 5], [5, 5]]", "warn mark-not-seen 6:1" },
        { "[[panel.rule]]\nline = [[5, 5]]", "stop value-range 7:8" },
        { "[[panel.rule]]\nbracket = [[5, 5], [5, 5]]", "warn mark-not-seen 6:1" },
        { "[[panel.rule]]\narc = [50, 30, 9]\nfrom = 20\nto = 20", "warn mark-not-seen 6:1" },
        { "[[panel.area]]\ncorners = [" + Corners(2000, tangled: false) + "]\nrow = { count = 11, step = 1 }", "stop marks-too-many 6:1" },

        // Dials.
        { Dial + "radius = 9\nfrom = 1e6\nto = 999999.9999999999", "stop dial-scale 6:1" },
        { Dial + "radius = 9\nfrom = 0\nto = 5e-324", "stop dial-scale 6:1" },
        { Dial + "radius = 9\nfrom = -1e7", "stop value-range 9:8" },
        { Dial + "radius = 9\nmajor = -1", "stop value-range 9:9" },
        { Dial + "radius = 9\nmajor = 1e-6", "stop dial-scale 6:1" },
        { Dial + "radius = 9\nminor = 0.001", "stop dial-scale 6:1" },
        { Dial + "radius = 9\nscale = \"log\"\nfrom = -1", "stop dial-scale 6:1" },
        { Dial + "radius = 9\nscale = \"log\"\nfrom = 1e-7\nto = 999999", "stop dial-scale 6:1" },
        { Dial + "radius = 9\nstart = 0\nend = 360.5", "stop value-range 10:7" },
        { Dial + "radius = 9\nstart = -1\nend = 360", "stop dial-scale 6:1" },
        { Dial + "radius = 9\nstart = 20\nend = 20", "stop dial-scale 6:1" },
        { Dial + "radius = 9\nscale = \"table\"", "stop dial-scale 6:1" },
        { Dial + "radius = 9\nscale = \"table\"\ntable = [[0, 0], [1, 700]]", "stop dial-scale 6:1" },
        { Dial + "radius = 9\nlabels = { nan = \"A\" }", "stop dial-label 9:18" },
        { Dial + "radius = 9\nlabels = { \"\" = \"A\" }", "stop dial-label 9:17" },
        { Dial + "radius = 9\nranges = [{ from = 5, to = 5 }]", "warn dial-range 9:11" },
        { Dial + "radius = 9\nranges = [{ from = 50, to = 90 }]", "warn mark-not-seen 6:1\nwarn dial-range 9:10" },
        { Dial + "radius = 9\nranges = [{ from = 5 }]", "stop key-missing 9:11" },
        { Dial + "radius = 9\nranges = { from = 5, to = 6 }", "stop value-kind 9:10" },
        { Dial + "radius = 9\nto = 400\nmajor = 1\nrow = { count = 13, step = 1 }", "stop marks-too-many 6:1" },

        // Tables where values stand, and the other way round.
        { "legend = 3", "stop value-kind 6:10" },
        { "[panel.legend]\ntext = \"A\"\nat = [50, 30]", "stop value-kind 6:1" },
        { "text = \"big\"", "stop value-kind 6:8" },
        { "fixings = [1]", "stop value-kind 6:11" },
        { "[[panel.control]]\npart = {}\nat = [50, 30]", "stop value-kind 7:8" },
        { Control + "states = {}", "stop value-kind 9:10" },
        { Control + "dial = true", "stop value-kind 9:8" },
        { Legend + "row = 3", "stop value-kind 9:7" },
        { Legend + "font = \"\"", "stop text-empty 9:8" },
        { "[[panel.rule]]\nline = " + new string('[', 40) + new string(']', 40), "stop toml-depth 7:40" },
    };

    [Theory]
    [MemberData(nameof(InPanel))]
    public void What_no_panel_can_have_is_found(string inPanel, string expected) => Check(ImpossibleDesk.Panel + inPanel + "\n", expected);

    public static TheoryData<string, string> Desks => new()
    {
        // Panels.
        { "[[panel]]\nsize = [10, 10]", "" },
        { "[[panel]]\nsize = [9.99, 10]", "stop value-range 3:9" },
        { "[[panel]]\nsize = [2000, 2000]", "stop panel-too-large 2:1" },
        { "[[panel]]\nsize = [10, 2000]", "stop panel-too-large 2:1" },
        { "[[panel]]\nsize = [2000.1, 60]", "stop value-range 3:9" },
        { "[[panel]]\nsize = [100, 1e9]", "stop value-range 3:14" },
        { "[[panel]]\nsize = [-100, 60]", "stop value-range 3:9" },
        { "[[panel]]\nsize = \"100 x 60\"", "stop value-kind 3:8" },
        { "[[panel]]\nsize = [100, 60]\ncorner = 31", "stop value-range 4:10" },
        { "[[panel]]\nid = \"p\"\nsize = [50, 50]\n[[panel]]\nid = \"p\"\nsize = [50, 50]", "stop id-twice 6:6" },
        { "[[panel]]\nid = \"P\"\nsize = [50, 50]\n[[panel]]\nid = \"p\"\nsize = [50, 50]", "stop id-form 3:6" },
        { "panel = 3", "stop value-kind 2:9" },
        { "[panel]\nsize = [50, 50]", "stop value-kind 2:1" },
        { Repeated("[[panel]]\nsize = [20, 20]\n", 101), "stop items-too-many 202:1" },

        // Fonts, parts, inks.
        { "[[font]]\nname = \"f\"\n[[panel]]\nsize = [50, 50]", "stop key-missing 2:1" },
        { "font = \"f.ttf\"\n[[panel]]\nsize = [50, 50]", "stop value-kind 2:8" },
        { "[[part]]\nid = \"../mine\"\nhole = 6\n[[panel]]\nsize = [50, 50]", "stop id-form 3:6" },
        { "[[part]]\nid = \"mine\"\nhole = 0.4\n[[panel]]\nsize = [50, 50]", "stop value-range 4:8" },
        { "[[part]]\nid = \"mine\"\nhole = [6, 401]\n[[panel]]\nsize = [50, 50]", "stop value-range 4:12" },
        { "[[part]]\nid = \"mine\"\nlike = \"nothing\"\n[[panel]]\nsize = [50, 50]", "stop part-unknown 4:8" },
        { "[[part]]\nid = \"mine\"\nhole = 6\nclass = \"thing\"\n[[panel]]\nsize = [50, 50]", "stop choice-unknown 5:9" },
        { Repeated("[[part]]\nhole = 6\n", 501) + "[[panel]]\nsize = [50, 50]", "stop items-too-many 1002:1" },
        { "[inks]\npink = [0, 101, 0, 0]\n[[panel]]\nsize = [50, 50]", "stop value-range 3:12" },
        { "[inks]\npink = [0, -1, 0, 0]\n[[panel]]\nsize = [50, 50]", "stop value-range 3:12" },
        { "[inks]\npink = \"red\"\n[[panel]]\nsize = [50, 50]", "stop value-kind 3:8" },
        { "[inks]\nfield = [0, 0, 0, 0]\n[[panel]]\nsize = [50, 50]", "stop ink-name-taken 3:9" },
        { "[inks]\n" + string.Concat(Enumerable.Range(0, 501).Select(ink => FormattableString.Invariant($"ink-{ink} = [0, 0, 0, 9]\n"))) + "[[panel]]\nsize = [50, 50]", "stop items-too-many 2:1" },

        // The rest of the file.
        { "title = \"\"\n[[panel]]\nsize = [50, 50]", "stop text-empty 2:9" },
        { "title = \"" + new string('W', 1001) + "\"\n[[panel]]\nsize = [50, 50]", "stop text-too-long 2:9" },
        { "stack = 1\n[[panel]]\nsize = [50, 50]", "stop value-kind 2:9" },
        { "order = \"a\"\n[[panel]]\nsize = [50, 50]", "stop choice-unknown 2:9" },
        { "[lighting]\ncolour = \"ultraviolet\"\n[[panel]]\nsize = [50, 50]", "stop choice-unknown 3:10" },
        { "lampblack = 1\n[[panel]]\nsize = [50, 50]", "stop key-twice 2:1" },
        { "[[panel]]\nsize = [50, 50]\n[stack]\n[stack]", "stop key-twice 5:2" },
        { "[[panel]]\nsize = [50, 50]\n[[panel.area]]\ncorners = [" + Corners(100_000, tangled: false) + "]", "stop toml-too-large 1:1\nstop value-range 5:11" },
    };

    [Theory]
    [MemberData(nameof(Desks))]
    public void What_no_desk_can_have_is_found(string rest, string expected) => Check("lampblack = 1\n" + rest + "\n", expected);

    [Fact]
    public void A_desk_file_a_byte_too_large_is_not_read()
    {
        var most = Encoding.UTF8.GetBytes(ImpossibleDesk.Panel);
        Assert.False(DeskReader.Read("desk.toml", [.. most, .. Enumerable.Repeat((byte)'\n', 2_000_000 - most.Length)]).HasStop);
        var more = DeskReader.Read("desk.toml", [.. most, .. Enumerable.Repeat((byte)'\n', 2_000_000 - most.Length + 1)]);
        Assert.Equal("toml-too-large", Assert.Single(more.Findings).Code);
        Assert.Empty(more.Value.Panels);
    }

    [Theory]
    [InlineData(20_000_000, "font-unreadable")]
    [InlineData(20_000_001, "font-file")]
    public void A_font_file_a_byte_too_large_is_not_read(int bytes, string code)
    {
        using var folder = new ScratchFolder();
        using (var file = File.Create(folder.PathOf("f.ttf")))
        {
            file.SetLength(bytes);
        }

        var toml = ImpossibleDesk.Before("[[font]]\nname = \"f\"\nfile = \"f.ttf\"");
        Assert.Equal($"stop {code} 4:8", ImpossibleDesk.Told(toml, new DeskFolder(folder.FullPath)));
    }

    [Fact]
    public void More_fonts_than_a_desk_may_bring_are_not_even_opened()
    {
        var files = new CountedFiles();
        var fonts = string.Concat(Enumerable.Range(1, 21).Select(font => FormattableString.Invariant($"[[font]]\nname = \"f{font}\"\nfile = \"f{font}.ttf\"\n")));
        Assert.Contains("stop items-too-many 62:1", ImpossibleDesk.Told(ImpossibleDesk.Before(fonts), files), StringComparison.Ordinal);
        Assert.Equal(20, files.Names.Count);
        Assert.DoesNotContain("f21.ttf", files.Names);
    }

    private static IEnumerable<(string Value, string Code)> Impossible(char kind)
    {
        var isLength = kind is 'L' or 'S';
        yield return ("nan", "number-not-finite");
        yield return ("-inf", "number-not-finite");
        yield return ("1e999", "number-not-finite");
        yield return ("1e9", "value-range");
        yield return ("-1e9", "value-range");
        yield return ("true", "value-kind");
        yield return ("{}", "value-kind");
        yield return ("[[]]", kind == 'S' ? "value-range" : "value-kind");
        yield return ("1979-05-27", "value-kind");
        yield return ("\"\"", isLength ? "length-unreadable" : "value-kind");
        yield return ("\"wide\"", isLength ? "length-unreadable" : "value-kind");
        if (isLength)
        {
            yield return ("\"1e9\"", "length-unreadable");
            yield return ("\"100 m\"", "value-range");
            yield return ("\"1/0 in\"", "length-unreadable");
        }
    }

    /// <summary>Corners all the way around a disc, or from side to side so that nearly all cross.</summary>
    private static string Corners(int count, bool tangled) => string.Join(',', Enumerable.Range(0, count).Select(corner =>
    {
        var turns = tangled ? corner * 0.49 : corner / (double)count;
        var (sine, cosine) = Math.SinCos(turns * 2 * Math.PI);
        return string.Create(CultureInfo.InvariantCulture, $"[{50 + (20 * cosine):0.###},{30 + (20 * sine):0.###}]");
    }));

    private static string Repeated(string text, int times) => string.Concat(Enumerable.Repeat(text, times));

    private static void Check(string toml, string expected)
    {
        var told = ImpossibleDesk.Told(toml);

        // Copies that go wrong alike are told of one by one.
        Assert.Equal(expected, string.Join('\n', told.Split('\n').Distinct()));
    }

    private sealed class CountedFiles : IDeskFiles
    {
        public List<string> Names { get; } = [];

        public FileReading Read(string relativePath, long limitBytes)
        {
            Names.Add(relativePath);
            return new([], "is not there");
        }
    }
}
