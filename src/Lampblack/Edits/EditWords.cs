using System;
using System.Linq;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>Says what was done.</summary>
internal static class EditWords
{
    /// <summary>What people call an item: by its words, else by its id.</summary>
    public static string Name(ItemEntry item)
    {
        foreach (var key in new[] { "legend", "text", "title" })
        {
            var words = item.Table.Find(key) switch
            {
                TextNode text => text.Value,
                ListNode lines => string.Join(' ', lines.Items.OfType<TextNode>().Select(line => line.Value)),
                _ => string.Empty,
            };
            if (Shown.Short(words.Replace('\n', ' ').Trim()) is { Length: > 0 } name)
            {
                return name;
            }
        }

        return item.Id;
    }

    /// <summary>One item by its name, several by their number.</summary>
    public static string Name(params System.Collections.Generic.IReadOnlyList<ItemEntry> items) => items.Count == 1 ? Name(items[0]) : FormattableString.Invariant($"{items.Count} items");

    /// <summary>How far: <c>3 mm right and 2 mm up</c>.</summary>
    public static string Way(double dxMm, double dyMm)
    {
        var right = Part(dxMm, "right", "left");
        var up = Part(dyMm, "up", "down");
        return right is null ? up ?? "by nothing" : up is null ? right : $"{right} and {up}";
    }

    private static string? Part(double mm, string more, string less) => Shown.Mm(Math.Abs(mm)) is var far && far == "0 mm" ? null : $"{far} {(mm < 0 ? less : more)}";
}
