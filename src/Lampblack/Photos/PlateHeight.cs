using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Photos;

/// <summary>
/// How thick the plate is seen, against the camera's height, which one photo tells badly: both rims of all holes together tell it where the walls are bright;
/// where they are dark, only what is known of the plate and of usual cameras does.
/// </summary>
/// <param name="Face">The plate's upper face by that.</param>
/// <param name="Thicker">The same, thicker by <see cref="StepShare"/>, to tell what an error does.</param>
/// <param name="SdShare">The standard deviation, as a share.</param>
internal sealed record PlateHeight(PlateFace Face, PlateFace Thicker, double SdShare)
{
    public const double StepShare = 0.05;

    /// <summary>How far the points of a good edge lie off, as a standard deviation. Ours, by trials with the tests' own camera.</summary>
    public const double EdgeSdMm = 0.03;

    // Focal lengths of cameras differ by a third (CameraPlace), plates by a tenth of their thickness.
    private const double PriorSdShare = 0.33;

    // Neighbouring points of an edge are not independent of each other.
    private const double Alike = 8;

    // Walls are never quite as bright as the plate, which makes the spot seem wider than it is: by trials with the tests' own camera.
    private const double WallSdShare = 0.04;

    private const int Steps = 32;

    public static PlateHeight Of(IEnumerable<(List<Point<SheetSpace>> Points, FoundHole Spot)> holes, CameraPlace camera, double plateMm)
    {
        var all = holes.ToList();
        var costs = Enumerable.Range(-Steps, (2 * Steps) + 1).Select(step =>
        {
            var log = step * 1.0 / Steps;
            var face = new PlateFace(camera, plateMm * Math.Exp(log));
            var misfit = all.AsParallel().AsOrdered().Select(hole => HoleEdge.Fit(hole.Points, hole.Spot, face, EdgeSdMm)?.Misfit ?? (12 * hole.Points.Count)).ToList().Sum();
            return (Log: log, Cost: (misfit / Alike) + Math.Pow(log / PriorSdShare, 2));
        }).ToList();

        // The mean and the spread of what the costs leave likely.
        var least = costs.Min(one => one.Cost);
        var weights = costs.Select(one => (one.Log, Weight: Math.Exp(-(one.Cost - least) / 2))).ToList();
        var sum = weights.Sum(one => one.Weight);
        var mean = weights.Sum(one => one.Log * one.Weight) / sum;
        var sd = Math.Sqrt(weights.Sum(one => Math.Pow(one.Log - mean, 2) * one.Weight) / sum);
        var thickness = plateMm * Math.Exp(mean);
        return new(new(camera, thickness), new(camera, thickness * (1 + StepShare)), Math.Sqrt((sd * sd) + (WallSdShare * WallSdShare)));
    }
}
