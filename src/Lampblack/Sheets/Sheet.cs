using System.Collections.Immutable;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Quantities;

namespace Lampblack.Sheets;

/// <summary>A sheet of paper with both its sides, in front view.</summary>
/// <param name="Id">Its name in files and reports, such as <c>sheet-1</c>.</param>
/// <param name="PairCode">Six characters made from the contents of both sides.</param>
/// <param name="Paper">The paper; always upright.</param>
/// <param name="Panels">The panels on it.</param>
/// <param name="Front">The front's areas in the order of painting.</param>
/// <param name="Back">The back's areas in the order of painting, still in front view.</param>
/// <param name="Gauges">The gauges on it, by name, with their places.</param>
public sealed record Sheet(
    string Id,
    string PairCode,
    PaperSize Paper,
    ImmutableArray<PlacedPanel> Panels,
    ImmutableArray<Painted<SheetSpace>> Front,
    ImmutableArray<Painted<SheetSpace>> Back,
    ImmutableArray<PlacedGauge> Gauges)
{
    /// <summary>The line among the back's areas that says which sheet and side it is: not true of a film.</summary>
    internal Region<SheetSpace>? BackTitle { get; init; }
}

/// <summary>A gauge in its place.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Box">Where it stands.</param>
public sealed record PlacedGauge(string Name, Box<SheetSpace> Box);
