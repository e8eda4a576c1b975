using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using System.Threading.Tasks;
using Lampblack.Calibration;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Numerics;
using Lampblack.Sheets;

namespace Lampblack.Photos;

/// <summary>Reads a photo of a calibration sheet that is held to a light.</summary>
public static class PhotoReading
{
    internal static readonly RingForm Windows = new(
        (RegisterMark.FrontCellsInnerMm + RegisterMark.FrontCellsOuterMm) / 2 / RegisterMark.WindowRadiusMm, 6.6 / RegisterMark.WindowRadiusMm, 4.8 / RegisterMark.WindowRadiusMm, true);

    internal static readonly RingForm Discs = new(
        (RegisterMark.BackCellsInnerMm + RegisterMark.BackCellsOuterMm) / 2 / RegisterMark.DiscRadiusMm, 1.9 / RegisterMark.DiscRadiusMm, 0.6 / RegisterMark.DiscRadiusMm, false);

    /// <summary>What the photo tells; null where no sheet was found in it.</summary>
    /// <param name="fileName">The photo's name, for messages.</param>
    /// <param name="bytes">PNG or JPEG.</param>
    /// <param name="plans">The layouts that it may be, one for each paper.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <param name="isBlackOnly">Whether the sheet is of a printer with black only: its wedge has other patches, and there are no marks of colours.</param>
    public static Checked<SheetPhoto?> Read(string fileName, ReadOnlyMemory<byte> bytes, ImmutableArray<CalibrationPlan> plans, CancellationToken cancellation, bool isBlackOnly = false)
    {
        ArgumentNullException.ThrowIfNull(fileName);
        var seen = SeenPhoto.Of(fileName, bytes, cancellation);
        return seen.Value is { } photo ? Read(photo, bytes, plans, cancellation, isBlackOnly) : new(null, seen.Findings);
    }

    /// <summary>The same of a photo whose windows were found.</summary>
    internal static Checked<SheetPhoto?> Read(SeenPhoto seen, ReadOnlyMemory<byte> bytes, ImmutableArray<CalibrationPlan> plans, CancellationToken cancellation, bool isBlackOnly)
    {
        var (fileName, light, finder, windows) = seen;
        if (SheetFinder.Find(windows, plans, light.Width, light.Height) is not { } sheet)
        {
            return new(null, [NoSheet.Why(fileName, light, finder, windows, cancellation)]);
        }

        var (pose, radiusMm) = Pose(light, sheet.Pose, sheet.Marks, sheet.Plan.Marks);
        var measured = new MeasuredMark?[sheet.Plan.Marks.Length];
        Parallel.For(0, measured.Length, new ParallelOptions { CancellationToken = cancellation }, index => measured[index] = MarkMeasure.Of(light, pose, sheet.Plan.Marks[index], radiusMm));
        ImmutableArray<MeasuredMark> marks = [.. measured.OfType<MeasuredMark>()];
        var camera = CameraPlace.Of(pose);
        var blurMm = Robust.Median(marks.Select(mark => mark.BlurMm));
        ImmutableArray<MarkReading> offsets = [.. marks.Select(mark => mark.Reading(mark.Mark.Place)).OfType<MarkReading>()];
        var fit = MarksFit.Of([.. offsets.Select(mark => MarkOffset.Of(mark, camera))], blurMm);
        var readings = offsets.Select((mark, index) => mark with { ResidualMm = fit?.ResidualsMm[index] ?? 0, IsUsed = fit?.IsUsed[index] ?? false });
        var back = fit?.Fit.Map ?? Affine<SheetSpace, SheetSpace>.Identity;
        var frontCode = RowReader.Read(light, pose.Project, sheet.Plan.FrontCode, bright: true);
        var backCode = RowReader.Read(light, place => pose.Project(back.Apply(place)), sheet.Plan.BackCode, bright: false);
        var patches = CalibrationPatches.Of(sheet.Plan, isBlackOnly);
        var bare = BarePaper.Of(light, pose, patches, marks);
        var (gain, gainWhy) = GainLines.Of(light, pose, sheet.Plan, blurMm, bare);
        var planes = isBlackOnly ? new([], []) : PlanesLook.Of(fileName, bytes, pose, sheet.Plan, blurMm, bare, cancellation);
        var photo = new SheetPhoto(fileName, sheet.Plan, frontCode ?? backCode, pose.IsFromBehind, camera.TiltDegrees, marks.Length, [.. readings], fit?.Fit)
        {
            Camera = camera,
            BlurMm = blurMm,
            Wedge = bare is null ? null : PhotoWedge.Of(light, pose, patches, bare, back),
            Gain = gain,
            GainWhy = gainWhy,
            Planes = planes.Offsets,
            PlanesWhy = planes.Unread,
        };
        return PhotoFaults.Judge(photo, new(light, pose, sheet, marks, frontCode, backCode));
    }

    /// <summary>The spots that are round and have a number around them.</summary>
    internal static List<SeenMark> Marks(LightPlane light, List<Ellipse> spots, RingForm form, CancellationToken cancellation)
    {
        var seen = new SeenMark?[spots.Count];
        Parallel.For(0, seen.Length, new ParallelOptions { CancellationToken = cancellation }, index =>
        {
            if (OutlineFit.Refine(light, spots[index], form.IsBright) is { } outline)
            {
                seen[index] = RingReader.Read(light, outline, form);
            }
        });
        return [.. seen.OfType<SeenMark>()];
    }

    /// <summary>Lens and camera by the edges of all windows, and how large these printed.</summary>
    /// <param name="light">The photo.</param>
    /// <param name="start">A first pose.</param>
    /// <param name="seen">The windows that told it.</param>
    /// <param name="plan">All windows of the sheet.</param>
    internal static (SheetPose Pose, double RadiusMm) Pose(LightPlane light, SheetPose start, ImmutableArray<SeenMark> seen, ImmutableArray<RegisterMark> plan)
    {
        // First by the outlines that found the marks, then by their edges, of all windows that the photo shows.
        var places = plan.ToDictionary(mark => mark.Number, mark => mark.Place);
        var points = seen.SelectMany(mark => Enumerable.Range(0, 24).Select(part =>
        {
            var (v, u) = Math.SinCos(part * Math.PI / 12);
            var (x, y) = mark.Outline.At(u, v);
            return new EdgePoint(x, y, places[mark.Number]);
        })).ToList();
        var (pose, radius, _) = PoseFit.Fit(start, points, RegisterMark.WindowRadiusMm);
        for (var round = 0; round < 2; round++)
        {
            var edges = new List<EdgePoint>();
            foreach (var mark in plan)
            {
                if (MarkLight.Of(light, pose, mark.Place) is { } level && MarkMeasure.WindowEdge(light, pose, mark.Place, level, radius) is { Count: > 60 } edge)
                {
                    edges.AddRange(edge.Select(point => new EdgePoint(point.X, point.Y, mark.Place)));
                }
            }

            if (edges.Count < 300)
            {
                break;
            }

            (pose, radius, _) = PoseFit.Fit(pose, edges, RegisterMark.WindowRadiusMm);
        }

        return (pose, radius);
    }
}
