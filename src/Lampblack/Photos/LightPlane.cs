using System;
using System.Threading;
using System.Threading.Tasks;

namespace Lampblack.Photos;

/// <summary>
/// The light of a photo's dots, linear, 0 to 65535 for white; row 0 at the top, upright as the file says. Or of a part of it: places are the whole photo's then, too,
/// while dots and rows are counted from the part's own upper left.
/// </summary>
/// <param name="light">Row by row.</param>
/// <param name="width">How many columns there are.</param>
/// <param name="height">How many rows.</param>
/// <param name="left">The photo's column in which the part begins.</param>
/// <param name="top">The photo's row in which it begins.</param>
internal sealed class LightPlane(ushort[] light, int width, int height, int left = 0, int top = 0)
{
    public const double White = 65535;

    public int Width => width;

    public int Height => height;

    public ushort this[int column, int row] => light[(row * width) + column];

    public ReadOnlySpan<ushort> Row(int row) => light.AsSpan(row * width, width);

    /// <summary>Whether a place can be asked for; the middle of the first dot is 0.5, 0.5.</summary>
    public bool Has(double x, double y) => x >= left + 0.5 && y >= top + 0.5 && x < left + width - 0.5 && y < top + height - 0.5;

    /// <summary>Light between the middles of four dots; not a number outside.</summary>
    public double At(double x, double y)
    {
        if (!Has(x, y))
        {
            return double.NaN;
        }

        (x, y) = (x - left, y - top);
        var (column, row) = ((int)(x - 0.5), (int)(y - 0.5));
        var (u, v) = (x - 0.5 - column, y - 0.5 - row);
        var at = (row * width) + column;
        var (right, below) = (column + 1 < width ? 1 : 0, row + 1 < height ? width : 0);
        var upper = light[at] + (u * (light[at + right] - light[at]));
        var lower = light[at + below] + (u * (light[at + below + right] - light[at + below]));
        return upper + (v * (lower - upper));
    }

    /// <summary>A smaller picture: the square roots of the light, 0 to 255, each the mean of a square of dots.</summary>
    public (byte[] Roots, int Width, int Height) Reduce(int square, CancellationToken cancellation)
    {
        var (columns, rows) = (width / square, height / square);
        var roots = new byte[columns * rows];
        Parallel.For(0, rows, new ParallelOptions { CancellationToken = cancellation }, row =>
        {
            var sums = new long[columns];
            for (var y = row * square; y < (row + 1) * square; y++)
            {
                var from = Row(y);
                for (var column = 0; column < columns; column++)
                {
                    long sum = 0;
                    foreach (var value in from.Slice(column * square, square))
                    {
                        sum += value;
                    }

                    sums[column] += sum;
                }
            }

            for (var column = 0; column < columns; column++)
            {
                roots[(row * columns) + column] = (byte)(Math.Sqrt(sums[column] / (double)(square * square) / White) * 255);
            }
        });
        return (roots, columns, rows);
    }
}
