namespace Lampblack.Circuits;

/// <summary>How far it is from the middle of one box to that of another: wires leave each through the middle of its upper wall. Boxes stand side by side. Common practice, no source.</summary>
internal static class BoxWay
{
    /// <summary>Down, up and round the walls between two boxes, a hand's breadth apart. From memory.</summary>
    private const double OverWallMm = 150;

    /// <summary>The way from middle to middle.</summary>
    /// <param name="one">Width and height of the one.</param>
    /// <param name="other">Of the other.</param>
    /// <param name="pastMm">Width of what stands between them.</param>
    public static double BetweenMm((double WidthMm, double HeightMm) one, (double WidthMm, double HeightMm) other, double pastMm) =>
        ((one.WidthMm + other.WidthMm + one.HeightMm + other.HeightMm) / 2) + pastMm + OverWallMm;
}
