using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;

namespace Lampblack.Photos;

/// <summary>What all photos of one sheet tell together.</summary>
/// <param name="CopyNumber">The sheet's number; null where it could not be read.</param>
/// <param name="FileNames">The photos.</param>
/// <param name="Fit">Where its side 2 lies.</param>
public sealed record SheetFit(int? CopyNumber, ImmutableArray<string> FileNames, MisregisterFit Fit);

/// <summary>What the photos of some sheets tell of the printer.</summary>
/// <param name="Sheets">Each sheet.</param>
/// <param name="Fit">Where side 2 lands in the mean; its covariances are those of the mean.</param>
/// <param name="ScatterCovariance">How sheets differ, of a, b, tx, c, d, ty, with what measuring adds; null for fewer than two sheets.</param>
public sealed record SheetsReading(ImmutableArray<SheetFit> Sheets, MisregisterFit Fit, ImmutableArray<ImmutableArray<double>>? ScatterCovariance)
{
    /// <summary>Puts photos together: those of one copy as one sheet, those of several copies as several.</summary>
    /// <param name="photos">What was read of each; those that told nothing are passed over.</param>
    /// <returns>Null where no photo tells anything.</returns>
    public static Checked<SheetsReading?> Of(ImmutableArray<SheetPhoto> photos)
    {
        var used = photos.Where(photo => photo.Fit is not null).ToList();
        if (used.Select(photo => photo.Plan.Paper).Distinct().Count() > 1)
        {
            return new(null, [Finding.Stop(
                "photos-differ",
                $"the photos show sheets of several papers: {Shown.List(used.Select(photo => photo.Plan.Paper.Name).Distinct())}",
                "give photos of one paper at a time: a printer behaves differently with each")]);
        }

        var findings = ImmutableArray.CreateBuilder<Finding>();
        var sheets = new List<SheetFit>();
        foreach (var sheet in used.Select((photo, index) => (Photo: photo, Key: photo.Code?.Copy ?? -1 - index)).GroupBy(one => one.Key, one => one.Photo))
        {
            var one = sheet.ToList();
            if (sheet.Key < 0)
            {
                findings.Add(Finding.Warn(
                    "photo-code-unread",
                    $"{Shown.Quoted(one[0].FileName)}: the sheet's number can't be read, so it counts as a sheet of its own",
                    "if another photo shows the same sheet, leave one of them out, or the scatter between sheets comes out too small"));
            }

            if (Together(one) is { } fit)
            {
                sheets.Add(new(one[0].Code?.Copy, [.. one.Select(photo => photo.FileName)], fit));
            }
        }

        return new(sheets.Count == 0 ? null : sheets.Count == 1 ? new([.. sheets], sheets[0].Fit, null) : Mean(sheets), findings.ToImmutable());
    }

    private static MisregisterFit? Together(List<SheetPhoto> photos) => photos.Count == 1
        ? photos[0].Fit
        : MarksFit.Of(
            [.. photos.SelectMany(photo => photo.Marks.Where(mark => mark.IsUsed).Select(mark => MarkOffset.Of(mark, photo.Camera)))],
            photos.Average(photo => photo.BlurMm))?.Fit;

    private static SheetsReading Mean(List<SheetFit> sheets)
    {
        var numbers = sheets.Select(sheet => sheet.Fit.Affine.SelectMany(row => row).ToArray()).ToList();
        var mean = Enumerable.Range(0, 6).Select(index => numbers.Average(sheet => sheet[index])).ToArray();
        var scatter = Square((row, column) => numbers.Sum(sheet => (sheet[row] - mean[row]) * (sheet[column] - mean[column])) / (numbers.Count - 1));

        // What each sheet's own measurement adds is in the scatter already, but with few sheets that is known badly: both are counted.
        MisregisterFit fit = new(
            [[mean[0], mean[1], mean[2]], [mean[3], mean[4], mean[5]]],
            Square((row, column) => (scatter[row][column] + sheets.Average(sheet => sheet.Fit.Covariance[row][column])) / sheets.Count),
            Square((row, column) => (scatter[row][column] + sheets.Average(sheet => sheet.Fit.NoiseCovariance[row][column])) / sheets.Count),
            Math.Sqrt(sheets.Average(sheet => sheet.Fit.RmsMm * sheet.Fit.RmsMm)),
            sheets.Sum(sheet => sheet.Fit.MarksUsed));
        return new([.. sheets], fit, scatter);
    }

    private static ImmutableArray<ImmutableArray<double>> Square(Func<int, int, double> element) =>
        [.. Enumerable.Range(0, 6).Select(row => Enumerable.Range(0, 6).Select(column => element(row, column)).ToImmutableArray())];
}
