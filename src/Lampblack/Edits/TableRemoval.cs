using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>Takes tables under headers out of a file: their lines, the tables in them, and the remarks right above.</summary>
/// <param name="desk">The file.</param>
internal sealed class TableRemoval(DeskText desk)
{
    /// <summary>The splices.</summary>
    /// <param name="nodes">Tables, or lists of them, under headers.</param>
    public IReadOnlyList<Splice> Splices(IEnumerable<Node> nodes)
    {
        var splices = new List<Splice>();
        foreach (var (start, end) in Blocks(nodes))
        {
            splices.Add(Around(start, end));
        }

        return splices;
    }

    /// <summary>The lines of tables, neighbours joined: from the start of the first line to the end of the last, before its break.</summary>
    public IReadOnlyList<(int Start, int End)> Blocks(IEnumerable<Node> nodes)
    {
        // What stands between two tables of one item, be it remarks, is the item's.
        var own = nodes.SelectMany(node => Joined(desk.Layout.HeadersIn(node).Select(header => (desk.Layout.BlockStart(header), desk.Layout.BlockEnd(header))), IsRemark));
        return Joined(own.OrderBy(block => block.Start), string.IsNullOrWhiteSpace);

        static bool IsRemark(string line) => line.TrimStart() is "" or ['#', ..];
    }

    private List<(int Start, int End)> Joined(IEnumerable<(int Start, int End)> blocks, Func<string, bool> isNothing)
    {
        var joined = new List<(int Start, int End)>();
        foreach (var (start, end) in blocks)
        {
            if (joined.Count > 0 && desk.Text[joined[^1].End..start].Split('\n').All(isNothing))
            {
                joined[^1] = (joined[^1].Start, end);
            }
            else
            {
                joined.Add((start, end));
            }
        }

        return joined;
    }

    /// <summary>One block with the blank lines above it where there are blank lines or nothing below; else with its last break.</summary>
    private Splice Around(int start, int end)
    {
        var layout = desk.Layout;
        var below = layout.Below(end);
        if (below is { } next && !string.IsNullOrWhiteSpace(layout.Line(next)))
        {
            return new(start, next - start, string.Empty);
        }

        var from = start;
        while (from > 0 && string.IsNullOrWhiteSpace(layout.Line(from - 1)))
        {
            from = desk.Places.LineStart(from - 1);
        }

        // The break before it goes, that behind it stays.
        from = from > 0 ? desk.Places.LineEnd(from - 1) : from;
        var to = from == 0 && below is { } rest ? rest : end;
        return new(from, to - from, string.Empty);
    }
}
