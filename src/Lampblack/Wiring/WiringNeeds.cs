using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Layout;
using Lampblack.Parts;

namespace Lampblack.Wiring;

/// <summary>What of a desk has to be wired.</summary>
public static class WiringNeeds
{
    /// <summary>Every control, lamp and push, in the desk's order; a note for each part that no controller of ours reads.</summary>
    /// <param name="laid">The desk.</param>
    public static Checked<ImmutableArray<WiredNeed>> Of(LaidDesk laid)
    {
        var needs = ImmutableArray.CreateBuilder<WiredNeed>();
        var findings = ImmutableArray.CreateBuilder<Finding>();
        foreach (var (index, panel) in laid.Panels.Index())
        {
            var parts = panel.Parts.ToLookup(part => part.Origin.Item);
            string? lastPixel = null;
            foreach (var control in panel.Panel.Items.OfType<Control>().Where(control => control.Wiring.IsWired))
            {
                for (var copy = 0; copy < control.Copies.Count; copy++)
                {
                    var id = string.Create(CultureInfo.InvariantCulture, $"{panel.Panel.Id}/{control.Id}{(control.Copies.Count == 1 ? string.Empty : $".{copy + 1}")}");
                    if (parts[id].FirstOrDefault() is { } part)
                    {
                        needs.AddRange(Of(control, copy, id, index, part, findings).Select(need => need.Part!.Part.IsPixel && lastPixel is not null ? need with { DataTerminals = [], DataFrom = lastPixel } : need));
                        lastPixel = part.Part.IsPixel ? id : lastPixel;
                    }
                }
            }
        }

        return new(needs.ToImmutable(), findings.ToImmutable());
    }

    private static IEnumerable<WiredNeed> Of(Control control, int copy, string id, int panel, PlacedPart placed, ImmutableArray<Finding>.Builder findings)
    {
        var part = placed.Part;
        var legend = control.LegendOf(copy);
        var name = legend.Length == 0 ? id : legend;
        var need = new WiredNeed { Id = id, Name = name, Kind = WiredKind.States, Panel = panel, Part = placed };
        switch (part.Class)
        {
            case PartClass.Potentiometer or PartClass.Slider:
                yield return need with { Kind = WiredKind.Analog };
                break;
            case PartClass.Encoder:
                yield return need with { Kind = WiredKind.Encoder, EdgesPerDetent = control.Wiring.EdgesPerDetent };
                if (Switch(need, control, ["out", "in"]) is { } push)
                {
                    yield return push with { Id = id + ".push", Name = $"{name}, push", Momentary = true };
                }

                break;
            case PartClass.Toggle or PartClass.PushButton or PartClass.KeySwitch or PartClass.Rotary:
                if (Switch(need, control, Names(control)) is { } contacts)
                {
                    yield return contacts;
                }

                if (part is { Class: PartClass.PushButton, Illuminated: true })
                {
                    yield return need with { Id = id + ".lamp", Name = $"{name}, lamp", Kind = WiredKind.Indicator };
                }

                break;
            case PartClass.Lamp when part.IsPixel:
                yield return need with { Kind = WiredKind.Data, DataTerminals = PartTerminals.PixelNames[..1] };
                break;
            case PartClass.Display:
                yield return need with { Kind = WiredKind.Data, DataTerminals = PartTerminals.DisplayNames(part) };
                break;
            case PartClass.Lamp:
                yield return need with { Kind = WiredKind.Indicator };
                break;
            case PartClass.Meter when control.Wiring.HasPointer:
                yield return need with { Kind = WiredKind.Meter, FullScaleAmperes = control.Wiring.MeterAmperes };
                break;
            case PartClass.Meter:
                findings.Add(Finding.Note(
                    "part-not-planned",
                    $"`{part.Id}` gets no pin: our engine does not speak to it",
                    Own(part),
                    placed.Origin.Span,
                    id));
                break;
        }
    }

    /// <summary>What the maker does instead. Common practice, from memory.</summary>
    private static string Own(Part part) =>
        "it reads its own volts: wire its supply (its sheet says which) and its input to what it is to show, never to a pin, and say `wired = false`"
        + (part.Illuminated ? string.Empty : "; if it has nothing but a pointer that a small current moves, write that current as `meter-current`");

    private static WiredNeed? Switch(WiredNeed need, Control control, ImmutableArray<string> positions)
    {
        var part = need.Part!.Part;
        var poles = PartTerminals.Of(part).Poles.Take(control.Wiring.PoleCount).ToImmutableArray();
        if (poles.IsEmpty)
        {
            return null;
        }

        // Of two positions one contact tells both apart; the other terminal stays free.
        var contacts = ImmutableArray.CreateBuilder<ContactNeed>();
        foreach (var (index, pole) in poles.Index())
        {
            var wanted = pole.Joined.Length == 2 ? pole.Joined.Where(one => one >= 0).Take(1) : Enumerable.Range(0, pole.Throws.Length);
            foreach (var one in wanted)
            {
                contacts.Add(new(contacts.Count, index, pole.Common, pole.Throws[one], [.. pole.Joined.Select(joined => joined == one)]));
            }
        }

        var count = poles[0].Joined.Length;
        return need with
        {
            Contacts = contacts.ToImmutable(),
            Positions = [.. Enumerable.Range(0, count).Select(index => index < positions.Length && positions[index].Length > 0 ? positions[index] : Number(index + 1))],
            BreaksBetween = part.Class == PartClass.Rotary,
            Momentary = part.Momentary,
            RestState = part.Class != PartClass.Toggle ? 0 : 1,
            IsSteady = control.Wiring.IsSteady ?? part.HasCover,
        };
    }

    private static ImmutableArray<string> Names(Control control)
    {
        ImmutableArray<string> usual = (control.Part.Class, control.Part.Positions?.Count) switch
        {
            (PartClass.Toggle, 2) => ["up", "down"],
            (PartClass.Toggle, _) => ["up", "middle", "down"],
            (PartClass.PushButton, _) => ["out", "in"],
            (PartClass.KeySwitch, 2) => ["off", "on"],
            _ => [],
        };
        return control.States.Length == 0 ? usual : [.. control.States.Select((state, index) => state.Trim().Length > 0 ? state.Trim() : index < usual.Length ? usual[index] : string.Empty)];
    }

    private static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);
}
