using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Parts;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>What the readers of one desk file share while they read: findings, names in use, and how many items there are.</summary>
internal sealed class DeskReading(string fileName)
{
    /// <summary>Most items a desk may have, copies counted: far above any panel, low enough that a slip of the pen can't fill the memory.</summary>
    public const int MostItems = 10_000;

    /// <summary>Most letters, strokes and corners a desk may have, copies counted: ten closely written pages.</summary>
    public const int MostMarks = 20_000;

    /// <summary>Most panels of a desk.</summary>
    public const int MostPanels = 100;

    /// <summary>Most fonts that a desk may bring along.</summary>
    public const int MostFonts = 20;

    /// <summary>Most parts that a desk may define, and most inks that it may mix.</summary>
    public const int MostDefined = 500;

    /// <summary>Places further than this from a panel's corner are slips of the pen.</summary>
    public const double FarthestMm = 3000;

    // Names that some file systems keep for devices; ids become file names.
    private static readonly ImmutableHashSet<string> DeviceNames = ImmutableHashSet.CreateRange(
        StringComparer.Ordinal,
        ["con", "prn", "aux", "nul", .. Enumerable.Range(0, 10).SelectMany(n => new[]
        {
            "com" + n.ToString(CultureInfo.InvariantCulture), "lpt" + n.ToString(CultureInfo.InvariantCulture),
        })]);

    private int _items;
    private long _marks;

    public string FileName => fileName;

    public List<Finding> Findings { get; } = [];

    public NamedInks Inks { get; set; } = NamedInks.Usual;

    /// <summary>Whether the panel that is being read has a black field; on any other, the ink <c>black</c> is an ink of its own.</summary>
    public bool FieldIsBlack { get; set; } = true;

    public PartCatalogue Parts { get; set; } = PartCatalogue.BuiltIn;

    /// <summary>Meters whose pointer a small current moves: the listed one, and those of the desk that are like it.</summary>
    public HashSet<string> Pointers { get; } = new(StringComparer.Ordinal) { "meter-round-45" };

    public SortedSet<string> OwnFonts { get; } = new(StringComparer.Ordinal);

    /// <summary>Counts copies; false once there are too many (said once).</summary>
    public bool Count(int copies, SourceSpan span)
    {
        var before = _items;
        _items = Math.Min(_items + copies, MostItems + 1);
        if (_items <= MostItems)
        {
            return true;
        }

        if (before <= MostItems)
        {
            Findings.Add(Finding.Stop(
                "items-too-many",
                $"a desk may have {MostItems} items, copies counted; this one has more",
                "split it into several desks, or check `row` and `grid`",
                span));
        }

        return false;
    }

    /// <summary>Counts what there is to draw; false once it is too much (said once).</summary>
    public bool CountMarks(long marks, SourceSpan span)
    {
        var before = _marks;
        _marks = Math.Min(_marks + marks, MostMarks + 1);
        if (_marks <= MostMarks)
        {
            return true;
        }

        if (before <= MostMarks)
        {
            Findings.Add(Finding.Stop(
                "marks-too-many",
                $"a desk may have {MostMarks} letters, strokes of dials and corners of lines, copies counted (a hole counts ten); this one has more",
                "split it into several desks, or check `row`, `grid` and the steps of dials",
                span));
        }

        return false;
    }

    /// <summary>Takes at most so many of a kind of tables, and says where there are more.</summary>
    public ImmutableArray<TableReader> AtMost(int most, string what, ImmutableArray<TableReader> tables)
    {
        if (tables.Length <= most)
        {
            return tables;
        }

        Findings.Add(Finding.Stop("items-too-many", $"a desk may have {most} {what}; this one has {tables.Length}", "split it into several desks", tables[most].Span));
        return tables[..most];
    }

    /// <summary>Reads an id, or makes one from what the thing is and its number; ids are unique among <paramref name="taken"/>.</summary>
    public string Id(TableReader table, string kind, int number, SortedSet<string> taken)
    {
        var fallback = string.Create(CultureInfo.InvariantCulture, $"{kind}-{number}");
        var id = table.Text("id");
        if (id is not null && Problem(id) is { } problem)
        {
            Findings.Add(Finding.Stop(
                "id-form", $"the id {Shown.Code(id)} {problem}", "ids are made of a-z, 0-9 and -, such as `dome-shutter`; upper case is not used", table.SpanOf("id")));
            id = null;
        }

        if (id is not null && !taken.Add(id))
        {
            Findings.Add(Finding.Stop("id-twice", $"the id `{id}` is used twice here", "give every item an id of its own", table.SpanOf("id"), id));
            id = null;
        }

        if (id is not null)
        {
            return id;
        }

        while (!taken.Add(fallback))
        {
            fallback += "x";
        }

        return fallback;
    }

    private static string? Problem(string id)
    {
        if (id.Length > 40)
        {
            return "is longer than 40 characters";
        }

        if (id.Any(letter => letter is not ((>= 'a' and <= 'z') or (>= '0' and <= '9') or '-')))
        {
            return "has characters that an id can't have";
        }

        return DeviceNames.Contains(id) ? "is a name that some computers keep for a device" : null;
    }
}
