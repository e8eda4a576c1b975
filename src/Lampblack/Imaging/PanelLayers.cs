using System.Collections.Immutable;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Optics;

namespace Lampblack.Imaging;

/// <summary>Something solid in front of the panel that hides it: a bezel, a knob, a nut.</summary>
/// <param name="Region">What it hides, seen from the front.</param>
/// <param name="Reflectance">What it looks like in room light, from 0 to 1.</param>
public sealed record PlacedBezel(Region<PanelSpace> Region, LinearColour Reflectance);

/// <summary>What a panel consists of for the eye. Everything is seen from the front, the mask too.</summary>
/// <param name="View">What the pictures show; usually the panel and a margin.</param>
/// <param name="Panel">The panel's outline, rounded corners included.</param>
/// <param name="Front">
/// The front print on bare paper, in the order of painting: a later ink takes the place of an earlier one. Paint the whole first and details over it:
/// two shapes that only meet edge to edge leave a hairline of what lies below them, as anti-aliased edges share their dots.
/// </param>
/// <param name="Mask">The print on the back of the same paper, as it lies seen from the front, painted likewise.</param>
/// <param name="Holes">Holes through the panel, looked into from the front: dark.</param>
/// <param name="Bezels">What stands before the panel, the last one foremost.</param>
public sealed record PanelLayers(
    Box<PanelSpace> View,
    Region<PanelSpace> Panel,
    ImmutableArray<Painted<PanelSpace>> Front,
    ImmutableArray<Painted<PanelSpace>> Mask,
    Region<PanelSpace> Holes,
    ImmutableArray<PlacedBezel> Bezels)
{
    /// <summary>What is printed on the front a second time: it keeps light back once more, and looks no different by day.</summary>
    public ImmutableArray<Painted<PanelSpace>> FrontAgain { get; init; } = [];

    /// <summary>What lies over the mask once more, from a second pass or on a film; it is off by as much as the mask.</summary>
    public ImmutableArray<Painted<PanelSpace>> MaskAgain { get; init; } = [];
}
