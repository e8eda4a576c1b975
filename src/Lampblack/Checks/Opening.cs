using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Parts;

namespace Lampblack.Checks;

/// <summary>One hole of a part in its place; round ones know it, so that distances are exact and cheap.</summary>
/// <param name="Part">The part.</param>
/// <param name="Shape">What is cut away.</param>
/// <param name="Centre">Its middle.</param>
/// <param name="RadiusMm">Radius of a round one; null for any other.</param>
internal sealed record Opening(PlacedPart Part, Region<PanelSpace> Shape, Point<PanelSpace> Centre, double? RadiusMm)
{
    /// <summary>Diameter, or the smaller side of its box.</summary>
    public double AcrossMm => RadiusMm is { } radius ? 2 * radius : Math.Min(Shape.Bounds.WidthMm, Shape.Bounds.HeightMm);

    /// <summary>The box around it.</summary>
    public Box<PanelSpace> Bounds => RadiusMm is { } radius ? Box<PanelSpace>.Between(Centre, Centre).Grow(radius) : Shape.Bounds;

    /// <summary>All holes of a part.</summary>
    public static IEnumerable<Opening> Of(PlacedPart part)
    {
        var map = part.Map;
        for (var index = 0; index < part.Holes.Length; index++)
        {
            if (index == 0)
            {
                var isRound = part.Part is { Cutout: RoundCutout, Key: null };
                yield return new(part, part.Holes[0], part.Centre, isRound ? ((RoundCutout)part.Part.Cutout).Diameter.Mm / 2 : null);
            }
            else
            {
                var extra = part.Part.ExtraHoles[index - 1];
                yield return new(part, part.Holes[index], map.Apply(new(extra.XMm, extra.YMm)), extra.Diameter.Mm / 2);
            }
        }
    }

    /// <summary>What stays between two holes, in mm.</summary>
    public double WebMm(Opening other) => (RadiusMm, other.RadiusMm) is ({ } one, { } two)
        ? Centre.DistanceMm(other.Centre) - one - two
        : Shape.DistanceMm(other.Shape);

    /// <summary>What stays between the hole and the edge of a plate with round corners, in mm.</summary>
    public double ToEdgeMm(double widthMm, double heightMm, double cornerMm)
    {
        var box = Bounds;
        var straight = Math.Min(Math.Min(box.LeftMm, box.BottomMm), Math.Min(widthMm - box.RightMm, heightMm - box.TopMm));
        var nearest = new Point<PanelSpace>(
            Centre.XMm < widthMm / 2 ? cornerMm : widthMm - cornerMm,
            Centre.YMm < heightMm / 2 ? cornerMm : heightMm - cornerMm);
        var inCorner = Math.Abs(Centre.XMm - (widthMm / 2)) > (widthMm / 2) - cornerMm && Math.Abs(Centre.YMm - (heightMm / 2)) > (heightMm / 2) - cornerMm;
        if (!inCorner)
        {
            return straight;
        }

        var farthest = RadiusMm is { } radius
            ? Centre.DistanceMm(nearest) + radius
            : Shape.Borders().SelectMany(border => border.Points).Max(point => point.DistanceMm(nearest));
        return Math.Min(straight, cornerMm - farthest);
    }
}
