using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Text;
using CsCheck;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Jobs;
using Xunit;

namespace Lampblack.Tests.Jobs;

public sealed class DrilledMarksTests
{
    private const string Inline = "lampblack = 1\npanel = [{ id = \"p\", size = [120, 60], control = [\n  { id = \"a\", part = \"hole-6\", at = [20, 20] }, # first\n  { id = \"b\", part = \"hole-6\", at = [60, 20], legend = \"B\" },\n] }]\n";

    /// <summary>Each case: a desk, the words behind the command ("-" clears), and what the desk's text becomes.</summary>
    public static TheoryData<string, string, string> Splices => new()
    {
        { Panel("  id = \"a\"\n  part = \"hole-6\"\n  at = [20, 20] # here\n  legend = \"A\"\n"), "a=0.3,-0.2", Panel("  id = \"a\"\n  part = \"hole-6\"\n  at = [20, 20] # here\n  drilled = [0.3, -0.2]\n  legend = \"A\"\n") },
        { Panel("id = \"a\"\r\nat = [\r\n 20, # x\r\n 20]\r\npart = \"hole-6\"\r\n"), "p/a=\"1/64 in\",-0.04", Panel("id = \"a\"\r\nat = [\r\n 20, # x\r\n 20]\r\ndrilled = [0.3969, -0.04]\r\npart = \"hole-6\"\r\n").Replace("\"1/64 in\"", "", StringComparison.Ordinal) },
        { Panel("id = \"a\"\npart = \"hole-6\"\nat = [20, 20]"), "a=-0,0", Panel("id = \"a\"\npart = \"hole-6\"\nat = [20, 20]\ndrilled = [0, 0]") },
        { Panel("id = \"a\"\npart = \"hole-6\"\nat = [20, 20]\ndrilled = [ 1,  # right\n  \"1 mm\" ] # up\n"), "a=0.3,-0.2", Panel("id = \"a\"\npart = \"hole-6\"\nat = [20, 20]\ndrilled = [ 0.3,  # right\n  -0.2 ] # up\n") },
        { Panel("id = \"a\"\npart = \"hole-6\"\nat = [20, 20]\ndrilled = 7\n"), "a=0.3,-0.2", Panel("id = \"a\"\npart = \"hole-6\"\nat = [20, 20]\ndrilled = [0.3, -0.2]\n") },
        { Panel("id = \"a\"\npart = \"hole-6\"\n  drilled = [1, 1]  \r\nat = [20, 20]\n"), "-a", Panel("id = \"a\"\npart = \"hole-6\"\nat = [20, 20]\n") },
        { Panel("id = \"a\"\npart = \"hole-6\"\nat = [20, 20]\n  drilled = [1, 1] # on the 3rd\n"), "-a", Panel("id = \"a\"\npart = \"hole-6\"\nat = [20, 20]\n  # on the 3rd\n") },
        { Panel("id = \"a\"\npart = \"hole-6\"\nat = [20, 20]\r\ndrilled = [1, 1]"), "-a", Panel("id = \"a\"\npart = \"hole-6\"\nat = [20, 20]") },
        { Inline, "a=0.3,-0.2", Inline.Replace("[20, 20]", "[20, 20], drilled = [0.3, -0.2]", StringComparison.Ordinal) },
        { Inline.Replace("[60, 20]", "[60, 20], drilled = [0.3, -0.2]", StringComparison.Ordinal), "-b", Inline },
        { Inline.Replace("{ id = \"b\"", "{ drilled = [0.3, -0.2], id = \"b\"", StringComparison.Ordinal), "-b", Inline },
        { Panel("id = \"a\"\npart = \"hole-6\"\nat = [20, 20]\n\n[panel.control.dial]\nfrom = 0\nradius = 9\n"), "a=1,1", Panel("id = \"a\"\npart = \"hole-6\"\nat = [20, 20]\ndrilled = [1, 1]\n\n[panel.control.dial]\nfrom = 0\nradius = 9\n") },
    };

    [Theory]
    [MemberData(nameof(Splices))]
    public void The_key_is_written_and_taken_away_without_touching_anything_else(string before, string words, string after)
    {
        foreach (var mark in new[] { "", "\uFEFF" })
        {
            var result = Mark(mark + before, words.Replace("\"", "", StringComparison.Ordinal));
            Assert.Empty(result.Findings.Where(finding => finding.Severity == Severity.Stop).Select(finding => finding.Message));
            Assert.Equal(mark + after, Text(result));
            Assert.Equal(before != after, result.Value.IsChanged);
        }
    }

    [Theory]
    [InlineData("lmp=1,1", "stop drilled-unknown", "`lamp`")]
    [InlineData("left/lmp=1,1", "stop drilled-unknown", "`left/lamp`")]
    [InlineData("zzzzzz=1,1", "stop drilled-unknown", "`left/lamp`, `left/fan`, `left/row`, `right/fan`")]
    [InlineData("fan=1,1", "stop drilled-unknown", "`left/fan`, `right/fan`")]
    [InlineData("-nobody", "stop drilled-unknown", "controls")]
    [InlineData("lamp", "stop drilled-form", "shutter=")]
    [InlineData("=1,1", "stop drilled-form", "=0.3")]
    [InlineData("lamp=1", "stop drilled-form", "decimals")]
    [InlineData("lamp=0,3,0,2", "stop drilled-form", "point")]
    [InlineData("lamp=1,5,2", "stop drilled-form", "did you mean `lamp=1.5,2`?")]
    [InlineData("lamp=1,2,3", "stop drilled-form", "did you mean `lamp=1.2,3` or `lamp=1,2.3`?")]
    [InlineData("lamp=1,-5,2", "stop drilled-form", "shutter=")]
    [InlineData("lamp=1,-0,2", "stop drilled-form", "did you mean `lamp=1,-0.2`?")]
    [InlineData("lamp=0,3mm,0,2mm", "stop drilled-form", "did you mean `lamp=0.3mm,0.2mm`?")]
    [InlineData("lamp=0,3,0,2,1", "stop drilled-form", "shutter=")]
    [InlineData("row.2=1,1", "stop drilled-copies", "`row-1` at [60, 20], `row-2` at [80, 20]. Then mark each: `row-2=")]
    [InlineData("left/row/2=1,1", "stop drilled-copies", "`row-2`")]
    [InlineData("row/3=1,1", "stop drilled-copies", "`row-2`")]
    [InlineData("lamp/2=1,1", "stop drilled-unknown", "")]
    [InlineData("lamp=1,five", "stop drilled-form", "mm")]
    [InlineData("lamp=5.1,0", "stop drilled-form", "`at`")]
    [InlineData("lamp=1,1 left/lamp=1,1", "stop drilled-form", "once")]
    [InlineData("lamp=1,1 -lamp", "stop drilled-form", "once")]
    [InlineData("row=1,1", "stop drilled-copies", "controls of their own")]
    [InlineData("-lamp", "note drilled-none", "")]
    [InlineData("lamp=0,3", "warn drilled-far", "0,3")]
    [InlineData("right/fan=1,1", "note drilled-replaced", "")]
    [InlineData("-right/fan", "", "")]
    [InlineData("right/fan=0.1,0.1", "", "")]
    [InlineData("lamp=0,3;-0,2", "", "")]
    public void What_is_typed_wrong_is_found_and_nothing_is_written(string words, string expected, string hint)
    {
        const string Desk = "lampblack = 1\n[[panel]]\nid = \"left\"\nsize = [120, 60]\n[[panel.control]]\nid = \"lamp\"\npart = \"hole-6\"\nat = [20, 20]\n[[panel.control]]\nid = \"fan\"\npart = \"hole-6\"\nat = [40, 20]\n"
            + "[[panel.control]]\nid = \"row\"\npart = \"hole-6\"\nat = [60, 20]\nrow = { count = 2, step = 20 }\n[[panel]]\nid = \"right\"\nsize = [120, 60]\n[[panel.control]]\nid = \"fan\"\npart = \"hole-6\"\nat = [20, 20]\ndrilled = [0.1, 0.1]\n";
        var result = Mark(Desk, words);
        var found = result.Findings.Select(finding => $"{finding.Severity.ToString().ToLowerInvariant()} {finding.Code}").FirstOrDefault() ?? "";
        Assert.Equal(expected, found);
        Assert.True(result.Findings.Length <= 1);
        Assert.Contains(hint, result.Findings.FirstOrDefault()?.Hint ?? "", StringComparison.Ordinal);
        Assert.Equal(!expected.StartsWith("stop", StringComparison.Ordinal) && expected != "note drilled-none" && words != "right/fan=0.1,0.1", result.Value.IsChanged);
        Assert.Equal(result.Value.IsChanged, Text(result) != Desk);
    }

    [Theory]
    [InlineData("id = \"a\"\npart = \"hole-6\"\nat = [20, 20]\ndrilled = [1, # remark\n 1]\n", "-a")]
    [InlineData("id = \"a\"\npart = \"hole-6\"\nat = [20, 20]\ndrilled.x = 1\n", "a=1,1")]
    public void What_cannot_be_changed_cleanly_is_left_alone(string control, string words)
    {
        var result = Mark(Panel(control), words);
        Assert.Equal(["drilled-edit"], result.Findings.Select(finding => finding.Code));
        Assert.False(result.Value.IsChanged);
    }

    [Fact]
    public void A_file_that_is_no_toml_is_left_alone_and_its_faults_are_told()
    {
        var result = Mark(Panel("id = \"a\"\npart = \"hole-6\"\nat = [20, 20]\nlegend = \"open\n"), "a=1,1");
        Assert.Contains(result.Findings, finding => finding.Code.StartsWith("toml-", StringComparison.Ordinal));
        Assert.False(result.Value.IsChanged);
    }

    [Fact]
    public void A_splice_keeps_every_other_byte()
    {
        Gen.Select(Gen.Int[1, 6], Gen.Int[0, 1000], Gen.Int[-5000, 5000], Gen.Int[-5000, 5000], Gen.UInt).Sample((count, pick, x, y, seed) =>
        {
            var desk = Scribbled(count, seed);
            var id = FormattableString.Invariant($"c{pick % count}");
            var (dx, dy) = (x / 1000m, y / 1000m);
            var old = Encoding.UTF8.GetBytes(desk);
            var result = DrilledMarks.Mark(SecondTime.Source(desk), [string.Create(CultureInfo.InvariantCulture, $"{id}={dx},{dy}")], []);
            Assert.Empty(result.Findings.Where(finding => finding.Severity == Severity.Stop).Select(finding => finding.Message));
            var now = result.Value.Bytes.ToArray();

            // What was put in is one stretch, and it reads `drilled = [...]`: everything before and after it is the old file.
            var same = old.Zip(now).TakeWhile(pair => pair.First == pair.Second).Count();
            Assert.Equal(old[same..], now[^(old.Length - same)..]);
            var inserted = Encoding.UTF8.GetString(now[same..^(old.Length - same)]);
            Assert.Matches(@"drilled = \[-?[0-9.]+, -?[0-9.]+\]", inserted + inserted);
            Assert.True(inserted.Length < 40);

            var read = DeskReader.Read("desk.toml", now).Value.Panels.SelectMany(panel => panel.Items).OfType<Control>().ToList();
            Assert.Equal([id], read.Where(control => control.Drilled is not null).Select(control => control.Id));
            Assert.Equal(new DrilledOffset((double)dx, (double)dy), read.Single(control => control.Id == id).Drilled);

            // Taking it away gives the very file back.
            var cleared = DrilledMarks.Mark(SecondTime.Source(desk) with { Bytes = result.Value.Bytes }, [], [id]);
            Assert.Equal(old, cleared.Value.Bytes.ToArray());
        }, iter: 400);
    }

    /// <summary>A desk as people write them: any line ends, indents, remarks, orders of keys, tables between braces, foreign letters.</summary>
    private static string Scribbled(int count, uint seed)
    {
        var state = seed;
        var text = new StringBuilder(Pick("", "\uFEFF")).Append("lampblack = 1").Append(Pick("\n", "\r\n")).Append("# Gerät 🔭 drilled = [1, 1]\n[[panel]]\nid = \"p\"\nsize = [400, 60]\n");
        var inline = Pick("header", "braces") == "braces";
        text.Append(inline ? "control = [\n" : "");
        for (var number = 0; number < count; number++)
        {
            var keys = new List<string>
            {
                FormattableString.Invariant($"id = \"c{number}\""),
                "part = \"hole-6\"",
                FormattableString.Invariant($"at = {Pick("[", "[ ")}{20 + (30 * number)},{Pick(" ", "")}{Pick("20", "\"20 mm\"")}]"),
                Pick("legend = \"É🔭 # ]\"", "legend = 'at = [1, 2]'", "height = 2.5"),
            };
            var turn = (int)(Next() % 4);
            keys = [.. keys[turn..], .. keys[..turn]];
            if (inline)
            {
                text.Append("  { ").Append(string.Join(Pick(", ", ","), keys)).Append(Pick(" }", "}")).Append(Pick(",\n", ", # drilled\n", ",\r\n"));
                continue;
            }

            var indent = Pick("", "  ", "\t");
            text.Append(Pick("", "\n", "\r\n", "# remark\n")).Append(indent).Append("[[panel.control]]").Append(Pick("\n", " # c\n", "\r\n"));
            foreach (var key in keys)
            {
                text.Append(indent).Append(key).Append(Pick("", "  ", " # ü")).Append(Pick("\n", "\r\n"));
            }
        }

        text.Append(inline ? "]\n" : "");
        return Pick("end", "") == "end" ? text.ToString() : text.ToString().TrimEnd('\n', '\r');

        string Pick(params string[] from) => from[Next() % from.Length];

        uint Next()
        {
            state = (state * 1664525) + 1013904223;
            return state >> 8;
        }
    }

    private static Checked<DrilledResult> Mark(string desk, string words)
    {
        var all = words.Contains(" in", StringComparison.Ordinal) ? [words] : words.Split(' ');
        return DrilledMarks.Mark(SecondTime.Source(desk), [.. all.Where(word => word[0] != '-')], [.. all.Where(word => word[0] == '-').Select(word => word[1..])]);
    }

    private static string Panel(string control) => $"lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [120, 60]\n[[panel.control]]\n{control}";

    private static string Text(Checked<DrilledResult> result) => Encoding.UTF8.GetString(result.Value.Bytes.AsSpan());
}
