namespace Lampblack.Photos;

/// <summary>An ellipse in a photo: the unit circle's points u go to middle + [[Ax, Bx], [Ay, By]] u. Pixels, y downwards.</summary>
internal readonly record struct Ellipse(double X, double Y, double Ax, double Ay, double Bx, double By)
{
    public double Size => System.Math.Sqrt(System.Math.Abs((Ax * By) - (Ay * Bx)));

    public (double X, double Y) At(double u, double v) => (X + (Ax * u) + (Bx * v), Y + (Ay * u) + (By * v));
}

/// <summary>A mark whose number was read.</summary>
/// <param name="Number">The number.</param>
/// <param name="Outline">Its round edge as seen; the outline's axes are turned so that the first points right and the second up in front view.</param>
/// <param name="IsMirrored">Whether it is seen from behind.</param>
internal sealed record SeenMark(int Number, Ellipse Outline, bool IsMirrored);
