using System;
using System.Collections.Generic;
using System.ComponentModel;
using System.Diagnostics;
using System.IO;
using System.Linq;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using System.Threading.Tasks;
using Lampblack.Findings;
using Lampblack.SourceText;
using Xunit;

namespace Lampblack.Tests.SourceText;

/// <summary>Holds the reader to an independent one: tomllib, the TOML 1.0 reader in the standard library of Python 3.11 and later.</summary>
public sealed partial class TomlPeerTests
{
    /// <summary>Takes JSON lines with a text each; gives for each its values, or null where it is refused.</summary>
    private const string Script = """
        import sys, json, tomllib
        def plain(v):
            if isinstance(v, bool) or isinstance(v, str): return v
            if isinstance(v, (int, float)): return {'number': float(v)}
            if isinstance(v, list): return [plain(x) for x in v]
            if isinstance(v, dict): return {'table': [[k, plain(v[k])] for k in sorted(v)]}
            return {'time': True}
        for line in sys.stdin.buffer:
            try: out = plain(tomllib.loads(json.loads(line)))
            except (tomllib.TOMLDecodeError, RecursionError, OverflowError): out = None
            sys.stdout.write(json.dumps(out) + '\n')
        """;

    [Fact]
    public void The_same_texts_are_accepted_with_the_same_values_as_by_an_independent_reader()
    {
        var texts = Mutants.Of(TreeText.File("sample.txt").ReplaceLineEndings("\n"), 3_000, 2)
            .Where(text => Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(text)) == text)
            .ToList();
        var answers = Ask(texts);
        var accepted = 0;
        for (var i = 0; i < texts.Count; i++)
        {
            var read = TreeText.Read(texts[i]);
            if (IsOursAlone(texts[i], read))
            {
                continue;
            }

            var ours = read.HasStop ? "null" : Plain(read.Value).ToJsonString();
            Assert.True(JsonNode.DeepEquals(JsonNode.Parse(answers[i]), JsonNode.Parse(ours)), $"{texts[i]}\nours:   {ours}\ntheirs: {answers[i]}");
            accepted += read.HasStop ? 0 : 1;
        }

        // Both must have accepted a fair share, or nothing was compared.
        Assert.InRange(accepted, 300, 2_000);
    }

    /// <summary>TOML 1.1 allows line breaks and a last comma between braces and two more escapes than TOML 1.0, and we refuse what can't be measured or printed.</summary>
    private static bool IsOursAlone(string text, Checked<TableNode> read) =>
        text.Contains("\\e", StringComparison.Ordinal)
        || text.Contains("\\x", StringComparison.Ordinal)
        || read.Findings.Any(finding => finding.Code is "number-not-finite" or "text-control-character")
        || TomlPlaceTests.Everything(read.Value).OfType<TableNode>().Any(table => table.Inline && LineBreakOrLastComma().IsMatch(text.Substring(table.Span.Offset, table.Span.Length)));

    [GeneratedRegex("\n|,\\s*\\}")]
    private static partial Regex LineBreakOrLastComma();

    private static JsonNode Plain(Node node) => node switch
    {
        TextNode text => JsonValue.Create(text.Value),
        FlagNode flag => JsonValue.Create(flag.Value),
        NumberNode number => new JsonObject { ["number"] = JsonValue.Create(number.Value) },
        ListNode list => new JsonArray([.. list.Items.Select(Plain)]),
        TableNode table => new JsonObject
        {
            ["table"] = new JsonArray([.. table.Entries.OrderBy(entry => entry.Key, StringComparer.Ordinal).Select(entry => new JsonArray(entry.Key, Plain(entry.Value)))]),
        },
        _ => new JsonObject { ["time"] = true },
    };

    private static List<string> Ask(List<string> texts)
    {
        var start = new ProcessStartInfo("python3", ["-c", Script]) { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true };
        try
        {
            using var python = Process.Start(start)!;
            var writing = Task.Run(() =>
            {
                try
                {
                    foreach (var text in texts)
                    {
                        python.StandardInput.Write(JsonSerializer.Serialize(text) + "\n");
                    }

                    python.StandardInput.Close();
                }
                catch (IOException)
                {
                    // It ended early; the count of its answers tells.
                }
            });
            var errors = python.StandardError.ReadToEndAsync();
            var answers = python.StandardOutput.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries).ToList();
            writing.Wait();
            python.WaitForExit();
            Assert.SkipWhen(errors.Result.Contains("No module named 'tomllib'", StringComparison.Ordinal), "this Python has no tomllib (3.11 or later has)");
            Assert.True(answers.Count == texts.Count, errors.Result);
            return answers;
        }
        catch (Win32Exception)
        {
            Assert.Skip("there is no python3 on this machine");
            throw;
        }
    }
}
