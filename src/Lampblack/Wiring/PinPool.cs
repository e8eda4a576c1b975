using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Parts;

namespace Lampblack.Wiring;

/// <summary>The pins of one controller that are still free; what is asked for gets the pin that is good for least else.</summary>
internal sealed class PinPool
{
    private readonly List<ControllerPinFacts> _free;
    private readonly HashSet<string> _held;

    /// <summary>All pins but those of the link and those kept free. Pins that are held are given only to who names them.</summary>
    public PinPool(Controller controller, IReadOnlyCollection<ControllerPin> reserved, IEnumerable<ControllerPin> held)
    {
        _free = [.. controller.Pins.Where(pin => !pin.IsLink && !reserved.Contains(pin.Pin))];
        _held = [.. held.Select(pin => pin.Name)];
    }

    /// <summary>How many are left.</summary>
    public int Count => _free.Count;

    /// <summary>How many of them can be read: not those with a lamp.</summary>
    public int ReadableCount => _free.Count(pin => !pin.HasLamp);

    /// <summary>How many of them read voltages.</summary>
    public int AnalogCount => _free.Count(pin => pin.AnalogChannel is not null);

    /// <summary>Takes a certain pin, if it is free and good for it.</summary>
    public bool Take(ControllerPin pin, Func<ControllerPinFacts, bool> isGood)
    {
        var index = _free.FindIndex(facts => facts.Pin.Port == pin.Port && facts.Pin.Bit == pin.Bit && isGood(facts));
        if (index < 0)
        {
            return false;
        }

        _free.RemoveAt(index);
        return true;
    }

    /// <summary>A pin for a contact or a phase; null where none is left.</summary>
    public ControllerPin? Input() => Plainest(facts => !facts.HasLamp)?.Pin;

    /// <summary>A pin that is driven; null where none is left.</summary>
    public ControllerPin? Output(Func<ControllerPin, bool>? mayCarry = null) =>
        Open.Where(facts => mayCarry?.Invoke(facts.Pin) ?? true).OrderBy(facts => facts.HasLamp ? -1 : Worth(facts)).FirstOrDefault() is { } found && _free.Remove(found) ? found.Pin : null;

    /// <summary>A pin that reads voltages; null where none is left.</summary>
    public ControllerPinFacts? Analog() => Plainest(facts => facts.AnalogChannel is not null && facts.Pin.Header[0] == 'A') ?? Plainest(facts => facts.AnalogChannel is not null && !facts.HasLamp);

    /// <summary>A pin that a timer drives in fine steps; null where none is left.</summary>
    public ControllerPin? Fine(Func<int, bool> mayTimer) => Plainest(facts => IsFine(facts) && mayTimer(facts.Timer!.Value))?.Pin;

    /// <summary>A pin that a timer drives, in steps too few for light first; null where none is left.</summary>
    public ControllerPin? Driven() => (Plainest(facts => facts.IsCoarseTimer) ?? Plainest(IsFine))?.Pin;

    /// <summary>The chip's own pin for a terminal of two-wire parts, if it is one and the pin is free.</summary>
    public ControllerPin? TwoWire(string terminal) => terminal switch
    {
        PartTerminals.TwoWireData => Plainest(facts => facts.IsTwoWireData)?.Pin,
        PartTerminals.TwoWireClock => Plainest(facts => facts.IsTwoWireClock)?.Pin,
        _ => null,
    };

    /// <summary>A pin for a row: of the port that has most pins left, of those whose port has rows already first, so that few ports are read.</summary>
    public ControllerPin? Row(IReadOnlyCollection<ControllerPin> rows)
    {
        var found = Open.Where(facts => !facts.HasLamp)
            .GroupBy(facts => facts.Pin.Port)
            .OrderByDescending(port => rows.Any(row => row.Port == port.Key))
            .ThenByDescending(port => port.Count())
            .ThenBy(port => port.Count(facts => facts.AnalogChannel is not null))
            .ThenBy(port => port.Key)
            .SelectMany(port => port.OrderBy(facts => facts.Pin.Bit))
            .FirstOrDefault();
        return found is not null && _free.Remove(found) ? found.Pin : null;
    }

    /// <summary>Whether a timer drives it in fine steps.</summary>
    public static bool IsFine(ControllerPinFacts facts) => facts is { Timer: not null, IsFineTimer: true };

    /// <summary>Whether a timer drives it, in fine steps or not.</summary>
    public static bool IsDriven(ControllerPinFacts facts) => facts.IsCoarseTimer || IsFine(facts);

    private IEnumerable<ControllerPinFacts> Open => _free.Where(facts => !_held.Contains(facts.Pin.Name));

    private static int Worth(ControllerPinFacts facts) => (facts.AnalogChannel is null ? 0 : 10) + (facts.IsFineTimer ? 5 : facts.Timer is null ? 0 : 1);

    private ControllerPinFacts? Plainest(Func<ControllerPinFacts, bool> isGood) =>
        Open.Where(isGood).OrderBy(Worth).FirstOrDefault() is { } found && _free.Remove(found) ? found : null;
}
