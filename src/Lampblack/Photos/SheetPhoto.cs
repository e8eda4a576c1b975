using System.Collections.Immutable;
using Lampblack.Calibration;

namespace Lampblack.Photos;

/// <summary>What was read of one photo of a calibration sheet.</summary>
/// <param name="FileName">The photo's name, as it was given.</param>
/// <param name="Plan">The sheet's layout.</param>
/// <param name="Code">What the sheet says of itself; null where neither side's row could be read.</param>
/// <param name="IsFromBehind">Whether the back was towards the camera. Everything here is in front view all the same.</param>
/// <param name="TiltDegrees">How far the camera stood from straight above the sheet.</param>
/// <param name="MarksFound">How many of the front's marks were found.</param>
/// <param name="Marks">Those where the back's disc was measured too.</param>
/// <param name="Fit">Where side 2 lands; null where too few marks tell it.</param>
public sealed record SheetPhoto(
    string FileName,
    CalibrationPlan Plan,
    SheetCode? Code,
    bool IsFromBehind,
    double TiltDegrees,
    int MarksFound,
    ImmutableArray<MarkReading> Marks,
    MisregisterFit? Fit)
{
    /// <summary>Where the camera stood.</summary>
    internal CameraPlace? Camera { get; init; }

    /// <summary>How blurred the photo is, on the sheet, as a normal spread.</summary>
    internal double BlurMm { get; init; }

    /// <summary>The light of the wedge's patches; null where the photo shows too little paper to compare them with.</summary>
    internal PhotoWedge? Wedge { get; init; }
}
