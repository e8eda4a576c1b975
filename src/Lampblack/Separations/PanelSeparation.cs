using System.Collections.Immutable;
using Lampblack.Artwork;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;

namespace Lampblack.Separations;

/// <summary>A panel as two printed sides, both in front view; the mirror comes later, on the page.</summary>
/// <param name="Artwork">The shapes it was made from.</param>
/// <param name="Build">The black build.</param>
/// <param name="SpreadMm">How much larger openings are than what shines.</param>
/// <param name="StandBackMm">How far other inks stay inside K's edge.</param>
/// <param name="Bleed">Everything that is printed, the bleed around the panel included.</param>
/// <param name="Front">The front's areas in the order of painting.</param>
/// <param name="Mask">The mask's areas in the order of painting.</param>
/// <param name="Shapes">What lies where, for pictures and checks.</param>
/// <param name="Figures">What can be told of it in numbers.</param>
public sealed record PanelSeparation(
    PanelArtwork Artwork,
    BlackBuild Build,
    double SpreadMm,
    double StandBackMm,
    Box<PanelSpace> Bleed,
    ImmutableArray<Painted<PanelSpace>> Front,
    ImmutableArray<Painted<PanelSpace>> Mask,
    SeparationShapes Shapes,
    SeparationFigures Figures)
{
    /// <summary>How far edges of black are pulled back in print; the shapes are as they come out on paper.</summary>
    public double PullBackMm { get; init; }

    /// <summary>How far the print reaches over the panel's edge, in mm. Common practice, no source.</summary>
    public const double BleedMm = 3;
}

/// <summary>What lies where on a separated panel.</summary>
/// <param name="Visible">The marks as far as no later mark covers them, in the order of painting.</param>
/// <param name="Lit">What shines when the lamps are on: lit and hidden marks.</param>
/// <param name="HatchGaps">What is black between the lines of hatches on a field that is not; on a black field there is nothing to tell.</param>
/// <param name="Covers">What hidden marks are covered with on the front: their shapes grown by the spread, by ink.</param>
/// <param name="Openings">
/// Where the mask is open: lit shapes grown by the spread, hidden ones just as they are, and islands too small to print. A lit legend gets its outline from the
/// front, so the mask must not clip it; a hidden one gets it from the mask, so its cover must reach over it.
/// </param>
/// <param name="FrontBlack">Where the front carries the field's black or a cover.</param>
/// <param name="MaskBlack">Where the mask is black.</param>
/// <param name="Windows">The white insides of holes, that are cut away.</param>
/// <param name="FrontCrosshairs">What is printed in the front's windows.</param>
/// <param name="MaskCrosshairs">What is printed in the mask's windows, each mirrored in itself.</param>
public sealed record SeparationShapes(
    ImmutableArray<Mark> Visible,
    Region<PanelSpace> Lit,
    Region<PanelSpace> HatchGaps,
    ImmutableArray<Painted<PanelSpace>> Covers,
    Region<PanelSpace> Openings,
    Region<PanelSpace> FrontBlack,
    Region<PanelSpace> MaskBlack,
    Region<PanelSpace> Windows,
    Region<PanelSpace> FrontCrosshairs,
    Region<PanelSpace> MaskCrosshairs)
{
    /// <summary>Pictures, in the order of painting.</summary>
    public ImmutableArray<DotLayer> Dots { get; init; } = [];
}

/// <summary>A separated panel in numbers.</summary>
/// <param name="Openings">How many separate openings the mask has.</param>
/// <param name="SmallestOpeningMm">Smallest width of any of them; 0 where there is none.</param>
/// <param name="HaloWidthMm">Width of the ring around a legend where only the front is black.</param>
/// <param name="HaloMm2">Area of all such rings.</param>
/// <param name="LeakMm2">Area where neither side is black although nothing is to be seen there.</param>
/// <param name="FrontCoverage">Toner of the front, in full layers, as a mean over panel and bleed.</param>
/// <param name="MaskCoverage">Toner of the mask, likewise.</param>
public sealed record SeparationFigures(
    int Openings,
    double SmallestOpeningMm,
    double HaloWidthMm,
    double HaloMm2,
    double LeakMm2,
    double FrontCoverage,
    double MaskCoverage);
