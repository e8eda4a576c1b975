using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Parts;

namespace Lampblack.Wiring;

/// <summary>Contacts and indicators.</summary>
internal sealed partial class PinTrial
{
    private const int ChipPins = 8;

    // Pins left free beside a matrix where that can be, so that one more control, at most a knob with a push, moves no wire of the others.
    private const int Spare = 3;

    /// <summary>The lines of an earlier matrix stay as they are; false where one of them can't.</summary>
    private bool KeepMatrix()
    {
        if (_before is null || _way.Input != InputWay.Matrix)
        {
            return true;
        }

        _columns.AddRange(_before.Columns);
        _rows.AddRange(_before.Rows);
        return _columns.Concat(_rows).All(pin => _pool.Take(pin, facts => !facts.HasLamp));
    }

    /// <summary>Places of an earlier plan that still can be, and the pins of its chains.</summary>
    private void KeepPins()
    {
        if (_before is null)
        {
            return;
        }

        var places = _before.Contacts.GroupBy(contact => contact.ItemId).ToDictionary(group => group.Key, group => group.Select(contact => contact.Place).ToImmutableArray());
        var taken = new HashSet<object>();
        foreach (var need in Read)
        {
            // Two in one place: that is in no plan of ours, but somebody may have written in the file.
            if (places.TryGetValue(need.Id, out var old) && old.Length == need.Contacts.Length && old.Distinct().Count() == old.Length && !old.Any(taken.Contains) && old.All(place => IsOfWay(place) && (place is not DirectInput direct || _pool.Take(direct.Pin, facts => !facts.HasLamp))))
            {
                _places[need.Id] = old;
                taken.UnionWith(old);
            }
        }

        foreach (var need in Lamps)
        {
            if (_before.Indicators.FirstOrDefault(one => one.ItemId == need.Id)?.Place is { } old
                && !taken.Contains(old) && (old is ChainOutput ? _way.HasOutputChain : old is DirectOutput direct && !_way.HasOutputChain && _pool.Take(direct.Pin, _ => true)))
            {
                _outputs[need.Id] = old;
                taken.Add(old);
            }
        }
    }

    private bool IsOfWay(InputPlace place) => place switch
    {
        MatrixInput => _way.Input == InputWay.Matrix,
        ChainInput => _way.Input == InputWay.Chain,
        _ => _way.Input != InputWay.Chain,
    };

    private ShiftIn? InputChain()
    {
        var count = Read.Sum(need => need.Contacts.Length);
        if (_way.Input != InputWay.Chain || count > PinTask.MostChips * ChipPins)
        {
            return null;
        }

        var old = _before?.Inputs;
        var chips = Math.Max(old?.ChipCount ?? 0, (count + ChipPins - 1) / ChipPins);
        return Again(old?.Load) is { } load && Again(old?.Clock) is { } clock && Again(old?.Data) is { } data ? new(load, clock, data, chips) : null;
    }

    private ShiftOut? OutputChain()
    {
        var count = Lamps.Count();
        if (!_way.HasOutputChain || count > PinTask.MostOutputChips * ChipPins)
        {
            return null;
        }

        var old = _before?.Outputs;
        var chips = Math.Max(old?.ChipCount ?? 0, (count + ChipPins - 1) / ChipPins);
        return Again(old?.Data) is { } data && Again(old?.Clock) is { } clock && Again(old?.Latch) is { } latch ? new(data, clock, latch, chips) : null;
    }

    private ControllerPin? Again(ControllerPin? old) => old is not null && _pool.Take(old, _ => true) ? old : _pool.Input();

    private bool Inputs(ShiftIn? chain) => _way.Input switch
    {
        InputWay.Matrix => Matrix(),
        InputWay.Chain => Chain(chain!.ChipCount),
        _ => !(Read.Sum(need => need.Contacts.Length) > _way.MostDirect) && Each(Read, Direct),
    };

    private (ImmutableHashSet<string> Ids, int Columns, int Rows)? Choice(int pins) => MatrixChoice.Fewest([.. Read], PinTask.MostColumns, pins, _way.MostDirect ?? int.MaxValue);

    private ImmutableArray<InputPlace> Direct(WiredNeed need) => [.. need.Contacts.Select(_ => DirectPin()).OfType<ControllerPin>().Select(pin => new DirectInput(pin))];

    private ControllerPin? DirectPin()
    {
        if (_way.MostDirect is null)
        {
            return _pool.Input();
        }

        if (_pool.Row(_direct) is { } pin)
        {
            _direct.Add(pin);
            return pin;
        }

        return null;
    }

    private bool Chain(int chips)
    {
        var taken = _places.Values.SelectMany(places => places).ToHashSet();
        var free = new Queue<ChainInput>(Enumerable.Range(0, chips * ChipPins).Select(input => new ChainInput(input / ChipPins, input % ChipPins)).Where(input => !taken.Contains(input)));
        return Each(Read, need => free.Count < need.Contacts.Length ? [] : [.. need.Contacts.Select(_ => free.Dequeue())]);
    }

    private bool Matrix()
    {
        var lamps = _way.HasOutputChain ? 0 : Lamps.Count(need => !_outputs.ContainsKey(need.Id));
        if (_columns.Count == 0)
        {
            // Who has a pin of their own needs no diode.
            var pins = Math.Min(_pool.ReadableCount, _pool.Count - lamps);
            if (Read.Any() && ((Choice(pins - Spare) ?? Choice(pins)) is not { } choice
                || !Lines(choice.Columns, choice.Rows)
                || !Each(Read.Where(need => !choice.Ids.Contains(need.Id)), Direct)))
            {
                return false;
            }
        }

        var grid = new MatrixGrid(_columns.Count, _rows.Count);
        if (!_places.Values.SelectMany(places => places).OfType<MatrixInput>().All(grid.Take))
        {
            return false;
        }

        // Large poles find room only while there is much.
        return Each(Read.OrderByDescending(need => need.Poles.Max(pole => pole.Length)), need =>
        {
            var places = ImmutableArray.CreateBuilder<InputPlace>();
            foreach (var pole in need.Poles)
            {
                var found = grid.Place(pole.Length);
                while (found.IsEmpty && Grow(grid, lamps))
                {
                    found = grid.Place(pole.Length);
                }

                places.AddRange(found);
            }

            return places.ToImmutable();
        });
    }

    private bool Lines(int columns, int rows)
    {
        for (var row = 0; row < rows; row++)
        {
            if (_pool.Row(_rows) is not { } pin)
            {
                return false;
            }

            _rows.Add(pin);
        }

        for (var column = 0; column < columns; column++)
        {
            if (_pool.Input() is not { } pin)
            {
                return false;
            }

            _columns.Add(pin);
        }

        return true;
    }

    private bool Grow(MatrixGrid grid, int lamps)
    {
        if (_pool.Count <= lamps || _pool.Row(_rows) is not { } pin)
        {
            return false;
        }

        _rows.Add(pin);
        grid.AddRow();
        return true;
    }

    /// <summary>A place for each that has none yet; false where one finds none.</summary>
    private bool Each(IEnumerable<WiredNeed> needs, Func<WiredNeed, ImmutableArray<InputPlace>> place)
    {
        foreach (var need in needs.Where(need => !_places.ContainsKey(need.Id)).ToList())
        {
            var found = place(need);
            if (found.Length < need.Contacts.Length)
            {
                return false;
            }

            _places[need.Id] = found;
        }

        return true;
    }

    private bool Outputs(ShiftOut? chain)
    {
        var taken = _outputs.Values.ToHashSet();
        var free = new Queue<ChainOutput>(Enumerable.Range(0, (chain?.ChipCount ?? 0) * ChipPins).Select(output => new ChainOutput(output / ChipPins, output % ChipPins)).Where(output => !taken.Contains(output)));
        var lamp = _task.Wish.LampAmperes;
        var carried = _outputs.Values.OfType<DirectOutput>().Select(place => place.Pin).ToList();
        foreach (var need in Lamps.Where(need => !_outputs.ContainsKey(need.Id)).ToList())
        {
            if (chain is not null)
            {
                _outputs[need.Id] = free.Dequeue();
                continue;
            }

            if (_pool.Output(MayCarry) is not { } pin)
            {
                return false;
            }

            carried.Add(pin);
            _outputs[need.Id] = new DirectOutput(pin);
        }

        return true;

        // Limits leave some room for what contacts draw.
        bool MayCarry(ControllerPin pin) =>
            (carried.Count + 1) * lamp <= Controller.ChipAmperes * Share
            && _task.Controller.Groups.Where(group => group.Pins.Contains(pin)).All(group => (carried.Count(group.Pins.Contains) + 1) * lamp <= group.MostAmperes * Share);
    }

    private const double Share = 0.9;
}
