using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Photos;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Jobs;

/// <summary>Sheets of a build as photos of them are measured and learned from.</summary>
internal static class BuiltSheets
{
    // How far off the camera's foot may be taken to be by marks that lie near each other, as a share of its height. Ours.
    private const double FootSdShare = 0.15;

    /// <summary>The sheets of a build's report, or why it tells none.</summary>
    /// <param name="report">The contents of <c>report.json</c>; empty where nobody named a build.</param>
    public static BuiltSheetSet Of(ImmutableArray<byte> report)
    {
        if (report.IsDefaultOrEmpty)
        {
            return new([], null);
        }

        if (ComparisonReport.Read(report.AsMemory()) is not { } read || PaperSize.Find(read.Paper) is not { } paper || read.Undone is not { } undone)
        {
            return new([], "the report of the build that was named can't be read, or is older than register marks are");
        }

        if (read.IsBracket)
        {
            return new([], "the build that was named made a bracket, whose masks are shifted on purpose: dots are counted on these");
        }

        if (read.Sheets.IsEmpty)
        {
            return new([], "the build that was named last made no sheets, as only the bench or pictures were asked for: build the sheets into another folder, unchanged, and name that");
        }

        ImmutableArray<BuiltSheet> sheets = [.. read.Sheets.Where(sheet => !sheet.Marks.IsEmpty)
            .Select(sheet => new BuiltSheet(sheet.Id, sheet.PairCode, paper, read.Register, sheet.Marks) { Printer = read.Printer, Undone = undone })];
        return new(sheets, sheets.IsEmpty ? "none of the sheets of the build that was named had room for register marks" : null);
    }

    /// <summary>
    /// What a photo tells, mark by mark. What the paper's thickness may have moved it moves alike in all of them: it is counted in each as often as there are marks, so that
    /// their mean is no better known for their number.
    /// </summary>
    /// <param name="photo">A photo that tells where side 2 lies.</param>
    public static PhotographedSheet Seen(BuiltSheetPhoto photo)
    {
        var paper = photo.Sheet.Paper;
        ImmutableArray<MarkReading> used = [.. photo.Marks.Where(mark => mark.IsUsed)];
        return new(photo.FileName, paper, [.. used.Select(Reading)]) { Register = photo.Sheet.Register, IsOfBuild = true, Printer = photo.Sheet.Printer, Undone = photo.Sheet.Undone, RmsMm = Rounded(photo.Fit!.RmsMm) };

        RegisterReading Reading(MarkReading mark)
        {
            var offset = MarkOffset.Of(mark, photo.Camera);
            var deep = MarksFit.DepthSdMm * Math.Sqrt((offset.PerDepthX * offset.PerDepthX) + (offset.PerDepthY * offset.PerDepthY) + (FootSdShare * FootSdShare));
            var own = Math.Max(mark.SdMm, photo.Fit!.RmsMm);
            return new(
                Rounded(mark.Place.XMm - (paper.WidthMm / 2)), Rounded(mark.Place.YMm - (paper.HeightMm / 2)), Rounded(mark.RightMm), Rounded(mark.UpMm),
                Math.Max(0.001, Rounded(Math.Sqrt((own * own) + (used.Length * deep * deep)))));
        }
    }

    /// <summary>For which sheet a photo was taken, for a person to compare with what is printed on it.</summary>
    /// <param name="photo">The photo.</param>
    public static string Told(BuiltSheetPhoto photo) => FormattableString.Invariant(
        $"{photo.FileName} was taken for {photo.Sheet.Id}, pair {photo.Sheet.PairCode}{(photo.Sheet.Register == 0 ? ", made with nothing undone" : $", made with register {photo.Sheet.Register}")}: both stand on the sheet.");

    private static double Rounded(double mm) => Math.Round(mm, 4, MidpointRounding.AwayFromZero);
}
