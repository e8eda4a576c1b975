using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Runtime.InteropServices;
using System.Threading;
using Lampblack.Calibration;
using Lampblack.Findings;
using Lampblack.Imaging;
using Lampblack.Photos;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Jobs;

/// <summary>Where side 2 lands: what is meant for p, in mm from the sheet's lower left corner in front view, y upwards, lies at A p + t.</summary>
/// <param name="Affine">[[a, b, tx], [c, d, ty]]; tx and ty in mm.</param>
/// <param name="Covariance">Of a, b, tx, c, d, ty, row by row.</param>
/// <param name="RmsMm">How far marks lie off that, root mean square.</param>
public sealed record LandingOfSide2(ImmutableArray<ImmutableArray<double>> Affine, ImmutableArray<ImmutableArray<double>> Covariance, double RmsMm)
{
    internal static LandingOfSide2? Of(MisregisterFit? fit) => fit is null ? null : new(fit.Affine, fit.Covariance, fit.RmsMm);
}

/// <summary>What one photo told, for the shells.</summary>
/// <param name="File">The photo.</param>
/// <param name="Copy">The number of the copy that it shows; null where that could not be read, or no sheet was found.</param>
/// <param name="MarksFound">How many marks of the front were found.</param>
/// <param name="MarksUsed">How many of them told where side 2 lies.</param>
/// <param name="Fit">Where side 2 lies; null where it could not be told.</param>
/// <param name="Findings">What is to be said of it.</param>
public sealed record PhotoAccount(string File, int? Copy, int MarksFound, int MarksUsed, LandingOfSide2? Fit, ImmutableArray<Finding> Findings);

/// <summary>How dark one patch of one copy is to light from behind.</summary>
/// <param name="Copy">The copy's number; null where it could not be read.</param>
/// <param name="Id">The patch.</param>
/// <param name="Density">Transmission density above paper's own.</param>
/// <param name="UncertaintyDensity">Its standard deviation; 0 of a lower bound.</param>
/// <param name="IsLowerBound">Whether it is at least so dark, and stray light hides how much darker.</param>
/// <param name="IsInferred">Whether it follows from the single layers.</param>
public sealed record PatchOfCopy(int? Copy, string Id, double Density, double UncertaintyDensity, bool IsLowerBound, bool IsInferred)
{
    internal static PatchOfCopy Of(int? copy, PatchDensity patch) => new(copy, patch.Id, patch.Density, patch.UncertaintyDensity, patch.IsLowerBound, patch.IsInferred);
}

/// <summary>Photos of calibration sheets, read.</summary>
/// <param name="Photos">One by one, in the order given.</param>
public sealed record PhotosOfSheets(ImmutableArray<PhotoAccount> Photos)
{
    /// <summary>The largest file that is read: 100 MB; a photo of 50 million dots has 40 at most.</summary>
    public const long LimitBytes = 100_000_000;

    // Four corners tell six numbers: a corner is then known as well as the root of 3/4 of one place, the middle half as well.
    private const double CornerShare = 0.866;

    private ImmutableArray<SheetPhoto> Good { get; init; } = [];

    private Checked<SheetsReading?> Together { get; init; } = new(null, []);

    /// <summary>Whether any of them tells where side 2 lies.</summary>
    public bool CanTeach => Together.Value is not null;

    /// <summary>What is to be said of all of them. Where at least one can be learned from, the others are only told of.</summary>
    public ImmutableArray<Finding> Findings =>
    [
        .. Photos.SelectMany(photo => photo.Findings).Select(finding => !CanTeach || finding.Severity != Severity.Stop
            ? finding
            : finding with { Severity = Severity.Warn, Hint = $"{finding.Hint} The other photos were learned from." }),
        .. Together.Findings,
        .. Wedges.Where(wedge => wedge.Reading.Exposures == 1).Take(1).Select(wedge => Finding.Note(
            "photo-one-exposure",
            $"{Shown.List(wedge.Files.Select(Shown.Quoted))}: the blacks of the sheet are known from one exposure only, so dark ones are known badly",
            "take four photos of each sheet from one place, each two stops (four times) longer than the one before, and give all of them")),
    ];

    /// <summary>How dark each patch of the black wedge is, copy by copy; what is hidden by stray light is a lower bound.</summary>
    public ImmutableArray<PatchOfCopy> Patches => [.. Wedges.SelectMany(wedge => wedge.Reading.Patches.Select(patch => PatchOfCopy.Of(wedge.Copy, patch)))];

    /// <summary>The darkest blacks of each copy, as lines for a person; none where no photo shows any.</summary>
    public ImmutableArray<string> BlacksTold =>
    [
        .. Wedges.SelectMany(wedge => wedge.Reading.Patches.OrderByDescending(patch => patch.Density).Take(6)
            .Select(patch => FormattableString.Invariant($"  {patch.Id,-20} {(patch.IsLowerBound ? $"at least {patch.Density:0.00}" : $"{patch.Density:0.00} ± {patch.UncertaintyDensity:0.00}{(patch.IsInferred ? ", from its layers" : string.Empty)}")}"))
            .Prepend(wedge.Copy is { } copy ? FormattableString.Invariant($"Darkest against light on copy {copy} (density; 2 lets a hundredth through, 3 a thousandth):") : "Darkest against light (density; 2 lets a hundredth through, 3 a thousandth):")),
    ];

    private ImmutableArray<(int? Copy, ImmutableArray<string> Files, WedgeReading Reading)> Wedges { get; init; } = [];

    /// <summary>Where side 2 lands in the mean of all sheets; null where no photo tells it.</summary>
    public LandingOfSide2? Fit => LandingOfSide2.Of(Together.Value?.Fit);

    /// <summary>A picture for each photo that teaches: every mark's misregister as an arrow, 50 times as long as it is.</summary>
    public ImmutableArray<OutputFile> Arrows()
    {
        var files = Good.Select((photo, index) =>
        {
            using var picture = MisregisterPicture.Of(photo);
            return new OutputFile(
                FormattableString.Invariant($"photo-{index + 1}-arrows.png"),
                $"where side 2 lies on {Shown.Quoted(photo.FileName)}, 50 times as far off",
                ImmutableCollectionsMarshal.AsImmutableArray(PngFile.Write(picture)));
        }).ToList();
        files.Sort((first, second) => string.CompareOrdinal(first.Path, second.Path));
        files.Add(Manifest.Write(files));
        return [.. files];
    }

    /// <summary>The sheets, each with what all of its photos show together.</summary>
    internal ImmutableArray<PhotographedSheet> Seen =>
    [
        .. Together.Value?.Sheets.Select(sheet => Sheet(sheet, Good[0].Plan.Paper) with
        {
            Patches = [.. Wedges.Where(wedge => wedge.Copy == sheet.CopyNumber && (wedge.Copy is not null || wedge.Files.Contains(sheet.FileNames[0]))).Take(1).SelectMany(wedge => wedge.Reading.Patches).Where(patch => !patch.IsInferred)],
        }) ?? [],
    ];

    /// <summary>Reads photos.</summary>
    /// <param name="photos">Names and contents.</param>
    /// <param name="progress">Told which one is being read.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <param name="hasColours">Whether the sheets are of a printer with colours; the wedge of one with black only has other patches, which are not measured.</param>
    public static PhotosOfSheets Read(IEnumerable<(string Name, ReadOnlyMemory<byte> Bytes)> photos, IProgress<string> progress, CancellationToken cancellation, bool hasColours = true)
    {
        ArgumentNullException.ThrowIfNull(photos);
        ArgumentNullException.ThrowIfNull(progress);
        ImmutableArray<CalibrationPlan> plans = [.. PaperSize.All.Select(CalibrationPlan.Of).OfType<CalibrationPlan>()];
        var accounts = ImmutableArray.CreateBuilder<PhotoAccount>();
        var good = ImmutableArray.CreateBuilder<SheetPhoto>();
        var all = new List<SheetPhoto>();
        foreach (var (name, bytes) in photos)
        {
            progress.Report($"reading {name}");
            var read = PhotoReading.Read(name, bytes, plans, cancellation);
            var seen = read.Value;
            var isGood = seen?.Fit is not null && read.Findings.All(finding => finding.Severity != Severity.Stop);
            accounts.Add(new(name, seen?.Code?.Copy, seen?.MarksFound ?? 0, seen?.Marks.Count(mark => mark.IsUsed) ?? 0, LandingOfSide2.Of(seen?.Fit), read.Findings));
            if (isGood)
            {
                good.Add(seen!);
            }

            if (seen is not null)
            {
                all.Add(seen);
            }
        }

        return new(accounts.ToImmutable()) { Good = good.ToImmutable(), Together = SheetsReading.Of(good.ToImmutable()), Wedges = hasColours ? [.. WedgesOf(all, good)] : [] };
    }

    /// <summary>Each copy's patches, from all of its photos once one of them teaches: some of a bracket are too dark or too bright for anything else.</summary>
    private static IEnumerable<(int? Copy, ImmutableArray<string> Files, WedgeReading Reading)> WedgesOf(List<SheetPhoto> all, IEnumerable<SheetPhoto> good)
    {
        foreach (var copy in good.Select((photo, index) => (Photo: photo, Key: photo.Code?.Copy ?? -1 - index)).GroupBy(one => one.Key, one => one.Photo))
        {
            var photos = copy.Key < 0 ? copy.ToList() : [.. all.Where(photo => photo.Code?.Copy == copy.Key)];
            if (WedgeReading.Of(photos) is { } reading)
            {
                yield return (copy.Key < 0 ? null : copy.Key, [.. photos.Select(photo => photo.FileName)], reading);
            }
        }
    }

    /// <summary>
    /// One sheet as readings at four places that tell no more than the photos do: each as uncertain as it takes for the middle and the corners to come out
    /// no better known than the fit has them, what the paper's thickness may have done included.
    /// </summary>
    private static PhotographedSheet Sheet(SheetFit sheet, PaperSize paper)
    {
        var fit = sheet.Fit;
        var (halfX, halfY) = (paper.WidthMm * 0.38, paper.HeightMm * 0.39);
        (double X, double Y)[] places = [(-halfX, -halfY), (halfX, -halfY), (halfX, halfY), (-halfX, halfY)];
        var sd = Math.Max(2 * Sd(0, 0), places.Max(place => Sd(place.X, place.Y)) / CornerShare);
        return new(
            string.Join(" and ", sheet.FileNames),
            paper,
            [.. places.Select(place => Reading(place.X, place.Y))]);

        RegisterReading Reading(double x, double y)
        {
            var off = fit.At(new((paper.WidthMm / 2) + x, (paper.HeightMm / 2) + y));
            return new(Rounded(x), Rounded(y), Rounded(off.DxMm), Rounded(off.DyMm), Math.Max(0.001, Rounded(sd)));
        }

        double Sd(double x, double y)
        {
            double[] right = [(paper.WidthMm / 2) + x, (paper.HeightMm / 2) + y, 1];
            return Math.Sqrt(Math.Max(Variance(0), Variance(3)));

            double Variance(int from)
            {
                var sum = 0.0;
                for (var row = 0; row < 3; row++)
                {
                    for (var column = 0; column < 3; column++)
                    {
                        sum += right[row] * fit.Covariance[from + row][from + column] * right[column];
                    }
                }

                return sum;
            }
        }
    }

    private static double Rounded(double mm) => Math.Round(mm, 4, MidpointRounding.AwayFromZero);
}
