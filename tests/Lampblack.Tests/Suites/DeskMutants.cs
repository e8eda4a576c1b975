using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using System.Text.RegularExpressions;
using Lampblack.Tests.SourceText;

namespace Lampblack.Tests.Suites;

/// <summary>Desk files with slips of the pen and of the disk. The same number gives the same bytes on every machine.</summary>
internal sealed partial class DeskMutants(byte[] sample)
{
    private static readonly string[] Odd =
    [
        "nan", "-nan", "inf", "-inf", "1e999", "-1", "0", "0.0", "-0.0", "1e-300", "1e300", "5e-324", "9223372036854775807", "99999999999999999999", "1e9", "0x7fff", "0b1", "1_000",
        "\"\"", "\" \"", "\"\\u0000\"", "\"\\u202e\"", "''", "\"\"\"\n\"\"\"", "\"con\"", "\"../x\"", "[]", "{}", "[[]]", "[{}]", "[0]", "[nan]", "[1, 2, 3, 4]", "[\"a\", 1]", "true", "false",
        "1979-05-27", "07:32:00", "\"1/0 in\"", "\"1/3 in\"", "\"6,35 mm\"", "\"1e5 m\"", "\"ff\"", "\"😀\"", "\"שלום\"", "\"e\u0301\u0302\u0303\"", "ON", "é", "=", "[", "]", "{", "}", "\"", "'",
    ];

    private static readonly double[] Numbers = [0, 1, -1, 2, 3, 0.5, 0.05, 0.3, 10, 50, 90, 180, 360, 720, -360, -90, 100, 200, 500, 999.9999999, 1000, 2000, 3000, -3000, 1e-6, 1e-9, 1e-320, 1e6, 999999.9999999999];

    private static readonly string[] Words =
    [
        "lit", "unlit", "hidden", "black", "white", "amber", "field", "left", "right", "centre", "above", "below", "middle", "top", "baseline", "bottom", "linear", "log", "table", "upright",
        "radial", "none", "A", "B", "C", "hole-6", "toggle-mini-on-on", "rotary-4x30", "encoder-m7-push", "button-16-lit", "pot-9mm", "screw-m3", "barlow-condensed", "1/4 in", "0.2 in", "-", "A\\nB",
    ];

    private static readonly string[] Legends =
        ["A", "WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW", "A\\nB\\n\\nC", "\\u00e9\\u0301\\u0302", "→ ← ↑", "שלום", "سلام", "😀", "<&'>", "\\\\", "\\t|\\t", "\\u200b\\u200d", "fi ffl", "０１", "𝔸"];

    private static readonly string[] Keys =
    [
        "id", "text", "texts", "at", "size", "corner", "row", "grid", "dial", "role", "ink", "width", "box", "line", "arc", "bracket", "arrow", "disc", "corners", "legend", "legends", "states", "turn",
        "side", "gap", "from", "to", "major", "minor", "radius", "ranges", "labels", "scale", "table", "height", "spacing", "leading", "font", "title", "name", "part", "like", "hole", "fixings",
        "inset", "count", "step", "columns", "rows", "leaders", "backed", "cover", "head", "both", "round", "depth", "field", "plate", "colour", "chip", "lampblack", "x", "\"\"", "a.b",
    ];

    private static readonly string[] Lines =
    [
        "row = { count = 3, step = 7 }", "row = { count = 200, step = 0.01 }", "row = { count = 3, step = [0, 0] }", "grid = { columns = 2, rows = 2, step = [4, 4] }", "role = \"hidden\"", "role = \"unlit\"", "backed = true", "turn = 33",
        "dial = { from = 0, to = 1e-300 }", "dial = { from = 1e-9, to = 1e6, scale = \"log\", minor = 1 }", "dial = { scale = \"table\", table = [[0, 0], [1, 90], [2, 300]] }", "corner = 1000", "width = 50",
        "line = [[0, 0], [0, 0]]", "line = [[0, 0], [50, 0], [0, 0], [50, 50]]", "arrow = [[10, 10], [10, 10]]", "arc = [50, 30, 20]", "bracket = [[5, 5], [5, 5]]", "box = [0, 0, 0.0001, 0.0001]",
        "corners = [[0, 0], [40, 40], [40, 0], [0, 40]]", "corners = [[1, 1], [2, 2], [3, 3]]", "disc = [50, 30, 3000]", "text = [\"A\", \"\", \"B\"]", "height = 200", "spacing = -2", "leaders = 20",
        "ranges = [{ from = 0, to = 5 }, { from = 5, to = -5, ink = \"red\" }]", "labels = { \"0\" = \"OFF\", \"1e308\" = \"MAX\" }", "numerals = \"radial\"", "start = 0", "end = 360", "size = [10, 2000]", "size = [10, 10]",
        "[[panel]]", "[[panel.legend]]", "[[panel.rule]]", "[[panel.area]]", "[[panel.dial]]", "[[panel.control]]", "[panel.text]", "[text]", "[stack]", "[inks]", "[[font]]", "[[part]]", "[x]",
    ];

    /// <summary>Lines that fit into a table of their kind, so that much of what they do comes to light only behind the reader.</summary>
    private static readonly (string Kind, string[] Lines)[] Fitting =
    [
        ("legend", ["turn = 33.3", "role = \"hidden\"", "ink = \"red\"", "backed = true", "height = 0.5", "height = 60", "spacing = -2", "spacing = 40", "leading = 5", "align = \"right\"", "anchor = \"top\"", "row = { count = 40, step = 0.1 }", "row = { count = 3, step = [0, 0] }", "grid = { columns = 4, rows = 3, step = [6, 3] }", "font = \"barlow-condensed\""]),
        ("control", ["turn = 45", "turn = -360", "side = \"left\"", "gap = -50", "gap = 100", "leaders = 20", "role = \"unlit\"", "ink = \"ember\"", "row = { count = 3, step = [1, 20] }", "dial = { from = 0, to = 1e-300 }", "dial = { from = 1e-9, to = 1e6, scale = \"log\", minor = 1 }", "dial = { scale = \"table\", table = [[0, 0], [1, 90], [2, 300]], line = true }", "dial = { from = 10, to = -10, start = 0, end = 360, major = 5, minor = 0.5, numerals = \"radial\", ranges = [{ from = 99, to = -99, ink = \"red\" }] }", "state-height = 10"]),
        ("rule", ["role = \"unlit\"", "ink = \"black\"\n  role = \"unlit\"", "backed = true", "row = { count = 20, step = 0.2 }", "grid = { columns = 2, rows = 2, step = [80, 40] }"]),
    ];

    private static readonly string[] Items =
    [
        "[[panel.area]]\ncorners = [[10, 10], [60, 60], [60, 10], [10, 60]]\nrole = \"lit\"\nink = \"green\"", "[[panel.area]]\ncorners = [[1, 1], [2, 2], [3, 3]]", "[[panel.area]]\ndisc = [50, 30, 900]", "[[panel.area]]\nbox = [-20, -20, 400, 30]\nink = \"black\"",
        "[[panel.area]]\nbox = [5, 5, 0.0000001, 0.0000001]\nrole = \"lit\"", "[[panel.area]]\nbox = [20, 20, 30, 20]\ncorner = 500\nrole = \"hidden\"\ncover = 0.05", "[[panel.rule]]\nline = [[0, 0], [50, 0], [0, 0], [50, 50]]\ncorner = 4\nwidth = 3", "[[panel.rule]]\nline = [[10, 10], [10, 10]]",
        "[[panel.rule]]\narrow = [[10, 10], [10, 10]]\nboth = true", "[[panel.rule]]\narrow = [[10, 10], [40, 10.0000001]]\nhead = 50\nwidth = 20", "[[panel.rule]]\nbracket = [[5, 5], [5, 5]]\ntitle = \"X\"", "[[panel.rule]]\narc = [50, 30, 0.01]\nwidth = 50", "[[panel.rule]]\narc = [50, 30, 20]\nfrom = 10\nto = 10",
        "[[panel.rule]]\nline = [[5, 5], [60, 5], [60, 40], [5, 5]]\nround = true\nwidth = 8", "[[panel.rule]]\nbox = [5, 5, 10, 10]\nwidth = 30\ntitle = \"LONG TITLE\"", "[[panel.dial]]\nat = [60, 40]\nradius = 1", "[[panel.dial]]\nat = [60, 40]\nradius = 30\nfrom = -1\nto = 1\nmajor = 0.01\nmark-length = 50",
        "[[panel.dial]]\nat = [60, 40]\nradius = 20\nlabels = { \"0\" = \"OFF\", \"5\" = \"ÄÖÜ\" }", "[[panel.legend]]\nat = [40, 40]\ntext = \"e\u0301\u0302\u0303 → שלום 😀\"", "[[panel.legend]]\nat = [90, 40]\ntext = [\"A\", \"B\", \"   C\"]\nturn = -90\nrole = \"unlit\"", "[[panel]]\nsize = [10, 10]", "[[panel]]\nsize = [60, 50]\nfield = \"green\"\nfixings = { hole = 3, inset = 5 }",
    ];

    private static readonly byte[][] Stumps = [[0xC3], [0xE2, 0x82], [0xF0, 0x9F, 0x98], [0x80], [0xFF, 0xFE], [0xED, 0xA0, 0x80], [0xEF, 0xBB, 0xBF], [0], [0x1B, (byte)'['], [0x7F], [0xC2, 0x85], [0xE2, 0x80, 0xA8]];

    private readonly ImmutableArray<string> _lines = [.. Encoding.UTF8.GetString(sample).Split('\n')];

    /// <summary>The mutant of a number.</summary>
    public byte[] Of(int number)
    {
        var random = new Mutants.Generator((uint)number + 1);

        // The first numbers of neighbouring seeds are alike.
        for (var skip = 0; skip < 8; skip++)
        {
            random.Next(2);
        }

        // Every other one keeps the grammar, and so reaches what lies behind the reader; of the rest, one in four is harmed in its bytes as well.
        var lines = _lines.ToList();
        var isTame = number % 2 == 0;
        for (var slips = 1 + random.Next(3); slips > 0; slips--)
        {
            if (isTame)
            {
                Change(lines, random);
            }
            else
            {
                Slip(lines, random);
            }
        }

        var bytes = Encoding.UTF8.GetBytes(string.Join('\n', lines));
        return !isTame && random.Next(4) == 0 ? Harm(bytes, random) : bytes;
    }

    /// <summary>What a mutant has that the sample has not, for a message.</summary>
    public string Describe(int number)
    {
        var known = _lines.ToHashSet(StringComparer.Ordinal);
        var lines = Encoding.UTF8.GetString(Of(number)).Split('\n');
        var other = lines.Select((line, index) => (Line: line, Number: index + 1)).Where(pair => !known.Contains(pair.Line)).Take(20);
        return FormattableString.Invariant($"mutant {number}, {lines.Length} lines:\n") + string.Join('\n', other.Select(pair => FormattableString.Invariant($"{pair.Number}: {pair.Line}")));
    }

    /// <summary>A change that somebody might mean.</summary>
    private static void Change(List<string> lines, Mutants.Generator random)
    {
        switch (random.Next(6))
        {
            case 0:
            case 1:
                Replace(lines, Number(), random, NumberText(random));
                break;
            case 2:
                Replace(lines, Legend(), random, $"\"{Pick(Legends, random)}\"");
                break;
            case 3:
                lines.AddRange(Pick(Items, random).Split('\n'));
                break;
            default:
                var (kind, fitting) = Pick(Fitting, random);
                Insert(lines, $"[[panel.{kind}]]", Pick(fitting, random), random);
                break;
        }
    }

    /// <summary>Puts a line below one of the headers, in place of the same key where it is there already.</summary>
    private static void Insert(List<string> lines, string header, string line, Mutants.Generator random)
    {
        var headers = Enumerable.Range(0, lines.Count).Where(index => lines[index].Trim() == header).ToList();
        if (headers.Count == 0)
        {
            return;
        }

        var start = headers[random.Next(headers.Count)];
        var key = line[..(line.IndexOf('=', StringComparison.Ordinal) + 1)];
        for (var index = start + 1; index < lines.Count && !lines[index].Contains("[[", StringComparison.Ordinal); index++)
        {
            if (lines[index].TrimStart().StartsWith(key, StringComparison.Ordinal))
            {
                lines[index] = line;
                return;
            }
        }

        lines.Insert(start + 1, line);
    }

    private static void Slip(List<string> lines, Mutants.Generator random)
    {
        var at = random.Next(lines.Count);
        switch (random.Next(12))
        {
            case 0:
                (lines[at], lines[random.Next(lines.Count)]) = (lines[random.Next(lines.Count)], lines[at]);
                break;
            case 1:
                lines.RemoveRange(at, Math.Min(lines.Count - at, 1 + random.Next(3)));
                lines.Add("");
                break;
            case 2:
                lines.InsertRange(at, lines.GetRange(Math.Max(0, at - 6), Math.Min(at, 6)));
                break;
            case 3:
            case 4:
                lines.Insert(at, Pick(Lines, random));
                break;
            case 5:
                Replace(lines, Value(), random, Pick(Odd, random));
                break;
            case 6:
                Replace(lines, Key(), random, Pick(Keys, random));
                break;
            case 7:
                Replace(lines, Word(), random, $"\"{Pick(Words, random)}\"");
                break;
            case 8:
                Replace(lines, Word(), random, random.Next(2) == 0 ? $"\"{new string('W', random.Next(400))}\"" : $"\"{Pick(Odd, random).Trim('"')}\"");
                break;
            case 9:
                Replace(lines, Number(), random, Pick(Odd, random));
                break;
            case 10:
                Replace(lines, Value(), random, Nested(1 + random.Next(80), random));
                break;
            default:
                for (var count = 1 + random.Next(4); count > 0; count--)
                {
                    Replace(lines, Number(), random, NumberText(random));
                }

                break;
        }
    }

    private static string NumberText(Mutants.Generator random) => random.Next(3) switch
    {
        0 => Numbers[random.Next(Numbers.Length)].ToString("R", System.Globalization.CultureInfo.InvariantCulture).Replace("E", "e", StringComparison.Ordinal),
        1 => random.Next(3000).ToString(System.Globalization.CultureInfo.InvariantCulture),
        _ => (random.Next(20000) / 100m - 50).ToString(System.Globalization.CultureInfo.InvariantCulture),
    };

    private static string Nested(int depth, Mutants.Generator random)
    {
        var table = random.Next(2) == 0;
        return string.Concat(Enumerable.Repeat(table ? "{ a = " : "[", depth)) + "1" + new string(table ? '}' : ']', depth - random.Next(2));
    }

    /// <summary>Puts something in place of one match, in a line that has any.</summary>
    private static void Replace(List<string> lines, Regex what, Mutants.Generator random, string with)
    {
        var start = random.Next(lines.Count);
        for (var step = 0; step < lines.Count; step++)
        {
            var line = (start + step) % lines.Count;
            var matches = what.Matches(lines[line]);
            if (matches.Count > 0)
            {
                var match = matches[random.Next(matches.Count)];
                lines[line] = lines[line][..match.Index] + with + lines[line][(match.Index + match.Length)..];
                return;
            }
        }
    }

    /// <summary>What goes wrong below the text: bits, line ends, encodings, a file cut short.</summary>
    private static byte[] Harm(byte[] bytes, Mutants.Generator random)
    {
        var at = random.Next(bytes.Length + 1);
        var some = Math.Min(bytes.Length - at, 1 + random.Next(40));
        switch (random.Next(8))
        {
            case 0 when at < bytes.Length:
                bytes[at] ^= (byte)(1 << random.Next(8));
                return bytes;
            case 1:
                return [.. bytes[..at], .. bytes[(at + some)..]];
            case 2:
                return [.. bytes[..(at + some)], .. bytes[at..]];
            case 3:
                return bytes[..at];
            case 4:
                return [0xEF, 0xBB, 0xBF, .. bytes];
            case 5:
                return [.. bytes[..at], .. Stumps[random.Next(Stumps.Length)], .. bytes[at..]];
            case 6:
                var mixed = random.Next(3);
                return [.. bytes.SelectMany(one => one != '\n' ? [one] : (mixed == 2 ? random.Next(3) : mixed) switch { 0 => "\r\n"u8.ToArray(), 1 => "\r"u8.ToArray(), _ => "\n"u8.ToArray() })];
            default:
                return random.Next(4) == 0 ? Encoding.Unicode.GetPreamble().Concat(Encoding.Unicode.GetBytes(Encoding.UTF8.GetString(bytes))).ToArray() : [.. bytes, (byte)random.Next(256)];
        }
    }

    private static T Pick<T>(T[] from, Mutants.Generator random) => from[random.Next(from.Length)];

    [GeneratedRegex("(?<=(text|legend|title) = )\"[^\"]*\"", RegexOptions.ExplicitCapture)]
    private static partial Regex Legend();

    [GeneratedRegex("(?<== )\\S.*$")]
    private static partial Regex Value();

    [GeneratedRegex("[a-z-]+(?= = )")]
    private static partial Regex Key();

    [GeneratedRegex("\"[^\"]*\"")]
    private static partial Regex Word();

    [GeneratedRegex("(?<=[ \\[])-?[0-9]+(\\.[0-9]+)?(?=[,\\] }]|$)")]
    private static partial Regex Number();
}
