using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;

namespace Lampblack.Edits;

/// <summary>What an edit costs at the bench beside a new print.</summary>
/// <param name="Plates">Panels and controls whose drilled holes no longer fit: that takes a new plate.</param>
/// <param name="Holes">Controls with another hole, which is drilled where the plate is drilled already.</param>
/// <param name="Wires">Controls that are wired otherwise.</param>
internal sealed record EditCost(ImmutableArray<string> Plates, ImmutableArray<string> Holes, ImmutableArray<string> Wires)
{
    /// <summary>One sentence.</summary>
    public string Sentence
    {
        get
        {
            var wiring = Wires.IsEmpty ? string.Empty : $" Wiring changes: {Shown.List(Wires)}.";
            return !Plates.IsEmpty ? $"A new plate, as holes that are drilled no longer fit: {Shown.List(Plates)}.{wiring}"
                : !Holes.IsEmpty ? $"A new print, and a new hole where the plate is drilled already: {Shown.List(Holes)}.{wiring}"
                : $"A new print only.{wiring}";
        }
    }

    /// <summary>The cost of what lies between two states of a desk.</summary>
    /// <param name="before">The desk as it was.</param>
    /// <param name="after">The desk as it is to be.</param>
    public static EditCost Of(Desk before, Desk after)
    {
        var panels = PlateCost.Panels(before, after).ToList();
        var controls = PlateCost.Controls(before, after).ToList();
        var plates = panels.Where(pair => pair.Old is not null && HasDrilled(pair.Old) && IsOtherPlate(pair.Old, pair.Now)).Select(pair => pair.Old!.Id)
            .Concat(controls.Where(IsLostHole).Select(pair => pair.Address));
        var holes = controls.Where(pair => pair is { Old: null, Now: not null } || pair is { Old: { } old, Now: { } now } && (Place(old) != Place(now) || PlateCost.IsOtherHole(old, now))).Select(pair => pair.Address);
        var wires = controls.Where(pair => pair.Old?.Id != pair.Now?.Id || pair.Old?.Part.Id != pair.Now?.Part.Id || pair.Old?.Copies.Count != pair.Now?.Copies.Count).Select(pair => pair.Address);
        return new([.. plates], [.. holes], [.. wires]);
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
