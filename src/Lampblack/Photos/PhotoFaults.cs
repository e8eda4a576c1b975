using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Findings;
using Lampblack.Numerics;

namespace Lampblack.Photos;

/// <summary>All that was seen in a photo in which a sheet was found.</summary>
internal sealed record SeenSheet(LightPlane Light, SheetPose Pose, FoundSheet Sheet, ImmutableArray<MeasuredMark> Marks, SheetCode? FrontCode, SheetCode? BackCode);

/// <summary>Says what is wrong with a photo, or with the sheet in it.</summary>
internal static class PhotoFaults
{
    /// <summary>Fewer marks than these do not tell a whole sheet.</summary>
    private const int FewestWholeMarks = 16;

    // A laser printer's own stretch is a few tenths of a percent (facts of print practice): more is a page that was scaled.
    private const double ScaledShare = 0.015;
    private const double BlurredMm = 0.8;
    private const double TooBlurredMm = 1.0;

    // Paper's own cloudiness stays below this.
    private const double WeakContrastShare = 0.04;

    private const double WorthSecondPhotoMm = 0.015;

    public static Checked<SheetPhoto?> Judge(SheetPhoto photo, SeenSheet seen)
    {
        var name = Shown.Quoted(photo.FileName);
        var findings = ImmutableArray.CreateBuilder<Finding>();
        if (photo.IsFromBehind)
        {
            findings.Add(Finding.Note("photo-behind", $"{name} shows the sheet from behind; it was measured all the same, and everything is told as seen from the front"));
        }

        if (Light(seen) < NoSheet.DarkShare)
        {
            findings.Add(Finding.Stop("photo-dark", $"{name} is too dark to measure the sheet in it", "let the camera expose for the sheet, or use a stronger light behind it"));
            return new(photo with { Fit = null }, findings.ToImmutable());
        }

        findings.AddRange(new[] { Sheets(name, seen), Cropped(name, photo, seen), Blurred(name, photo) }.OfType<Finding>());
        if (photo.Fit is null)
        {
            // A photo that is no good says nothing of the sheet's back.
            if (!findings.Any(finding => finding.Severity == Severity.Stop))
            {
                findings.Add(NoBack(name, photo, seen));
            }
        }
        else
        {
            findings.AddRange(new[] { Scaled(name, photo.Fit), LeftOut(name, photo, seen), Thickness(name, photo) }.OfType<Finding>());
        }

        var isStopped = findings.Any(finding => finding.Severity == Severity.Stop);
        return new(isStopped ? photo with { Fit = null } : photo, findings.ToImmutable());
    }

    private static double Light(SeenSheet seen) => Robust.Median(seen.Marks
        .Select(mark => seen.Pose.Project(mark.Window.Middle.Polar(4.8, 45)))
        .Select(at => seen.Light.At(at.X, at.Y)).Where(double.IsFinite)) / LightPlane.White;

    private static Finding? Sheets(string name, SeenSheet seen)
    {
        if (seen.Sheet.Others.Count(mark => mark.Number <= seen.Sheet.Plan.Marks.Length) >= 4)
        {
            return Finding.Stop("photo-two-sheets", $"{name} shows two calibration sheets: some numbers are seen twice", "photograph one sheet at a time");
        }

        return seen is { FrontCode: { } front, BackCode: { } back } && front.Copy != back.Copy
            ? Finding.Stop(
                "photo-copies-mixed",
                string.Create(CultureInfo.InvariantCulture, $"{name} shows side 1 of copy {front.Copy} with side 2 of copy {back.Copy}"),
                "print each copy's two sides on one sheet; if that was meant, print the sheet again, as two copies are told apart by their numbers")
            : null;
    }

    private static Finding? Cropped(string name, SheetPhoto photo, SeenSheet seen)
    {
        var all = seen.Sheet.Plan.Marks;
        if (seen.Marks.Length == all.Length)
        {
            return null;
        }

        var missing = all.Select(mark => mark.Number).Except(seen.Marks.Select(mark => mark.Mark.Number)).ToList();
        var places = seen.Marks.Select(mark => mark.Mark.Place).ToList();
        var spansAll = Spans(place => place.XMm) && Spans(place => place.YMm);
        var found = string.Create(CultureInfo.InvariantCulture, $"{name} shows {photo.MarksFound} of the sheet's {all.Length} marks; missing: {Shown.List(missing.Select(number => number.ToString(CultureInfo.InvariantCulture)))}");
        const string Hint = "take the photo once more with the whole sheet in it and nothing in front of it";
        return spansAll && places.Count >= FewestWholeMarks ? Finding.Warn("photo-cropped", found, Hint) : Finding.Stop("photo-cropped", found, Hint);

        bool Spans(Func<Geometry.Point<Geometry.SheetSpace>, double> way) =>
            places.Min(way) < all.Min(mark => way(mark.Place)) + 1 && places.Max(way) > all.Max(mark => way(mark.Place)) - 1;
    }

    private static Finding? Blurred(string name, SheetPhoto photo)
    {
        // A tenth to nine tenths of a normal edge are 2.563 standard deviations.
        var widthMm = 2.563 * photo.BlurMm;
        var found = string.Create(CultureInfo.InvariantCulture, $"{name} is blurred: edges are {widthMm:0.0} mm wide on the sheet; {BlurredMm} mm are the most for a good measurement, {TooBlurredMm} mm for any");
        const string Hint = "hold the camera still, let it focus on the sheet, and come so near that the sheet fills the photo";
        return widthMm > TooBlurredMm ? Finding.Stop("photo-blurred", found, Hint) : widthMm > BlurredMm ? Finding.Warn("photo-blurred", found, Hint) : null;
    }

    private static Finding NoBack(string name, SheetPhoto photo, SeenSheet seen)
    {
        var turn = TurnMarkReader.Read(seen.Light, seen.Pose, photo.Plan);
        if (turn is > 0)
        {
            var (what, hint) = turn switch
            {
                1 => ("side 2 was printed over side 1, on the same face of the paper", "lay the sheet in with its other face up for side 2, the same edge first"),
                2 => ("side 2 is turned by half a turn: the other edge went into the printer first", "lay the sheet in with the same edge first for side 2 as for side 1"),
                _ => ("side 2 was printed over side 1, on the same face of the paper, and the other edge went in first", "lay the sheet in with its other face up for side 2, and the same edge first"),
            };
            return Finding.Stop("photo-turned", $"{name}: {what}; this is told by the place of its turn mark", $"{hint}. The which-way sheet shows how");
        }

        var contrast = Robust.Median(seen.Marks.Select(mark => mark.ContrastShare));
        if (turn == 0 || seen.Marks.Count(mark => mark.Disc is not null) >= MarksFit.FewestMarks)
        {
            return Finding.Stop(
                "photo-back-unread",
                $"{name} shows side 2, but its discs do not stand in the windows of their own numbers",
                "look whether side 2 was scaled or shifted by more than 3 mm: print both sides at actual size (100 %), never fitted to the page");
        }

        return contrast > WeakContrastShare
            ? Finding.Stop(
                "photo-not-backlit",
                string.Create(CultureInfo.InvariantCulture, $"{name} shows side 2 only faintly ({100 * contrast:0} % darker than paper): there is too little light behind the sheet, or too much before it"),
                "put out the light in the room, and hold the sheet to a light box, a white screen or a window by day")
            : Finding.Stop(
                "photo-front-only",
                $"{name} shows side 1, but no disc of side 2 in its windows",
                "if side 2 is printed, hold the sheet to a light, as it must shine through; if not, print it");
    }

    private static Finding? Scaled(string name, MisregisterFit fit)
    {
        var map = fit.Map;
        var (along, up) = (Math.Sqrt((map.Xx * map.Xx) + (map.Yx * map.Yx)), Math.Sqrt((map.Xy * map.Xy) + (map.Yy * map.Yy)));
        return Math.Abs(along - 1) > ScaledShare || Math.Abs(up - 1) > ScaledShare
            ? Finding.Stop(
                "photo-scaled",
                string.Create(CultureInfo.InvariantCulture, $"{name}: side 2 has {100 * (along + up) / 2:0.#} % of side 1's size; one of the two was scaled when it was printed"),
                "print both sides at actual size (100 %), never fitted to the page, and photograph that sheet")
            : null;
    }

    private static Finding? LeftOut(string name, SheetPhoto photo, SeenSheet seen)
    {
        var unread = seen.Marks.Where(mark => !photo.Marks.Any(read => read.Number == mark.Mark.Number)).Select(mark => mark.Mark.Number);
        var wild = photo.Marks.Where(mark => !mark.IsUsed);
        List<string> parts =
        [
            .. unread.Select(number => string.Create(CultureInfo.InvariantCulture, $"{number} (its disc can't be read)")),
            .. wild.Select(mark => string.Create(CultureInfo.InvariantCulture, $"{mark.Number} ({mark.ResidualMm:0.00} mm off the others)")),
        ];
        return parts.Count == 0 ? null : Finding.Warn(
            "photo-marks-left-out",
            $"{name}: marks left out: {Shown.List(parts)}",
            "look whether something lies on these marks or their toner is smeared; the others were used");
    }

    /// <summary>How far the paper's thickness, which one photo can't tell, may have moved side 2 in the worst corner.</summary>
    private static Finding? Thickness(string name, SheetPhoto photo)
    {
        var camera = photo.Camera!;
        var paper = photo.Plan.Paper;
        var farMm = new[] { (0.0, 0.0), (paper.WidthMm, 0.0), (0.0, paper.HeightMm), (paper.WidthMm, paper.HeightMm) }
            .Max(corner => Math.Sqrt(Math.Pow(camera.FootXMm - corner.Item1, 2) + Math.Pow(camera.FootYMm - corner.Item2, 2)));
        var movedMm = MarksFit.DepthSdMm * farMm / Math.Abs(camera.HeightMm);
        return movedMm > WorthSecondPhotoMm
            ? Finding.Note(
                "photo-thickness",
                string.Create(CultureInfo.InvariantCulture, $"{name} was taken from {Math.Abs(camera.HeightMm):0} mm, {photo.TiltDegrees:0} degrees aslant: one photo can't tell whether the paper's thickness moved side 2, by {movedMm:0.00} mm in a corner"),
                "take two photos of the sheet, both a little aslant from the same place, with the sheet turned by half a turn in between, and give both: then it cancels out")
            : null;
    }
}
