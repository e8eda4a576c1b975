using System;

namespace Lampblack.Numerics;

/// <summary>A few equations with as many unknowns, by elimination with the largest element of each column.</summary>
internal static class SmallSystem
{
    /// <summary>The unknowns; null where the equations do not tell them.</summary>
    public static double[]? Solve(double[,] matrix, double[] right)
    {
        var solved = Solve(matrix, right.Length, 1, (row, _) => right[row]);
        if (solved is null)
        {
            return null;
        }

        var unknowns = new double[right.Length];
        for (var row = 0; row < unknowns.Length; row++)
        {
            unknowns[row] = solved[row, 0];
        }

        return unknowns;
    }

    /// <summary>The inverse; null where there is none.</summary>
    public static double[,]? Invert(double[,] matrix) => Solve(matrix, matrix.GetLength(0), matrix.GetLength(0), (row, column) => row == column ? 1 : 0);

    private static double[,]? Solve(double[,] matrix, int size, int columns, Func<int, int, double> right)
    {
        var work = new double[size, size + columns];
        for (var row = 0; row < size; row++)
        {
            for (var column = 0; column < size + columns; column++)
            {
                work[row, column] = column < size ? matrix[row, column] : right(row, column - size);
            }
        }

        for (var pivot = 0; pivot < size; pivot++)
        {
            var best = pivot;
            for (var row = pivot + 1; row < size; row++)
            {
                best = Math.Abs(work[row, pivot]) > Math.Abs(work[best, pivot]) ? row : best;
            }

            if (!(Math.Abs(work[best, pivot]) > 1e-200) || !double.IsFinite(work[best, pivot]))
            {
                return null;
            }

            for (var column = 0; column < size + columns; column++)
            {
                (work[pivot, column], work[best, column]) = (work[best, column], work[pivot, column]);
            }

            for (var row = 0; row < size; row++)
            {
                var factor = row == pivot ? 0 : work[row, pivot] / work[pivot, pivot];
                for (var column = pivot; factor != 0 && column < size + columns; column++)
                {
                    work[row, column] -= factor * work[pivot, column];
                }
            }
        }

        var solved = new double[size, columns];
        for (var row = 0; row < size; row++)
        {
            for (var column = 0; column < columns; column++)
            {
                solved[row, column] = work[row, size + column] / work[row, row];
            }
        }

        return solved;
    }
}
