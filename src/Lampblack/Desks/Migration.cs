using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Brings older desk files to the current format, on the read tree; the maker's text is not touched.</summary>
internal static class Migration
{
    /// <summary>The format this version reads and writes.</summary>
    public const int Current = 1;

    /// <summary>The tree in the current format, and whether it can be read at all.</summary>
    public static (TableNode Table, bool Readable) ToCurrent(TableNode root, DeskReading reading)
    {
        switch (root.Find("lampblack"))
        {
            case NumberNode { IsInteger: true, Value: Current }:
                return (root, true);
            case NumberNode { IsInteger: true, Value: 0 } old:
                reading.Findings.Add(Finding.Note(
                    "format-migrated",
                    "the file is of format 0 and was read as format 1: `name` is now `title`, and a panel's `width` and `height` are now `size`",
                    "change the file when you next edit it, and set `lampblack = 1`",
                    old.Span));
                return (FromZero(root), true);
            case NumberNode { Value: > Current } newer:
                reading.Findings.Add(Finding.Stop(
                    "format-newer",
                    string.Create(CultureInfo.InvariantCulture, $"the file is of format {newer.Written}, and this version of Lampblack reads up to {Current}"),
                    "get the newer Lampblack that wrote it",
                    newer.Span));
                return (root, false);
            case null when root.Entries.IsEmpty && reading.Findings.Any(finding => finding.Severity == Severity.Stop):
                return (root, false);
            case var other:
                reading.Findings.Add(Finding.Stop(
                    "format-missing",
                    other is null ? "the file does not say of which format it is" : "`lampblack` must be a whole number, the file's format",
                    "make `lampblack = 1` its first line",
                    other?.Span ?? new SourceSpan(reading.FileName, 0, 0, 1, 1)));
                return (root, true);
        }
    }

    private static TableNode FromZero(TableNode root) => root with
    {
        Entries = [.. root.Entries.Select(entry => entry switch
        {
            { Key: "name" } => entry with { Key = "title" },
            { Key: "panel", Value: ListNode panels } => entry with
            {
                Value = panels with { Items = [.. panels.Items.Select(item => item is TableNode panel ? SizeOf(panel) : item)] },
            },
            _ => entry,
        })],
    };

    private static TableNode SizeOf(TableNode panel)
    {
        var width = panel.Entries.FirstOrDefault(entry => entry.Key == "width");
        var height = panel.Entries.FirstOrDefault(entry => entry.Key == "height");
        if (width is null || height is null)
        {
            return panel;
        }

        var rest = panel.Entries.Where(entry => entry != width && entry != height);
        var size = new Entry("size", width.KeySpan, new ListNode([width.Value, height.Value], width.Value.Span));
        return panel with { Entries = [size, .. rest] };
    }
}
