using System.Collections.Generic;
using System.Linq;
using Lampblack.Desks;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>Moves and removes single holes of those that hold a panel. What was an inset at all four corners becomes a list of places.</summary>
internal static class Fixings
{
    /// <summary>Moves the holes among an edit's moves.</summary>
    public static bool Move(EditWork work, MoveItems edit, Desk desk, out int holes)
    {
        holes = 0;
        foreach (var panel in edit.Moves.Select(move => (Move: move, Target: work.Desk.Find(move.Item)!)).Where(each => each.Target.Fixing is not null).GroupBy(each => each.Target.Panel!.Number))
        {
            var target = panel.First().Target;
            var moves = panel.DistinctBy(each => each.Target.Fixing).ToDictionary(each => each.Target.Fixing!.Value - 1, each => each.Move);
            holes += moves.Count;
            var places = PlacesOf(desk, target.Panel!);
            if (places is null || moves.Keys.Max() >= places.Count)
            {
                return work.Refuse($"`{target.Panel!.Id}` has no such fixing", "its fixings are numbered from 1, in the order of `at`", target.Table.Span, panel.First().Move.Item);
            }

            if (target.Table.Find("at") is ListNode list)
            {
                var writer = new ValueWriter(work.Desk);
                foreach (var (number, move) in moves)
                {
                    if (number >= list.Items.Length || writer.ShiftPlace(list.Items[number], move.DxMm, move.DyMm) is not { } splices)
                    {
                        return work.RefuseForm("the place", target.Table.Span, move.Item);
                    }

                    work.Add(splices);
                }

                continue;
            }

            Write(work, target.Table, [.. places.Select((place, number) =>
                moves.TryGetValue(number, out var move) ? (place.XMm + move.DxMm, place.YMm + move.DyMm) : place)]);
        }

        return true;
    }

    /// <summary>Takes single holes away; with the last one all of <c>fixings</c> goes.</summary>
    public static bool Remove(EditWork work, IReadOnlyList<Target> holes, Desk desk)
    {
        foreach (var panel in holes.GroupBy(target => target.Panel!.Number))
        {
            var target = panel.First();
            var gone = panel.Select(each => each.Fixing!.Value - 1).ToHashSet();
            var places = PlacesOf(desk, target.Panel!);
            if (places is null || gone.Max() >= places.Count)
            {
                return work.Refuse($"`{target.Panel!.Id}` has no such fixing", "its fixings are numbered from 1, in the order of `at`", target.Table.Span, target.Panel.Id);
            }

            if (gone.Count == places.Count)
            {
                var owner = target.Panel!.Table;
                if (new KeyWriter(work.Desk).Remove(owner, owner.FindEntry("fixings")!) is not { } all)
                {
                    return work.RefuseForm("`fixings`", target.Table.Span, target.Panel.Id);
                }

                work.Add(all);
            }
            else if (target.Table.Find("at") is ListNode list)
            {
                if (list.Items.Length != places.Count || InlineLists.Remove(work.Desk, list, gone) is not { } splices)
                {
                    return work.RefuseForm("the list of places", target.Table.Span, target.Panel!.Id);
                }

                work.Add(splices);
            }
            else
            {
                Write(work, target.Table, [.. places.Where((_, number) => !gone.Contains(number))]);
            }
        }

        return true;
    }

    /// <summary>The holes of a panel as they were read; null where there are none.</summary>
    public static IReadOnlyList<(double XMm, double YMm)>? PlacesOf(Desk desk, PanelEntry panel) =>
        desk.Panels.FirstOrDefault(read => read.Id == panel.Id)?.Fixings is { } fixings ? fixings.PlacesMm : null;

    /// <summary>Puts a list of places where an inset stands.</summary>
    private static void Write(EditWork work, TableNode table, IReadOnlyList<(double XMm, double YMm)> places)
    {
        var entry = table.FindEntry("inset")!;
        var list = new KeyList([.. places.Select(place => new KeyList([new KeyNumber(place.XMm), new KeyNumber(place.YMm)]))]);
        work.Add(Splice.At(entry.KeySpan, "at"), Splice.At(entry.Value.Span, TomlWriting.Value(list, TomlWriting.LengthDecimals)!));
    }
}
