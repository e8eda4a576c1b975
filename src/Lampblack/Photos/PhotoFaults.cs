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
            findings.Add(Behind(name));
        }

        if (Dark(name, seen.Light, seen.Pose, seen.Marks) is { } dark)
        {
            findings.Add(dark);
            return new(photo with { Fit = null }, findings.ToImmutable());
        }

        findings.AddRange(new[] { Sheets(name, seen), Cropped(name, photo, seen), Blurred(name, photo.BlurMm, BlurredMm, TooBlurredMm, "sheet") }.OfType<Finding>());
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
            findings.AddRange(new[] { Scaled(name, photo.Fit), LeftOut(name, photo.Marks, seen.Marks), Thickness(name, photo) }.OfType<Finding>());
        }

        var isStopped = findings.Any(finding => finding.Severity == Severity.Stop);
        return new(isStopped ? photo with { Fit = null } : photo, findings.ToImmutable());
    }

    /// <summary>What is said of a photo from behind.</summary>
    /// <param name="name">The photo, as it is shown.</param>
    public static Finding Behind(string name) =>
        Finding.Note("photo-behind", $"{name} shows the sheet from behind; it was measured all the same, and everything is told as seen from the front");

    /// <summary>A word about too little light in the windows.</summary>
    public static Finding? Dark(string name, LightPlane light, SheetPose pose, ImmutableArray<MeasuredMark> marks) => Robust.Median(marks
        .Select(mark => pose.Project(mark.Window.Middle.Polar(4.8, 45)))
        .Select(at => light.At(at.X, at.Y)).Where(double.IsFinite)) / LightPlane.White < NoSheet.DarkShare
            ? Finding.Stop("photo-dark", $"{name} is too dark to measure the sheet in it", "let the camera expose for the sheet, or use a stronger light behind it")
            : null;

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

    /// <summary>A word about blur, where there is too much.</summary>
    /// <param name="name">The photo, as it is shown.</param>
    /// <param name="blurMm">How blurred edges are, as a normal spread.</param>
    /// <param name="goodMm">How wide they may be for a good measurement.</param>
    /// <param name="mostMm">How wide they may be for any.</param>
    /// <param name="what">What is photographed.</param>
    public static Finding? Blurred(string name, double blurMm, double goodMm, double mostMm, string what)
    {
        // A tenth to nine tenths of a normal edge are 2.563 standard deviations.
        var widthMm = 2.563 * blurMm;
        var found = string.Create(CultureInfo.InvariantCulture, $"{name} is blurred: edges are {widthMm:0.0} mm wide on the {what}; {goodMm} mm are the most for a good measurement, {mostMm} mm for any");
        var hint = $"hold the camera still, let it focus on the {what}, and come so near that the {what} fills the photo";
        return widthMm > mostMm ? Finding.Stop("photo-blurred", found, hint) : widthMm > goodMm ? Finding.Warn("photo-blurred", found, hint) : null;
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

        if (turn == 0 || seen.Marks.Count(mark => mark.Disc is not null) >= MarksFit.FewestMarks)
        {
            return Finding.Stop(
                "photo-back-unread",
                $"{name} shows side 2, but its discs do not stand in the windows of their own numbers",
                "look whether side 2 was scaled or shifted by more than 3 mm: print both sides at actual size (100 %), never fitted to the page");
        }

        return Unlit(name, seen.Marks);
    }

    /// <summary>Why no disc of side 2 is seen in any window.</summary>
    public static Finding Unlit(string name, ImmutableArray<MeasuredMark> marks)
    {
        var contrast = Robust.Median(marks.Select(mark => mark.ContrastShare));
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

    /// <summary>A word about a side that was scaled.</summary>
    public static Finding? Scaled(string name, MisregisterFit fit)
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

    /// <summary>A word about marks that do not tell, or tell something else than the others.</summary>
    public static Finding? LeftOut(string name, ImmutableArray<MarkReading> readings, ImmutableArray<MeasuredMark> seen)
    {
        var unread = seen.Where(mark => !readings.Any(read => read.Number == mark.Mark.Number)).Select(mark => mark.Mark.Number);
        var wild = readings.Where(mark => !mark.IsUsed);
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
