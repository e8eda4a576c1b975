using System.Collections.Immutable;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;

namespace Lampblack.Sheets;

/// <summary>A panel ready to be put on a sheet; both sides in front view.</summary>
/// <param name="Id">The panel's id.</param>
/// <param name="Title">Its name for people.</param>
/// <param name="WidthMm">Width of the finished panel.</param>
/// <param name="HeightMm">Height of the finished panel.</param>
/// <param name="BleedMm">How far the print reaches over its edge.</param>
/// <param name="Front">The front's areas in the order of painting.</param>
/// <param name="Mask">The mask's areas in the order of painting.</param>
/// <param name="Holes">What is cut away.</param>
public sealed record Printable(
    string Id,
    string Title,
    double WidthMm,
    double HeightMm,
    double BleedMm,
    ImmutableArray<Painted<PanelSpace>> Front,
    ImmutableArray<Painted<PanelSpace>> Mask,
    Region<PanelSpace> Holes)
{
    /// <summary>How much larger its openings are than what shines, for the gauges' limits; the usual where nobody said.</summary>
    public double SpreadMm { get; init; } = PrinterProperties.Unmeasured.SpreadMm;

    /// <summary>What a second pass prints on the front; empty where none was asked for.</summary>
    public ImmutableArray<Painted<PanelSpace>> FrontAgain { get; init; } = [];

    /// <summary>What a second pass prints on the mask; empty where none was asked for.</summary>
    public ImmutableArray<Painted<PanelSpace>> MaskAgain { get; init; } = [];
}

/// <summary>A panel's place on a sheet.</summary>
/// <param name="Panel">The panel.</param>
/// <param name="Map">From panel to sheet.</param>
/// <param name="QuarterTurns">How many quarter-turns it is turned, counter-clockwise: 0 or 1.</param>
/// <param name="Trim">Its finished outline's box on the sheet.</param>
/// <param name="Block">Everything that belongs to it: bleed, trim marks, label, tape hinge.</param>
/// <param name="Hinge">The strip that stays on for a tape hinge; null where there was no room.</param>
/// <param name="Spare">Whether it is a spare copy.</param>
public sealed record PlacedPanel(
    Printable Panel,
    Affine<PanelSpace, SheetSpace> Map,
    int QuarterTurns,
    Box<SheetSpace> Trim,
    Box<SheetSpace> Block,
    Box<SheetSpace>? Hinge,
    bool Spare)
{
    /// <summary>What is printed on the strip for the hinge; the build book calls it so, too.</summary>
    public const string HingeWord = "tape hinge";
}
