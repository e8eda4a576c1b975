using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Wiring;

/// <summary>The rows and columns of a matrix over places on panels, and how long each is as a shortest tree along x and y.</summary>
internal sealed class MatrixLines
{
    private readonly MatrixInput[] _places;
    private readonly ImmutableArray<Point<PanelSpace>> _spots;
    private readonly List<int>[] _members;
    private readonly double[] _lengthMm;
    private readonly int _rows;
    private readonly double[] _near;
    private readonly int[] _waiting;

    /// <summary>Rows are lines from 0 on, columns follow them. The places are exchanged where they stand.</summary>
    public MatrixLines(MatrixInput[] places, ImmutableArray<Point<PanelSpace>> spots, int rows, int columns)
    {
        (_places, _spots, _rows) = (places, spots, rows);
        _members = [.. Enumerable.Range(0, rows + columns).Select(_ => new List<int>())];
        (_near, _waiting) = (new double[places.Length], new int[places.Length]);
        for (var index = 0; index < places.Length; index++)
        {
            _members[places[index].Row].Add(index);
            _members[rows + places[index].Column].Add(index);
        }

        _lengthMm = [.. _members.Select(Tree)];
    }

    /// <summary>Exchanges the crossings of two contacts if that shortens the lines they are on by more than so much; tells whether it did.</summary>
    public bool Exchange(int first, int second, double leastGainMm)
    {
        var (one, two) = (_places[first], _places[second]);
        double gain = 0;
        if (one.Row != two.Row)
        {
            Swap(one.Row, two.Row, first, second);
            gain += Gain(one.Row) + Gain(two.Row);
        }

        if (one.Column != two.Column)
        {
            Swap(_rows + one.Column, _rows + two.Column, first, second);
            gain += Gain(_rows + one.Column) + Gain(_rows + two.Column);
        }

        var isBetter = gain > leastGainMm;
        if (isBetter)
        {
            (_places[first], _places[second]) = (two, one);
        }

        foreach (var (line, other) in new[] { (one.Row, two.Row), (_rows + one.Column, _rows + two.Column) })
        {
            if (line == other)
            {
                continue;
            }

            if (isBetter)
            {
                (_lengthMm[line], _lengthMm[other]) = (Tree(_members[line]), Tree(_members[other]));
            }
            else
            {
                Swap(line, other, second, first);
            }
        }

        return isBetter;

        void Swap(int line, int other, int of, int with)
        {
            _members[line][_members[line].IndexOf(of)] = with;
            _members[other][_members[other].IndexOf(with)] = of;
        }

        double Gain(int line) => _lengthMm[line] - Tree(_members[line]);
    }

    /// <summary>Prim's shortest tree.</summary>
    private double Tree(List<int> members)
    {
        var count = members.Count - 1;
        for (var index = 0; index < count; index++)
        {
            (_waiting[index], _near[index]) = (members[index + 1], double.MaxValue);
        }

        double sum = 0;
        for (var last = members.Count > 0 ? members[0] : 0; count > 0;)
        {
            var next = 0;
            for (var index = 0; index < count; index++)
            {
                _near[index] = Math.Min(_near[index], Math.Abs(_spots[_waiting[index]].XMm - _spots[last].XMm) + Math.Abs(_spots[_waiting[index]].YMm - _spots[last].YMm));
                next = _near[index] < _near[next] ? index : next;
            }

            sum += _near[next];
            last = _waiting[next];
            count--;
            (_waiting[next], _near[next]) = (_waiting[count], _near[count]);
        }

        return sum;
    }
}
