using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Fabrication;

/// <summary>Where a drill has most room in an opening of any form.</summary>
internal static class DeepSpot
{
    private const double CloseEnoughMm = 0.05;

    /// <summary>The middle of about the largest disc that lies within, and its radius.</summary>
    /// <param name="area">The opening; not empty.</param>
    public static (Point<ItemSpace> At, double RadiusMm) Of(Region<ItemSpace> area)
    {
        // Choked by ever more until nothing is left: the last of it is the middle of the widest place.
        var (least, most) = (0.0, area.SmallestWidthMm / 2);
        var left = area;
        while (most - least > CloseEnoughMm)
        {
            var tried = (least + most) / 2;
            var choked = area.Grow(-tried);
            (least, most, left) = choked.IsEmpty ? (least, tried, left) : (tried, most, choked);
        }

        var widest = left.Pieces.MaxBy(piece => piece.AreaMm2)!;
        var middle = widest.Bounds.Centre;
        return (widest.Contains(middle) ? middle : widest.Borders()[0].Points[0], least);
    }
}
