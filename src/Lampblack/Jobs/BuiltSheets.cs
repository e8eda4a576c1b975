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

    /// <summary>The sheets of a build's report; none where it is missing, or of an unknown paper.</summary>
    /// <param name="report">The contents of <c>report.json</c>.</param>
    public static ImmutableArray<BuiltSheet> Of(ImmutableArray<byte> report) => report.IsDefaultOrEmpty || ComparisonReport.Read(report.AsMemory()) is not { } read || PaperSize.Find(read.Paper) is not { } paper
        ? []
        : [.. read.Sheets.Select(sheet => new BuiltSheet(sheet.Id, sheet.PairCode, paper, read.Register, sheet.Marks) { Printer = read.Printer })];

    /// <summary>
    /// What a photo tells, mark by mark. What the paper's thickness may have moved it moves alike in all of them: it is counted in each as often as there are marks, so that
    /// their mean is no better known for their number.
    /// </summary>
    /// <param name="photo">A photo that tells where side 2 lies.</param>
    public static PhotographedSheet Seen(BuiltSheetPhoto photo)
    {
        var paper = photo.Sheet.Paper;
        ImmutableArray<MarkReading> used = [.. photo.Marks.Where(mark => mark.IsUsed)];
        return new(photo.FileName, paper, [.. used.Select(Reading)]) { Register = photo.Sheet.Register, IsOfBuild = true, Printer = photo.Sheet.Printer, RmsMm = Rounded(photo.Fit!.RmsMm) };

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
