using System;
using System.Threading;
using System.Threading.Tasks;

namespace Lampblack.Photos;

/// <summary>A picture in numbers that can be made coarser and softer; places are those of the first picture, whose dots have their middles at a half.</summary>
/// <param name="values">Row by row.</param>
/// <param name="width">Columns.</param>
/// <param name="height">Rows.</param>
/// <param name="dotSize">How many of the first picture's dots one has to a side.</param>
internal sealed class SoftPicture(float[] values, int width, int height, int dotSize = 1)
{
    /// <summary>Coarser dots than this share of the softness can't be told from fine ones.</summary>
    private const double DotShare = 0.5;

    /// <summary>The numbers.</summary>
    public float[] Values => values;

    /// <summary>Columns.</summary>
    public int Width => width;

    /// <summary>Rows.</summary>
    public int Height => height;

    /// <summary>How many of the first picture's dots one has to a side.</summary>
    public int DotSize => dotSize;

    /// <summary>A photo with coarser dots: each the mean of a square.</summary>
    public static SoftPicture Of(LightPlane light, int square, CancellationToken cancellation)
    {
        var (columns, rows) = (light.Width / square, light.Height / square);
        var values = new float[columns * rows];
        Parallel.For(0, rows, new ParallelOptions { CancellationToken = cancellation }, row =>
        {
            for (var y = row * square; y < (row + 1) * square; y++)
            {
                var from = light.Row(y);
                for (var column = 0; column < columns; column++)
                {
                    long sum = 0;
                    foreach (var value in from.Slice(column * square, square))
                    {
                        sum += value;
                    }

                    values[(row * columns) + column] += sum;
                }
            }

            for (var column = 0; column < columns; column++)
            {
                values[(row * columns) + column] /= (float)(square * square * LightPlane.White);
            }
        });
        return new(values, columns, rows, square);
    }

    /// <summary>Coarser where that does no harm, then softened by a normal spread.</summary>
    /// <param name="sd">The spread's standard deviation, in dots of the first picture.</param>
    public SoftPicture Soft(double sd)
    {
        var square = Math.Max(1, (int)(sd / dotSize * DotShare));
        var coarse = square == 1 ? this : Coarse(square);

        // A square's own spread is a twelfth of its side squared.
        var rest = Math.Sqrt(Math.Max(0, (sd * sd) - (((double)coarse.DotSize * coarse.DotSize) / 12))) / coarse.DotSize;
        return coarse.Blurred(rest);
    }

    /// <summary>The number between the middles of four dots; not a number outside.</summary>
    public double At(double x, double y)
    {
        var (u, v) = ((x / dotSize) - 0.5, (y / dotSize) - 0.5);
        if (!(u >= 0 && v >= 0 && u < width - 1 && v < height - 1))
        {
            return double.NaN;
        }

        var (column, row) = ((int)u, (int)v);
        (u, v) = (u - column, v - row);
        var at = (row * width) + column;
        var upper = values[at] + (u * (values[at + 1] - values[at]));
        var lower = values[at + width] + (u * (values[at + width + 1] - values[at + width]));
        return upper + (v * (lower - upper));
    }

    private SoftPicture Coarse(int square)
    {
        var (columns, rows) = (Math.Max(1, width / square), Math.Max(1, height / square));
        var coarse = new float[columns * rows];
        for (var row = 0; row < rows; row++)
        {
            for (var column = 0; column < columns; column++)
            {
                var sum = 0.0;
                for (var y = row * square; y < Math.Min(height, (row + 1) * square); y++)
                {
                    for (var x = column * square; x < Math.Min(width, (column + 1) * square); x++)
                    {
                        sum += values[(y * width) + x];
                    }
                }

                coarse[(row * columns) + column] = (float)(sum / (square * square));
            }
        }

        return new(coarse, columns, rows, dotSize * square);
    }

    private SoftPicture Blurred(double sd)
    {
        if (sd < 0.1)
        {
            return this;
        }

        var reach = (int)Math.Ceiling(3 * sd);
        var weights = new float[(2 * reach) + 1];
        var sum = 0.0;
        for (var index = 0; index < weights.Length; index++)
        {
            weights[index] = (float)Math.Exp(-(index - reach) * (index - reach) / (2 * sd * sd));
            sum += weights[index];
        }

        for (var index = 0; index < weights.Length; index++)
        {
            weights[index] /= (float)sum;
        }

        // Beyond the edges it is dark.
        var (along, both) = (new float[values.Length], new float[values.Length]);
        Parallel.For(0, height, row =>
        {
            for (var column = 0; column < width; column++)
            {
                var total = 0f;
                for (var other = Math.Max(0, column - reach); other <= Math.Min(width - 1, column + reach); other++)
                {
                    total += weights[other - column + reach] * values[(row * width) + other];
                }

                along[(row * width) + column] = total;
            }
        });
        Parallel.For(0, height, row =>
        {
            for (var other = Math.Max(0, row - reach); other <= Math.Min(height - 1, row + reach); other++)
            {
                var weight = weights[other - row + reach];
                for (var column = 0; column < width; column++)
                {
                    both[(row * width) + column] += weight * along[(other * width) + column];
                }
            }
        });
        return new(both, width, height, dotSize);
    }
}
