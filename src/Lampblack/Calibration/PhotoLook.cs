using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Calibration;

/// <summary>One sheet as its photos show it.</summary>
/// <param name="Name">How it is named to the maker: its photos.</param>
/// <param name="Paper">The paper that it says it is printed on.</param>
/// <param name="Readings">Where side 2 lies at places of the sheet.</param>
public sealed record PhotographedSheet(string Name, PaperSize Paper, ImmutableArray<RegisterReading> Readings)
{
    /// <summary>How far its marks lie off the best fit, root mean square; null where that was not told.</summary>
    public double? RmsMm { get; init; }

    /// <summary>Which copy it says it is; null where that could not be read.</summary>
    public int? Copy { get; init; }

    /// <summary>The register number that it was made with: 0 of a calibration sheet, on which nothing is undone.</summary>
    public int Register { get; init; }

    /// <summary>The printer file that it was made with; null where there was none.</summary>
    public string? Printer { get; init; }

    /// <summary>What was undone on its mask; nothing on that of a calibration sheet.</summary>
    public Affine<SheetSpace, SheetSpace> Undone { get; init; } = Affine<SheetSpace, SheetSpace>.Identity;

    /// <summary>Whether it is a sheet of a build.</summary>
    public bool IsOfBuild { get; init; }

    /// <summary>How dark its patches are, those left out that were not seen themselves.</summary>
    public ImmutableArray<PatchDensity> Patches { get; init; } = [];

    /// <summary>How much its toner grew; null where the photos do not tell it.</summary>
    public GainEntry? Gain { get; init; }

    /// <summary>Where its colours lie; nothing where the photos do not tell it.</summary>
    public ImmutableArray<PlaneReading> Planes { get; init; } = [];
}

/// <summary>One look at photos of sheets.</summary>
internal sealed class PhotoLook(ImmutableArray<PhotographedSheet> sheets)
{
    // So many standard deviations apart, in any of its places, and it is another sheet.
    private const double Sds = 4;

    // Copies of one sheet of a build carry no numbers. Two photos of the same piece of paper put it this near in the mean of its marks, though aslant by some degrees;
    // two pieces, which scatter by 0.1 mm each way, come as near once in some 20 times. Ours. What the paper's thickness may do to either photo is allowed for, too.
    private const double SameMm = 0.035;
    private const double SameSds = 2;

    /// <summary>By what a register entry says that it comes from photos.</summary>
    public const string Source = "photos";

    /// <summary>Where the answers come from, for findings.</summary>
    public const string Option = "PHOTO";

    /// <summary>The register number that the first of the sheets was made with; 0 where the file does not know it.</summary>
    public int RegisterIn(PrinterFile file) => file.Knows(sheets[0].Register) ? sheets[0].Register : 0;

    /// <summary>Looks whether the photos can be learned from; null with findings.</summary>
    public static PhotoLook? Read(PaperSize paper, TypedAnswers typed, List<Finding> findings)
    {
        if (!typed.Dots.IsEmpty || !typed.Readings.IsEmpty || !typed.Verniers.IsEmpty || !typed.Bars.IsEmpty || typed.Step is not null || typed.Register is not null)
        {
            findings.Add(Finding.Stop(
                "answer-mixed", "photos of sheets and readings of a sheet were told together", "give the photos by themselves; tell what you read in a call of its own", item: Option));
            return null;
        }

        foreach (var other in typed.Sheets.Where(sheet => sheet.Paper.Name != paper.Name))
        {
            findings.Add(Finding.Stop(
                "photo-other-paper",
                $"{Shown.Quoted(other.Name)} shows a {(other.IsOfBuild ? "sheet of a build" : "calibration sheet")} on {other.Paper.Name}, and this printer file is for {paper.Name}",
                "another paper is another path through the printer: it needs a printer file of its own. Nothing was stored",
                item: Option));
        }

        return Learning.HasStop(findings) ? null : new(typed.Sheets);
    }

    /// <summary>The file with what was seen, one entry for each sheet; null with findings.</summary>
    public PrinterFile? Learn(PrinterFile file, PaperSize paper, int number, List<Finding> findings)
    {
        var taught = file;
        foreach (var sheet in sheets)
        {
            ImmutableArray<SheetReading> readings = [.. sheet.Readings.SelectMany((reading, index) => ReadingsOf(sheet, reading, index, findings))];
            if (sheet.Printer is { } printer && printer != file.Name)
            {
                findings.Add(Finding.Stop(
                    "photo-other-printer",
                    $"{Shown.Quoted(sheet.Name)} shows a sheet that was made for the printer file {Shown.Quoted(printer)}, and this is {Shown.Quoted(file.Name)}",
                    "learn from it for the printer file that the build was told. Nothing was stored",
                    item: Option));
                return null;
            }

            if (new RegisterLesson(taught, paper, register: 0, isRegisterTyped: false, number, findings) { Undone = sheet.Undone }.Learn(Source, readings, _ => (0, 0)) is not { } more)
            {
                return null;
            }

            var known = Array.FindLastIndex([.. taught.Register], entry => IsOf(entry, more.Register[^1], sheet));
            var name = known >= 0 && taught.Register[known].Sheet > 0 ? taught.Register[known].Sheet : OncePerSheet.Next(taught);

            if (known >= 0)
            {
                findings.Add(Finding.Note(
                    "sheet-known",
                    $"{Shown.Quoted(sheet.Name)} {(sheet.Copy is { } copy ? FormattableString.Invariant($"shows copy {copy}, which was") : "shows a sheet that looks like one that was")} learned before: side 2 lies where it lay then. It still counts as one sheet, by the photos that tell most",
                    "how much sheets scatter shows on several sheets only: print more copies, `lampblack printer sheet --copies 3`, and photograph each",
                    item: Option));
            }

            taught = more with
            {
                Register = [.. more.Register.Select((entry, index) => index == known ? entry with { Sheet = name } : index == more.Register.Length - 1 ? entry with { Sheet = name, Copy = sheet.Copy, RmsMm = sheet.RmsMm } : entry)],
                Wedges = sheet.Patches.IsEmpty ? more.Wedges : more.Wedges.Add(new(sheet.Patches) { Sheet = name }),
                Gains = sheet.Gain is { } gain ? more.Gains.Add(gain with { Sheet = name }) : more.Gains,
                Planes = sheet.Planes.IsEmpty ? more.Planes : more.Planes.Add(new(sheet.Planes) { Sheet = name }),
            };
        }

        return taught;
    }

    /// <summary>Whether an entry is of the very sheet: not of another copy, and side 2 lies at each place where it lies there. Two sheets scatter by more than photos err.</summary>
    private static bool IsOf(RegisterEntry entry, RegisterEntry seen, PhotographedSheet sheet) =>
        entry.From == Source && (sheet.IsOfBuild ? IsNear(entry, seen) : (entry.Copy is null || sheet.Copy is null || entry.Copy == sheet.Copy) && entry.Readings.Length == seen.Readings.Length
            && entry.Readings.Zip(seen.Readings).All(pair => pair.First.XMm == pair.Second.XMm && pair.First.YMm == pair.Second.YMm
                && IsNear(pair.First.RightMm, pair.Second.RightMm, pair.First.SdMm, pair.Second.SdMm) && IsNear(pair.First.UpMm, pair.Second.UpMm, pair.First.SdMm, pair.Second.SdMm)));

    /// <summary>Whether two entries have marks in common, and side 2 lies alike in their mean.</summary>
    private static bool IsNear(RegisterEntry entry, RegisterEntry seen)
    {
        var both = entry.Readings.Join(seen.Readings, one => (one.XMm, one.YMm), other => (other.XMm, other.YMm), (one, other) => (Right: one.RightMm - other.RightMm, Up: one.UpMm - other.UpMm)).ToList();
        var sameMm = Math.Max(SameMm, SameSds * double.Hypot(MeanSdMm(entry), MeanSdMm(seen)));
        return both.Count >= 3 && Math.Abs(both.Average(off => off.Right) ?? double.MaxValue) <= sameMm && Math.Abs(both.Average(off => off.Up) ?? double.MaxValue) <= sameMm;

        static double MeanSdMm(RegisterEntry one) => Math.Sqrt(one.Readings.Sum(reading => reading.SdMm * reading.SdMm)) / one.Readings.Length;
    }

    private static bool IsNear(double? firstMm, double? secondMm, double firstSdMm, double secondSdMm) =>
        firstMm is { } first && secondMm is { } second && Math.Abs(first - second) <= Sds * double.Hypot(firstSdMm, secondSdMm);

    private static IEnumerable<SheetReading> ReadingsOf(PhotographedSheet sheet, RegisterReading reading, int index, List<Finding> findings)
    {
        var typed = new Typed(Option, sheet.Name, findings);
        var place = new SheetPlace(FormattableString.Invariant($"place {index + 1} of {sheet.Name}"), reading.XMm, reading.YMm, 0);
        if (reading.RightMm is { } right)
        {
            yield return new(typed, place, false, right, reading.SdMm, ReadFrom.Photo);
        }

        if (reading.UpMm is { } up)
        {
            yield return new(typed, place, true, up, reading.SdMm, ReadFrom.Photo);
        }
    }
}
