using System.Linq;
using Lampblack.Calibration;
using Lampblack.Geometry;
using Lampblack.Numerics;
using Lampblack.Sheets;

namespace Lampblack.Photos;

/// <summary>Looks at which of four places the back's turn mark stands: how the sheet was turned for side 2.</summary>
internal static class TurnMarkReader
{
    private const double ReachMm = 2.2;
    private const double LeastContrastShare = 0.3;

    /// <summary>The place's number in the plan, 0 where it belongs; null where no turn mark is seen.</summary>
    public static int? Read(LightPlane light, SheetPose pose, CalibrationPlan plan)
    {
        for (var place = 0; place < plan.TurnPlaces.Length; place++)
        {
            var middle = plan.TurnPlaces[place];
            var clear = Enumerable.Range(0, 36).Select(part => Light(middle.Polar(4.6, part * 10))).Where(double.IsFinite).OrderDescending().ToList();
            if (clear.Count < 30)
            {
                continue;
            }

            var bright = Robust.Median(clear.Take(18));
            if (DiscFinder.Find(light, pose, middle, ReachMm, _ => bright) is { } disc && disc.ContrastShare > LeastContrastShare)
            {
                var (cells, _) = DiscFinder.Cells(light, pose, disc.Middle, bright * (1 - disc.ContrastShare), _ => bright);
                if (RingCodes.Read(cells) is { Number: CalibrationPlan.TurnMarkNumber })
                {
                    return place;
                }
            }
        }

        return null;

        double Light(Point<SheetSpace> at)
        {
            var (x, y) = pose.Project(at);
            return light.At(x, y);
        }
    }
}
