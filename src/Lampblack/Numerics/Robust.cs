using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Numerics;

/// <summary>Figures that a few wild numbers do not upset.</summary>
internal static class Robust
{
    /// <summary>The middle number; 0 of none.</summary>
    public static double Median(IEnumerable<double> numbers)
    {
        var sorted = numbers.ToArray();
        Array.Sort(sorted);
        return sorted.Length == 0 ? 0 : (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
    }

    /// <summary>The standard deviation of normal numbers around 0 by the median of their sizes, which is 0.6745 of it.</summary>
    public static double Sd(IEnumerable<double> numbers) => Median(numbers.Select(Math.Abs)) / 0.6745;
}
