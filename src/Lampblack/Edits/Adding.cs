using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>Adds items and panels.</summary>
internal static class Adding
{
    public static bool Make(EditWork work, AddItem edit)
    {
        if (work.Desk.Panels.FirstOrDefault(panel => panel.Id == edit.Panel) is not { } panel)
        {
            return work.Refuse($"there is no panel {Shown.Code(edit.Panel)}", "name one of the desk's panels", item: edit.Panel);
        }

        if (!DeskText.Kinds.Contains(edit.Kind))
        {
            return work.Refuse($"{Shown.Code(edit.Kind)} is no kind of item", "one of " + Shown.List(DeskText.Kinds), item: edit.Panel);
        }

        ImmutableArray<(string Key, KeyValue Value)> keys =
            edit.Keys.Any(key => key.Key == "id") ? edit.Keys : [("id", KeyValue.Of(FreshId(panel, edit.Kind))), .. edit.Keys];
        if (Lines(keys) is not { } lines)
        {
            return work.Refuse("a value holds a number that can't be written, or a key can't be read", "a number is at most 1,000,000,000", item: edit.Panel);
        }

        work.Add(Placed(work.Desk, panel, edit.Kind, lines));
        var place = new ItemPlace(panel.Number, edit.Kind, panel.Items.Count(item => item.Kind == edit.Kind));
        work.Step();
        if (work.Desk.Panels[panel.Number].Items.FirstOrDefault(item => item.Place == place) is not { } made)
        {
            return work.RefuseForm("the table", panel.Table.Span, panel.Id);
        }

        work.Touch(made);
        work.Words = $"{edit.Kind} {EditWords.Name(made)} added";
        return true;
    }

    /// <summary>The first name of a kind, or after a given one, that is free on a panel.</summary>
    public static string FreshId(PanelEntry panel, string kind, IReadOnlySet<string>? alsoTaken = null)
    {
        var number = panel.Items.Count(item => item.Kind == kind);
        string id;
        do
        {
            id = string.Create(CultureInfo.InvariantCulture, $"{kind}-{++number}");
        }
        while (panel.Items.Any(item => item.Id == id) || alsoTaken?.Contains(id) == true);
        return id;
    }

    /// <summary>A table's lines <c>key = value</c>; null where one can't be written.</summary>
    public static IReadOnlyList<string>? Lines(IEnumerable<(string Key, KeyValue Value)> keys)
    {
        var lines = keys.Select(key => (Path: KeyPath.Read(key.Key), key.Value))
            .Select(key => !key.Path.IsEmpty && TomlWriting.Value(key.Value, TomlWriting.DecimalsOf(key.Path[^1])) is { } value
                ? $"{string.Join('.', key.Path.Select(TomlWriting.Key))} = {value}"
                : null)
            .ToList();
        return lines.Contains(null) ? null : [.. lines.Select(line => line!)];
    }

    /// <summary>Adds a table to a panel, in the way in which its others are written.</summary>
    private static Splice Placed(DeskText desk, PanelEntry panel, string kind, IReadOnlyList<string> lines)
    {
        var braces = $"{{ {string.Join(", ", lines)} }}";
        if (panel.Table.Find(kind) is ListNode list && !desk.Layout.IsHeaded(list))
        {
            return InlineLists.Append(desk, list, braces);
        }

        if (panel.Table.Inline)
        {
            return new KeyWriter(desk).Insert(panel.Table, kind, $"[{braces}]");
        }

        var layout = desk.Layout;
        var last = layout.HeadersIn(panel.Table)[^1];
        var own = Headed(desk, panel);
        var like = own ?? desk.Panels.Select(other => Headed(desk, other)).FirstOrDefault(other => other is not null);
        var indent = like is null ? layout.Indent(panel.Table.Span.Offset) + "  " : layout.Indent(like.Span.Offset);
        var keyIndent = like?.Entries.FirstOrDefault(entry => !layout.IsHeaded(entry.Value)) is { } first ? layout.Indent(first.KeySpan.Offset) : indent;
        var isDense = own is not null && layout.BlockStart(own) is > 0 and var above && !string.IsNullOrWhiteSpace(layout.Line(above - 1));
        return Below(desk, layout.BlockEnd(last), isDense, [$"{indent}[[panel.{kind}]]", .. lines.Select(line => keyIndent + line)]);
    }

    /// <summary>Lines below a place, with a blank one before them unless the file is written densely.</summary>
    public static Splice Below(DeskText desk, int end, bool isDense, IEnumerable<string> lines)
    {
        var lineBreak = desk.Layout.Break(end);
        return new(end, 0, (isDense ? string.Empty : lineBreak) + string.Concat(lines.Select(line => lineBreak + line)));
    }

    /// <summary>A table of the desk under a header of its own, before the first header.</summary>
    public static Splice TopTable(DeskText desk, IEnumerable<string> lines)
    {
        var lineBreak = desk.Layout.Break(0);
        var (text, first) = (string.Join(lineBreak, lines), desk.Layout.FirstHeader);
        return first < desk.Text.Length
            ? new(desk.Layout.BlockStartAt(first), 0, text + lineBreak + lineBreak)
            : new(desk.Text.TrimEnd().Length, 0, lineBreak + lineBreak + text);
    }

    /// <summary>The last item of a panel that has a header.</summary>
    private static TableNode? Headed(DeskText desk, PanelEntry panel) =>
        panel.Items.Select(item => item.Table).Where(table => desk.Layout.FormOf(table) == TableForm.Header).MaxBy(table => table.Span.Offset);
}
