using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.SourceText;

namespace Lampblack.Jobs;

/// <summary>How a fact of an item is written.</summary>
public enum FactKind
{
    /// <summary>Words in one or several lines.</summary>
    Words,

    /// <summary>Words one after the other, parted by commas.</summary>
    WordList,

    /// <summary>One of several words.</summary>
    Choice,

    /// <summary>A length: a number of mm, or a number with a unit.</summary>
    Length,

    /// <summary>A place or size: two lengths, parted by a comma.</summary>
    TwoLengths,

    /// <summary>A plain number.</summary>
    Number,

    /// <summary>Yes or no.</summary>
    Flag,

    /// <summary>Coloured stretches of a scale: <c>8 to 10 amber</c>, parted by commas.</summary>
    Ranges,
}

/// <summary>A fact of an item as it stands in the desk file, and how it may be changed.</summary>
/// <param name="Key">Its key, such as <c>height</c> or <c>dial.from</c>.</param>
/// <param name="Label">What it is, for people.</param>
/// <param name="Value">As it is written; empty where it is left out.</param>
/// <param name="Kind">How it is written.</param>
/// <param name="Choices">The words to choose from; empty where anything may be written.</param>
/// <param name="Usual">What holds where it is left out; empty where nothing does.</param>
public sealed record ItemFact(string Key, string Label, string Value, FactKind Kind, ImmutableArray<string> Choices, string Usual);

/// <summary>Reads an item's facts out of the desk file.</summary>
internal static class ItemFacts
{
    private static readonly ImmutableArray<string> Roles = ["lit", "unlit", "hidden"];
    private static readonly ImmutableArray<string> Sides = ["above", "below", "left", "right"];

    /// <summary>The facts of an item; empty where there is none of that address.</summary>
    /// <param name="root">The desk file.</param>
    /// <param name="laid">The same, laid out.</param>
    /// <param name="tableAddress">Panel id, '/', item id.</param>
    public static ImmutableArray<ItemFact> Of(TableNode root, Layout.LaidDesk laid, string tableAddress)
    {
        var parts = tableAddress.Split('/', 2);
        var panel = laid.Desk.Panels.FirstOrDefault(panel => panel.Id == parts[0]);
        var item = parts.Length == 2 ? panel?.Items.FirstOrDefault(item => item.Id == parts[1]) : null;
        if (item is null || Tables(root).FirstOrDefault(table => table.Span == item.Span) is not { } table)
        {
            return [];
        }

        return [.. Plan(item, laid.Desk).Select(fact => fact with { Value = Written(table, fact.Key) })];
    }

    /// <summary>The facts of a panel itself: name, size, corners, the screws that hold it; empty where there is no such panel.</summary>
    /// <param name="root">The desk file.</param>
    /// <param name="laid">The same, laid out.</param>
    /// <param name="panelId">The panel.</param>
    public static ImmutableArray<ItemFact> OfPanel(TableNode root, Layout.LaidDesk laid, string panelId)
    {
        if (laid.Desk.Panels.FirstOrDefault(panel => panel.Id == panelId) is not { } panel || Tables(root).FirstOrDefault(table => table.Span == panel.Span) is not { } table)
        {
            return [];
        }

        return
        [
            .. new[]
            {
                Fact("title", "name", FactKind.Words, panelId),
                Fact("size", "width, height", FactKind.TwoLengths),
                Fact("corner", "corners' radius", FactKind.Length, "0"),
                Choice("fixings.part", "held by screws", [.. laid.Desk.Parts.All.Where(part => part.Class == Parts.PartClass.Screw).Select(part => part.Id)], string.Empty),
                Fact("fixings.inset", "screws from the edges", FactKind.Length),
            }.Select(fact => fact with { Value = Written(table, fact.Key) }),
        ];
    }

    /// <summary>The facts of the desk that change how it looks: its name and its lamps.</summary>
    public static ImmutableArray<ItemFact> OfDesk(TableNode root)
    {
        return
        [
            .. new[]
            {
                Fact("title", "name of the desk", FactKind.Words),
                Choice("lighting.colour", "lamps", ["warm-white", "cool-white", "red", "amber", "green", "blue"], "warm-white"),
            }.Select(fact => fact with { Value = Written(root, fact.Key) }),
        ];
    }

    /// <summary>The facts of the desk that decide whether it can be built and handled: how it is used, its stack, the maker's drills and plates.</summary>
    public static ImmutableArray<ItemFact> OfBench(TableNode root)
    {
        return
        [
            .. new[]
            {
                Choice("order", "order of work", ["A", "B", "C"], "A"),
                Fact("stack.plate", "thickness of the plate", FactKind.Length, "3"),
                Fact("lighting.depth", "room behind it", FactKind.Length),
                Fact("use.distance", "eyes to panel", FactKind.Length, "635"),
                Choice("use.hands", "hands at once", ["one", "two"], "one"),
                Fact("use.gloves", "gloves", FactKind.Flag, "no"),
                Fact("bench.drills", "drills", FactKind.WordList, "metric"),
                Fact("bench.drill-error", "holes wander by", FactKind.Length, "0.5"),
            }.Select(fact => fact with { Value = Written(root, fact.Key) }),
        ];
    }

    private static IEnumerable<ItemFact> Plan(PanelItem item, Desk desk)
    {
        ImmutableArray<string> inks = [.. desk.Inks.Names, "black", NamedInks.FieldWord];
        IEnumerable<ItemFact> style = [Choice("role", "glows", Roles, item is FilledArea ? "unlit" : "lit"), Choice("ink", "ink", inks, "white")];
        IEnumerable<ItemFact> copies = item.Copies switch
        {
            { Count: 1 } => [],
            { Rows: 1 } => [Fact("row.count", "how many", FactKind.Number), Fact("row.step", "step", FactKind.TwoLengths)],
            _ => [Fact("grid.columns", "across", FactKind.Number), Fact("grid.rows", "down", FactKind.Number), Fact("grid.step", "steps", FactKind.TwoLengths)],
        };
        IEnumerable<ItemFact> own = item switch
        {
            Control control =>
            [
                Fact(control.Copies.Count > 1 ? "legends" : "legend", "legend", control.Copies.Count > 1 ? FactKind.WordList : FactKind.Words),
                Choice("part", "part", [.. desk.Parts.All.Where(part => part.Class != Parts.PartClass.Screw).Select(part => part.Id)], string.Empty),
                .. control.Part.PositionDegrees.IsEmpty ? Array.Empty<ItemFact>() : [Fact("states", "states", FactKind.WordList)],
                Place, Turn, Choice("side", "legend stands", Sides, "above"),
                Fact("gap", "gap", FactKind.Length, "2.2"),
                Fact("height", "height of capitals", FactKind.Length),
                .. control.Dial is null ? Array.Empty<ItemFact>() : Scale("dial."),
            ],
            Legend legend =>
            [
                Fact(legend.Texts.Length > 1 ? "texts" : "text", "words", legend.Texts.Length > 1 ? FactKind.WordList : FactKind.Words),
                Place, Turn, Choice("align", "held at", ["left", "centre", "right"], "centre"),
                Fact("height", "height of capitals", FactKind.Length),
                Fact("spacing", "letter spacing", FactKind.Length),
            ],
            FreeDial => [Place, .. Scale(string.Empty), Fact("radius", "radius", FactKind.Length)],
            Rule => [Fact("title", "title", FactKind.Words), Fact("width", "width of line", FactKind.Length)],
            ArtItem => [Place, Fact("width", "width", FactKind.Length), Fact("height", "height", FactKind.Length), Turn],
            _ => [],
        };
        return [.. own, .. copies, .. style];
    }

    private static ItemFact Place => Fact("at", "place", FactKind.TwoLengths);

    private static ItemFact Turn => Fact("turn", "turned", FactKind.Number, "0");

    private static IEnumerable<ItemFact> Scale(string before) =>
    [
        Fact($"{before}from", "scale from", FactKind.Number), Fact($"{before}to", "scale to", FactKind.Number),
        Fact($"{before}major", "numbered every", FactKind.Number), Fact($"{before}minor", "marks every", FactKind.Number),
        Fact($"{before}ranges", "ranges", FactKind.Ranges),
    ];

    internal static ItemFact Fact(string key, string label, FactKind kind, string usual = "") => new(key, label, string.Empty, kind, [], usual);

    internal static ItemFact Choice(string key, string label, ImmutableArray<string> choices, string usual) => new(key, label, string.Empty, FactKind.Choice, choices, usual);

    /// <summary>A key's value as one types it; keys of tables in the table are parted by points.</summary>
    internal static string Written(TableNode table, string key)
    {
        var names = key.Split('.');
        Node? at = table;
        foreach (var name in names)
        {
            at = (at as TableNode)?.Find(name);
        }

        return Written(at);
    }

    private static string Written(Node? node) => node switch
    {
        TextNode text => text.Value,
        NumberNode number => number.Written,
        FlagNode flag => flag.Value ? "yes" : "no",
        TableNode range => $"{Written(range.Find("from"))} to {Written(range.Find("to"))} {Written(range.Find("ink"))}".TrimEnd(),
        ListNode list => string.Join(", ", list.Items.Select(Written)),
        _ => string.Empty,
    };

    internal static IEnumerable<TableNode> Tables(TableNode table) => table.Entries.SelectMany(entry => entry.Value switch
    {
        TableNode inner => Tables(inner).Prepend(inner),
        ListNode list => list.Items.OfType<TableNode>().SelectMany(inner => Tables(inner).Prepend(inner)),
        _ => [],
    });
}
