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
    /// <summary>How much toner grew at each edge; null where the photo does not tell it.</summary>
    public GainReading? Gain { get; init; }

    /// <summary>How far each colour lies off its black, mark by mark; nothing where the photo does not tell it.</summary>
    public ImmutableArray<PlaneOffset> Planes { get; init; } = [];

    /// <summary>Why the photo does not tell of toner's growth; null where it does.</summary>
    public string? GainWhy { get; init; }

    /// <summary>Of which colours the photo does not tell, and why.</summary>
    public ImmutableArray<(char Letter, string Why)> PlanesWhy { get; init; } = [];

    /// <summary>Where the camera stood.</summary>
    internal CameraPlace? Camera { get; init; }

    /// <summary>How blurred the photo is, on the sheet, as a normal spread.</summary>
    internal double BlurMm { get; init; }

    /// <summary>The light of the wedge's patches; null where the photo shows too little paper to compare them with.</summary>
    internal PhotoWedge? Wedge { get; init; }
}
