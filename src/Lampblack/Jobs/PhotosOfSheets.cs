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
public sealed record PhotoAccount(string File, int? Copy, int MarksFound, int MarksUsed, LandingOfSide2? Fit, ImmutableArray<Finding> Findings)
{
    /// <summary>The sheet of a build that it shows; null of a calibration sheet.</summary>
    public string? Sheet { get; init; }

    /// <summary>The pair code of that sheet.</summary>
    public string? PairCode { get; init; }

    /// <summary>The register number that it was made with; null of a calibration sheet.</summary>
    public int? Register { get; init; }
}

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

/// <summary>How much toner grew on one copy, at each edge of black.</summary>
/// <param name="Copy">The copy's number; null where it could not be read.</param>
/// <param name="AcrossMm">At edges that run up the sheet.</param>
/// <param name="AlongMm">At edges that run across it.</param>
/// <param name="SdMm">Standard deviation of either.</param>
/// <param name="Lines">How many lit lines told it, over all photos.</param>
public sealed record GrowthOfCopy(int? Copy, double AcrossMm, double AlongMm, double SdMm, int Lines);

/// <summary>How far a colour lies off its black at one mark of one copy.</summary>
/// <param name="Copy">The copy's number; null where it could not be read.</param>
/// <param name="Ink">The colour's letter.</param>
/// <param name="XMm">The mark, from the sheet's lower left corner to the right, in front view.</param>
/// <param name="YMm">The same, upwards.</param>
/// <param name="RightMm">How far the colour lies to the right of where it belongs.</param>
/// <param name="UpMm">How far it lies above it.</param>
/// <param name="SdMm">Standard deviation of either.</param>
public sealed record ColourOfCopy(int? Copy, string Ink, double XMm, double YMm, double RightMm, double UpMm, double SdMm);

/// <summary>Photos of calibration sheets and of sheets of a build, read.</summary>
/// <param name="Photos">One by one, in the order given.</param>
public sealed record PhotosOfSheets(ImmutableArray<PhotoAccount> Photos)
{
    /// <summary>The largest file that is read: 100 MB; a photo of 50 million dots has 40 at most.</summary>
    public const long LimitBytes = 100_000_000;

    // Four corners tell six numbers: a corner is then known as well as the root of 3/4 of one place, the middle half as well.
    private const double CornerShare = 0.866;

    private ImmutableArray<SheetPhoto> Good { get; init; } = [];

    private ImmutableArray<BuiltSheetPhoto> Built { get; init; } = [];

    private Checked<SheetsReading?> Together { get; init; } = new(null, []);

    /// <summary>Whether any of them tells where side 2 lies.</summary>
    public bool CanTeach => Together.Value is not null || !Built.IsEmpty;

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
        .. EdgesUnread(),
    ];

    /// <summary>How much toner grew, copy by copy, as far as photos tell it.</summary>
    public ImmutableArray<GrowthOfCopy> Growth => [.. Sheets.Where(sheet => sheet.Gain is not null).Select(sheet => new GrowthOfCopy(sheet.Fit.CopyNumber, sheet.Gain!.AcrossMm, sheet.Gain.AlongMm, sheet.Gain.SdMm, sheet.Gain.Lines))];

    /// <summary>Where each colour lies, copy by copy and mark by mark, as far as photos tell it.</summary>
    public ImmutableArray<ColourOfCopy> Colours => [.. Sheets.SelectMany(sheet => sheet.Planes.Select(plane => new ColourOfCopy(
        sheet.Fit.CopyNumber, $"{plane.Letter}", plane.Place.XMm, plane.Place.YMm, plane.RightMm, plane.UpMm, plane.SdMm)))];

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

    /// <summary>Where side 2 lands in the mean of all calibration sheets, or on the one sheet of a build; null where no photo tells it, or several of different kinds or of a build do.</summary>
    public LandingOfSide2? Fit => LandingOfSide2.Of(Built.IsEmpty ? Together.Value?.Fit : Built.Length == 1 && Good.IsEmpty ? Built[0].Fit : null);

    /// <summary>For which sheet each photo of a sheet of a build was taken, as lines for a person.</summary>
    public ImmutableArray<string> SheetsTold => [.. Built.Select(BuiltSheets.Told)];

    /// <summary>A picture for each photo that teaches: every mark's misregister as an arrow, 50 times as long as it is.</summary>
    public ImmutableArray<OutputFile> Arrows()
    {
        var looks = Good.Select(photo => (photo.FileName, photo.Plan.Paper, All: photo.Plan.Marks, photo.Marks))
            .Concat(Built.Select(photo => (photo.FileName, photo.Sheet.Paper, All: photo.Sheet.Marks, photo.Marks)));
        var files = looks.Select((photo, index) =>
        {
            using var picture = MisregisterPicture.Of(photo.Paper, photo.All, photo.Marks);
            return new OutputFile(
                FormattableString.Invariant($"photo-{index + 1}-arrows.png"),
                $"where side 2 lies on {Shown.Quoted(photo.FileName)}, 50 times as far off",
                ImmutableCollectionsMarshal.AsImmutableArray(PngFile.Write(picture)));
        }).ToList();
        files.Sort((first, second) => string.CompareOrdinal(first.Path, second.Path));
        files.Add(Manifest.Write(files));
        return [.. files];
    }

    /// <summary>The sheets, each with what all of its photos tell of edges.</summary>
    private IEnumerable<(SheetFit Fit, List<SheetPhoto> Photos, GainReading? Gain, ImmutableArray<PlaneOffset> Planes)> Sheets => Together.Value?.Sheets.Select(sheet =>
    {
        var photos = Good.Where(photo => sheet.CopyNumber is { } copy ? photo.Code?.Copy == copy : sheet.FileNames.Contains(photo.FileName)).ToList();
        return (sheet, photos, GainReading.Together(photos.Select(photo => photo.Gain).OfType<GainReading>()), PlaneOffset.Together(photos.Select(photo => photo.Planes)));
    }) ?? [];

    /// <summary>The sheets, each with what all of its photos show together.</summary>
    internal ImmutableArray<PhotographedSheet> Seen =>
    [
        .. Sheets.Select(seen => (Sheet: seen.Fit, seen.Gain, seen.Planes)).Select(seen => Sheet(seen.Sheet, Good[0].Plan.Paper) with
        {
            Gain = seen.Gain is { } gain ? new(Rounded(gain.AcrossMm), Rounded(gain.AlongMm), Math.Max(0.0001, Rounded(gain.SdMm))) : null,
            Planes =
            [
                .. seen.Planes.Select(plane => new PlaneReading(
                    plane.Letter, Rounded(plane.Place.XMm - (Good[0].Plan.Paper.WidthMm / 2)), Rounded(plane.Place.YMm - (Good[0].Plan.Paper.HeightMm / 2)),
                    Rounded(plane.RightMm), Rounded(plane.UpMm), Math.Max(0.0001, Rounded(plane.SdMm)))),
            ],
            Patches = [.. Wedges.Where(wedge => wedge.Copy == seen.Sheet.CopyNumber && (wedge.Copy is not null || wedge.Files.Contains(seen.Sheet.FileNames[0]))).Take(1).SelectMany(wedge => wedge.Reading.Patches).Where(patch => !patch.IsInferred)],
        }),
        .. Built.Select(BuiltSheets.Seen),
    ];

    /// <summary>Reads photos.</summary>
    /// <param name="photos">Names and contents.</param>
    /// <param name="progress">Told which one is being read.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <param name="hasColours">Whether the sheets are of a printer with colours; the wedge of one with black only has other patches.</param>
    /// <param name="report"><c>report.json</c> of the build whose sheets may be among them; empty where nobody named one.</param>
    public static PhotosOfSheets Read(
        IEnumerable<(string Name, ReadOnlyMemory<byte> Bytes)> photos, IProgress<string> progress, CancellationToken cancellation, bool hasColours = true, ImmutableArray<byte> report = default)
    {
        ArgumentNullException.ThrowIfNull(photos);
        ArgumentNullException.ThrowIfNull(progress);
        ImmutableArray<CalibrationPlan> plans = [.. PaperSize.All.Select(CalibrationPlan.Of).OfType<CalibrationPlan>()];
        var accounts = ImmutableArray.CreateBuilder<PhotoAccount>();
        var good = ImmutableArray.CreateBuilder<SheetPhoto>();
        var all = new List<SheetPhoto>();
        var built = ImmutableArray.CreateBuilder<BuiltSheetPhoto>();
        var sheets = BuiltSheets.Of(report);
        foreach (var (name, bytes) in photos)
        {
            progress.Report($"reading {name}");
            var opened = SeenPhoto.Of(name, bytes, cancellation);
            if (opened.Value is { IsOfBuiltSheet: true } ofBuild)
            {
                var told = BuiltSheetReading.Read(ofBuild, sheets, cancellation);
                if (told.Value is { Fit: not null } one)
                {
                    built.Add(one);
                }

                accounts.Add(new(name, null, told.Value?.MarksFound ?? 0, told.Value?.Marks.Count(mark => mark.IsUsed) ?? 0, LandingOfSide2.Of(told.Value?.Fit), told.Findings) 
                {
                    Sheet = told.Value?.Sheet.Id,
                    PairCode = told.Value?.Sheet.PairCode,
                    Register = told.Value?.Sheet.Register,
                });
                continue;
            }

            var read = opened.Value is { } photo ? PhotoReading.Read(photo, bytes, plans, cancellation, !hasColours) : new(null, opened.Findings);
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

        return new(accounts.ToImmutable()) { Good = good.ToImmutable(), Built = built.ToImmutable(), Together = SheetsReading.Of(good.ToImmutable()), Wedges = [.. WedgesOf(all, good)] };
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

    /// <summary>Which sheets do not tell of toner's growth, and of which colours they do not tell, each with the reason.</summary>
    private IEnumerable<Finding> EdgesUnread()
    {
        foreach (var (sheet, photos, gain, planes) in Sheets)
        {
            var names = Shown.List(sheet.FileNames.Select(Shown.Quoted));
            if (gain is null && photos.Select(photo => photo.GainWhy).OfType<string>().FirstOrDefault() is { } why)
            {
                yield return Finding.Note("photo-growth-unread", $"{names}: the lit lines do not tell how much toner grows: {why}", "a sharp photo in which paper is bright but not white tells it; the rest was learned all the same");
            }

            var unread = photos.SelectMany(photo => photo.PlanesWhy).Where(one => planes.All(plane => plane.Letter != one.Letter)).DistinctBy(one => one.Letter)
                .GroupBy(one => one.Why, one => one.Letter).Select(group => $"{Shown.List(group.Select(letter => $"{letter}"))}: {group.Key}").ToList();
            if (unread.Count > 0)
            {
                yield return Finding.Note("photo-colours-unread", $"{names}: the marks do not tell where these colours lie: {string.Join("; ", unread)}", "a sharp photo in colour, in which paper is bright but not white, tells it; the rest was learned all the same");
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
            [.. places.Select(place => Reading(place.X, place.Y))]) { Copy = sheet.CopyNumber, RmsMm = Rounded(fit.RmsMm) };

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
