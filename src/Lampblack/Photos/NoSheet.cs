using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Sheets;

namespace Lampblack.Photos;

/// <summary>Why no sheet was found in a photo.</summary>
internal static class NoSheet
{
    /// <summary>Below this share of white, nothing can be told from the camera's noise.</summary>
    public const double DarkShare = 0.015;

    public static Finding Why(string fileName, LightPlane light, RoundFinder finder, List<SeenMark> windows, CancellationToken cancellation)
    {
        var name = Shown.Quoted(fileName);
        if (BrightShare(light) < DarkShare)
        {
            return Finding.Stop("photo-dark", $"{name} is too dark to find anything in it", "hold the sheet to a lamp or a window, and let the camera expose for the sheet");
        }

        if (windows.Count >= 3)
        {
            var numbers = windows.Select(mark => mark.Number).Distinct().Count();
            return Finding.Stop(
                "photo-cropped",
                string.Create(CultureInfo.InvariantCulture, $"{name} shows only {numbers} of the sheet's 24 marks"),
                "take the photo once more with the whole sheet in it, nothing in front of it and a hand's breadth of air around it");
        }

        var discs = PhotoReading.Marks(light, finder.Find(bright: false), PhotoReading.Discs, cancellation);
        var (fronts, backs) = (Numbers(windows), Numbers(discs));

        // Dark spots of any kind look like one of these discs once in some fourteen times: a third of all rings of cells are numbers, a fifth of these the marks'.
        if (fronts.Count + backs.Count >= 3)
        {
            return fronts.Count > 0 && backs.IsSubsetOf(fronts)
                ? BuiltSheetFaults.TooFew(name, fronts.Count)
                : BuiltSheetFaults.Apart($"{name} shows marks of a build's sheet, but no three windows of side 1 with the discs of side 2 in them");
        }

        if (discs.Count >= 3)
        {
            return Finding.Stop(
                "photo-back-only",
                $"{name} shows side 2 of a calibration sheet, but nothing of side 1: there are dark discs and no windows around them",
                "print both sides on one sheet, and photograph it against a light");
        }

        return finder.Find(bright: true).Count(spot => OutlineFit.Refine(light, spot, bright: true) is not null) >= 6
            ? Finding.Stop(
                "photo-blurred",
                $"{name} shows round windows, but the cells around them can't be read",
                "hold the camera still, let it focus on the sheet, and come so near that the sheet fills the photo")
            : Finding.Stop(
                "photo-no-sheet",
                $"{name} shows no calibration sheet: none of its numbered windows was found",
                "photograph the calibration sheet, whole, against a light box or a window; if it is the sheet, it is too far away, out of focus or without light behind it");
    }

    /// <summary>Which marks of a build's sheet are among those seen.</summary>
    private static HashSet<int> Numbers(IEnumerable<SeenMark> seen) => [.. seen.Select(mark => mark.Number).Where(WasteMarks.IsNumber)];

    /// <summary>The light that a hundredth of the dots pass, as a share of white.</summary>
    public static double BrightShare(LightPlane light)
    {
        var counts = new int[256];
        var total = 0;
        for (var row = 0; row < light.Height; row += 7)
        {
            var dots = light.Row(row);
            for (var column = row % 5; column < dots.Length; column += 5)
            {
                counts[dots[column] >> 8]++;
                total++;
            }
        }

        var above = 0;
        for (var level = 255; level >= 0; level--)
        {
            above += counts[level];
            if (above > total / 100)
            {
                return (level + 0.5) / 256;
            }
        }

        return 0;
    }
}
