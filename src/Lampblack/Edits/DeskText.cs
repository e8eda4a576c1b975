using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>A desk file's text with its tables and what they are called.</summary>
internal sealed class DeskText
{
    /// <summary>Kinds of items, in the order in which the reader names them.</summary>
    public static readonly ImmutableArray<string> Kinds = ["art", "area", "rule", "dial", "control", "legend"];

    private readonly Pieces _pieces;

    private DeskText(string fileName, Pieces pieces, Checked<TableNode>? known)
    {
        _pieces = pieces;
        var text = pieces.Text;
        Places = new(fileName, text);
        Bytes = [.. Encoding.UTF8.GetBytes(text)];
        var tree = known ?? TomlText.Read(fileName, Bytes.AsSpan());
        Tree = tree;
        Root = tree.Value;
        Faults = tree.Findings;
        Layout = new(this);
        var reading = new DeskReading(fileName);
        var taken = new SortedSet<string>(StringComparer.Ordinal);
        Panels = [.. Tables(Root, "panel").Select((table, number) => PanelOf(table, number, reading, taken))];
    }

    /// <summary>The text, without byte-order mark.</summary>
    public string Text => Places.Text;

    /// <summary>The same as bytes.</summary>
    public ImmutableArray<byte> Bytes { get; }

    public Places Places { get; }

    /// <summary>The file's table with what its reader says of it.</summary>
    public Checked<TableNode> Tree { get; }

    /// <summary>The file's table.</summary>
    public TableNode Root { get; }

    /// <summary>What the text's reader says of it.</summary>
    public ImmutableArray<Finding> Faults { get; }

    /// <summary>Where its tables lie.</summary>
    public TableLayout Layout { get; }

    /// <summary>Its panels.</summary>
    public ImmutableArray<PanelEntry> Panels { get; }

    /// <summary>The plates that panels are cut from, by the names that the desk's reader gives them.</summary>
    public IEnumerable<(string Id, TableNode Table)> Plates => Tables(Root, "stock").Select((table, index) =>
        (table.Find("id") is TextNode id ? id.Value : string.Create(CultureInfo.InvariantCulture, $"plate-{index + 1}"), table));

    /// <summary>A text that nothing was changed in yet.</summary>
    /// <param name="fileName">Its file's name for findings.</param>
    /// <param name="text">The text, without byte-order mark.</param>
    /// <param name="known">Its tables, where they are read already.</param>
    public static DeskText Of(string fileName, string text, Checked<TableNode>? known = null) => new(fileName, Pieces.Of(text), known);

    /// <summary>The text with stretches exchanged, read anew.</summary>
    public DeskText With(IEnumerable<Splice> splices) => new(Places.Span(0, 0).File, _pieces.With(splices), null);

    /// <summary>What was changed since the beginning.</summary>
    /// <param name="mark">How many bytes stand before the text.</param>
    public ImmutableArray<ByteChange> Changes(int mark) => _pieces.Changes(mark);

    /// <summary>The item at a place.</summary>
    public ItemEntry At(ItemPlace place) => Panels[place.Panel].Items.First(item => item.Place == place);

    /// <summary>What an item is called.</summary>
    public string AddressOf(ItemEntry item) => $"{Panels[item.Panel].Id}/{item.Id}";

    /// <summary>What an address leads to; null where there is no such thing.</summary>
    public Target? Find(string address)
    {
        var parts = address.Split('/', 2);
        var panel = Panels.FirstOrDefault(panel => panel.Id == parts[0]);
        if (parts.Length == 1)
        {
            return address.Length == 0 ? new(Root) : panel is not null ? new(panel.Table, panel)
                : Root.Find(address) is TableNode top ? new(top)
                : PlatesOf(address);
        }

        if (panel is null)
        {
            return null;
        }

        if (panel.Items.FirstOrDefault(item => item.Id == parts[1]) is { } found)
        {
            return new(found.Table, panel, found);
        }

        if (Numbered(parts[1], '.') is var (id, copy) && panel.Items.FirstOrDefault(item => item.Id == id) is { } row)
        {
            return new(row.Table, panel, row, copy);
        }

        return Numbered(parts[1], '-') is ("fixing", var hole) && panel.Table.Find("fixings") is TableNode fixings ? new(fixings, panel, Fixing: hole) : null;
    }

    /// <summary>All tables under a key, by headers or between braces.</summary>
    private static IEnumerable<TableNode> Tables(TableNode table, string key) => table.Find(key) is ListNode list ? list.Items.OfType<TableNode>() : [];

    /// <summary>What <c>stock[2]</c> leads to; an id has no brackets, so that no panel is called so.</summary>
    private Target? PlatesOf(string address) =>
        address.StartsWith("stock[", StringComparison.Ordinal) && address.EndsWith(']') && int.TryParse(address.AsSpan(6..^1), NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            && Plates.ElementAtOrDefault(number - 1) is { Table: { } table } plates ? new(table, Plates: plates.Id) : null;

    private static PanelEntry PanelOf(TableNode table, int number, DeskReading reading, SortedSet<string> taken)
    {
        var id = reading.Id(new(table, "panel", reading.Findings), "panel", number + 1, taken);
        var ids = new SortedSet<string>(StringComparer.Ordinal);
        return new(number, id, table, [.. Kinds.SelectMany(kind => Tables(table, kind).Select((item, index) =>
            new ItemEntry(number, kind, index, reading.Id(new(item, kind, reading.Findings), kind, index + 1, ids), item)))]);
    }

    private static (string Name, int Number)? Numbered(string word, char mark)
    {
        var at = word.LastIndexOf(mark);
        return at > 0 && int.TryParse(word.AsSpan(at + 1), NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number > 0
            ? (word[..at], number)
            : null;
    }
}
