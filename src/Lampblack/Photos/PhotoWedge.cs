using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Geometry;
using Lampblack.Imaging;

namespace Lampblack.Photos;

/// <summary>The light of the black wedge's patches in one photo.</summary>
/// <param name="Patches">Each patch that is in the photo, bare paper left out.</param>
/// <param name="MeanLight">Mean light of the whole photo, in shares of its white.</param>
/// <param name="IsPaperBlown">Whether bare paper is as bright as the file can say, so that nothing can be compared with it.</param>
internal sealed record PhotoWedge(ImmutableArray<PatchLight> Patches, double MeanLight, bool IsPaperBlown)
{
    // Below this the curve of sRGB stores light in even steps of a third of a thousandth; eight of them are enough to tell one from noise.
    private const double DimShare = 8 * StepShare;
    private const double StepShare = 1 / (255 * 12.92);

    // A JPEG rounds whole blocks alike.
    private const double RoundingSteps = 0.3;

    /// <summary>Half the width of the surroundings that light strays from, in shares of the photo's longer side.</summary>
    private const double StraySd = 0.05;

    public static PhotoWedge Of(LightPlane light, SheetPose pose, ImmutableArray<CalibrationPatch> patches, BarePaper bare, Affine<SheetSpace, SheetSpace> back)
    {
        var found = ImmutableArray.CreateBuilder<PatchLight>();
        foreach (var patch in patches.Where(patch => !patch.IsPaper))
        {
            var box = Inner(patch, back);
            if (BarePaper.Look(light, pose, box) is { } seen && bare.Light.At(box.Centre) is { } paper)
            {
                var (x, y) = pose.Project(box.Centre);
                var (u, v) = pose.Normal(x, y);
                found.Add(new(
                    patch.Id, seen.Mean, Math.Sqrt(Math.Pow(BarePaper.SdOfMean(seen.Sd), 2) + Math.Pow(RoundingSteps * Step(seen.Mean), 2)), paper.Light, paper.SdShare, Around(light, x, y),
                    seen.Most > BarePaper.BlownShare, seen.Mean < DimShare || seen.Mean < 2.5 * seen.Sd, u, v));
            }
        }

        return new(found.ToImmutable(), Mean(light), bare.IsBlown);
    }

    /// <summary>The part of a patch that all its inks cover wherever side 2 landed.</summary>
    private static Box<SheetSpace> Inner(CalibrationPatch patch, Affine<SheetSpace, SheetSpace> back)
    {
        var middle = patch.Box.Centre;
        var off = back.Apply(middle) - middle;
        var share = (patch.Front, patch.Back) switch { (not null, not null) => 0.5, (null, not null) => 1, _ => 0.0 };
        return patch.Core with { LeftMm = patch.Core.LeftMm + (share * off.DxMm), BottomMm = patch.Core.BottomMm + (share * off.DyMm) };
    }

    /// <summary>How far apart the two lights are that a file stores next to this one.</summary>
    private static double Step(double share)
    {
        var code = (byte)Math.Clamp(Math.Round(255 * Srgb.Encode(share), MidpointRounding.AwayFromZero), 0, 254);
        return Srgb.Decode((byte)(code + 1)) - Srgb.Decode(code);
    }

    private static double Around(LightPlane light, double x, double y)
    {
        var stray = StraySd * Math.Max(light.Width, light.Height);
        var (sum, weights) = (0.0, 0.0);
        for (var row = -24; row <= 24; row++)
        {
            for (var column = -24; column <= 24; column++)
            {
                var (u, v) = (column / 8.0, row / 8.0);
                var weight = Math.Exp(-((u * u) + (v * v)) / 2);
                var (to, down) = ((int)(x + (u * stray)), (int)(y + (v * stray)));
                weights += weight;
                sum += to >= 0 && down >= 0 && to < light.Width && down < light.Height ? weight * light[to, down] : 0;
            }
        }

        return sum / weights / LightPlane.White;
    }

    private static double Mean(LightPlane light)
    {
        var (sum, count) = (0.0, 0);
        for (var row = 0; row < light.Height; row += 13)
        {
            var dots = light.Row(row);
            for (var column = row % 7; column < dots.Length; column += 7)
            {
                (sum, count) = (sum + dots[column], count + 1);
            }
        }

        return sum / count / LightPlane.White;
    }
}
