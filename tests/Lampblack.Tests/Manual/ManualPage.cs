using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.IO;
using System.Linq;

namespace Lampblack.Tests.Manual;

/// <summary>A page of the manual, as its examples and its tables of keys.</summary>
/// <param name="Name">Its path from the repository's root, with '/'.</param>
/// <param name="Lines">Its lines.</param>
internal sealed record ManualPage(string Name, ImmutableArray<string> Lines)
{
    private const string FenceStart = "```toml";
    private const string FenceEnd = "```";

    /// <summary>Root of the repository.</summary>
    public static string Root { get; } = FindRoot();

    public static ManualPage Read(string name) => new(name, [.. File.ReadAllLines(Path.Combine([Root, .. name.Split('/')]))]);

    /// <summary>The examples, each made a whole desk.</summary>
    public IEnumerable<ManualExample> Examples()
    {
        for (var start = 0; start < Lines.Length; start++)
        {
            if (Lines[start] != FenceStart)
            {
                continue;
            }

            var end = Lines.IndexOf(FenceEnd, start);
            var text = string.Join('\n', Lines[(start + 1)..end]) + "\n";
            yield return new($"{Name}:{start + 2}", Whole(Note(start - 1, "fragment"), text));
            start = end;
        }
    }

    /// <summary>The tables of keys, each with the tables of the desk file that it tells of.</summary>
    public IEnumerable<ManualKeys> KeyTables()
    {
        for (var line = 0; line < Lines.Length; line++)
        {
            if (Note(line, "keys") is not { } paths)
            {
                continue;
            }

            // After the note come the heads of the columns and a line of hyphens.
            var keys = Lines.Skip(line + 3).TakeWhile(row => row.StartsWith('|')).Select(row => row.Split('|')[1].Trim(' ', '`'));
            yield return new(line + 1, [.. paths.Split(", ")], [.. keys]);
        }
    }

    private string? Note(int line, string kind)
    {
        var before = $"<!-- {kind}: ";
        return line >= 0 && Lines[line].StartsWith(before, StringComparison.Ordinal) ? Lines[line][before.Length..].Replace(" -->", "", StringComparison.Ordinal) : null;
    }

    private static string Whole(string? fragment, string text) => fragment switch
    {
        null => text,
        "desk" => $"lampblack = 1\n{text}\n[[panel]]\nid = \"demo\"\nsize = [100, 60]\n",
        "panel" => $"lampblack = 1\n\n[[panel]]\nid = \"demo\"\nsize = [100, 60]\n{text}",
        _ => throw new InvalidDataException($"a fragment is for inside a panel or a desk, not a {fragment}"),
    };

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Lampblack.slnx")))
        {
            folder = folder.Parent ?? throw new DirectoryNotFoundException("the tests run from a folder inside the repository");
        }

        return folder.FullName;
    }
}

/// <summary>An example of the manual.</summary>
/// <param name="Place">Page and line of its first line.</param>
/// <param name="Toml">It, made a whole desk.</param>
internal sealed record ManualExample(string Place, string Toml);

/// <summary>A table of keys in the manual.</summary>
/// <param name="Line">Its line, from 1.</param>
/// <param name="Paths">The tables of the desk file that it tells of, such as <c>panel.control</c>; <c>desk</c> for the file itself.</param>
/// <param name="Keys">The keys in it.</param>
internal sealed record ManualKeys(int Line, ImmutableArray<string> Paths, ImmutableArray<string> Keys);
