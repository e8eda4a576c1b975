using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Geometry;

namespace Lampblack.Photos;

/// <summary>What a photo is measured for.</summary>
/// <param name="View">The panel.</param>
/// <param name="Areas">What shines on it.</param>
/// <param name="Unsure">What may shine or not.</param>
/// <param name="Corners">The panel's corners in the photo, from the upper left one clockwise; none to look for them.</param>
internal sealed record LitPanelWish(Box<PanelSpace> View, ImmutableArray<LitArea> Areas, ImmutableArray<Region<PanelSpace>> Unsure, ImmutableArray<(double X, double Y)> Corners);

/// <summary>A lit panel in a photo that was taken in the dark.</summary>
/// <param name="Pose">Where it is.</param>
/// <param name="Correlation">How alike the photo is to what the panel ought to look like, 1 for the same.</param>
/// <param name="SoftMm">How soft edges are in it.</param>
/// <param name="Areas">How bright each area is.</param>
internal sealed record LitPhoto(PanelPose Pose, double Correlation, double SoftMm, ImmutableArray<SeenArea> Areas)
{
    /// <summary>What is less alike is not the panel. Ours, by drawn photos.</summary>
    private const double LeastCorrelation = 0.6;

    /// <summary>Another way round that is nearly as alike leaves open which is right. Ours, by drawn photos.</summary>
    private const double LeastLead = 0.08;

    /// <summary>Less light than this cannot be told from noise and from the steps of a file. Ours.</summary>
    private const double DarkShare = 0.01;

    private const int CoarseDots = 700;
    private const double BrightestShare = 0.0005;
    private const double BlurStepMm = 0.2;

    private static readonly double[] BlursMm = [0.04, 0.08, 0.16, 0.32, 0.64, 1.2];

    /// <summary>Reads a photo.</summary>
    /// <param name="fileName">Its name, for messages.</param>
    /// <param name="bytes">PNG or JPEG.</param>
    /// <param name="wish">What is looked for.</param>
    /// <param name="cancellation">Ends the work.</param>
    public static Checked<LitPhoto?> Read(string fileName, ReadOnlyMemory<byte> bytes, LitPanelWish wish, CancellationToken cancellation)
    {
        var cut = new CutDots();
        var read = PhotoFile.Read(fileName, bytes, cancellation, cut);
        if (read.Value is not { } light)
        {
            return new(null, read.Findings);
        }

        var name = Shown.Quoted(fileName);
        var coarse = SoftPicture.Of(light, Math.Max(1, Math.Max(light.Width, light.Height) / CoarseDots), cancellation);
        var levels = Levels(coarse);
        if (levels.Bright - levels.Dark < DarkShare)
        {
            return new(null, [Finding.Stop("photo-too-dark", FormattableString.Invariant($"{name} is too dark to measure legends in it: the brightest show {100 * levels.Bright:0.00} % of what a photo can tell, and {100 * DarkShare:0} % is the least"), "expose longer, with the camera on something firm")]);
        }

        var picture = LitPicture.Of(wish.View, wish.Areas, wish.Unsure);
        ImmutableArray<Region<PanelSpace>> sure = [.. wish.Areas.Select(area => area.Shape)];
        var shining = sure.AddRange(wish.Unsure);
        var found = LitPanelFinder.Find(coarse, light, levels, picture, wish.Unsure.IsEmpty ? [sure] : [sure, shining], wish.Corners, cancellation);
        if (found is null || found.Correlation < LeastCorrelation)
        {
            return new(null, [Finding.Stop(
                "photo-not-found",
                FormattableString.Invariant($"the panel was not found in {name}: what is bright in it is alike to the panel's lit legends by {found?.Correlation ?? 0:0.00} (1 is the same), and {LeastCorrelation} is the least"),
                wish.Corners.IsEmpty ? "take the photo in a dark room, with the whole panel and no other light in it; or tell its corners with `--corners`" : "tell the panel's corners in the photo's pixels: upper left, upper right, lower right, lower left, as one reads the panel")]);
        }

        if (found.Correlation - found.OtherCorrelation < LeastLead)
        {
            return new(null, [Finding.Stop(
                "photo-not-found",
                FormattableString.Invariant($"the panel fits what is bright in {name} in two ways nearly alike ({found.Correlation:0.00} and {found.OtherCorrelation:0.00})"),
                "tell its corners with `--corners`: upper left, upper right, lower right, lower left in the photo's pixels")]);
        }

        var softMm = SoftOf(light, found.Pose, picture);
        var measure = new AreaLight(light, cut, found.Pose, softMm, shining);
        ImmutableArray<SeenArea> seen = [.. sure.AsParallel().AsOrdered().WithCancellation(cancellation).Select(measure.Of)];
        return new(new(found.Pose, found.Correlation, softMm, seen), read.Findings);
    }

    /// <summary>The light where nothing shines, which is most of a photo, and that of the brightest dots.</summary>
    private static (double Dark, double Bright) Levels(SoftPicture photo)
    {
        var sorted = (float[])photo.Values.Clone();
        Array.Sort(sorted);
        return (sorted[sorted.Length / 2], sorted[^Math.Max(10, (int)(sorted.Length * BrightestShare))..].Average());
    }

    /// <summary>The softness by which the panel as it ought to look is most alike to the photo.</summary>
    private static double SoftOf(LightPlane light, PanelPose pose, LitPicture picture)
    {
        var (columns, rows) = ((int)(picture.View.WidthMm / BlurStepMm), (int)(picture.View.HeightMm / BlurStepMm));
        var places = new List<(double X, double Y, double Seen)>();
        for (var row = 0; row < rows; row++)
        {
            for (var column = 0; column < columns; column++)
            {
                var place = new Point<PanelSpace>(picture.View.LeftMm + ((column + 0.5) * BlurStepMm), picture.View.BottomMm + ((row + 0.5) * BlurStepMm));
                var (x, y) = pose.Project(place);
                if (picture.Tells(place) && light.At(x, y) is var seen && double.IsFinite(seen))
                {
                    var dot = picture.Dot(place);
                    places.Add((dot.X, dot.Y, seen));
                }
            }
        }

        var best = BlursMm.Select(soft => (Soft: soft, Alike: Alike(soft))).MaxBy(one => one.Alike);
        for (var factor = Math.Sqrt(2); factor > 1.05; factor = Math.Sqrt(factor))
        {
            best = new[] { best, (best.Soft * factor, Alike(best.Soft * factor)), (best.Soft / factor, Alike(best.Soft / factor)) }.MaxBy(one => one.Item2);
        }

        return best.Soft;

        double Alike(double soft)
        {
            var wanted = picture.Light.Soft(soft / picture.MmPerDot);
            double count = 0, sumA = 0, sumB = 0, sumAa = 0, sumBb = 0, sumAb = 0;
            foreach (var (x, y, seen) in places)
            {
                if (wanted.At(x, y) is var one && double.IsFinite(one))
                {
                    (count, sumA, sumB) = (count + 1, sumA + one, sumB + seen);
                    (sumAa, sumBb, sumAb) = (sumAa + (one * one), sumBb + (seen * seen), sumAb + (one * seen));
                }
            }

            var spread = ((count * sumAa) - (sumA * sumA)) * ((count * sumBb) - (sumB * sumB));
            return spread > 0 ? ((count * sumAb) - (sumA * sumB)) / Math.Sqrt(spread) : 0;
        }
    }
}
