using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;

namespace Lampblack.Separations;

/// <summary>One side as it is painted.</summary>
/// <param name="Areas">The areas in the order of painting.</param>
/// <param name="TonerMm2">All toner, in mm2 of full layers.</param>
internal sealed record PaintedSide(ImmutableArray<Painted<PanelSpace>> Areas, double TonerMm2)
{
    /// <summary>Adds the toner up from how a side is made, which spares laying its two largest areas over each other.</summary>
    /// <param name="beside">Colours and covers; they share no place with the edge.</param>
    /// <param name="edge">The black up to its every edge.</param>
    /// <param name="inside">What is painted over it inside its edge, side by side.</param>
    /// <param name="crosshairs">What is painted last, inside the windows.</param>
    public static double Toner(
        ImmutableArray<Painted<PanelSpace>> beside, Painted<PanelSpace> edge, ImmutableArray<Painted<PanelSpace>> inside, Painted<PanelSpace> crosshairs)
    {
        var edgeMm2 = Math.Max(0, edge.Region.AreaMm2 - inside.Sum(area => area.Region.AreaMm2));
        return (edgeMm2 * edge.Ink.TotalCoverage)
            + inside.Append(crosshairs).Sum(area => area.Region.AreaMm2 * area.Ink.TotalCoverage)
            + beside.Sum(area => area.Region.Except(crosshairs.Region).AreaMm2 * area.Ink.TotalCoverage);
    }
}
