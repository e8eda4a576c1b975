using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;

namespace Lampblack.Edits;

/// <summary>Says what an edit costs at the bench: a new print, a new hole, a new plate, other wiring.</summary>
internal static class EditCost
{
    /// <summary>One sentence.</summary>
    /// <param name="before">The desk as it was.</param>
    /// <param name="after">The desk as it is to be.</param>
    public static string Sentence(Desk before, Desk after)
    {
        var panels = PlateCost.Panels(before, after).ToList();
        var controls = PlateCost.Controls(before, after).ToList();
        var plate = panels.Where(pair => pair.Old is not null && HasDrilled(pair.Old) && IsOtherPlate(pair.Old, pair.Now)).Select(pair => pair.Old!.Id)
            .Concat(controls.Where(IsLostHole).Select(pair => pair.Address)).ToList();
        var holes = controls.Where(pair => pair is { Old: null, Now: not null } || pair is { Old: { } old, Now: { } now } && (Place(old) != Place(now) || PlateCost.IsOtherHole(old, now))).Select(pair => pair.Address).ToList();
        var wires = controls.Where(pair => pair.Old?.Id != pair.Now?.Id || pair.Old?.Part.Id != pair.Now?.Part.Id || pair.Old?.Copies.Count != pair.Now?.Copies.Count).Select(pair => pair.Address).ToList();
        var wiring = wires.Count == 0 ? string.Empty : $" Wiring changes: {Shown.List(wires)}.";
        return plate.Count > 0 ? $"A new plate, as holes that are drilled no longer fit: {Shown.List(plate)}.{wiring}"
            : holes.Count > 0 ? $"A new print, and a new hole where the plate is drilled already: {Shown.List(holes)}.{wiring}"
            : $"A new print only.{wiring}";
    }

    private static (double, double, DrilledOffset?) Place(Control control) => (control.XMm, control.YMm, control.Drilled);

    private static bool HasDrilled(Panel panel) => panel.Items.OfType<Control>().Any(control => control.Drilled is not null);

    /// <summary>Whether a plate that is drilled has another size, corner or fixings now.</summary>
    private static bool IsOtherPlate(Panel old, Panel? now) => now is null
        || (old.WidthMm, old.HeightMm, old.CornerMm) != (now.WidthMm, now.HeightMm, now.CornerMm)
        || old.Fixings?.Part.Id != now.Fixings?.Part.Id
        || !(old.Fixings?.PlacesMm ?? []).SequenceEqual(now.Fixings?.PlacesMm ?? []);

    /// <summary>Whether a hole that is drilled would stay open or be in the wrong place.</summary>
    private static bool IsLostHole((string Address, Control? Old, Control? Now) pair) =>
        pair.Old is { Drilled: not null } old && (pair.Now is not { } now || (old.XMm, old.YMm) != (now.XMm, now.YMm) || PlateCost.IsOtherHole(old, now));
}
