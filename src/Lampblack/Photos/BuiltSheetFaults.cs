using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Sheets;

namespace Lampblack.Photos;

/// <summary>Says what is wrong with a photo of a sheet of a build, or with the sheet in it.</summary>
internal static class BuiltSheetFaults
{
    // Its discs are 1.8 mm wide, as those of hole templates are clear: ours, by drawn photos.
    private const double BlurredMm = 0.5;
    private const double TooBlurredMm = 0.65;

    // Drawn photos leave 0.004 mm; a smear of 0.2 mm on one of four marks leaves a quarter of it on each.
    private const double ContraryMm = 0.04;

    public static Checked<BuiltSheetPhoto?> Judge(BuiltSheetPhoto photo, LightPlane light, SheetPose pose, ImmutableArray<MeasuredMark> marks)
    {
        var name = Shown.Quoted(photo.FileName);
        var findings = new List<Finding?> { photo.IsFromBehind ? PhotoFaults.Behind(name) : null };
        if (marks.Length < WasteMarks.Fewest)
        {
            findings.Add(Finding.Stop("photo-cropped", Missing(name, photo, marks), "take the photo once more with the whole sheet in it and nothing in front of it"));
        }
        else if (PhotoFaults.Dark(name, light, pose, marks) is { } dark)
        {
            findings.Add(dark);
        }
        else
        {
            findings.Add(marks.Length < photo.Sheet.Marks.Length
                ? Finding.Warn("photo-cropped", Missing(name, photo, marks), "the others were used; the whole sheet in the photo tells more")
                : null);
            findings.Add(PhotoFaults.Blurred(name, photo.BlurMm, BlurredMm, TooBlurredMm, "sheet"));
            findings.AddRange(photo.Fit is { } fit
                ? [PhotoFaults.Scaled(name, fit), PhotoFaults.LeftOut(name, photo.Marks, marks), Contrary(name, fit)]
                : [findings.OfType<Finding>().Any(finding => finding.Severity == Severity.Stop) ? null : NoBack(name, marks)]);
        }

        ImmutableArray<Finding> told = [.. findings.OfType<Finding>()];
        return new(told.Any(finding => finding.Severity == Severity.Stop) ? photo with { Fit = null } : photo, told);
    }

    private static string Missing(string name, BuiltSheetPhoto photo, ImmutableArray<MeasuredMark> marks) => string.Create(
        CultureInfo.InvariantCulture,
        $"{name} shows {marks.Length} of the {photo.Sheet.Marks.Length} register marks of {photo.Sheet.Id}; missing: {Shown.List(photo.Sheet.Marks.Select(mark => mark.Number).Except(marks.Select(mark => mark.Mark.Number)).Select(number => number.ToString(CultureInfo.InvariantCulture)))}");

    /// <summary>Four marks tell six numbers with next to nothing left over: where that is much, one of them is smeared, and nobody knows which.</summary>
    private static Finding? Contrary(string name, MisregisterFit fit) => fit.RmsMm <= ContraryMm ? null : Finding.Stop(
        "photo-marks-contrary",
        FormattableString.Invariant($"{name}: the marks contradict each other: they lie {fit.RmsMm:0.00} mm off any common way, and up to {ContraryMm} mm is usual"),
        "look whether the toner of one is smeared or something lies on it; photograph another print");

    private static Finding NoBack(string name, ImmutableArray<MeasuredMark> marks) => marks.Count(mark => mark.Disc is not null && mark.IsItsOwn) is var good and > 0
        ? Finding.Stop(
            "photo-back-unread",
            FormattableString.Invariant($"{name} shows discs of side 2 that can be read in only {good} windows; {WasteMarks.Fewest} are the least that tell where it lies"),
            "look whether something lies on the others or their toner is smeared; photograph another print")
        : marks.Count(mark => mark.Disc is not null) >= 2
        ? Apart($"{name} shows side 2, but its discs do not stand in the windows of their own numbers")
        : PhotoFaults.Unlit(name, marks);

    /// <summary>Said where too few of a sheet's marks are seen.</summary>
    /// <param name="name">The photo, as it is shown.</param>
    /// <param name="seen">How many are.</param>
    public static Finding TooFew(string name, int seen) => Finding.Stop(
        "photo-cropped",
        FormattableString.Invariant($"{name} shows only {seen} of a sheet's register marks; {WasteMarks.Fewest} are the least that tell where side 2 lies"),
        "take the photo once more with the whole sheet in it and nothing in front of it");

    /// <summary>Said where the two sides do not lie on each other.</summary>
    /// <param name="found">What is seen.</param>
    public static Finding Apart(string found) => Finding.Stop(
        "photo-back-unread",
        found,
        "look whether the sheet was turned the wrong way, or side 2 was scaled or shifted by more than 1.5 mm: the tick must show in box A, and both sides be printed at actual size (100 %)");
}
