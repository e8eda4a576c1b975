using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Photos;

namespace Lampblack.Jobs;

/// <summary>A drilled plate as all of its photos together tell it.</summary>
/// <param name="Holes">Its controls' holes.</param>
/// <param name="Typed">The same as a maker would type them, as far as they can be marked.</param>
internal sealed record DrilledPlate(ImmutableArray<DrilledHole> Holes, ImmutableArray<string> Typed)
{
    // What is wanted of a hole's place, 19 times out of 20.
    private const double WantedMm = 0.1;

    // Larger or smaller than meant by this, a nut or a bush may not go through or not cover it: ours.
    private const double SizeMm = 0.4;

    private const double FarSds = 4;

    public static DrilledPlate Of(List<TemplatePhoto> photos, Panel panel, List<Finding> findings)
    {
        var controls = panel.Items.OfType<Control>().SelectMany(control => Enumerable.Range(0, control.Copies.Count).Select(copy => (Control: control, Item: HoleTemplates.Item(panel, control, copy)))).ToList();
        var meant = photos[0].Plan.Panel.Holes;
        var seen = meant.Select(hole => Together(hole, photos, findings)).OfType<SeenHole>().ToList();
        var holes = ImmutableArray.CreateBuilder<DrilledHole>();
        var typed = ImmutableArray.CreateBuilder<string>();
        foreach (var (control, item) in controls)
        {
            var own = seen.Where(hole => hole.Hole.Item == item).ToList();
            if (own.Count == 0)
            {
                continue;
            }

            var main = own.MaxBy(hole => hole.Hole.RadiusMm)!;
            var (dx, dy) = (Rounded(own.Average(hole => hole.RightMm)), Rounded(own.Average(hole => hole.UpMm)));
            holes.Add(new(item, dx, dy, own.Max(hole => hole.SdMm), 2 * main.Hole.RadiusMm, main.DiameterMm, main.DiameterSdMm));
            if (control.Copies.Count == 1)
            {
                typed.Add(string.Create(CultureInfo.InvariantCulture, $"{item}={dx:0.##},{dy:0.##}"));
            }
        }

        findings.AddRange(Missing(panel, controls, meant, seen));
        findings.AddRange(panel.Items.OfType<Control>().Where(control => control.Copies.Count > 1 && holes.Any(hole => hole.Item.StartsWith($"{panel.Id}/{control.Id}.", StringComparison.Ordinal)))
            .Select(control => DrilledCopies.Finding($"{panel.Id}/{control.Id}", control, null) with { Severity = Severity.Warn }));
        findings.AddRange(holes.Where(hole => Math.Abs(hole.DiameterMm - hole.MeantDiameterMm) > SizeMm).Select(hole => Finding.Warn(
            "drilled-size",
            string.Create(CultureInfo.InvariantCulture, $"the hole of `{hole.Item}` is {hole.DiameterMm:0.0} mm wide and was meant to be {hole.MeantDiameterMm:0.0} mm"),
            "was the right drill taken, or the felt pen led right to the edge? Its place was written all the same",
            null,
            hole.Item)));
        findings.AddRange(new[] { Parallax(photos, holes), Laid(seen) }.OfType<Finding>());
        return new(holes.ToImmutable(), typed.ToImmutable());
    }

    private static double Rounded(double mm) => Math.Round(mm, 2, MidpointRounding.AwayFromZero) + 0.0;

    /// <summary>One hole by all photos that show it, each weighing by how well it does.</summary>
    private static SeenHole? Together(PanelHole hole, List<TemplatePhoto> photos, List<Finding> findings)
    {
        var read = photos.SelectMany(photo => photo.Holes.Where(one => one.Hole == hole).Select(one => (One: one, photo.HeightSdShare, Weight: 1 / (one.SdMm * one.SdMm)))).ToList();
        if (read.Count == 0)
        {
            return null;
        }

        var sum = read.Sum(one => one.Weight);
        var (dx, dy) = (Mean(one => one.RightMm), Mean(one => one.UpMm));
        // What an error of the plate's height does is alike in all photos, and cancels as far as they look at it from opposite sides.
        var height = read.Max(one => one.HeightSdShare);
        var (perX, perY) = (Mean(one => one.PerHeight.DxMm), Mean(one => one.PerHeight.DyMm));
        var sd = Math.Sqrt((1 / sum) + (((perX * perX) + (perY * perY)) * height * height));
        foreach (var (one, own, _) in read)
        {
            var far = Math.Sqrt(Math.Pow(one.RightMm - dx, 2) + Math.Pow(one.UpMm - dy, 2));
            if (far > Math.Max(0.1, FarSds * Math.Sqrt((one.SdMm * one.SdMm) + (((one.PerHeight.DxMm * one.PerHeight.DxMm) + (one.PerHeight.DyMm * one.PerHeight.DyMm)) * own * own))))
            {
                findings.Add(Finding.Warn(
                    "drilled-photos-apart",
                    string.Create(CultureInfo.InvariantCulture, $"the photos differ on where the hole of `{hole.Item}` is, by {2 * far:0.00} mm"),
                    "did the plate move between them? Lay it anew, and give only photos of one lay",
                    null,
                    hole.Item));
                break;
            }
        }

        return new(hole, dx, dy, sd, Mean(one => one.DiameterMm), Mean(one => one.DiameterSdMm));

        double Mean(Func<HoleReading, double> of) => read.Sum(one => of(one.One) * one.Weight) / sum;
    }

    private static IEnumerable<Finding> Missing(Panel panel, List<(Control Control, string Item)> controls, ImmutableArray<PanelHole> meant, List<SeenHole> seen)
    {
        var missing = meant.Where(hole => seen.TrueForAll(one => one.Hole != hole)).Select(hole => hole.Item).Distinct().Select(Shown.Code).ToList();
        if (missing.Count > 0)
        {
            yield return Finding.Warn(
                "drilled-hole-missing",
                $"no hole was found for {Shown.List(missing)}, within {Shown.Mm(TemplateReading.FarthestMm)} of where it was meant to be",
                "not drilled yet, not filled to its edge, hidden, or much farther off; the others were read",
                panel.Span,
                panel.Id);
        }

        var cut = controls.Where(one => meant.All(hole => hole.Item != one.Item)).Select(one => Shown.Code(one.Item)).ToList();
        if (cut.Count > 0)
        {
            yield return Finding.Note(
                "drilled-not-round",
                $"{Shown.List(cut)} {(cut.Count == 1 ? "has" : "have")} no round hole, and a photo tells of round ones only",
                "measure with a caliper, and write `lampblack drilled DESK ID=dx,dy`",
                panel.Span,
                panel.Id);
        }
    }

    private static Finding? Parallax(List<TemplatePhoto> photos, ImmutableArray<DrilledHole>.Builder holes)
    {
        var worst = holes.Count == 0 ? 0 : 2 * holes.Max(hole => hole.SdMm);
        return photos.TrueForAll(photo => photo.IsImprint) || worst <= WantedMm ? null : Finding.Warn(
            "drilled-parallax",
            string.Create(CultureInfo.InvariantCulture, $"the plate's thickness, seen aslant, leaves holes known to {worst:0.00} mm only, {photos.Max(photo => photo.TiltDegrees):0} degrees aslant; {WantedMm} mm are wanted"),
            "give a second photo, with the page and the plate on it turned by half a turn before the camera; take both from far, straight above the middle. Or use the page for the felt pen, which has no thickness");
    }

    /// <summary>What all holes have in common: a plate that did not lie on the outline would show so.</summary>
    private static Finding? Laid(List<SeenHole> seen)
    {
        if (seen.Count < 3)
        {
            return null;
        }

        var (dx, dy) = (seen.Average(hole => hole.RightMm), seen.Average(hole => hole.UpMm));
        var rest = Math.Sqrt(seen.Average(hole => Math.Pow(hole.RightMm - dx, 2) + Math.Pow(hole.UpMm - dy, 2)) / seen.Count);
        var all = Math.Sqrt((dx * dx) + (dy * dy));
        return all < 0.25 || all < 3 * rest ? null : Finding.Note(
            "drilled-laid",
            string.Create(CultureInfo.InvariantCulture, $"all holes together lie {Math.Abs(dx):0.00} mm {(dx < 0 ? "left" : "right")} and {Math.Abs(dy):0.00} mm {(dy < 0 ? "down" : "up")}: either they were drilled so, or the plate did not lie on the outline"),
            "if its edges did not lie on the outline, lay it again and take another photo; a print glued on by its edges would be off by as much");
    }

    private sealed record SeenHole(PanelHole Hole, double RightMm, double UpMm, double SdMm, double DiameterMm, double DiameterSdMm);
}
