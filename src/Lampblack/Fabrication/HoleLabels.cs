using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Sheets;

namespace Lampblack.Fabrication;

/// <summary>Numbers (and sizes) of openings, each beside its own where nothing stands yet: as large as there is room for.</summary>
internal static class HoleLabels
{
    private const double CrossBeyondMm = 2;
    private const double SmallCrossMm = 1.5;

    /// <summary>How far the arms of a hole's cross reach: beyond its edge where it is round, else just enough to set a drill on.</summary>
    public static double CrossMm(ChartHole hole) => hole.Starts.Length > 1 ? SmallCrossMm : (Bounds(hole).WidthMm / 2) + CrossBeyondMm;

    /// <summary>The labels.</summary>
    /// <param name="chart">The chart.</param>
    /// <param name="heightsMm">Heights of capitals to try, the best first.</param>
    /// <param name="withSizes">Whether sizes stand behind the numbers, where there is room.</param>
    public static IEnumerable<Region<PanelSpace>> Of(HoleChart chart, IReadOnlyList<double> heightsMm, bool withSizes)
    {
        var panel = chart.Laid.Panel;
        var air = heightsMm[^1] * 0.3;
        var inside = new Box<PanelSpace>(air, air, panel.WidthMm - (2 * air), panel.HeightMm - (2 * air));
        var holes = chart.Holes.Select(hole => Bounds(hole).Grow(air)).ToList();
        var arms = withSizes ? chart.Holes.SelectMany(hole => hole.Starts.SelectMany(start => Arms(start, CrossMm(hole)))) : [];
        var taken = holes.Concat(arms).Append(new(0, 0, TemplateDrawing.CornerReachMm(panel.CornerMm), TemplateDrawing.CornerReachMm(panel.CornerMm))).ToList();
        foreach (var (index, hole) in chart.Holes.Index())
        {
            var number = hole.Label;
            var both = $"{number} \u00b7 {hole.SizeText.Replace(" mm", string.Empty, StringComparison.Ordinal)}";
            var tries = (withSizes ? new[] { both, number } : [number]).SelectMany(words => heightsMm.Select(heightMm => (Words: words, HeightMm: heightMm)));
            var spot = tries.Select(one => (one.Words, one.HeightMm, Box: Free(one.Words, one.HeightMm, index))).FirstOrDefault(one => one.Box is not null);
            if (spot.Box is { } box)
            {
                taken.Add(box.Grow(air / 2));
                yield return TemplateDrawing.Text(spot.Words, spot.HeightMm, box.Centre);
            }
            else
            {
                // Crowded on all sides: a number that touches a line is better than none.
                yield return TemplateDrawing.Text(number, heightsMm[^1], new(holes[index].RightMm + heightsMm[^1], holes[index].TopMm));
            }
        }

        Box<PanelSpace>? Free(string words, double heightMm, int index)
        {
            var widthMm = SheetText.WidthMm(words, heightMm);

            // In the opening itself where no cross stands in it; else around it, near and a little farther.
            var within = new Box<PanelSpace>(holes[index].Centre.XMm - (widthMm / 2), holes[index].Centre.YMm - (heightMm / 2), widthMm, heightMm);
            if (!withSizes && Math.Min(holes[index].WidthMm, holes[index].HeightMm) > Math.Max(widthMm, heightMm) + (4 * air))
            {
                return within;
            }

            foreach (var far in new[] { 0, heightMm, 2.5 * heightMm })
            {
                foreach (var box in Spots(holes[index].Grow(far), widthMm, heightMm, air))
                {
                    if (inside.Contains(box) && !taken.Exists(other => other.Overlaps(box)))
                    {
                        return box;
                    }
                }
            }

            return null;
        }
    }

    private static Box<PanelSpace> Bounds(ChartHole hole) => hole.Shape.Bounds;

    private static IEnumerable<Box<PanelSpace>> Arms(Point<PanelSpace> at, double reachMm) =>
        [new(at.XMm - reachMm, at.YMm - 0.3, 2 * reachMm, 0.6), new(at.XMm - 0.3, at.YMm - reachMm, 0.6, 2 * reachMm)];

    /// <summary>Places around a box, the upper right first, then the other corners, then along its sides.</summary>
    private static IEnumerable<Box<PanelSpace>> Spots(Box<PanelSpace> hole, double widthMm, double heightMm, double airMm)
    {
        var (dx, dy) = (hole.WidthMm * 0.1, hole.HeightMm * 0.1);
        foreach (var (x, y) in new[]
        {
            (hole.RightMm - dx, hole.TopMm - dy), (hole.LeftMm + dx - widthMm, hole.TopMm - dy), (hole.RightMm - dx, hole.BottomMm + dy - heightMm), (hole.LeftMm + dx - widthMm, hole.BottomMm + dy - heightMm),
            (hole.RightMm + airMm, hole.Centre.YMm + (1.6 * airMm)), (hole.LeftMm - airMm - widthMm, hole.Centre.YMm + (1.6 * airMm)),
            (hole.Centre.XMm + (1.6 * airMm), hole.TopMm + airMm), (hole.Centre.XMm + (1.6 * airMm), hole.BottomMm - airMm - heightMm),
        })
        {
            yield return new(x, y, widthMm, heightMm);
        }
    }
}
