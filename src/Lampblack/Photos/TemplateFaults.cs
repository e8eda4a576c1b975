using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Sheets;

namespace Lampblack.Photos;

/// <summary>Says what is wrong with a photo of a hole template.</summary>
internal static class TemplateFaults
{
    private const double BlurredMm = 0.65;
    private const double TooBlurredMm = 0.9;
    private const double BentMm = 0.12;

    /// <summary>Why none of the pages was found.</summary>
    /// <param name="fileName">The photo.</param>
    /// <param name="light">Its light.</param>
    /// <param name="windows">How many numbered windows were read.</param>
    /// <param name="isPlaced">Whether they lie as on one of the pages.</param>
    /// <param name="other">What the page says of itself, where that could be read.</param>
    public static Finding NoPage(string fileName, LightPlane light, int windows, bool isPlaced, SheetCode? other)
    {
        var name = Shown.Quoted(fileName);
        if (NoSheet.BrightShare(light) < NoSheet.DarkShare)
        {
            return Finding.Stop("photo-dark", $"{name} is too dark to find anything in it", "more light from all sides, no flash, and let the camera expose for the page");
        }

        if (other is not null || (windows >= SheetFinder.FewestMarks && !isPlaced))
        {
            return Finding.Stop(
                "drilled-page-other",
                $"{name} shows a hole template, but not one of this desk as it is now",
                "build the desk, print `drilled.pdf` anew and photograph that; a page of another desk, or of holes that have been moved since, does not tell how far these holes are off");
        }

        return windows == 0
            ? Finding.Stop(
                "drilled-page-none",
                $"{name} shows no hole template: none of its numbered windows was found",
                "print `drilled.pdf` of the build's output, lay the plate on it as it says, and photograph the whole page, sharp and evenly lit")
            : Finding.Stop(
                "photo-cropped",
                string.Create(CultureInfo.InvariantCulture, $"{name} shows only {windows} of the template's windows, or not the row of cells at its top"),
                "take the photo once more with the whole page in it and nothing in front of it");
    }

    public static Checked<TemplatePhoto?> Judge(TemplatePhoto photo, ImmutableArray<RegisterMark> marks, double blurMm)
    {
        var findings = new List<Finding?> { PhotoFaults.Blurred(Shown.Quoted(photo.FileName), blurMm, BlurredMm, TooBlurredMm, "page"), Cropped(photo, marks), Bent(photo) };
        if (photo.Holes.IsEmpty)
        {
            findings.Add(Finding.Stop(
                "drilled-holes-unseen",
                $"{Shown.Quoted(photo.FileName)} shows the page, but none of its holes",
                photo.Plan.IsDark
                    ? "the plate must be light (its film on it, or painted) and lie on the page, so that its holes are black; for a clear plate take the page for the felt pen"
                    : "fill every hole with a black felt pen, right to its edge, while the plate lies on the page; then take the plate away"));
        }

        ImmutableArray<Finding> told = [.. findings.OfType<Finding>()];
        return new(told.Any(finding => finding.Severity == Severity.Stop) ? null : photo, told);
    }

    private static Finding? Cropped(TemplatePhoto photo, ImmutableArray<RegisterMark> marks)
    {
        var all = photo.Plan.Marks;
        if (marks.Length == all.Length)
        {
            return null;
        }

        ImmutableArray<Point<SheetSpace>> places = [.. marks.Select(mark => new Point<SheetSpace>(mark.Place.XMm * TemplatePlan.MarkShare, mark.Place.YMm * TemplatePlan.MarkShare))];
        var missing = all.Select(mark => mark.Number).Except(marks.Select(mark => mark.Number)).Select(number => number.ToString(CultureInfo.InvariantCulture));
        var found = string.Create(CultureInfo.InvariantCulture, $"{Shown.Quoted(photo.FileName)} shows {marks.Length} of the page's {all.Length} windows; missing: {Shown.List(missing)}");
        const string Hint = "take the photo once more with the whole page in it and nothing in front of it";
        var isEnough = places.Length >= SheetFinder.FewestMarks && TemplatePlan.Surround(places, photo.Plan.Panel.Holes.Select(hole => photo.Plan.Map.Apply(hole.Centre)));
        return isEnough ? Finding.Warn("photo-cropped", found, Hint) : Finding.Stop("photo-cropped", found, Hint);
    }

    private static Finding? Bent(TemplatePhoto photo) => photo.BendMm > BentMm
        ? Finding.Warn(
            "drilled-page-bent",
            string.Create(CultureInfo.InvariantCulture, $"{Shown.Quoted(photo.FileName)}: the page's windows lie {photo.BendMm:0.00} mm off their places; so badly are its holes known"),
            "lay the page flat on something hard, its corners held down, and photograph it once more")
        : null;
}
