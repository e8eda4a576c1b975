using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>Turns items that can be turned.</summary>
internal static class Turning
{
    private static readonly string[] Kinds = ["control", "legend", "art"];

    public static bool Make(EditWork work, TurnItems edit)
    {
        var items = new List<ItemEntry>();
        foreach (var address in edit.Items)
        {
            if (work.Item(address) is not { Item: { } item })
            {
                return false;
            }

            if (items.Contains(item))
            {
                continue;
            }

            if (!Kinds.Contains(item.Kind))
            {
                return work.Refuse($"{Shown.Code(address)} is {Article(item.Kind)}, which has no `turn`", "controls, legends and artwork can be turned; move the places of the others", item.Table.Span, address);
            }

            items.Add(item);
            var entry = item.Table.FindEntry("turn");
            if (entry is { Value: not NumberNode } || !double.IsFinite(edit.ByDegrees))
            {
                return work.RefuseForm("`turn`", entry?.Value.Span ?? item.Table.Span, address);
            }

            var old = (entry?.Value as NumberNode)?.Value ?? 0;
            var now = Within(old + edit.ByDegrees);
            if (now.Equals(Within(old)))
            {
                work.Touch(item, writeId: false);
                continue;
            }

            var value = new KeyNumber(now);
            work.Add(entry is null
                ? [new KeyWriter(work.Desk).Insert(item.Table, "turn", TomlWriting.Value(value, TomlWriting.LengthDecimals)!, "at")]
                : new ValueWriter(work.Desk).Replace(entry.Value, value, TomlWriting.LengthDecimals)!);
            work.Touch(item);
        }

        var by = Within(edit.ByDegrees);
        work.Words = $"{EditWords.Name([.. items])} turned {Shown.Number(Math.Abs(by))} degrees {(by < 0 ? "left" : "right")}";
        return true;
    }

    /// <summary>The same angle, above -180 and up to 180 degrees.</summary>
    private static double Within(double degrees)
    {
        var rest = Math.Round(Math.IEEERemainder(degrees, 360), TomlWriting.LengthDecimals, MidpointRounding.AwayFromZero);
        return rest <= -180 ? rest + 360 : rest + 0.0;
    }

    private static string Article(string kind) => kind == "area" ? "an area" : $"a {kind}";
}
