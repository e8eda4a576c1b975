using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.IO;
using System.Linq;
using System.Text;
using System.Text.RegularExpressions;
using Lampblack.Desks;
using Lampblack.SourceText;

namespace Lampblack.Tests.Manual;

/// <summary>
/// Which keys the readers know, table by table. Every word that stands as a literal in their source is tried in every table of a small desk:
/// what they don't call unknown there is a key. Nobody keeps a list.
/// </summary>
internal static partial class DeskKeys
{
    /// <summary>The file itself.</summary>
    public const string DeskPath = "desk";

    private const string Probe = "@";
    private const string Panel = "[[panel]]\nsize = [100, 60]\n";
    private const string Control = Panel + "[[panel.control]]\npart = \"pot-9mm\"\nat = [50, 30]\n";
    private const string Legend = Panel + "[[panel.legend]]\ntext = \"A\"\nat = [50, 30]\n";
    private const string Dial = Panel + "[[panel.dial]]\nradius = 9\nat = [50, 30]\n";
    private const string Rule = Panel + "[[panel.rule]]\n";
    private const string Area = Panel + "[[panel.area]]\n";
    private const string Art = Panel + "[[panel.art]]\nfile = \"a.svg\"\n";
    private const string Line = "line = [[10, 10], [20, 10]]\n";
    private const string Box = "box = [10, 10, 20, 10]\n";

    /// <summary>Tables whose keys are names that the maker chooses.</summary>
    private static readonly ImmutableArray<string> FreeTables = ["inks", "labels", "prices"];

    /// <summary>A small desk for every table, with the place where a key is tried; more than one where some keys belong to some forms only.</summary>
    private static readonly ImmutableArray<(string Path, string Desk)> Bases =
    [
        (DeskPath, $"{Probe}\n{Panel}"),
        ("stack", $"[stack]\n{Probe}\n{Panel}"),
        ("cutting", $"[cutting]\n{Probe}\n{Panel}"),
        ("stock", $"[[stock]]\nsize = [300, 400]\n{Probe}\n{Panel}"),
        ("controller", $"[controller]\nchip = \"ATmega328P\"\n{Probe}\n{Panel}"),
        ("wiring", $"[controller]\nchip = \"ATmega328P\"\n[wiring]\n{Probe}\n{Panel}"),
        ("book", $"[book]\n{Probe}\n{Panel}"),
        ("lighting", $"[lighting]\n{Probe}\n{Panel}"),
        ("use", $"[use]\n{Probe}\n{Panel}"),
        ("bench", $"[bench]\n{Probe}\n{Panel}"),
        ("text", $"[text]\n{Probe}\n{Panel}"),
        ("font", $"[[font]]\nname = \"a\"\nfile = \"a.ttf\"\n{Probe}\n{Panel}"),
        ("part", $"[[part]]\nhole = 5\n{Probe}\n{Panel}"),
        ("part.extra-hole", $"[[part]]\nhole = 5\n[[part.extra-hole]]\nat = [9, 0]\nhole = 2\n{Probe}\n{Panel}"),
        ("caliper", $"[[caliper]]\npart = \"pot-9mm\"\n{Probe}\n{Panel}"),
        ("panel", $"{Panel}{Probe}\n"),
        ("panel.accept", $"{Panel}[[panel.accept]]\nfinding = \"legend-small\"\nbecause = \"so\"\n{Probe}\n"),
        ("panel.text", $"{Panel}[panel.text]\n{Probe}\n"),
        ("panel.emitter", $"{Panel}[[panel.emitter]]\nat = [9, 9]\n{Probe}\n"),
        ("panel.fixings", $"{Panel}[panel.fixings]\ninset = 6\n{Probe}\n"),
        ("panel.control", $"{Control}{Probe}\n"),
        ("panel.control.dial", $"{Control}[panel.control.dial]\n{Probe}\n"),
        ("panel.control.dial", $"{Control}[panel.control.dial]\nscale = \"table\"\n{Probe}\n"),
        ("panel.control.dial.ranges", $"{Control}[[panel.control.dial.ranges]]\nfrom = 1\nto = 2\n{Probe}\n"),
        ("panel.legend", $"{Legend}{Probe}\n"),
        ("panel.dial", $"{Dial}{Probe}\n"),
        ("panel.dial.ranges", $"{Dial}[[panel.dial.ranges]]\nfrom = 1\nto = 2\n{Probe}\n"),
        ("panel.rule", $"{Rule}{Line}{Probe}\n"),
        ("panel.rule", $"{Rule}arc = [20, 20, 9]\n{Probe}\n"),
        ("panel.rule", $"{Rule}{Box}{Probe}\n"),
        ("panel.rule", $"{Rule}bracket = [[10, 10], [20, 10]]\n{Probe}\n"),
        ("panel.rule", $"{Rule}arrow = [[10, 10], [20, 10]]\n{Probe}\n"),
        ("panel.area", $"{Area}{Box}{Probe}\n"),
        ("panel.art", $"{Art}{Probe}\n"),
        .. new[] { ("art", Art), ("control", Control), ("legend", Legend), ("dial", Dial), ("rule", Rule + Line), ("area", Area + Box) }.SelectMany(item => new[]
        {
            ($"panel.{item.Item1}.row", $"{item.Item2}[panel.{item.Item1}.row]\ncount = 1\nstep = 5\n{Probe}\n"),
            ($"panel.{item.Item1}.accept", $"{item.Item2}[[panel.{item.Item1}.accept]]\nfinding = \"legend-small\"\nbecause = \"so\"\n{Probe}\n"),
            ($"panel.{item.Item1}.grid", $"{item.Item2}[panel.{item.Item1}.grid]\ncolumns = 1\nrows = 1\nstep = [5, 5]\n{Probe}\n"),
        }),
    ];

    /// <summary>The keys that the readers know, by table.</summary>
    public static ImmutableSortedDictionary<string, ImmutableSortedSet<string>> Known()
    {
        var words = Words();
        return Bases.GroupBy(pair => pair.Path, StringComparer.Ordinal).ToImmutableSortedDictionary(
            group => group.Key,
            group => group.SelectMany(pair => KnownIn(pair.Path, pair.Desk, words)).ToImmutableSortedSet(StringComparer.Ordinal),
            StringComparer.Ordinal);
    }

    /// <summary>Every key that stands in a desk, with the table it stands in.</summary>
    public static IEnumerable<(string Path, string Key)> Used(string toml)
    {
        var text = TomlText.Read("desk.toml", Encoding.UTF8.GetBytes(toml));
        return text.Findings.IsEmpty ? Used(text.Value, DeskPath) : throw new InvalidDataException(text.Findings[0].Message);
    }

    private static IEnumerable<(string Path, string Key)> Used(Node node, string path) => node switch
    {
        TableNode table => table.Entries.SelectMany(entry => Used(entry.Value, path == DeskPath ? entry.Key : $"{path}.{entry.Key}", entry.Key).Prepend((path, entry.Key))),
        ListNode list => list.Items.SelectMany(item => Used(item, path)),
        _ => [],
    };

    private static IEnumerable<(string Path, string Key)> Used(Node node, string path, string key) => FreeTables.Contains(key) ? [] : Used(node, path);

    private static IEnumerable<string> KnownIn(string path, string desk, ImmutableArray<string> words)
    {
        var plain = "lampblack = 1\n" + desk.Replace(Probe, "", StringComparison.Ordinal);
        var given = Used(plain).Where(pair => pair.Path == path).Select(pair => pair.Key).ToList();
        var unknown = given.Where(key => IsUnknown(plain, key)).ToList();
        return unknown.Count > 0
            ? throw new InvalidDataException($"the small desk for {path} has keys that nobody knows: {string.Join(", ", unknown)}")
            : given.Concat(words.Except(given).Where(word => !IsUnknown("lampblack = 1\n" + desk.Replace(Probe, word + " = 1", StringComparison.Ordinal), word)));
    }

    private static bool IsUnknown(string toml, string key) => DeskReader.Read("desk.toml", Encoding.UTF8.GetBytes(toml)).Findings
        .Any(finding => finding.Code == "key-unknown" && finding.Message.StartsWith($"`{key}`", StringComparison.Ordinal));

    /// <summary>Every literal of the readers that could be a key, and every such word with every ending that one of them puts behind a word.</summary>
    private static ImmutableArray<string> Words()
    {
        var literals = Directory.GetFiles(Path.Combine(ManualPage.Root, "src", "Lampblack", "Desks"), "*.cs")
            .SelectMany(file => Literal().Matches(File.ReadAllText(file)).Select(match => match.Groups[1].Value))
            .ToImmutableSortedSet(StringComparer.Ordinal);
        var endings = literals.Where(word => word.Length > 1 && word[0] == '-').ToList();
        var words = literals.Where(word => word[0] != '-').ToList();
        return [.. words, .. words.SelectMany(word => endings.Select(ending => word + ending))];
    }

    [GeneratedRegex("\"(-?[a-z]+(?:-[a-z]+)*)\"")]
    private static partial Regex Literal();
}
