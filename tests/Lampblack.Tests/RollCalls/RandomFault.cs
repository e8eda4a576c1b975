using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Parts;
using Lampblack.Tests.Link;
using Lampblack.Wiring;

namespace Lampblack.Tests.RollCalls;

/// <summary>A fault made at the bench, and words that a right diagnosis of it must hold.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Make">Makes it.</param>
/// <param name="Words">Words of the sentence that names it.</param>
/// <param name="Lamp">The lamp that stays dark; null for none.</param>
internal sealed record RandomFault(string Kind, Action<NetPanel> Make, ImmutableArray<string> Words, string? Lamp = null)
{
    public static ImmutableArray<string> Kinds { get; } =
    [
        "two wires swapped", "two contacts swapped", "row and column exchanged", "diode reversed", "dead pin",
        "encoder phases exchanged", "pot ends exchanged", "short between neighbours", "stuck closed", "lamp dead",
    ];

    /// <summary>A fault of that kind; null where the desk has nothing of which it could be made.</summary>
    public static RandomFault? Draw(string kind, PinPlan desk, XorShift chance)
    {
        var plan = desk.Controllers[0];
        List<ControllerPin> pins = [.. NetPanel.Pins(plan)];
        List<int> crossings = [.. Enumerable.Range(0, plan.Contacts.Length).Where(contact => plan.Contacts[contact].Place is MatrixInput)];
        switch (kind)
        {
            case "two wires swapped":
                var (one, other) = (chance.Of(pins), chance.Of(pins));
                return one == other ? null : new(kind, panel => panel.ExchangePins(one, other), ["exchanged", one.Header + " ", other.Header + " "]);
            case "two contacts swapped" when plan.Contacts.Length > 1:
                var (first, second) = (chance.Below(plan.Contacts.Length), chance.Below(plan.Contacts.Length));
                return first == second ? null : new(kind, panel => panel.ExchangeContacts(first, second), ["exchanged", .. Named(desk, first), .. Named(desk, second)]);
            case "row and column exchanged":
                var (row, column) = (chance.Of(plan.Rows), chance.Of(plan.Columns));
                return new(kind, panel => panel.ExchangePins(row, column), ["A row and a column are exchanged", row.Header + " ", column.Header + " "]);
            case "diode reversed" when crossings.Count > 0:
                var diode = chance.Of(crossings);
                return new(kind, panel => panel.ReverseDiode(diode), ["The diode of", .. Named(desk, diode)]);
            case "dead pin":
                var dead = chance.Of(pins);
                return new(kind, panel => panel.CutPin(dead), ["No wire reaches", dead.Header + " "]);
            case "encoder phases exchanged" when plan.Encoders.Length > 0:
                var encoder = chance.Of(plan.Encoders);
                return new(kind, panel => panel.ExchangePins(encoder.PhaseA, encoder.PhaseB), ["The terminals A and B of", encoder.PhaseA.Header + " ", encoder.PhaseB.Header + " "]);
            case "pot ends exchanged" when plan.Wipers.Length > 0:
                var wiper = chance.Below(plan.Wipers.Length);
                return new(kind, panel => panel.ExchangeEnds(wiper), ["two ends", desk.Controls.Single(control => control.Kind == WiredKind.Analog && control.Number == wiper).Name]);
            case "short between neighbours":
                var at = chance.Of(pins);
                var next = pins.Find(pin => pin.Port == at.Port && pin.Bit == at.Bit + 1);
                return next is null ? null : new(kind, panel => panel.JoinPins(at, next), ["touch", at.Header + " ", next.Header + " "]);
            case "stuck closed" when plan.Contacts.Length > 0:
                var stuck = chance.Below(plan.Contacts.Length);
                return new(kind, panel => panel.BridgeContact(stuck), ["always closed", .. Named(desk, stuck)]);
            case "lamp dead" when plan.Indicators.Length > 0:
                var lamp = desk.Controls.First(control => control.Kind == WiredKind.Indicator);
                return new(kind, _ => { }, ["stays dark", lamp.Name], lamp.Id);
            default:
                return null;
        }
    }

    /// <summary>Without its first letter, which is a capital at the beginning of a sentence.</summary>
    private static IEnumerable<string> Named(PinPlan desk, int contact)
    {
        var control = desk.Controls.Single(one => one.Contacts.Contains(contact));
        yield return control.Contacts.Length == 1
            ? $"he contact of {control.Name}"
            : $"he contact of {control.Name} for {string.Join(", ", control.States.Where(state => state.Closed[control.Contacts.IndexOf(contact)]).Select(state => state.Name))}";
    }
}
