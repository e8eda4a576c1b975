using System.Collections.Generic;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>Moves items with all their places.</summary>
internal static class Moving
{
    private static readonly string[] Places = ["line", "arrow", "bracket", "corners"];

    private static readonly string[] Starts = ["at", "arc", "box", "disc"];

    public static bool Make(EditWork work, MoveItems edit, Desk desk)
    {
        var done = new Dictionary<ItemPlace, ItemMove>();
        var items = new List<ItemEntry>();
        foreach (var move in edit.Moves)
        {
            if (work.Find(move.Item) is not { } target)
            {
                return false;
            }

            if (target.Fixing is not null)
            {
                // All holes of a panel together: they stand in one list.
                continue;
            }

            if (target.Item is not { } item)
            {
                return work.Refuse($"{Shown.Code(move.Item)} is no item of a panel, and has no place of its own", "name it as `panel/item`", item: move.Item);
            }

            if (done.TryGetValue(item.Place, out var earlier))
            {
                if ((earlier.DxMm, earlier.DyMm) != (move.DxMm, move.DyMm))
                {
                    return work.Refuse($"{Shown.Code(work.Desk.AddressOf(item))} is to be moved in two ways", "copies of a row move together", item: move.Item);
                }

                continue;
            }

            done[item.Place] = move;
            items.Add(item);
            if (Shift(work.Desk, item, move.DxMm, move.DyMm) is not { } splices)
            {
                return work.RefuseForm("the place", item.Table.Span, work.Desk.AddressOf(item));
            }

            work.Add(splices);
            work.Touch(item, splices.Count > 0);
        }

        if (!Fixings.Move(work, edit, desk, out var holes))
        {
            return false;
        }

        var ways = edit.Moves.Select(move => EditWords.Way(move.DxMm, move.DyMm)).Distinct().ToList();
        var who = items.Count > 0 ? EditWords.Name(items) + (holes > 0 ? " and fixings" : string.Empty) : holes == 1 ? "fixing" : "fixings";
        work.Words = ways.Count == 1 ? $"{who} moved {ways[0]}" : $"{who} moved";
        return true;
    }

    /// <summary>The splices that move an item; null where it can't be done.</summary>
    public static IReadOnlyList<Splice>? Shift(DeskText desk, ItemEntry item, double dxMm, double dyMm)
    {
        var (writer, splices) = (new ValueWriter(desk), new List<Splice>());
        var found = false;
        foreach (var entry in item.Table.Entries)
        {
            var moved = Starts.Contains(entry.Key) ? writer.ShiftPlace(entry.Value, dxMm, dyMm)
                : Places.Contains(entry.Key) ? writer.ShiftPlaces(entry.Value, dxMm, dyMm)
                : [];
            if (moved is null)
            {
                return null;
            }

            found |= Starts.Contains(entry.Key) || Places.Contains(entry.Key);
            splices.AddRange(moved);
        }

        if (found)
        {
            return splices;
        }

        // Artwork lies in the panel's corner where nothing else is said.
        return item.Kind == "art" && TomlWriting.Value(new KeyList([new KeyNumber(dxMm), new KeyNumber(dyMm)]), TomlWriting.LengthDecimals) is { } place
            ? [new KeyWriter(desk).Insert(item.Table, "at", place, "file")]
            : null;
    }
}
