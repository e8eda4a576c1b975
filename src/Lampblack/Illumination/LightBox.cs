using System.Collections.Immutable;
using Lampblack.Geometry;

namespace Lampblack.Illumination;

/// <summary>Something opaque that stands behind the panel: from the panel's back into the box, upright walls, black all over unless it is told to be white.</summary>
/// <param name="Corners">Its footprint, convex, in order.</param>
/// <param name="DepthMm">How far it reaches into the box.</param>
public sealed record OpaqueBody(ImmutableArray<Point<PanelSpace>> Corners, double DepthMm)
{
    /// <summary>Whether it is small, stands at a wall and is as white: then it stands in the straight light alone, and throws back what the wall behind it would.</summary>
    public bool IsWhite { get; init; }
}

/// <summary>A sheet across the box that scatters all light that passes it.</summary>
/// <param name="GapMm">Its distance from the mask; 0 where it lies on it.</param>
/// <param name="Transmittance">What it lets through.</param>
/// <param name="Reflectance">What it throws back.</param>
public sealed record Diffuser(double GapMm, double Transmittance, double Reflectance);

/// <summary>The box behind a panel: upright walls, a floor that carries the emitters, the mask's back in front.</summary>
/// <param name="Inside">Its inner faces, seen from the front.</param>
/// <param name="DepthMm">From the mask to the emitters.</param>
/// <param name="WallReflectance">What walls throw back, evenly in all directions.</param>
/// <param name="FloorReflectance">What the floor throws back.</param>
/// <param name="MaskReflectance">What the mask's back throws back.</param>
public sealed record LightBox(Box<PanelSpace> Inside, double DepthMm, double WallReflectance, double FloorReflectance, double MaskReflectance)
{
    /// <summary>What stands in the light's way.</summary>
    public ImmutableArray<OpaqueBody> Bodies { get; init; } = [];

    /// <summary>A sheet that scatters; null for none.</summary>
    public Diffuser? Diffuser { get; init; }
}
