using System;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Numerics;
using Lampblack.Sheets;

namespace Lampblack.Photos;

/// <summary>Reads a photo of a sheet of a build that is held to a light, by the register marks in its waste.</summary>
internal static class BuiltSheetReading
{
    // Windows that come out of the photo less round than this, as a share of their radius, are those of another sheet.
    private const double LeastRoundShare = 0.06;

    /// <summary>What the photo tells; null where none of the sheets is in it.</summary>
    /// <param name="photo">The photo, with windows of such a sheet in it.</param>
    /// <param name="build">The sheets that it may be; none where nobody said of which build.</param>
    /// <param name="cancellation">Ends the work.</param>
    public static Checked<BuiltSheetPhoto?> Read(SeenPhoto photo, BuiltSheetSet build, CancellationToken cancellation)
    {
        var name = Shown.Quoted(photo.FileName);
        var sheets = build.Sheets;
        if (build.Why is { } why)
        {
            return new(null, [Finding.Stop("photo-sheet-unnamed", $"{name} shows a sheet of a build, and {why}", "build the desk anew, print that and photograph it; or read its scales and dot rows by eye")]);
        }

        if (sheets.IsEmpty)
        {
            return new(null, [Finding.Stop(
                "photo-sheet-unnamed",
                $"{name} shows a sheet of a build, and nobody said of which: where its marks stand, the build's report tells",
                "add `--sheets DIR`, the folder that the build wrote into, usually `out` beside the desk; in the workshop, make this desk's sheets first")]);
        }

        var windows = photo.Windows.Where(mark => WasteMarks.IsNumber(mark.Number)).ToList();
        var ways = sheets.Select(sheet => (Sheet: sheet, Plan: Larger(sheet)))
            .Select(way => (way.Sheet, way.Plan, Found: way.Plan.Length < WasteMarks.Fewest ? null : SheetFinder.Fit(way.Plan, windows, photo.Light.Width, photo.Light.Height, WasteMarks.Fewest)))
            .Where(way => way.Found is not null)
            .Select(way => (way.Sheet, way.Plan, Found: way.Found!.Value, UnroundShare: UnroundShare(way.Found!.Value)))
            .OrderByDescending(way => way.Found.Marks.Length).ThenBy(way => way.UnroundShare).ToList();
        if (ways.Count == 0 || ways[0].UnroundShare > LeastRoundShare)
        {
            var numbers = windows.Select(mark => mark.Number).Distinct().Count();
            return new(null, [ways.Count == 0 && numbers < WasteMarks.Fewest
                ? BuiltSheetFaults.TooFew(name, numbers)
                : Finding.Stop(
                    "photo-sheet-other",
                    $"{name} shows a sheet of a build, but none of {Shown.List(sheets.Select(sheet => $"{sheet.Id} (pair {sheet.PairCode})"))}: its marks lie elsewhere",
                    "the pair code is printed on both sides of the sheet: name the folder of the build that it was printed from, before that was built anew")]);
        }

        cancellation.ThrowIfCancellationRequested();
        var (sheet, plan, found, _) = ways[0];
        var (pose, radiusMm) = PhotoReading.Pose(photo.Light, found.Pose, found.Marks, plan);
        ImmutableArray<MeasuredMark> marks = [.. plan.Select(mark => MarkMeasure.Of(photo.Light, pose, mark, radiusMm)).OfType<MeasuredMark>()];
        var camera = CameraPlace.Of(pose.Times(WasteMarks.Share));
        var blurMm = marks.IsEmpty ? 0 : Robust.Median(marks.Select(mark => mark.BlurMm)) * WasteMarks.Share;
        ImmutableArray<MarkReading> offsets = [.. marks.Select(mark => mark.Reading(sheet.Marks.First(own => own.Number == mark.Mark.Number).Place, WasteMarks.Share)).OfType<MarkReading>()];
        var fit = MarksFit.Of([.. offsets.Select(mark => MarkOffset.Of(mark, camera))], blurMm);
        var readings = offsets.Select((mark, index) => mark with { ResidualMm = fit?.ResidualsMm[index] ?? 0, IsUsed = fit?.IsUsed[index] ?? false });
        return BuiltSheetFaults.Judge(
            new(photo.FileName, sheet, pose.IsFromBehind, marks.Length, [.. readings], fit?.Fit) { Camera = camera, BlurMm = blurMm }, photo.Light, pose, marks);
    }

    /// <summary>The marks as those of a calibration sheet are that is so many times larger, by which everything is measured.</summary>
    private static ImmutableArray<RegisterMark> Larger(BuiltSheet sheet) =>
        [.. sheet.Marks.Select(mark => new RegisterMark(mark.Number, new(mark.Place.XMm / WasteMarks.Share, mark.Place.YMm / WasteMarks.Share)))];

    private static double UnroundShare((SheetPose Pose, ImmutableArray<SeenMark> Marks, ImmutableArray<SeenMark> Others) found) =>
        Math.Sqrt(SheetFinder.Misfit(found.Pose, found.Marks) / SheetFinder.PointsOfMisfit) / RegisterMark.WindowRadiusMm;
}
