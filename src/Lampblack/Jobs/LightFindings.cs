using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Optics;
using Lampblack.Separations;

namespace Lampblack.Jobs;

/// <summary>What is said of light through the sheet.</summary>
internal static class LightFindings
{
    public static IEnumerable<Finding> Of(LightAccount account, ImmutableArray<PanelSeparation> separations, PrintSetup setup)
    {
        var findings = new List<Finding>();
        foreach (var (light, one) in account.Panels.Zip(separations))
        {
            findings.AddRange(Covers(light, one, Word(account.Sheet.BlackKnown)));
        }

        // A panel whose legends are all hidden, or a picture of many colours, has none that could be the dimmest.
        var lit = account.Panels.Zip(separations).Where(pair => !pair.First.Legends.IsEmpty).ToList();
        if (lit.Count == 0)
        {
            return findings;
        }

        var (worst, separation) = lit.MinBy(pair => pair.First.LitContrastFactor);
        var panel = separation.Artwork.Laid.Panel;
        var known = Word(account.Sheet.BlackKnown);
        var contrast = Ratio(worst.LitContrastFactor);
        findings.Add(Finding.Note(
            "light-through",
            $"lit, the field of panel `{panel.Id}` shows {Shown.Percent(worst.FieldShare)} of what bare paper shows, the dimmest legend {Shown.Percent(worst.DimmestShare)}: {contrast} to 1; the ring around legends shows {Shown.Percent(worst.HaloShare)} and is {Mm(worst.HaloWidthMm)} wide (densities {known})",
            $"{Advice(account, setup)}; see report.json and the pictures"));
        if (worst.LitContrastFactor < account.WantedFactor)
        {
            findings.Add(Finding.Warn(
                "contrast-low",
                $"lit, the dimmest legend of panel `{panel.Id}` is only {contrast} times as bright as the field, and {Ratio(account.WantedFactor)} was wanted (densities {known})",
                account.Enough is { } enough ? $"{Words(enough.Layering)} {(enough.Layering == Layering.SecondSheet ? "give" : "gives")} it: {Cost(enough.Layering, setup)}" : "no stack of ours gives it: take a paler ink for that legend, or a denser black",
                panel.Span,
                panel.Id));
        }

        return findings;
    }

    private static IEnumerable<Finding> Covers(PanelLight light, PanelSeparation separation, string known)
    {
        var panel = separation.Artwork.Laid.Panel;
        var good = light.Covers.Where(cover => cover is { Hides: true, Shows: true }).ToList();
        foreach (var cover in light.Covers.Where(cover => cover.IsUsed && !(cover.Hides && cover.Shows)))
        {
            var faults = new[]
            {
                cover.Hides ? null : string.Create(CultureInfo.InvariantCulture, $"by day it is {cover.AwayLightness:0} steps of lightness away from the field"),
                cover.Shows ? null : $"its legend shows only {Ratio(cover.ShownContrastFactor)} times as bright as the field in a lit room",
            }.OfType<string>();
            yield return Finding.Warn(
                "cover-fails",
                string.Create(CultureInfo.InvariantCulture, $"`cover = {cover.CoverShare:0.##}` on panel `{panel.Id}` lets {Shown.Percent(cover.PassedShare)} through, and {string.Join(", and ", faults)} (densities {known})"),
                good.Count > 0
                    ? string.Create(CultureInfo.InvariantCulture, $"`cover = {good.MinBy(other => Math.Abs(other.CoverShare - cover.CoverShare))!.CoverShare:0.##}` does both")
                    : "no cover does both here: let the legend be seen by day, or print a coupon and judge the covers by eye",
                panel.Span,
                panel.Id);
        }
    }

    private static string Advice(LightAccount account, PrintSetup setup) => account.Enough is not { } enough
        ? string.Create(CultureInfo.InvariantCulture, $"no stack gives the {Ratio(account.WantedFactor)} to 1 wanted")
        : enough.Layering switch
        {
            Layering.OneSide => string.Create(CultureInfo.InvariantCulture, $"one pass would give the {Ratio(account.WantedFactor)} to 1 wanted, and two sides cover each other's pinholes"),
            Layering.TwoSides => string.Create(CultureInfo.InvariantCulture, $"two sides are right for the {Ratio(account.WantedFactor)} to 1 wanted"),
            _ => string.Create(CultureInfo.InvariantCulture, $"for the {Ratio(account.WantedFactor)} to 1 wanted print {Words(enough.Layering)}: {Cost(enough.Layering, setup)}"),
        };

    private static string Words(Layering layering) => layering switch
    {
        Layering.OneSide => "one pass",
        Layering.TwoSides => "front and mask",
        Layering.SecondPass => "a second pass of the mask",
        Layering.Film => "the mask on a film as well",
        _ => "a second sheet with the mask again behind the first",
    };

    private static string Cost(Layering layering, PrintSetup setup) => layering switch
    {
        Layering.SecondPass => string.Create(CultureInfo.InvariantCulture, $"`--second-pass mask`, {2 * setup.Black.Ink.TotalCoverage * 100:0} % toner on that side{(setup.IsHeavy(2 * setup.Black.Ink.TotalCoverage) ? ", which many fusers don't melt: `--film` is safer" : string.Empty)}"),
        Layering.Film => "`--film`, on film that the printer's maker allows",
        Layering.SecondSheet => "the legends keep about a third of their light",
        _ => "as it is printed anyway",
    };

    internal static string Word(Knowledge known) => known switch
    {
        Knowledge.Measured => "measured",
        Knowledge.Inferred => "inferred",
        _ => "assumed",
    };

    /// <summary>Two figures are more than is known of any density.</summary>
    internal static string Ratio(double factor)
    {
        if (factor < 10)
        {
            return factor.ToString("0.#", CultureInfo.InvariantCulture);
        }

        var unit = Math.Pow(10, Math.Floor(Math.Log10(factor)) - 1);
        return (Math.Round(factor / unit, MidpointRounding.AwayFromZero) * unit).ToString("#,0", CultureInfo.InvariantCulture);
    }

    private static string Mm(double mm) => string.Create(CultureInfo.InvariantCulture, $"{mm:0.##} mm");
}
