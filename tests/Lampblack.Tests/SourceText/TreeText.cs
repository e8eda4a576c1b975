using System;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Text;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Tests.SourceText;

/// <summary>Writes what was read on one line, and reads case files.</summary>
internal static class TreeText
{
    public static Checked<TableNode> Read(string text) => TomlText.Read("desk.toml", Encoding.UTF8.GetBytes(text));

    /// <summary>Keys, values and order: <c>{a:1,b:["x",true],c:{}}</c>; what couldn't be read is <c>?</c>, dates stand between pointed brackets.</summary>
    public static string Of(Node node) => node switch
    {
        TextNode text => $"\"{Escaped(text.Value)}\"",
        NumberNode number => number.Value.ToString(number.IsInteger ? "0" : "0.0#########", CultureInfo.InvariantCulture),
        FlagNode flag => flag.Value ? "true" : "false",
        TimeNode time => $"<{time.Written}>",
        ListNode list => $"[{string.Join(",", list.Items.Select(Of))}]",
        TableNode table => $"{{{string.Join(",", table.Entries.Select(entry => $"{entry.Key}:{Of(entry.Value)}"))}}}",
        _ => "?",
    };

    private static string Escaped(string text) => text
        .Replace("\\", "\\\\", StringComparison.Ordinal)
        .Replace("\"", "\\\"", StringComparison.Ordinal)
        .Replace("\n", "\\n", StringComparison.Ordinal)
        .Replace("\t", "\\t", StringComparison.Ordinal);

    /// <summary>A file of this folder.</summary>
    public static string File(string name)
    {
        var root = new DirectoryInfo(AppContext.BaseDirectory);
        while (!System.IO.File.Exists(Path.Combine(root.FullName, "Lampblack.slnx")))
        {
            root = root.Parent ?? throw new InvalidOperationException("the tests run outside the repository");
        }

        return System.IO.File.ReadAllText(Path.Combine(root.FullName, "tests", "Lampblack.Tests", "SourceText", name));
    }
}
