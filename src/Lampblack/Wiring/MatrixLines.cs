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
    private readonly double[] _x;
    private readonly double[] _y;

    // When each line last changed, and when each pair of contacts was last looked at, in looks: what didn't change needs no second look.
    private readonly int[] _changed;
    private readonly int[,] _looked;
    private int _looks;

    /// <summary>Rows are lines from 0 on, columns follow them. The places are exchanged where they stand.</summary>
    public MatrixLines(MatrixInput[] places, ImmutableArray<Point<PanelSpace>> spots, int rows, int columns)
    {
        (_places, _spots, _rows) = (places, spots, rows);
        _members = [.. Enumerable.Range(0, rows + columns).Select(_ => new List<int>())];
        (_near, _x, _y) = (new double[places.Length], new double[places.Length], new double[places.Length]);
        (_changed, _looked) = (new int[rows + columns], new int[places.Length, places.Length]);
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
        ReadOnlySpan<(int Line, int Other)> lines = [(one.Row, two.Row), (_rows + one.Column, _rows + two.Column)];
        var before = _looked[first, second];
        _looked[first, second] = ++_looks;
        if (before > 0 && Math.Max(Changed(lines[0]), Changed(lines[1])) < before)
        {
            return false;
        }

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

        foreach (var (line, other) in lines)
        {
            if (line == other)
            {
                continue;
            }

            if (isBetter)
            {
                (_lengthMm[line], _lengthMm[other]) = (Tree(_members[line]), Tree(_members[other]));
                (_changed[line], _changed[other]) = (_looks, _looks);
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

        int Changed((int Line, int Other) pair) => Math.Max(_changed[pair.Line], _changed[pair.Other]);

        double Gain(int line) => _lengthMm[line] - Tree(_members[line]);
    }

    /// <summary>Prim's shortest tree.</summary>
    private double Tree(List<int> members)
    {
        var count = members.Count - 1;
        if (count <= 0)
        {
            return 0;
        }

        var (x, y, near) = (_x, _y, _near);
        for (var index = 0; index < count; index++)
        {
            var spot = _spots[members[index + 1]];
            (x[index], y[index], near[index]) = (spot.XMm, spot.YMm, double.MaxValue);
        }

        double sum = 0;
        var (lastX, lastY) = (_spots[members[0]].XMm, _spots[members[0]].YMm);
        for (; count > 0; count--)
        {
            var (next, nearest) = (0, double.MaxValue);
            for (var index = 0; index < count; index++)
            {
                var away = Math.Abs(x[index] - lastX) + Math.Abs(y[index] - lastY);
                if (away < near[index])
                {
                    near[index] = away;
                }

                if (near[index] < nearest)
                {
                    (next, nearest) = (index, near[index]);
                }
            }

            sum += nearest;
            (lastX, lastY) = (x[next], y[next]);
            (x[next], y[next], near[next]) = (x[count - 1], y[count - 1], near[count - 1]);
        }

        return sum;
    }
}
