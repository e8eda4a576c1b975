using System.Linq;
using Lampblack.Desks;
using Lampblack.Geometry;
using Lampblack.Layout;

namespace Lampblack.Artwork;

/// <summary>Shapes of filled areas.</summary>
internal static class AreaShape
{
    public static Region<PanelSpace> Of(PlacedArea area)
    {
        var (dx, dy) = (area.Shift.DxMm, area.Shift.DyMm);
        return area.Form switch
        {
            BoxForm box => Region<PanelSpace>.RoundedRectangle(new(box.LeftMm + dx, box.BottomMm + dy, box.WidthMm, box.HeightMm), box.CornerMm),
            DiscForm disc => Region<PanelSpace>.Disc(new(disc.XMm + dx, disc.YMm + dy), disc.RadiusMm),
            PolygonForm polygon => Region<PanelSpace>.FromCorners(
                [.. polygon.CornersMm.Select(corner => new Point<PanelSpace>(corner.XMm + dx, corner.YMm + dy))]),
            _ => Region<PanelSpace>.Empty,
        };
    }
}
