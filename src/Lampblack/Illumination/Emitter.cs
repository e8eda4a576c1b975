using System;
using Lampblack.Geometry;

namespace Lampblack.Illumination;

/// <summary>A light source behind the panel, on the box's floor, shining straight towards the mask.</summary>
/// <param name="At">Where it stands, seen from the front.</param>
/// <param name="FluxLumens">All its light.</param>
/// <param name="HalfAngleDegrees">From its axis to where its intensity is half; 60 for a flat source, which is Lambertian.</param>
/// <remarks>Intensity I = I0 cos^m, with m = -ln 2 / ln cos(half angle) and I0 = (m + 1) flux / 2 pi.</remarks>
public sealed record Emitter(Point<PanelSpace> At, double FluxLumens, double HalfAngleDegrees)
{
    /// <summary>Half angle of a flat source.</summary>
    public const double LambertianDegrees = 60;

    /// <summary>The exponent m of the cosine: 1 for a Lambertian source, larger for a narrow beam.</summary>
    public double OrderFactor => OrderOf(HalfAngleDegrees);

    /// <summary>Intensity straight ahead.</summary>
    public double AxisCandela => (OrderFactor + 1) * FluxLumens / (2 * Math.PI);

    /// <summary>The exponent of a half angle.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The half angle is not between 0 and 90.</exception>
    public static double OrderOf(double halfAngleDegrees)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(halfAngleDegrees);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(halfAngleDegrees, 90);

        // Half of 60 degrees is exactly Lambertian; the cosine is not exactly a half.
        return halfAngleDegrees == LambertianDegrees ? 1 : -Math.Log(2) / Math.Log(Math.Cos(halfAngleDegrees * Math.PI / 180));
    }
}
