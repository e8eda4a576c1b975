using System;
using System.Threading.Tasks;

namespace Lampblack.Tests.Art;

/// <summary>
/// Exact distances on a grid by two scans of lines (A. Meijster, J. Roerdink, W. Hesselink, "A general algorithm for computing distance transforms in linear time",
/// 2000). Shares no code with the product.
/// </summary>
internal static class Distances
{
    /// <summary>The square of the distance from each dot's middle to that of the nearest set one, in dots; very large where none is set.</summary>
    public static int[] Squared(bool[] set, int width)
    {
        var height = set.Length / width;
        var far = width + height;
        var down = new int[set.Length];
        Parallel.For(0, width, column => Down(set, down, column, width, height, far));
        var squared = new int[set.Length];
        Parallel.For(0, height, row => Across(down.AsSpan(row * width, width), squared.AsSpan(row * width, width)));
        return squared;
    }

    /// <summary>The farthest that any dot set in one of two pictures lies from the nearest one set in the other (Hausdorff's distance), in dots.</summary>
    public static double Farthest(bool[] first, bool[] second, int width) => Math.Max(FarthestFrom(first, second, width), FarthestFrom(second, first, width));

    private static double FarthestFrom(bool[] these, bool[] those, int width)
    {
        var squared = Squared(those, width);
        var most = 0;
        for (var dot = 0; dot < these.Length; dot++)
        {
            most = these[dot] ? Math.Max(most, squared[dot]) : most;
        }

        return Math.Sqrt(most);
    }

    private static void Down(bool[] set, int[] down, int column, int width, int height, int far)
    {
        var last = far;
        for (var row = 0; row < height; row++)
        {
            var at = (row * width) + column;
            down[at] = last = set[at] ? 0 : Math.Min(far, last + 1);
        }

        last = far;
        for (var row = height - 1; row >= 0; row--)
        {
            var at = (row * width) + column;
            down[at] = last = Math.Min(down[at], last + 1);
        }
    }

    private static void Across(ReadOnlySpan<int> down, Span<int> squared)
    {
        var (places, starts) = (new int[down.Length], new int[down.Length]);
        var top = 0;
        for (var column = 1; column < down.Length; column++)
        {
            while (top >= 0 && At(down, starts[top], places[top]) > At(down, starts[top], column))
            {
                top--;
            }

            if (top < 0)
            {
                (top, places[0], starts[0]) = (0, column, 0);
                continue;
            }

            // From where on this column is the nearer one.
            var from = places[top];
            var start = 1 + (int)Math.Floor((((long)column * column) - ((long)from * from) + ((long)down[column] * down[column]) - ((long)down[from] * down[from])) / (2.0 * (column - from)));
            if (start < down.Length)
            {
                top++;
                (places[top], starts[top]) = (column, start);
            }
        }

        for (var column = down.Length - 1; column >= 0; column--)
        {
            squared[column] = (int)Math.Min(int.MaxValue, At(down, column, places[top]));
            top -= column == starts[top] && top > 0 ? 1 : 0;
        }
    }

    private static long At(ReadOnlySpan<int> down, int column, int from) => ((long)(column - from) * (column - from)) + ((long)down[from] * down[from]);
}
