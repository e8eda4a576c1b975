using System;
using Lampblack.Calibration;

namespace Lampblack.Photos;

/// <summary>
/// How wide a lit line is open by the light that comes through it: blur spreads the light but takes none of it away, so the sum across the line, above the black
/// beside it and in terms of bare paper's, is its width, however wide the blur.
/// </summary>
internal static class LineLight
{
    /// <summary>Where a photo is blurred by more than this, the light of a line runs into what lies beyond its black.</summary>
    public const double MostBlurMm = 0.36;

    private const double BlursAside = 3.2;
    private const double LeastAsideMm = 0.45;
    private const double FlankMm = 0.45;
    private const int StepsPerPx = 3;

    /// <summary>The width; null where the line is not all in the photo, or is as bright as the file can say.</summary>
    /// <param name="light">The photo.</param>
    /// <param name="pose">From the sheet to the photo.</param>
    /// <param name="line">The line.</param>
    /// <param name="blurMm">The photo's blur, as a normal spread.</param>
    /// <param name="paper">Light of bare paper there, in shares of white.</param>
    /// <param name="curve">By which power the camera's light is to be taken.</param>
    public static double? OpenMm(LightPlane light, SheetPose pose, LitLine line, double blurMm, double paper, double curve)
    {
        var asideMm = (line.WidthMm / 2) + Math.Max(LeastAsideMm, BlursAside * blurMm);
        var (halfMm, pxPerMm) = (asideMm + FlankMm, pose.PxPerMm(line.Middle));
        var steps = (int)Math.Ceiling(2 * halfMm * pxPerMm * StepsPerPx);
        var rows = Math.Max(8, (int)(line.LengthMm * pxPerMm));
        var usedMm = line.LengthMm - (2 * Math.Max(LeastAsideMm, BlursAside * blurMm));
        var (sum, left, right, leftCount, rightCount) = (0.0, 0.0, 0.0, 0, 0);
        var (inside, stepMm) = (0, 2 * halfMm / steps);
        for (var step = 0; step < steps; step++)
        {
            var across = ((step + 0.5) * stepMm) - halfMm;
            var mean = 0.0;
            for (var row = 0; row < rows; row++)
            {
                var along = (((row + 0.5) / rows) - 0.5) * usedMm;
                var (x, y) = pose.Project(line.IsUpright
                    ? new(line.Middle.XMm + across, line.Middle.YMm + along)
                    : new(line.Middle.XMm + along, line.Middle.YMm + across));
                var share = light.At(x, y) / LightPlane.White;
                if (!(share <= BarePaper.BlownShare))
                {
                    return null;
                }

                mean += Math.Pow(share / paper, curve);
            }

            mean /= rows;
            if (across < -asideMm)
            {
                (left, leftCount) = (left + mean, leftCount + 1);
            }
            else if (across > asideMm)
            {
                (right, rightCount) = (right + mean, rightCount + 1);
            }
            else
            {
                (sum, inside) = (sum + mean, inside + 1);
            }
        }

        // Both flanks weigh alike, so that light which grows across the line cancels out.
        var black = ((left / leftCount) + (right / rightCount)) / 2;
        return black < 0.7 ? (sum - (inside * black)) * stepMm / (1 - black) : null;
    }
}
