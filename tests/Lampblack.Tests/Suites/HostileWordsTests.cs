using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using System.Text;
using System.Text.Json;
using System.Threading;
using System.Xml;
using System.Xml.Linq;
using Lampblack.Findings;
using Lampblack.Jobs;
using UglyToad.PdfPig;
using Xunit;

namespace Lampblack.Tests.Suites;

/// <summary>Words that could break out of a file's own grammar, in every place of a desk that takes words, through every format that is written.</summary>
public sealed class HostileWordsTests
{
    public static TheoryData<string> Words =>
    [
        "<MAIN> & \"YARD\" 'x' > <",
        "</title></svg><script>alert(1)</script>",
        "&amp;&lt;&#0;&bogus; ]]> <!-- --> <?xml?> <![CDATA[",
        "\\ ) ( \\) % << >> /Title endobj stream",
        "\",\"code\":null}],{\\u0000\\n",
        "{0} {{1}} %s $(id) `id` ${HOME}",
        "tab\tand\nnew line",
        "😀🏁 👩‍🔬 🇩🇪",
        "שלום עולם",
        "سلام abc \u202E cba",
        "zero\u200Bwidth\u200D\uFEFF\u00AD soft",
        "e" + new string('\u0301', 999),
        "\u2028line\u2029paragraph",
        "\uFFFE \uFFFF \uFDD0",
        "𝔸𝕊 " + new string('W', 300),
        "\u0301 begins with a mark",
    ];

    [Theory]
    [MemberData(nameof(Words))]
    public void Words_come_through_every_format_as_they_were_written(string words)
    {
        var result = Build.Run(ExampleDesks.Alone(Encoding.UTF8.GetBytes(Desk(words))), new("A4", "option"), new Progress<string>(), CancellationToken.None);
        Assert.DoesNotContain(result.Findings, finding => finding.Severity == Severity.Stop);
        Assert.All(result.Findings, finding => Assert.DoesNotContain(finding.Message + finding.Hint, char.IsControl));
        var oneLine = OnOneLine(words);
        var seen = new SortedSet<string>(StringComparer.Ordinal);
        foreach (var file in result.Files)
        {
            Assert.Matches("^[a-z0-9./-]+$", file.Path);
            var bytes = file.Bytes.AsSpan().ToArray();
            seen.Add(Path.GetExtension(file.Path));
            switch (Path.GetExtension(file.Path))
            {
                case ".svg":
                    var titles = Titles(bytes);
                    if (!file.Path.StartsWith("panels/", StringComparison.Ordinal))
                    {
                        Assert.StartsWith(oneLine, titles[0], StringComparison.Ordinal);
                        break;
                    }

                    // What no bundled font can draw is not drawn, and told of.
                    Assert.Equal(oneLine, titles[0]);
                    Assert.True(
                        titles.Contains("p/legend-1: " + oneLine) || result.Findings.Any(finding => finding is { Code: "glyph-missing", Item: "p/legend-1" }), string.Join('\n', titles));
                    break;
                case ".json":
                    using (var json = JsonDocument.Parse(bytes))
                    {
                        Assert.StartsWith("lampblack-", json.RootElement.GetProperty("schema").GetString(), StringComparison.Ordinal);
                    }

                    break;
                case ".pdf":
                    using (var pdf = PdfDocument.Open(bytes, new ParsingOptions { UseLenientParsing = false }))
                    {
                        Assert.StartsWith(oneLine + (file.Path.StartsWith("sheet-1/", StringComparison.Ordinal) ? " sheet-1 " : " "), pdf.Information.Title, StringComparison.Ordinal);
                        Assert.NotEmpty(pdf.GetPage(1).Paths);
                    }

                    break;
                case ".html":
                    // Words never become markup: the one title holds them, and nothing that runs or fetches is there.
                    using (var reader = XmlReader.Create(new MemoryStream(bytes), new() { DtdProcessing = DtdProcessing.Ignore }))
                    {
                        var page = XDocument.Load(reader);
                        var isBook = file.Path == "book.html";
                        Assert.Equal(isBook ? oneLine + ": build book" : "Print card: " + oneLine, Assert.Single(page.Descendants(), element => element.Name.LocalName == "title" && element.Parent!.Name.LocalName == "head").Value);
                        Assert.DoesNotContain(page.Descendants(), element => element.Name.LocalName is "link" or "iframe" or "object" or "base" or "meta" && element.Attribute("http-equiv") is not null);

                        // The book's own few lines keep its ticks; its pictures are within it.
                        Assert.Equal(isBook ? 1 : 0, page.Descendants().Count(element => element.Name.LocalName == "script"));
                        Assert.All(page.Descendants().Where(element => element.Name.LocalName == "img"), image => Assert.StartsWith("data:image/", image.Attribute("src")!.Value, StringComparison.Ordinal));
                        Assert.DoesNotContain(page.Descendants().SelectMany(element => element.Attributes()), attribute => attribute.Name.LocalName.StartsWith("on", StringComparison.Ordinal) || attribute.Value.StartsWith("javascript:", StringComparison.OrdinalIgnoreCase));
                        Assert.All(page.Descendants().Where(element => element.Name.LocalName is "script" or "style"), own => Assert.DoesNotContain('<', own.Value));
                    }

                    break;
                case ".png":
                    Assert.Equal([0x89, (byte)'P', (byte)'N', (byte)'G'], bytes[..4]);
                    break;
                case ".dxf" or ".drl":
                    // The title is one comment and nothing else: no word begins a line of its own.
                    Assert.All(bytes, one => Assert.True(one < 128));
                    var lines = Encoding.ASCII.GetString(bytes).ReplaceLineEndings("\n").Split('\n');
                    Assert.EndsWith(", seen from the front, all lengths in mm", lines[1], StringComparison.Ordinal);
                    Assert.Equal(file.Path.EndsWith(".drl", StringComparison.Ordinal) ? "METRIC" : "0", lines[2].Trim());
                    break;
                case ".csv":
                    Assert.Equal(file.Path == "bill.csv" ? 10 : file.Path == "wiring/wires.csv" ? 12 : file.Path == "wiring/plugs.csv" || file.Path.StartsWith("light/", StringComparison.Ordinal) ? 6 : file.IsForBench ? 14 : 0, Encoding.UTF8.GetString(bytes).Split("\r\n")[0].Split(',').Length);
                    break;
                case ".hex":
                    // Records of numbers alone: no word of the maker's is in the chip.
                    Assert.All(Encoding.ASCII.GetString(bytes).Split(['\r', '\n'], StringSplitOptions.RemoveEmptyEntries), line => Assert.Matches("^:([0-9A-F]{2}){5,}$", line));
                    break;
                default:
                    Assert.Equal(".txt", Path.GetExtension(file.Path));
                    break;
            }
        }

        Assert.Equal(
            ["light/circuit.svg", "light/emitters.csv", "light/p-emitters.pdf", "light/p-emitters.svg", "light/p-evenness.svg", "light/parts.csv"],
            result.Files.Select(file => file.Path).Where(path => path.StartsWith("light/", StringComparison.Ordinal)).Order(StringComparer.Ordinal));
        Assert.Equal(
            ["wiring/checklist.pdf", "wiring/p-wires.pdf", "wiring/p-wires.svg", "wiring/plan.json", "wiring/plugs.csv", "wiring/schematic.svg", "wiring/wires.csv"],
            result.Files.Select(file => file.Path).Where(path => path.StartsWith("wiring/", StringComparison.Ordinal)).Order(StringComparer.Ordinal));
        Assert.Equal([".csv", ".drl", ".dxf", ".hex", ".html", ".json", ".pdf", ".png", ".svg", ".txt"], seen);
    }

    [Theory]
    [InlineData("\\u0000")]
    [InlineData("\\u0007")]
    [InlineData("\\u001B[31m")]
    [InlineData("\\u007F")]
    [InlineData("\\u0085")]
    [InlineData("\\u009B31m")]
    public void Control_characters_are_refused_wherever_words_stand(string written)
    {
        var result = Build.Run(
            ExampleDesks.Alone(Encoding.UTF8.GetBytes(Desk("A").Replace("\"A\"", $"\"A{written}\"", StringComparison.Ordinal))), new("A4", "option"), new Progress<string>(), CancellationToken.None);
        Assert.Equal(Places, result.Findings.Count(finding => finding is { Severity: Severity.Stop, Code: "text-control-character" }));
        Assert.Empty(result.Files);
    }

    /// <summary>How many words of the desk are the given ones.</summary>
    private const int Places = 7;

    private static string Desk(string words)
    {
        var text = $"\"{string.Concat(words.Select(Escape))}\"";
        return $$"""
            lampblack = 1
            title = {{text}}
            [lighting]
            emitter = "emitter-3528"
            [controller]
            chip = "ATmega328P"
            [[panel]]
            id = "p"
            title = {{text}}
            size = [40, 30]
            [[panel.legend]]
            text = {{text}}
            at = [20, 4]
            height = 2
            [[panel.rule]]
            box = [2, 2, 36, 26]
            title = {{text}}
            [[panel.control]]
            part = "toggle-mini-on-on"
            at = [12, 15]
            legend = {{text}}
            states = [{{text}}, "B"]
            [[panel.dial]]
            at = [30, 15]
            radius = 3
            labels = { "0" = {{text}} }
            """;
    }

    /// <summary>A UTF-16 unit inside a TOML text: written as itself where that is allowed.</summary>
    private static string Escape(char unit) => unit switch
    {
        '"' => "\\\"",
        '\\' => "\\\\",
        '\n' => "\\n",
        '\t' => "\\t",
        _ => unit.ToString(),
    };

    /// <summary>As titles have it: blanks for line ends and tabs; without the two characters that XML forbids.</summary>
    private static string OnOneLine(string words) => string.Concat(words
        .Select(unit => unit is '\n' or '\t' ? ' ' : unit)
        .Where(unit => unit is not ('\uFFFE' or '\uFFFF')));

    private static List<string> Titles(byte[] svg)
    {
        using var reader = XmlReader.Create(new MemoryStream(svg), new() { DtdProcessing = DtdProcessing.Prohibit, CheckCharacters = true });
        var titles = new List<string>();
        var names = new SortedSet<string>(StringComparer.Ordinal);
        while (reader.Read())
        {
            if (reader.NodeType != XmlNodeType.Element)
            {
                continue;
            }

            names.Add(reader.LocalName);
            if (reader.LocalName == "title")
            {
                titles.Add(reader.ReadElementContentAsString());
            }
        }

        // Drawings for a cutter have circles besides; nothing else is ever there.
        names.Remove("circle");
        Assert.Equal(["g", "path", "svg", "title"], names);
        return titles;
    }
}
