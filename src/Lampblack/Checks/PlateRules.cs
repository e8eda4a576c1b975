using System;
using System.Linq;
using Lampblack.Findings;

namespace Lampblack.Checks;

/// <summary>A plate that doesn't give under a finger, and has room to grow in the sun.</summary>
internal static class PlateRules
{
    /// <summary>More than this is felt and heard; ours, no source.</summary>
    private const double MostBendMm = 1;

    /// <summary>Crazing starts from stresses of 5 to 10 MPa that last (from memory); a finger's does not.</summary>
    private const double MostStressMpa = 10;

    /// <summary>Threads and their medium clearance holes, in mm (ISO 273).</summary>
    private static readonly (double ThreadMm, double HoleMm)[] Clearances = [(1.6, 1.8), (2, 2.4), (2.5, 2.9), (3, 3.4), (3.5, 3.9), (4, 4.5), (5, 5.5), (6, 6.6), (8, 9), (10, 11)];

    public static void Check(Inspection panel)
    {
        if (!panel.Controls.IsEmpty)
        {
            Bending(panel);
        }

        FixingPlay(panel);
    }

    /// <summary>What has nothing on it, where all that was written could be read.</summary>
    public static void Empty(Inspection panel)
    {
        var laid = panel.Laid.Panel;
        if (laid.Items.IsEmpty && laid.Fixings is null)
        {
            panel.Findings.AddForPanel(Finding.Note("panel-empty", $"there is nothing on panel {Shown.Code(laid.Id)}: it is printed as plain field", "write `[[panel.legend]]`, `[[panel.control]]` and so on below its `[[panel]]`", laid.Span, laid.Id), laid);
        }
    }

    private static void Bending(Inspection panel)
    {
        var (plate, force) = (panel.Desk.Stack.PlateMm, panel.Desk.Bench.FingerNewtons);
        var (width, height) = Span(panel);
        var (longMm, shortMm) = (Math.Max(width, height), Math.Min(width, height));
        var (bend, stress) = (Acrylic.DeflectionMm(longMm, shortMm, plate, force), Acrylic.StressMegapascals(longMm, shortMm, plate, force));
        if (bend > MostBendMm || stress > MostStressMpa)
        {
            // The bend falls with the cube of the thickness, the stress about with its square.
            var enough = Math.Ceiling(plate * Math.Max(Math.Cbrt(bend / MostBendMm), Math.Sqrt(stress / MostStressMpa)) * 2) / 2;
            var laid = panel.Laid.Panel;
            panel.Findings.AddForPanel(
                Finding.Warn(
                    "panel-bends",
                    $"a finger of {Shown.Number(force)} N bends the plate of {Shown.Mm(plate)} by {Shown.Mm(bend, 1)} in the middle and stresses it by {Shown.Number(stress, 1)} MPa; {Shown.Mm(MostBendMm)} (ours) and {Shown.Number(MostStressMpa)} MPa (from memory) are allowed ({CheckSources.Roark}; holes not counted)",
                    $"support it in the middle, or take a plate of {Shown.Mm(enough)}, which weighs {Shown.Number(Math.Round(Acrylic.MassGrams(laid.WidthMm, laid.HeightMm, enough), MidpointRounding.AwayFromZero))} g",
                    laid.Span,
                    laid.Id),
                laid);
        }
    }

    /// <summary>What lies free: between the outermost fixings where there are any on both sides, else the whole plate on its edges.</summary>
    private static (double WidthMm, double HeightMm) Span(Inspection panel)
    {
        var laid = panel.Laid.Panel;
        if (laid.Fixings is not { } fixings)
        {
            return (laid.WidthMm, laid.HeightMm);
        }

        var width = fixings.PlacesMm.Max(place => place.XMm) - fixings.PlacesMm.Min(place => place.XMm);
        var height = fixings.PlacesMm.Max(place => place.YMm) - fixings.PlacesMm.Min(place => place.YMm);
        return (width > laid.WidthMm / 2 ? width : laid.WidthMm, height > laid.HeightMm / 2 ? height : laid.HeightMm);
    }

    /// <summary>Each of the two farthest fixings takes half of the growth in the play on either side of its screw.</summary>
    private static void FixingPlay(Inspection panel)
    {
        if (panel.Laid.Panel.Fixings is not { } fixings || fixings.PlacesMm.Length < 2)
        {
            return;
        }

        var hole = Math.Min(fixings.Part.Cutout.Shape().Bounds.WidthMm, fixings.Part.Cutout.Shape().Bounds.HeightMm);
        var thread = Clearances.Where(row => row.HoleMm <= hole + 0.01).Select(row => row.ThreadMm).DefaultIfEmpty(hole).Max();
        var farthest = fixings.PlacesMm.Max(one => fixings.PlacesMm.Max(other => Math.Sqrt(Math.Pow(one.XMm - other.XMm, 2) + Math.Pow(one.YMm - other.YMm, 2))));
        var growth = Acrylic.GrowthMm(farthest, panel.Desk.Bench.TemperatureSwingKelvin);
        if (growth > hole - thread + 0.005)
        {
            panel.Findings.AddForPanel(
                Finding.Warn(
                    "fixing-play",
                    $"the plate grows by {Shown.Mm(growth, 2)} between its farthest fixings ({Shown.Mm(farthest, 1)}, {Shown.Number(panel.Desk.Bench.TemperatureSwingKelvin)} K, 7.2e-5 per K by a maker's guide); a hole of {Shown.Mm(hole, 2)} leaves an M{Shown.Number(thread)} screw {Shown.Mm(hole - thread, 2)} of play",
                    $"drill the fixings {Shown.Mm(Math.Ceiling((thread + growth) * 10) / 10)} wide with a washer that covers them, or write a smaller `temperature-swing` in `[bench]` where the panel stays indoors",
                    fixings.Span,
                    panel.Laid.Panel.Id),
                panel.Laid.Panel);
        }
    }
}
