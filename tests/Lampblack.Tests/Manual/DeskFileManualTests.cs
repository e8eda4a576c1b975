using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.IO;
using System.Linq;
using System.Text;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Tests.Lettering;
using Lampblack.Tests.Register;
using Xunit;

namespace Lampblack.Tests.Manual;

/// <summary>What <c>docs/desk-file.md</c> and <c>README.md</c> show can be built, and the manual's tables name the keys that are read.</summary>
public sealed class DeskFileManualTests
{
    private const int FewestExamples = 30;

    private static readonly ManualPage Manual = ManualPage.Read("docs/desk-file.md");

    private static readonly ImmutableArray<ManualExample> Examples = [.. Manual.Examples(), .. ManualPage.Read("README.md").Examples()];

    private static readonly Lazy<ImmutableSortedDictionary<string, ImmutableSortedSet<string>>> Known = new(DeskKeys.Known);

    public static TheoryData<string> Places => [.. Examples.Select(example => example.Place)];

    [Theory]
    [MemberData(nameof(Places))]
    public void An_example_builds_without_a_stop_or_a_warning(string place)
    {
        var example = Examples.Single(example => example.Place == place);
        var source = new DeskSource("desk.toml", [.. Encoding.UTF8.GetBytes(example.Toml)], new FilesBeside());
        var result = Build.Run(source, new("A4", "option", Parts: BuildParts.Print), new Progress<string>(), TestContext.Current.CancellationToken);
        Assert.Empty(result.Findings.Where(finding => finding.Severity != Severity.Note).Select(finding => $"{finding.Span?.Line}: {finding.Code}: {finding.Message}"));
        Assert.Contains(result.Files, file => file.Path == "sheet-1/front.pdf");
        Assert.Contains(result.Files, file => file.Path == "sheet-1/mask.pdf");
    }

    [Fact]
    public void The_manual_has_many_examples()
    {
        Assert.True(Manual.Examples().Count() >= FewestExamples);
    }

    [Fact]
    public void The_manual_tells_of_every_table_and_names_exactly_the_keys_that_are_read()
    {
        var told = Manual.KeyTables().SelectMany(table => table.Paths.SelectMany(path => table.Keys.Select(key => $"{path}: {key}"))).Order(StringComparer.Ordinal).ToList();
        var known = Known.Value.SelectMany(table => table.Value.Select(key => $"{table.Key}: {key}")).Order(StringComparer.Ordinal).ToList();
        Assert.Equal(told.Distinct(), told);
        Assert.Empty(known.Except(told).Select(key => $"not in the manual: {key}"));
        Assert.Empty(told.Except(known).Select(key => $"in the manual, but not read: {key}"));
    }

    [Fact]
    public void Every_key_of_the_manual_stands_in_an_example()
    {
        var used = Examples.SelectMany(example => DeskKeys.Used(example.Toml)).ToHashSet();
        var missing = Manual.KeyTables().SelectMany(table => table.Keys
            .Where(key => !table.Paths.Any(path => used.Contains((path, key))))
            .Select(key => $"line {table.Line}: `{key}`"));
        Assert.Empty(missing);
    }

    [Fact]
    public void Links_within_the_manual_lead_to_a_heading()
    {
        var anchors = Manual.Lines.Where(line => line.StartsWith('#')).Select(Anchor).ToList();
        var links = Manual.Lines.SelectMany(Links).Where(link => link.StartsWith('#')).ToList();
        Assert.NotEmpty(links);
        Assert.Empty(links.Except(anchors));
    }

    /// <summary>What a heading is called in links: small letters, hyphens for blanks, no other signs.</summary>
    private static string Anchor(string heading) =>
        "#" + string.Concat(heading.TrimStart('#', ' ').Where(sign => char.IsLetterOrDigit(sign) || sign is ' ' or '-')).ToLowerInvariant().Replace(' ', '-');

    private static IEnumerable<string> Links(string line)
    {
        for (var at = line.IndexOf("](", StringComparison.Ordinal); at >= 0; at = line.IndexOf("](", at + 2, StringComparison.Ordinal))
        {
            yield return line[(at + 2)..line.IndexOf(')', at)];
        }
    }

    /// <summary>The only file that an example names: a font of the maker's own, for which one of ours stands in.</summary>
    /// <summary>What the examples name beside them: a font, and the artwork of the examples' folder.</summary>
    private sealed class FilesBeside : IDeskFiles
    {
        public FileReading Read(string relativePath, long limitBytes) => relativePath switch
        {
            "fonts/round.ttf" => new(FontBytes.Frozen(FontBytes.Of("overpass-bold")), null),
            "gauge.svg" or "gauge.png" => new([.. File.ReadAllBytes(Path.Combine(SeparatedDesk.Root, "examples", "gauge", relativePath))], null),
            _ => new([], "is not there"),
        };
    }
}
