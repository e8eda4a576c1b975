using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Optics;

namespace Lampblack.Imaging;

/// <summary>A light-tight box behind a part of the panel, with an emitter of its own.</summary>
/// <param name="Region">What it is behind, seen from the front.</param>
/// <param name="Colour">Its light; black where it is switched off.</param>
public sealed record LightCell(Region<PanelSpace> Region, LinearColour Colour);

/// <summary>The light that falls on the back of the paper, even over the panel but for the cells.</summary>
/// <param name="Colour">The common light; see <see cref="EmitterColours"/>.</param>
/// <param name="Cells">Places with a light of their own; a later one takes the place of an earlier one.</param>
public sealed record Backlight(LinearColour Colour, ImmutableArray<LightCell> Cells)
{
    /// <summary>How bright the common light is from place to place; null where it is even.</summary>
    public LightMap? Map { get; init; }

    /// <summary>One light everywhere.</summary>
    public static Backlight Even(LinearColour colour) => new(colour, []);

    /// <summary>The strongest band of the strongest light.</summary>
    internal double Peak => Math.Max(Colour.Peak, Cells.Select(cell => cell.Colour.Peak).DefaultIfEmpty(0).Max());
}
