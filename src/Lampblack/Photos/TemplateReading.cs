using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Calibration;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Numerics;
using Lampblack.Sheets;

namespace Lampblack.Photos;

/// <summary>Reads a photo of a hole template, with the drilled plate on it or with what a felt pen left through its holes.</summary>
public static class TemplateReading
{
    /// <summary>How far a hole may lie off: as far as the page is clear around it.</summary>
    public const double FarthestMm = TemplatePlan.ClearMm - 0.1;

    // What is left of lens, paper and print where nothing shows it.
    private const double FloorMm = 0.02;

    /// <summary>What the photo tells; null where no page of these was found in it.</summary>
    /// <param name="fileName">The photo's name, for messages.</param>
    /// <param name="bytes">PNG or JPEG.</param>
    /// <param name="plans">The pages that it may show.</param>
    /// <param name="plateMm">The plate's thickness.</param>
    /// <param name="cancellation">Ends the work.</param>
    public static Checked<TemplatePhoto?> Read(string fileName, ReadOnlyMemory<byte> bytes, ImmutableArray<TemplatePlan> plans, double plateMm, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(fileName);
        var read = PhotoFile.Read(fileName, bytes, cancellation);
        if (read.Value is not { } light)
        {
            return new(null, read.Findings);
        }

        var seen = PhotoReading.Marks(light, RoundFinder.Of(light, cancellation).Find(bright: true), PhotoReading.Windows, cancellation);
        var ways = plans.Select(plan => (Plan: plan, Found: SheetFinder.Fit(plan.Marks, seen, light.Width, light.Height)))
            .Where(way => way.Found is not null)
            .Select(way => (way.Plan, way.Found!.Value.Pose, way.Found.Value.Marks))
            .OrderByDescending(way => way.Marks.Length).ThenBy(way => SheetFinder.Misfit(way.Pose, way.Marks)).ToList();
        SheetCode? other = null;
        foreach (var (plan, start, marks) in ways)
        {
            cancellation.ThrowIfCancellationRequested();
            var (pose, radiusMm) = PhotoReading.Pose(light, start, marks, plan.Marks);
            var code = RowReader.Read(light, pose.Project, plan.CodeRow, bright: true);
            if (code == plan.Code)
            {
                return Read(fileName, light, plan, pose, radiusMm, plateMm);
            }

            other ??= code;
        }

        return new(null, [TemplateFaults.NoPage(fileName, light, seen.Count, ways.Count > 0, other)]);
    }

    private static Checked<TemplatePhoto?> Read(string fileName, LightPlane light, TemplatePlan plan, SheetPose marksPose, double radiusMm, double plateMm)
    {
        var windows = plan.Marks.Select(mark => (Mark: mark, Window: Window(light, marksPose, mark, radiusMm))).Where(one => one.Window is not null).ToList();
        var offs = windows.Select(one => one.Window!.Middle.DistanceMm(one.Mark.Place) * TemplatePlan.MarkShare).ToList();
        var blurMm = windows.Count == 0 ? 0 : Robust.Median(windows.Select(one => EdgeBlur.SdMm(light, marksPose, one.Window!)).Where(double.IsFinite)) * TemplatePlan.MarkShare;

        // By the median: a window under a finger says nothing of the paper. The median length of two normal numbers is 1.1774 standard deviations.
        var bendMm = Robust.Median(offs) / 1.1774 * Math.Sqrt(2);
        var pose = marksPose.Times(TemplatePlan.MarkShare);
        var camera = CameraPlace.Of(pose);
        var spots = plan.Panel.Holes.Select(hole => (Hole: hole, Spot: HoleFinder.Find(light, pose, plan.Map.Apply(hole.Centre), hole.RadiusMm, FarthestMm))).Where(one => one.Spot is not null)
            .Select(one => (one.Hole, Spot: one.Spot!)).ToList();
        var isImprint = !plan.IsDark && spots.Count(one => one.Spot.IsDark) * 2 >= spots.Count;
        spots.RemoveAll(one => one.Spot.IsDark != (isImprint || plan.IsDark));
        var edges = spots.Select(one => (one.Hole, one.Spot, Points: HoleEdge.Points(light, pose, one.Spot))).ToList();
        var plate = isImprint ? null : PlateHeight.Of(edges.Select(edge => (edge.Points, edge.Spot)), camera, plateMm);
        var holes = edges.Select(edge => Reading(plan, edge.Hole, edge.Spot, edge.Points, plate, Math.Max(FloorMm, bendMm))).OfType<HoleReading>().ToImmutableArray();
        var photo = new TemplatePhoto(fileName, plan, isImprint, camera.TiltDegrees, windows.Count, bendMm, plate?.SdShare ?? 0, holes);
        return TemplateFaults.Judge(photo, [.. windows.Select(one => one.Mark)], blurMm);
    }

    private static EdgeCircle? Window(LightPlane light, SheetPose pose, RegisterMark mark, double radiusMm) => MarkLight.Of(light, pose, mark.Place) is { } level
        ? EdgeRays.Circle(pose, MarkMeasure.WindowEdge(light, pose, mark.Place, level, radiusMm), mark.Place, 60)
        : null;

    private static HoleReading? Reading(TemplatePlan plan, PanelHole hole, FoundHole spot, List<Point<SheetSpace>> points, PlateHeight? plate, double floorMm)
    {
        if (HoleEdge.Fit(points, spot, plate?.Face, PlateHeight.EdgeSdMm) is not { } circle)
        {
            return null;
        }

        var back = plan.Map.Inverse();
        var off = back.Apply(circle.Middle) - hole.Centre;
        var perHeight = plate is not null && HoleEdge.Fit(points, spot, plate.Thicker, PlateHeight.EdgeSdMm) is { } thicker && thicker.IsWallBright == circle.IsWallBright
            ? back.Apply(thicker.Middle) - back.Apply(circle.Middle)
            : default;
        perHeight = new(perHeight.DxMm / PlateHeight.StepShare, perHeight.DyMm / PlateHeight.StepShare);
        var sd = Math.Sqrt((circle.SdMm * circle.SdMm) + (floorMm * floorMm));
        return new(hole, off.DxMm, off.DyMm, sd, 2 * circle.RadiusMm, 2 * Math.Sqrt((circle.SdMm * circle.SdMm / 2) + (FloorMm * FloorMm)), perHeight);
    }
}
