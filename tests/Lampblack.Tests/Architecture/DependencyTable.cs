using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Tests.Architecture;

/// <summary>One folder's whole permission.</summary>
/// <param name="Folder">First folder below src/Lampblack.</param>
/// <param name="MayUse">The other folders it may use.</param>
/// <param name="Libraries">Prefixes of the namespaces it may use from outside.</param>
/// <param name="Line">Where the row stands in the page, one-based.</param>
internal sealed record DependencyRow(string Folder, ImmutableArray<string> MayUse, ImmutableArray<string> Libraries, int Line);

/// <summary>The table of docs/architecture.md: the page is the rule, so that the two can't drift apart.</summary>
internal sealed record DependencyTable(ImmutableArray<DependencyRow> Rows)
{
    public const string Page = "docs/architecture.md";

    private static readonly ImmutableArray<string> Header = ["folder", "holds", "may use", "libraries", "why"];

    /// <exception cref="FormatException">There is not exactly one such table, or a row has not five cells.</exception>
    public static DependencyTable Read(string markdown)
    {
        var lines = markdown.ReplaceLineEndings("\n").Split('\n');
        var starts = Enumerable.Range(0, lines.Length).Where(index => Cells(lines[index]).SequenceEqual(Header)).ToList();
        if (starts.Count != 1)
        {
            throw new FormatException($"{Page} has {starts.Count} tables with the columns {string.Join(" | ", Header)}; one is needed");
        }

        // The line below the header only draws the columns.
        var rows = ImmutableArray.CreateBuilder<DependencyRow>();
        for (var index = starts[0] + 2; index < lines.Length && lines[index].TrimStart().StartsWith('|'); index++)
        {
            var cells = Cells(lines[index]);
            if (cells.Length != Header.Length || cells[0].Length == 0)
            {
                throw new FormatException($"{Page}({index + 1}): a row has {Header.Length} cells and names a folder, this one reads {lines[index]}");
            }

            rows.Add(new(cells[0], Names(cells[2]), Names(cells[3]), index + 1));
        }

        return new(rows.ToImmutable());
    }

    private static string[] Cells(string line)
    {
        var trimmed = line.Trim();
        return trimmed.StartsWith('|') && trimmed.EndsWith('|') && trimmed.Length > 1
            ? [.. trimmed[1..^1].Split('|').Select(cell => cell.Replace("`", "", StringComparison.Ordinal).Trim())]
            : [];
    }

    private static ImmutableArray<string> Names(string cell) =>
        [.. ((IEnumerable<string>)cell.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)).Where(name => name != "-")];
}
