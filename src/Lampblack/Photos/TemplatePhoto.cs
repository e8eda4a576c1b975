using System.Collections.Immutable;
using Lampblack.Calibration;
using Lampblack.Geometry;

namespace Lampblack.Photos;

/// <summary>A hole as one photo, or several, tell it.</summary>
/// <param name="Hole">The hole as it was meant.</param>
/// <param name="RightMm">How far it lies to the right of that, seen from the panel's front.</param>
/// <param name="UpMm">How far it lies above.</param>
/// <param name="SdMm">How well each is known, but for what the plate's thickness does.</param>
/// <param name="DiameterMm">Its diameter.</param>
/// <param name="DiameterSdMm">How well that is known.</param>
/// <param name="PerHeight">By how much it would lie elsewhere if the plate were e times as thick, or the camera so much nearer.</param>
public sealed record HoleReading(
    PanelHole Hole, double RightMm, double UpMm, double SdMm, double DiameterMm, double DiameterSdMm, Vector<PanelSpace> PerHeight);

/// <summary>What was read of one photo of a hole template.</summary>
/// <param name="FileName">The photo's name, as it was given.</param>
/// <param name="Plan">The page that it shows.</param>
/// <param name="IsImprint">Whether it shows what a felt pen left on the page, not the plate itself.</param>
/// <param name="TiltDegrees">How far the camera stood from straight above.</param>
/// <param name="MarksFound">How many of the page's windows were found.</param>
/// <param name="BendMm">How far windows lie from where they ought to be, root mean square: paper that is not flat.</param>
/// <param name="HeightSdShare">How well the plate's thickness over the camera's height is known, as a share of it; 0 for an imprint.</param>
/// <param name="Holes">The holes that were found.</param>
public sealed record TemplatePhoto(
    string FileName, TemplatePlan Plan, bool IsImprint, double TiltDegrees, int MarksFound, double BendMm, double HeightSdShare, ImmutableArray<HoleReading> Holes);
