using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Edits;
using Lampblack.Findings;
using Lampblack.Wiring;

namespace Lampblack.Jobs;

/// <summary>What an edit costs, in the few words that stand near the hand before it is made.</summary>
internal static class EditPrice
{
    private const string Print = "a new print";
    private const string Hole = "a new print and a new hole";
    private const string Plate = "a new plate";

    /// <summary>The words; none where the edit is refused or changes nothing.</summary>
    /// <param name="source">The desk file.</param>
    /// <param name="edit">The edit.</param>
    /// <param name="lastWiring">The plan file of the last build that planned wires; empty where nothing is wired yet.</param>
    public static string Words(DeskSource source, DeskEdit edit, ImmutableArray<byte> lastWiring)
    {
        var result = EditRun.Apply(source.Name, source.Bytes, edit);
        if (result.IsRefused || result.Changes.IsEmpty)
        {
            return string.Empty;
        }

        var (before, after) = (ReadDesk.Of(source.Name, source.Bytes).Desk.Value, ReadDesk.Of(source.Name, result.Bytes).Desk.Value);
        var wires = IsOtherWiring(edit) && WiringPlanFile.Read(lastWiring).Value is not null ? OtherWires(source, source with { Bytes = result.Bytes }) : [];
        return wires.Count == 0 ? Made(before, after) : $"{Made(before, after)}; other wires for {Shown.List(wires)}";
    }

    /// <summary>What has to be printed, drilled or cut anew. Without a record of what is drilled there is nothing that a print would not do.</summary>
    private static string Made(Desk before, Desk after)
    {
        var cost = EditCost.Of(before, after);
        return !cost.Plates.IsEmpty ? Plate : !cost.Holes.IsEmpty && IsDrilled(before) ? Hole : Print;
    }

    private static bool IsDrilled(Desk desk) => desk.Panels.SelectMany(panel => panel.Items.OfType<Control>()).Any(control => control.Drilled is not null);

    /// <summary>Whether an edit may change who is wired how; what only moves or turns keeps its wires, long as they were cut.</summary>
    private static bool IsOtherWiring(DeskEdit edit) => edit is not (MoveItems or TurnItems or SetWords or AddPanel or AddPlate or KeepEmitters);

    /// <summary>The controls whose terminals are others than before, by what people call them.</summary>
    private static List<string> OtherWires(DeskSource before, DeskSource after)
    {
        var (old, now) = (Needs(before), Needs(after));
        return [.. now.Where(need => !old.TryGetValue(need.Key, out var was) || was.Wires != need.Value.Wires).Concat(old.Where(need => !now.ContainsKey(need.Key))).Select(need => need.Value.Name).Distinct()];
    }

    private static Dictionary<string, (string Name, string Wires)> Needs(DeskSource source)
    {
        var laid = DeskLoading.Load(source, []);
        return laid.Desk.Controller is null ? [] : WiringNeeds.Of(laid).Value.ToDictionary(need => need.Id, need => (need.Name, Wires(need)), StringComparer.Ordinal);
    }

    private static string Wires(WiredNeed need) =>
        $"{need.Kind} {string.Join(' ', need.Contacts.Select(contact => $"{contact.Common}-{contact.Throw}"))} {string.Join(' ', need.DataTerminals)} {need.DataFrom}";
}
