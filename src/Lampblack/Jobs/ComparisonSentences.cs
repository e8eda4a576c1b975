using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;

namespace Lampblack.Jobs;

/// <summary>Tells in words what has changed on one panel.</summary>
internal static class ComparisonSentences
{
    private const int MostNamed = 4;

    /// <summary>The sentence's end; null where nothing on the panel changed.</summary>
    public static string? Of(ComparisonReport before, ReportedPanel was, ComparisonReport now, ReportedPanel panel)
    {
        var sides = (was.Sides, panel.Sides) is ({ } first, { } second) ? (Before: first, Now: second) : ((ReportedSides Before, ReportedSides Now)?)null;
        var front = sides is { } pair && pair.Before.FrontHash != pair.Now.FrontHash;
        var mask = sides is { } both && both.Before.MaskHash != both.Now.MaskHash;
        var plate = was.PlateMm != panel.PlateMm;
        var holes = was.HolesHash != panel.HolesHash;
        if (!front && !mask && !plate && !holes)
        {
            return null;
        }

        var parts = new List<string>();
        if (sides is { } compared)
        {
            parts.Add(Sides(front, mask, Cause(before, compared.Before, now, compared.Now)));
        }

        if (plate)
        {
            parts.Add($"the plate changed from {Size(was)} to {Size(panel)}: cut a new one");
        }

        if (holes)
        {
            parts.Add(Holes(was, panel, plate));
        }
        else if (panel.HoleCount > 0)
        {
            parts.Add(plate ? "holes unchanged" : "holes unchanged, the drilled plate still fits");
        }

        return string.Join("; ", parts);
    }

    private static string Sides(bool front, bool mask, string? cause)
    {
        var sides = (front, mask) switch
        {
            (true, true) => "mask and front changed",
            (true, false) => "front changed, mask unchanged",
            (false, true) => "mask changed, front unchanged",
            _ => "mask and front unchanged",
        };
        return cause is null || !(front || mask) ? sides : $"only {cause}: {sides}";
    }

    /// <summary>What alone has changed where the desk asks for the same; null where the desk itself changed.</summary>
    private static string? Cause(ComparisonReport before, ReportedSides was, ComparisonReport now, ReportedSides panel)
    {
        if (was.ArtworkHash != panel.ArtworkHash)
        {
            return null;
        }

        var black = before.Black == now.Black ? null : $"the black changed, from {before.Black} to {now.Black}";
        var spread = was.SpreadMm.Equals(panel.SpreadMm) ? null : $"the spread changed, from {Number(was.SpreadMm)} to {Number(panel.SpreadMm)} mm";
        return (black, spread) switch
        {
            (null, null) => "the printer's properties or the program changed, not the desk",
            (not null, not null) => $"{black}, and {spread}",
            _ => black ?? spread,
        };
    }

    private static string Holes(ReportedPanel was, ReportedPanel panel, bool plate)
    {
        var pairs = ComparisonControls.Pairs(was.Controls, panel.Controls);
        var moved = pairs.Where(pair => pair.Before.At != pair.Now.At && pair.Before.Centre != pair.Now.Centre).ToList();
        var reshaped = pairs.Where(pair => pair.Before.HoleHash != pair.Now.HoleHash).ToList();
        var shifted = pairs.Except(moved).Where(pair => pair.Before.Centre != pair.Now.Centre).ToList();
        var measured = shifted.Where(pair => pair.Now.Drilled is not null).ToList();
        var cleared = shifted.Except(measured).ToList();
        var fresh = panel.Controls.Where(control => !pairs.Any(pair => ReferenceEquals(pair.Now, control))).ToList();
        var gone = was.Controls.Where(control => !pairs.Any(pair => ReferenceEquals(pair.Before, control))).ToList();
        var fixings = was.FixingsHash != panel.FixingsHash;
        if (moved.Count + reshaped.Count + cleared.Count + fresh.Count + gone.Count == 0 && !fixings && measured.Count > 0)
        {
            return $"holes put where they were drilled ({Named(measured.Select(pair => pair.Now.Id))}){(plate ? string.Empty : ", the drilled plate fits")}";
        }

        if (moved.Count + reshaped.Count + shifted.Count + gone.Count == 0 && !fixings && fresh.Count > 0)
        {
            return $"new holes ({Named(fresh.Select(control => control.Id))}){(plate ? string.Empty : ", the others unchanged: drill the new ones into the plate")}";
        }

        var words = new List<string>();
        words.AddRange(moved.Select(pair => $"{pair.Now.Id} moved {Number(pair.Before.Centre.DistanceMm(pair.Now.Centre))} mm"));
        words.AddRange(reshaped.Select(pair => $"{pair.Now.Id} has another hole"));
        words.AddRange(measured.Select(pair => $"{pair.Now.Id} as it was drilled"));
        words.AddRange(cleared.Select(pair => $"{pair.Now.Id} no longer where it was drilled"));
        words.AddRange(fresh.Select(control => $"{control.Id} is new"));
        words.AddRange(gone.Select(control => $"{control.Id} is gone"));
        if (fixings)
        {
            words.Add("fixings changed");
        }

        return $"holes changed ({Named(words)}){(plate ? string.Empty : ": a plate drilled before does not fit")}";
    }

    private static string Named(IEnumerable<string> words)
    {
        ImmutableArray<string> all = [.. words];
        var more = all.Length - MostNamed;
        return string.Join(", ", all.Take(MostNamed)) + (more > 0 ? string.Create(CultureInfo.InvariantCulture, $" and {more} more") : string.Empty);
    }

    private static string Size(ReportedPanel panel) => string.Create(
        CultureInfo.InvariantCulture,
        $"{panel.PlateMm.WidthMm:0.##} x {panel.PlateMm.HeightMm:0.##} mm{(panel.PlateMm.CornerMm > 0 ? $" (corners {Number(panel.PlateMm.CornerMm)})" : string.Empty)}");

    private static string Number(double mm) => mm.ToString("0.##", CultureInfo.InvariantCulture);
}
