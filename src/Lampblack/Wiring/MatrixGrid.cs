using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Wiring;

/// <summary>Which crossings of a matrix are taken. The contacts of one pole share a terminal, and so stand in one row, or in one column.</summary>
internal sealed class MatrixGrid(int columns, int rows)
{
    private readonly HashSet<(int Column, int Row)> _taken = [];

    public int Columns { get; private set; } = columns;

    public int Rows { get; private set; } = rows;

    public void AddRow() => Rows++;

    public void AddColumn() => Columns++;

    public bool Take(MatrixInput place) => place.Column < Columns && place.Row < Rows && _taken.Add((place.Column, place.Row));

    /// <summary>Places for so many contacts of one pole, in the first row that has room, else in the first column; empty where there is none.</summary>
    public ImmutableArray<MatrixInput> Place(int count)
    {
        for (var row = 0; row < Rows; row++)
        {
            var free = Enumerable.Range(0, Columns).Where(column => !_taken.Contains((column, row))).Take(count).ToList();
            if (free.Count == count)
            {
                return Taken(free.Select(column => new MatrixInput(column, row)));
            }
        }

        for (var column = 0; column < Columns; column++)
        {
            var free = Enumerable.Range(0, Rows).Where(row => !_taken.Contains((column, row))).Take(count).ToList();
            if (free.Count == count)
            {
                return Taken(free.Select(row => new MatrixInput(column, row)));
            }
        }

        return [];
    }

    /// <summary>The fewest lines that hold poles of these sizes with at most so many columns: fewest lines first, then fewest columns, as each costs time.</summary>
    public static (int Columns, int Rows)? Fewest(IReadOnlyList<int> poles, int mostColumns, int mostLines)
    {
        (int Columns, int Rows)? best = null;
        for (var columns = 1; columns <= mostColumns; columns++)
        {
            var most = (best is { } known ? known.Columns + known.Rows - 1 : mostLines) - columns;
            for (var rows = Math.Max(1, (poles.Sum() + columns - 1) / columns); rows <= most; rows++)
            {
                var grid = new MatrixGrid(columns, rows);
                if (poles.OrderDescending().All(size => !grid.Place(size).IsEmpty))
                {
                    best = (columns, rows);
                    break;
                }
            }
        }

        return best;
    }

    private ImmutableArray<MatrixInput> Taken(IEnumerable<MatrixInput> places)
    {
        ImmutableArray<MatrixInput> all = [.. places];
        foreach (var place in all)
        {
            _taken.Add((place.Column, place.Row));
        }

        return all;
    }
}
