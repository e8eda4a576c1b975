using System;

namespace Lampblack.Optics;

/// <summary>A lit panel in a lit room, in cd/m2.</summary>
/// <param name="RoomLux">Light that falls on the face.</param>
/// <param name="BackLux">Light that falls on the back of the paper.</param>
public sealed record RoomLight(double RoomLux, double BackLux)
{
    /// <summary>Light on the back of the paper where nobody measured it: an even box of usual emitters. Assumed.</summary>
    public const double UsualBackLux = 2000;

    /// <summary>A night room, in which the lit picture is drawn: 0.2 % of what falls on the back. Assumed.</summary>
    public static RoomLight Night { get; } = new(4, UsualBackLux);

    /// <summary>A room lit for screens and for moving about: 108 lx (NUREG-0700, table 12.1). Common practice for an evening room, too.</summary>
    public static RoomLight Evening { get; } = new(108, UsualBackLux);

    /// <summary>The room's light as a share of what falls on the back.</summary>
    public double RoomShare => RoomLux / BackLux;

    /// <summary>Luminance of a face that throws room light back evenly: E R / pi.</summary>
    public static double FaceCandelaPerM2(double lux, double faceReflectance) => lux * faceReflectance / Math.PI;

    /// <summary>Luminance of a film or paper before its own light source with room light added: La + L0 10^-D (DICOM PS3.14, 7.2).</summary>
    public static double SeenCandelaPerM2(double sourceCandelaPerM2, double density, double roomCandelaPerM2) =>
        roomCandelaPerM2 + (sourceCandelaPerM2 * Density.Transmittance(density));

    /// <summary>Luminance of a place that is lit from both sides.</summary>
    /// <param name="paper">The paper.</param>
    /// <param name="passedTransmittance">What its inks and layers let through, as a share of what bare paper lets through.</param>
    /// <param name="faceReflectance">What it throws back.</param>
    public double PlaceCandelaPerM2(PaperOptics paper, double passedTransmittance, double faceReflectance)
    {
        ArgumentNullException.ThrowIfNull(paper);
        return SeenCandelaPerM2(
            FaceCandelaPerM2(BackLux, paper.Transmittance), passedTransmittance > 0 ? Density.OfTransmittance(passedTransmittance) : double.PositiveInfinity, FaceCandelaPerM2(RoomLux, faceReflectance));
    }
}
