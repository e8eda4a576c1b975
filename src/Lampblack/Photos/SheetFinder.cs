using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Sheets;

namespace Lampblack.Photos;

/// <summary>A sheet whose front marks were found: the plan that fits, the marks, and a first pose.</summary>
internal sealed record FoundSheet(CalibrationPlan Plan, SheetPose Pose, ImmutableArray<SeenMark> Marks, ImmutableArray<SeenMark> Others);

/// <summary>Finds which marks lie together as on one sheet, and on which paper.</summary>
internal static class SheetFinder
{
    public const int FewestMarks = 5;

    /// <summary>By how many points of each window's edge <see cref="Misfit(SheetPose, ImmutableArray{SeenMark})"/> goes.</summary>
    public const int PointsOfMisfit = 12;

    private const int Tries = 150;
    private const double NearMm = 12;

    public static FoundSheet? Find(IReadOnlyList<SeenMark> seen, ImmutableArray<CalibrationPlan> plans, int widthPx, int heightPx) => plans
        .Select(plan => Of(plan, seen, widthPx, heightPx)).OfType<FoundSheet>()

        // Even grids of all papers look alike in perspective: which paper it is, the windows' shape tells, as they must come out round and in size.
        .OrderBy(found => found.Marks.Length < seen.Count / 2).ThenBy(Misfit).FirstOrDefault();

    private static FoundSheet? Of(CalibrationPlan plan, IReadOnlyList<SeenMark> seen, int widthPx, int heightPx) =>
        Fit(plan.Marks, seen, widthPx, heightPx) is var (pose, marks, others) ? new(plan, pose, marks, others) : null;

    /// <summary>The seen marks that lie as on a sheet, with a first pose, and those that do not; null where too few do.</summary>
    /// <param name="plan">The sheet's marks.</param>
    /// <param name="seen">All that were read.</param>
    /// <param name="widthPx">The photo's width.</param>
    /// <param name="heightPx">Its height.</param>
    /// <param name="fewest">How many are needed; at least four.</param>
    public static (SheetPose Pose, ImmutableArray<SeenMark> Marks, ImmutableArray<SeenMark> Others)? Fit(
        ImmutableArray<RegisterMark> plan, IReadOnlyList<SeenMark> seen, int widthPx, int heightPx, int fewest = FewestMarks)
    {
        var places = plan.ToDictionary(mark => mark.Number, mark => mark.Place);
        var known = seen.Where(mark => places.ContainsKey(mark.Number)).ToList();
        if (known.Count < fewest)
        {
            return null;
        }

        var best = new List<SeenMark>();
        var state = 12345u;
        for (var attempt = 0; attempt < Tries; attempt++)
        {
            var four = Enumerable.Range(0, 4).Select(_ => known[(int)(Next() % (uint)known.Count)]).DistinctBy(mark => mark.Number).ToList();
            if (four.Count == 4 && Pose(four) is { } pose && Near(pose) is var near && near.Count > best.Count)
            {
                best = near;
            }
        }

        if (best.Count < fewest || Pose(best) is not { } whole)
        {
            return null;
        }

        var marks = Near(whole);
        return marks.Count >= fewest && Pose(marks) is { } last ? (last, [.. marks], [.. seen.Except(marks)]) : null;

        // Numbers that begin alike each time: the same photo gives the same result.
        uint Next()
        {
            state = (state * 1664525) + 1013904223;
            return state >> 8;
        }

        SheetPose? Pose(IEnumerable<SeenMark> marks) =>
            PoseFit.Start([.. marks.Select(mark => (places[mark.Number], mark.Outline.X, mark.Outline.Y))], widthPx, heightPx);

        List<SeenMark> Near(SheetPose pose) => [.. known
            .Where(mark => pose.Unproject(mark.Outline.X, mark.Outline.Y).DistanceMm(places[mark.Number]) < NearMm)
            .GroupBy(mark => mark.Number)
            .Select(same => same.MinBy(mark => pose.Unproject(mark.Outline.X, mark.Outline.Y).DistanceMm(places[mark.Number]))!)];
    }

    private static double Misfit(FoundSheet found) => Misfit(found.Pose, found.Marks);

    /// <summary>How far the windows' edges lie from their circles, in mm squared, summed over the points of a window and averaged over windows.</summary>
    public static double Misfit(SheetPose pose, ImmutableArray<SeenMark> marks)
    {
        var sum = 0.0;
        foreach (var mark in marks)
        {
            for (var part = 0; part < PointsOfMisfit; part++)
            {
                var (v, u) = Math.SinCos(part * 2 * Math.PI / PointsOfMisfit);
                var (x, y) = mark.Outline.At(u, v);
                var centre = pose.Unproject(mark.Outline.X, mark.Outline.Y);
                sum += Math.Pow(pose.Unproject(x, y).DistanceMm(centre) - RegisterMark.WindowRadiusMm, 2);
            }
        }

        return sum / marks.Length;
    }
}
