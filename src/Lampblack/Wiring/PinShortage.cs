using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Parts;

namespace Lampblack.Wiring;

/// <summary>Says what a controller has too few pins of.</summary>
internal static class PinShortage
{
    public static Finding Of(ImmutableArray<WiredNeed> needs, ImmutableArray<DimmerNeed> dimmers, ControllerWish wish)
    {
        var free = wish.Controller.Pins.Where(facts => !facts.IsLink && !wish.Reserved.Contains(facts.Pin)).ToList();
        var lacks = new List<string>();
        Lack(needs.Count(need => need.Kind == WiredKind.Analog), free.Count(facts => facts.AnalogChannel is not null && !facts.HasLamp), "pins that read a knob's voltage");
        Lack(dimmers.Count(dimmer => !dimmer.IsMeter), free.Count(PinPool.IsFine), "pins that dim light");
        Lack(dimmers.Length, free.Count(PinPool.IsDriven), "pins that dim light or move a meter");
        Lack(2 * needs.Count(need => need.Kind == WiredKind.Encoder), free.Count(facts => !facts.HasLamp), "pins for encoders");
        var contacts = needs.Sum(need => need.Contacts.Length);
        var why = lacks.Count > 0 ? string.Join(", ", lacks) : $"{contacts} contacts, {needs.Length} controls and lamps in all, on {free.Count} free pins";
        return Finding.Stop(
            "pins-too-few",
            $"the {wish.Controller.Name} has too few pins, also with matrix, shift registers and up to four controllers: {why}",
            wish.Controller.Chip == ControllerChip.ATmega2560 ? "free reserved pins, leave controls out with `wired = false`, or split the desk" : "take `chip = \"ATmega2560\"`, or free reserved pins",
            wish.Span);

        void Lack(int wanted, int there, string what)
        {
            if (wanted > there)
            {
                lacks.Add($"{wanted} {what} are needed and one has {there}");
            }
        }
    }
}
