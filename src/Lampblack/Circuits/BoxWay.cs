using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Circuits;

/// <summary>How far it is from the middle of one box to that of another: wires leave each through the middle of its upper wall. Boxes stand side by side. Common practice, no source.</summary>
internal static class BoxWay
{
    /// <summary>Down, up and round the walls between two boxes, a hand's breadth apart. From memory.</summary>
    private const double OverWallMm = 150;

    /// <summary>The way from middle to middle.</summary>
    /// <param name="row">Width and height of every box, from left to right.</param>
    /// <param name="one">The one, by its place in the row.</param>
    /// <param name="other">The other; the wires pass the boxes between the two.</param>
    public static double BetweenMm(IReadOnlyList<(double WidthMm, double HeightMm)> row, int one, int other)
    {
        var ((wide, high), (otherWide, otherHigh)) = (row[one], row[other]);
        var past = row.Skip(Math.Min(one, other) + 1).Take(Math.Abs(one - other) - 1).Sum(box => box.WidthMm);
        return ((wide + otherWide + high + otherHigh) / 2) + past + OverWallMm;
    }
}
