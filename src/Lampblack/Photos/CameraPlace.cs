using System;

namespace Lampblack.Photos;

/// <summary>
/// Where the camera stood over the sheet, by the homography: what lies h deeper than the front is seen moved by h (foot - p) / height.
/// </summary>
/// <param name="FootXMm">The point of the sheet's plane below the camera.</param>
/// <param name="FootYMm">The same, upwards.</param>
/// <param name="HeightMm">How far the camera stood from that plane; negative behind the sheet.</param>
/// <param name="TiltDegrees">Between the direction of looking and the straight one onto the sheet.</param>
internal sealed record CameraPlace(double FootXMm, double FootYMm, double HeightMm, double TiltDegrees)
{
    // Focal lengths of cameras in phones and hands, in half diagonals: about 28 mm before a half diagonal of 21.6 mm, give or take a third.
    private const double UsualFocal = 1.25;
    private const double UsualSd = 0.35;

    // How far from square and even the two axes come out by noise and lens.
    private const double AxesSd = 0.004;

    public static CameraPlace Of(SheetPose pose)
    {
        var h = pose.ToStraight;
        var best = (Cost: double.MaxValue, Focal: UsualFocal);
        for (var step = 0; step <= 200; step++)
        {
            var focal = UsualFocal * Math.Exp((step - 100) * 0.012);
            var (first, second, both) = Axes(h, focal);
            var even = Math.Log(first / second) / 2;
            var square = both / Math.Sqrt(first * second);
            var usual = Math.Log(focal / UsualFocal) / UsualSd;
            var cost = (((even * even) + (square * square)) / (AxesSd * AxesSd)) + (usual * usual);
            best = cost < best.Cost ? (cost, focal) : best;
        }

        return Stand(h, best.Focal);
    }

    private static (double First, double Second, double Both) Axes(double[,] h, double focal)
    {
        var f = 1 / (focal * focal);
        return (
            (((h[0, 0] * h[0, 0]) + (h[1, 0] * h[1, 0])) * f) + (h[2, 0] * h[2, 0]),
            (((h[0, 1] * h[0, 1]) + (h[1, 1] * h[1, 1])) * f) + (h[2, 1] * h[2, 1]),
            (((h[0, 0] * h[0, 1]) + (h[1, 0] * h[1, 1])) * f) + (h[2, 0] * h[2, 1]));
    }

    private static CameraPlace Stand(double[,] h, double focal)
    {
        // Columns of the homography are the sheet's axes and origin as the camera has them, but for one factor.
        var (first, second, _) = Axes(h, focal);
        var factor = Math.Sqrt(Math.Sqrt(first * second));
        factor = h[2, 2] < 0 ? -factor : factor;
        var x = (X: h[0, 0] / focal / factor, Y: h[1, 0] / focal / factor, Z: h[2, 0] / factor);
        var y = (X: h[0, 1] / focal / factor, Y: h[1, 1] / focal / factor, Z: h[2, 1] / factor);
        var origin = (X: h[0, 2] / focal / factor, Y: h[1, 2] / focal / factor, Z: h[2, 2] / factor);
        var normal = (X: (x.Y * y.Z) - (x.Z * y.Y), Y: (x.Z * y.X) - (x.X * y.Z), Z: (x.X * y.Y) - (x.Y * y.X));
        var length = Math.Sqrt((normal.X * normal.X) + (normal.Y * normal.Y) + (normal.Z * normal.Z));

        // The camera is at 0: its place over the sheet is what the origin is away from it, along the axes.
        return new(
            -((origin.X * x.X) + (origin.Y * x.Y) + (origin.Z * x.Z)),
            -((origin.X * y.X) + (origin.Y * y.Y) + (origin.Z * y.Z)),
            -((origin.X * normal.X) + (origin.Y * normal.Y) + (origin.Z * normal.Z)) / length,
            Math.Acos(Math.Clamp(Math.Abs(normal.Z) / length, 0, 1)) * 180 / Math.PI);
    }
}
