using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Numerics;

namespace Lampblack.Cutting;

/// <summary>How many of each kind, packed: a field for each kind, with a bit above it that a sum beyond its limit clears.</summary>
internal readonly record struct Tally(UInt128 Low, UInt128 High)
{
    public static Tally operator +(Tally first, Tally second) => new(first.Low + second.Low, first.High + second.High);
}

/// <summary>Where each kind's field lies.</summary>
internal sealed class TallyForm
{
    private readonly ImmutableArray<(int Shift, int Bits)> _fields;
    private readonly UInt128 _lowGuards;
    private readonly UInt128 _highGuards;
    private readonly Tally _limits;

    private TallyForm(ImmutableArray<(int Shift, int Bits)> fields, int[] counts)
    {
        _fields = fields;
        for (var kind = 0; kind < counts.Length; kind++)
        {
            var (shift, bits) = fields[kind];
            var guard = UInt128.One << ((shift & 127) + bits);
            (_lowGuards, _highGuards) = shift < 128 ? (_lowGuards | guard, _highGuards) : (_lowGuards, _highGuards | guard);
            _limits += Of(kind, (uint)counts[kind]);
        }

        _limits = new(_limits.Low | _lowGuards, _limits.High | _highGuards);
    }

    /// <summary>The form for so many of each kind; null where there are more than 256 bits.</summary>
    public static TallyForm? For(int[] counts)
    {
        var fields = new List<(int, int)>();
        var next = 0;
        foreach (var count in counts)
        {
            var bits = BitOperations.Log2((uint)Math.Max(1, count)) + 1;
            if ((next & 127) + bits + 1 > 128)
            {
                next = 128;
            }

            fields.Add((next, bits));
            next += bits + 1;
            if (next > 256 || fields.Count == 0)
            {
                return null;
            }
        }

        return new([.. fields], counts);
    }

    public Tally One(int kind) => Of(kind, 1);

    /// <summary>Whether no kind is above its limit.</summary>
    public bool Allows(Tally tally) =>
        ((_limits.Low - tally.Low) & _lowGuards) == _lowGuards && ((_limits.High - tally.High) & _highGuards) == _highGuards;

    public int CountOf(Tally tally, int kind)
    {
        var (shift, bits) = _fields[kind];
        return (int)(uint)(((shift < 128 ? tally.Low : tally.High) >> (shift & 127)) & ((UInt128.One << bits) - 1));
    }

    private Tally Of(int kind, uint count)
    {
        var shift = _fields[kind].Shift;
        return shift < 128 ? new((UInt128)count << shift, 0) : new(0, (UInt128)count << (shift & 127));
    }
}
