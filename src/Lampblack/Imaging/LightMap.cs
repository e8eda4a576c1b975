using System;
using System.Collections.Immutable;
using Lampblack.Geometry;

namespace Lampblack.Imaging;

/// <summary>How bright the common light is from place to place, as multiples of what the pictures are exposed for; in between it is read straight across.</summary>
/// <param name="View">From the first place to the last.</param>
/// <param name="Columns">Places in a row, at least 2.</param>
/// <param name="Rows">Rows, at least 2; the lowest first.</param>
/// <param name="LevelFactors">The multiples, row by row.</param>
public sealed record LightMap(Box<PanelSpace> View, int Columns, int Rows, ImmutableArray<float> LevelFactors)
{
    /// <summary>The multiple at a place; beyond the border that of the border.</summary>
    internal float At(double xMm, double yMm)
    {
        var x = Math.Clamp((xMm - View.LeftMm) / View.WidthMm * (Columns - 1), 0, Columns - 1);
        var y = Math.Clamp((yMm - View.BottomMm) / View.HeightMm * (Rows - 1), 0, Rows - 1);
        var (column, row) = (Math.Min((int)x, Columns - 2), Math.Min((int)y, Rows - 2));
        var (right, up) = ((float)(x - column), (float)(y - row));
        var lower = Mix(LevelFactors[(row * Columns) + column], LevelFactors[(row * Columns) + column + 1], right);
        return Mix(lower, Mix(LevelFactors[((row + 1) * Columns) + column], LevelFactors[((row + 1) * Columns) + column + 1], right), up);
    }

    private static float Mix(float from, float to, float share) => from + (share * (to - from));
}
