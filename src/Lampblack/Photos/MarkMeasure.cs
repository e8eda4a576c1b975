using System;
using System.Collections.Generic;
using Lampblack.Geometry;
using Lampblack.Sheets;

namespace Lampblack.Photos;

/// <summary>What is seen of one mark when the pose is known.</summary>
/// <param name="Mark">The mark.</param>
/// <param name="Window">The window's edge.</param>
/// <param name="Disc">The back's disc; null where there is none.</param>
/// <param name="ContrastShare">How much darker than paper the darkest spot in the window is.</param>
/// <param name="IsItsOwn">Whether the cells around the disc say the mark's own number, give or take one of them.</param>
/// <param name="BlurMm">How blurred the window's edge is.</param>
internal sealed record MeasuredMark(RegisterMark Mark, EdgeCircle Window, EdgeCircle? Disc, double ContrastShare, bool IsItsOwn, double BlurMm)
{
    /// <summary>How the window comes out of the photo.</summary>
    public WindowShape Shape { get; init; } = WindowShape.Round;

    /// <summary>How far the disc lies off the window's middle, on the paper; nothing where there is no disc.</summary>
    public Vector<SheetSpace> Off => Disc is null ? default : Shape.Flat(Disc.Middle - Window.Middle);

    /// <summary>What the mark tells, not fitted yet; null where no disc of its own stands in the window.</summary>
    /// <param name="place">Where it is meant to be on the sheet.</param>
    /// <param name="share">How many times as large as a calibration sheet's it is.</param>
    public MarkReading? Reading(Point<SheetSpace> place, double share = 1) => Disc is { } disc && IsItsOwn
        ? new(Mark.Number, place, Off.DxMm * share, Off.DyMm * share, Math.Sqrt((disc.SdMm * disc.SdMm) + (Window.SdMm * Window.SdMm)) * share, 0, false)
        : null;
}

/// <summary>Measures windows and discs to fractions of a pixel.</summary>
internal static class MarkMeasure
{
    private const int WindowRays = 120;
    private const int DiscRays = 72;

    /// <summary>A disc that is less dark than this can't be told from paper's cloudiness.</summary>
    private const double LeastContrastShare = 0.3;

    public static List<(double X, double Y)> WindowEdge(LightPlane light, SheetPose pose, Point<SheetSpace> middle, MarkLight level, double radiusMm) => EdgeRays.Find(
        light, pose, middle, radiusMm - 0.9, radiusMm + 0.9, WindowRays, place => (level.At(place) + level.Dark) / 2, risesOutwards: false, radiusMm);

    public static MeasuredMark? Of(LightPlane light, SheetPose pose, RegisterMark mark, double radiusMm)
    {
        if (MarkLight.Of(light, pose, mark.Place) is not { } level
            || EdgeRays.Circle(pose, WindowEdge(light, pose, mark.Place, level, radiusMm), mark.Place, WindowRays / 2) is not { } window)
        {
            return null;
        }

        var blurMm = EdgeBlur.SdMm(light, pose, window);
        blurMm = double.IsFinite(blurMm) ? blurMm : 0;
        if (DiscFinder.Find(light, pose, window.Middle, RegisterMark.WindowRadiusMm - RegisterMark.DiscRadiusMm, level.At) is not { } found)
        {
            return null;
        }

        if (found.ContrastShare < LeastContrastShare)
        {
            return new(mark, window, null, found.ContrastShare, false, blurMm);
        }

        var blurPx = Math.Max(0.3, blurMm * pose.PxPerMm(window.Middle));
        var middle = found.Middle;
        EdgeCircle? disc = null;
        CellShade? shade = null;
        for (var round = 0; round < 4; round++)
        {
            var (paper, core, cells) = (level, Dark(light, pose, middle), shade);
            var points = EdgeRays.Find(light, pose, middle, 0.5, round == 0 ? 2.6 : 2.15, DiscRays, Half, risesOutwards: true, RegisterMark.DiscRadiusMm);
            disc = EdgeRays.Circle(pose, points, middle, DiscRays / 2);
            if (disc is null || disc.RadiusMm is < 1.1 or > 1.95)
            {
                return new(mark, window, null, found.ContrastShare, false, blurMm);
            }

            middle = disc.Middle;
            level = MarkLight.Of(light, pose, mark.Place, middle) ?? level;
            shade = new(mark.Cells, middle, disc.RadiusMm, pose, blurPx);

            double Half(Point<SheetSpace> place)
            {
                var bright = paper.At(place);
                return ((bright + core) / 2) - ((bright - core) * (cells?.At(place) ?? 0));
            }
        }

        var seen = DiscFinder.Cells(light, pose, middle, Dark(light, pose, middle), level.At).Cells;
        var isItsOwn = System.Numerics.BitOperations.PopCount((uint)(seen ^ mark.Cells)) <= 1;

        // Once more with the light of paper that is free of the back's cells.
        var edge = WindowEdge(light, pose, window.Middle, level, window.RadiusMm);
        window = EdgeRays.Circle(pose, edge, window.Middle, WindowRays / 2) ?? window;

        return new(mark, window, disc, found.ContrastShare, isItsOwn, blurMm) { Shape = WindowShape.Of(pose, edge, window, radiusMm) };
    }

    private static double Dark(LightPlane light, SheetPose pose, Point<SheetSpace> middle)
    {
        var sum = 0.0;
        var count = 0;
        for (var y = -2; y <= 2; y++)
        {
            for (var x = -2; x <= 2; x++)
            {
                if (Math.Abs(x) + Math.Abs(y) <= 3)
                {
                    var (u, v) = pose.Project(new(middle.XMm + (x * 0.2), middle.YMm + (y * 0.2)));
                    (sum, count) = (sum + light.At(u, v), count + 1);
                }
            }
        }

        return sum / count;
    }
}
