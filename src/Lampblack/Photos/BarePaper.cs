using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Geometry;

namespace Lampblack.Photos;

/// <summary>The light of bare paper all over one photo, from the clear parts of its windows and from the patches that are left bare.</summary>
/// <param name="Light">In shares of the photo's white.</param>
/// <param name="IsBlown">Whether it is as bright as the file can say, so that nothing can be compared with it.</param>
internal sealed record BarePaper(PaperLight Light, bool IsBlown)
{
    /// <summary>From here on a file's numbers may stand for more light than they say, in shares of its white.</summary>
    public const double BlownShare = 0.94;

    private const int Samples = 24;

    /// <summary>Looks at a photo; null where it shows no bare paper.</summary>
    public static BarePaper? Of(LightPlane light, SheetPose pose, ImmutableArray<CalibrationPatch> patches, ImmutableArray<MeasuredMark> marks)
    {
        var clear = marks.Select(mark => (mark.Window.Middle, Level: MarkLight.Of(light, pose, mark.Mark.Place, mark.Disc?.Middle)?.Bright))
            .Where(mark => mark.Level is not null).Select(mark => (mark.Middle, mark.Level!.Value / LightPlane.White)).ToList();
        foreach (var paper in patches.Where(patch => patch.IsPaper))
        {
            if (Look(light, pose, paper.Core) is { } seen && clear.Count > 0 && seen.Mean > clear.Min(one => one.Item2) * 0.5)
            {
                clear.Add((paper.Core.Centre, seen.Mean));
            }
        }

        return clear.Count == 0 ? null : new(new(clear), clear.Count(one => one.Item2 > BlownShare) > clear.Count / 4);
    }

    /// <summary>The light in a box, how it scatters, and the level that one dot in fifty is above; null where the box is not all in the photo.</summary>
    public static (double Mean, double Sd, double Most)? Look(LightPlane light, SheetPose pose, Box<SheetSpace> box)
    {
        var values = new double[Samples * Samples];
        for (var index = 0; index < values.Length; index++)
        {
            var (x, y) = pose.Project(new(box.LeftMm + (box.WidthMm * ((index % Samples) + 0.5) / Samples), box.BottomMm + (box.HeightMm * ((index / Samples) + 0.5) / Samples)));
            if (!light.Has(x, y))
            {
                return null;
            }

            values[index] = light[(int)x, (int)y] / LightPlane.White;
        }

        var mean = values.Average();
        Array.Sort(values);
        return (mean, Math.Sqrt(values.Sum(value => (value - mean) * (value - mean)) / values.Length), values[^(values.Length / 50)]);
    }

    /// <summary>How well the mean of a box is known by the scatter of its dots alone: neighbours are alike, so that a quarter of them counts.</summary>
    public static double SdOfMean(double sd) => sd / Math.Sqrt(Samples * Samples / 4);
}
