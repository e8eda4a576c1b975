using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Parts;

namespace Lampblack.Wiring;

/// <summary>Tries to plan one controller in one way. What an earlier plan says is kept wherever it still can be.</summary>
internal sealed partial class PinTrial
{
    private readonly PinTask _task;
    private readonly PinWay _way;
    private readonly ControllerPlan? _before;
    private readonly PinPool _pool;
    private readonly ImmutableHashSet<string> _laddered;
    private readonly Dictionary<string, ImmutableArray<InputPlace>> _places = [];
    private readonly Dictionary<string, OutputPlace> _outputs = [];
    private readonly List<ControllerPin> _columns = [];
    private readonly List<ControllerPin> _rows = [];
    private readonly List<ControllerPin> _direct = [];

    private PinTrial(PinTask task, PinWay way, ControllerPlan? before)
    {
        (_task, _way, _before) = (task, way, before);
        _pool = new(task.Controller, task.Wish.Reserved, before is null ? [] : Held(before, [.. task.Needs.Select(need => need.Id)]));
        var kept = before?.Ladders.Select(ladder => ladder.ItemId).ToImmutableHashSet() ?? [];
        _laddered = before is not null ? kept : [.. Selectors(task).Take(way.LadderCount).Select(need => need.Id)];
    }

    private IEnumerable<WiredNeed> Read => _task.Needs.Where(need => need.Kind == WiredKind.States && !_laddered.Contains(need.Id));

    private IEnumerable<WiredNeed> Lamps => _task.Needs.Where(need => need.Kind == WiredKind.Indicator);

    /// <summary>Selectors that a ladder can read, the largest first.</summary>
    public static IEnumerable<WiredNeed> Selectors(PinTask task) => task.Wish.MayLadder
        ? task.Needs.Where(need => need.BreaksBetween && need.Positions.Length >= 3 && need.Poles.Length == 1 && LadderDesign.Of(need.Positions.Length) is not null).OrderByDescending(need => need.Positions.Length)
        : [];

    /// <summary>The plan; null where this way is not possible.</summary>
    public static ControllerPlan? Of(PinTask task, PinWay way, ControllerPlan? before = null) => new PinTrial(task, way, before).Run();

    private ControllerPlan? Run()
    {
        if (!KeepMatrix())
        {
            return null;
        }

        // What few pins can do comes first.
        if (Dimmers() is not { } dimmers || Wipers() is not { } wipers || Ladders() is not { } ladders || Encoders() is not { } encoders || DataLines() is not { } dataLines)
        {
            return null;
        }

        KeepPins();
        var (inputs, outputs) = (InputChain(), OutputChain());
        if ((_way.Input == InputWay.Chain && inputs is null) || (_way.HasOutputChain && outputs is null) || !Inputs(inputs) || !Outputs(outputs))
        {
            return null;
        }

        return new()
        {
            Index = _task.Index,
            Chip = _task.Controller.Chip,
            Baud = _task.Wish.Baud,
            Usb = _task.Controller.Chip == ControllerChip.ATmega32U4 && _task.Wish is { UsbVendorId: { } vendor, UsbProductId: { } product } ? new(vendor, product, _task.Wish.EncodersStrike) : null,
            Columns = [.. _columns],
            Rows = [.. _rows],
            Diodes = _task.Wish.HasDiodes,
            Inputs = inputs,
            Outputs = outputs,
            Contacts = [.. Read.SelectMany(need => _places[need.Id].Select(place => new PlannedContact(need.Id, place, need.IsSteady)))],
            Encoders = encoders,
            Wipers = wipers,
            Ladders = ladders,
            Indicators = [.. Lamps.Select(need => new PlannedIndicator(need.Id, _outputs[need.Id]))],
            Dimmers = dimmers,
            DataLines = dataLines,
        };
    }

    /// <summary>The pins that an earlier plan gave to what is still there.</summary>
    private static IEnumerable<ControllerPin> Held(ControllerPlan before, HashSet<string> ids) =>
    [
        .. before.Columns,
        .. before.Rows,
        .. before.Dimmers.Select(dimmer => dimmer.Pin),
        .. before.Inputs is { } inputs ? new[] { inputs.Load, inputs.Clock, inputs.Data } : [],
        .. before.Outputs is { } outputs ? new[] { outputs.Data, outputs.Clock, outputs.Latch } : [],
        .. before.DataLines.Where(line => ids.Contains(line.ItemId)).Select(line => line.Pin),
        .. before.Wipers.Where(wiper => ids.Contains(wiper.ItemId)).Select(wiper => wiper.Pin),
        .. before.Ladders.Where(ladder => ids.Contains(ladder.ItemId)).Select(ladder => ladder.Pin),
        .. before.Encoders.Where(encoder => ids.Contains(encoder.ItemId)).SelectMany(encoder => new[] { encoder.PhaseA, encoder.PhaseB }),
        .. before.Contacts.Where(contact => ids.Contains(contact.ItemId)).Select(contact => contact.Place).OfType<DirectInput>().Select(place => place.Pin),
        .. before.Indicators.Where(lamp => ids.Contains(lamp.ItemId)).Select(lamp => lamp.Place).OfType<DirectOutput>().Select(place => place.Pin),
    ];

    private ImmutableArray<PlannedDimmer>? Dimmers()
    {
        // One timer switches all its pins equally often.
        var hertz = new SortedDictionary<int, double>();
        var kept = new Dictionary<string, ControllerPin>();
        foreach (var need in _task.Dimmers.Where(need => need.IsMeter))
        {
            if (_before?.Dimmers.FirstOrDefault(one => one.IsMeter && one.Channel == need.Channel) is { } old && _pool.Take(old.Pin, PinPool.IsDriven))
            {
                kept[need.Channel] = old.Pin;
            }
        }

        foreach (var need in _task.Dimmers.Where(need => !need.IsMeter))
        {
            if (_before?.Dimmers.FirstOrDefault(one => one.Channel == need.Channel) is { } old && _pool.Take(old.Pin, facts => PinPool.IsFine(facts) && May(facts.Timer!.Value, need)))
            {
                kept[need.Channel] = old.Pin;
                hertz[_task.Controller.Find(old.Pin.Name)!.Timer!.Value] = need.PwmHertz;
            }
        }

        var dimmers = ImmutableArray.CreateBuilder<PlannedDimmer>();
        foreach (var need in _task.Dimmers)
        {
            if (need.IsMeter)
            {
                if ((kept.GetValueOrDefault(need.Channel) ?? _pool.Driven()) is not { } driven)
                {
                    return null;
                }

                dimmers.Add(new(need.Channel, driven, need.PwmHertz, IsMeter: true) { FullScaleAmperes = need.FullScaleAmperes });
                continue;
            }

            if ((kept.GetValueOrDefault(need.Channel) ?? _pool.Fine(timer => May(timer, need))) is not { } pin)
            {
                return null;
            }

            hertz[_task.Controller.Find(pin.Name)!.Timer!.Value] = need.PwmHertz;
            dimmers.Add(new(need.Channel, pin, need.PwmHertz));
        }

        return dimmers.ToImmutable();

        bool May(int timer, DimmerNeed need) => !hertz.TryGetValue(timer, out var taken) || taken.Equals(need.PwmHertz);
    }

    private ImmutableArray<PlannedWiper>? Wipers() => Analog(WiredKind.Analog, need => _before?.Wipers.FirstOrDefault(one => one.ItemId == need.Id)?.Pin) is { } pins
        ? [.. pins.Select(pin => new PlannedWiper(pin.Need.Id, pin.Facts.Pin, pin.Facts.AnalogChannel!.Value))]
        : null;

    private ImmutableArray<PlannedLadder>? Ladders() => Analog(WiredKind.States, need => _before?.Ladders.FirstOrDefault(one => one.ItemId == need.Id)?.Pin) is { } pins
        ? [.. pins.Select(pin => new PlannedLadder(pin.Need.Id, pin.Facts.Pin, pin.Facts.AnalogChannel!.Value, LadderDesign.Of(pin.Need.Positions.Length)!.Windows))]
        : null;

    /// <summary>An analog pin for each potentiometer, or for each selector with a ladder: first those that had one.</summary>
    private List<(WiredNeed Need, ControllerPinFacts Facts)>? Analog(WiredKind kind, Func<WiredNeed, ControllerPin?> before)
    {
        var needs = _task.Needs.Where(need => need.Kind == kind && (kind == WiredKind.Analog || _laddered.Contains(need.Id))).ToList();
        var kept = needs.ToDictionary(need => need.Id, need => before(need) is { } pin && _pool.Take(pin, facts => facts.AnalogChannel is not null) ? _task.Controller.Find(pin.Name) : null);
        var pins = new List<(WiredNeed, ControllerPinFacts)>();
        foreach (var need in needs)
        {
            if ((kept[need.Id] ?? _pool.Analog()) is not { } facts)
            {
                return null;
            }

            pins.Add((need, facts));
        }

        return pins;
    }

    private ImmutableArray<PlannedEncoder>? Encoders()
    {
        var needs = _task.Needs.Where(need => need.Kind == WiredKind.Encoder).ToList();
        if (needs.Count > _task.MostEncoders)
        {
            return null;
        }

        var kept = needs.ToDictionary(need => need.Id, need => _before?.Encoders.FirstOrDefault(one => one.ItemId == need.Id) is { } old && Both(old) ? old : null);
        var encoders = ImmutableArray.CreateBuilder<PlannedEncoder>();
        foreach (var need in needs)
        {
            if (kept[need.Id] is { } old)
            {
                encoders.Add(old with { EdgesPerDetent = need.EdgesPerDetent });
            }
            else if (_pool.Input() is { } a && _pool.Input() is { } b)
            {
                encoders.Add(new(need.Id, a, b, need.EdgesPerDetent));
            }
            else
            {
                return null;
            }
        }

        return encoders.ToImmutable();

        bool Both(PlannedEncoder old) => _pool.Take(old.PhaseA, facts => !facts.HasLamp) && _pool.Take(old.PhaseB, facts => !facts.HasLamp);
    }
}
