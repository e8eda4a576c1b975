using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Lettering;
using Lampblack.Parts;
using Lampblack.Quantities;

namespace Lampblack.Separations;

/// <summary>
/// What is printed where a hole will be: a white window with a crosshair and the sizes of drill and punch. It is cut away,
/// and the black reaches in over the hole's edge by as much as a drill may wander.
/// </summary>
internal sealed class HoleWindows
{
    // Hand drilling wanders 0.3 to 0.6 mm (common practice, no source); the black goes a little further in.
    private const double BlackInsideMm = 0.8;
    private const double LineMm = 0.12;
    private const double CrossMm = 2;
    private const double SmallestTextMm = 1.1;
    private const double LargestTextMm = 1.8;

    private readonly WorkOrder _order;
    private readonly bool _inInches;
    private readonly ImmutableArray<HoleWindow> _windows;

    private HoleWindows(WorkOrder order, bool inInches, ImmutableArray<HoleWindow> windows) => (_order, _inInches, _windows) = (order, inInches, windows);

    public static HoleWindows Of(LaidPanel laid) =>
        new(laid.Order, laid.PunchesInInches, [.. laid.Parts.SelectMany(part => part.Holes.Select((hole, index) => new HoleWindow(part, index == 0, Window(hole))))]);

    public Region<PanelSpace> Union() => Region<PanelSpace>.Union(_windows.Select(hole => hole.Window));

    /// <summary>
    /// The black crosshairs inside the windows, on both sides. The sizes stand on the side from which the holes are made: on the front where they are
    /// drilled through the print or seen through the plate, on the mask where they are opened from behind; there they are mirrored, so that they read.
    /// </summary>
    public Region<PanelSpace> Crosshairs(bool onMask)
    {
        var words = new SizeWords(_inInches);
        var withSizes = onMask == (_order == WorkOrder.DrillThenGlue);
        return Region<PanelSpace>.Union(_windows.Where(hole => !hole.Window.IsEmpty)
            .SelectMany(hole => Crosshair(hole, withSizes && hole.IsMain ? words : null, onMask)));
    }

    private static Region<PanelSpace> Window(Region<PanelSpace> hole) => hole.Grow(-Math.Min(BlackInsideMm, hole.SmallestWidthMm * 0.2));

    private static IEnumerable<Region<PanelSpace>> Crosshair(HoleWindow hole, SizeWords? words, bool mirrored)
    {
        var box = hole.Window.Bounds;
        var centre = hole.IsMain ? hole.Part.Centre : box.Centre;
        var reach = Math.Min(CrossMm, Math.Min(box.WidthMm, box.HeightMm) * 0.36);
        var cross = Cross(centre, reach);
        yield return hole.Window.Contains(cross) ? cross : cross.Intersect(hole.Window);
        if (words is not null && Sizes(words, hole.Part.Part, centre, reach, hole.Window, mirrored) is { } sizes)
        {
            yield return sizes;
        }
    }

    private static Region<PanelSpace> Cross(Point<PanelSpace> centre, double reachMm)
    {
        const double Half = LineMm / 2;
        return Region<PanelSpace>.FromCorners(
        [
            At(-reachMm, -Half), At(-Half, -Half), At(-Half, -reachMm), At(Half, -reachMm), At(Half, -Half), At(reachMm, -Half),
            At(reachMm, Half), At(Half, Half), At(Half, reachMm), At(-Half, reachMm), At(-Half, Half), At(-reachMm, Half),
        ]);

        Point<PanelSpace> At(double xMm, double yMm) => new(centre.XMm + xMm, centre.YMm + yMm);
    }

    /// <summary>Drill size over the crosshair, punch size under it, as large as the window allows; nothing where they would not be legible.</summary>
    private static Region<PanelSpace>? Sizes(
        SizeWords words, Part part, Point<PanelSpace> centre, double reachMm, Region<PanelSpace> window, bool mirrored)
    {
        var (drill, punch) = words.Of(part);
        for (var heightMm = LargestTextMm; heightMm >= SmallestTextMm; heightMm -= 0.1)
        {
            var up = Placed(drill, reachMm + (heightMm * 0.4));
            var down = Placed(punch, -reachMm - (heightMm * 1.4));
            if (window.Contains(up) && window.Contains(down))
            {
                return up.Union(down);
            }

            Region<PanelSpace> Placed(string text, double baselineMm)
            {
                var run = words.Set(text, heightMm);
                return run.Shape.Map(Affine<ItemSpace, ItemSpace>.Shift(-run.WidthMm / 2, baselineMm)
                    .Then(Affine<ItemSpace, ItemSpace>.Scale(mirrored ? -1 : 1, 1))
                    .Then(Affine<ItemSpace, PanelSpace>.Shift(centre.XMm, centre.YMm)));
            }
        }

        return null;
    }

    /// <summary>The white of one hole.</summary>
    /// <param name="Part">Whose hole it is.</param>
    /// <param name="IsMain">Whether it is the part's own hole, not a key's or a fixing's.</param>
    /// <param name="Window">What stays white of it.</param>
    private sealed record HoleWindow(PlacedPart Part, bool IsMain, Region<PanelSpace> Window);

    /// <summary>The words for drill and punch; a panel has many parts of few kinds, so each kind is asked and each word set only once.</summary>
    private sealed class SizeWords(bool inInches)
    {
        private readonly Typeface _face = BundledFonts.Find("barlow-condensed-medium") ?? BundledFonts.Find(BundledFonts.Names[0])!;
        private readonly Dictionary<Part, (string Drill, string Punch)> _words = new(ReferenceEqualityComparer.Instance);
        private readonly Dictionary<(string Text, double HeightMm), TextRun> _runs = [];

        public (string Drill, string Punch) Of(Part part) =>
            _words.TryGetValue(part, out var known) ? known : _words[part] = (DrillText(part), PunchText(part));

        public TextRun Set(string text, double heightMm) =>
            _runs.TryGetValue((text, heightMm), out var known) ? known : _runs[(text, heightMm)] = TextOutline.Line(_face, text, heightMm);

        private static string DrillText(Part part) => part.Cutout is RoundCutout ? "drill " + part.Cutout.SizeText : part.Cutout.SizeText;

        /// <summary>As punches are sold, by the same rule as in the hole chart and the build book.</summary>
        private string PunchText(Part part) => HandPunch.ForMm(part.PaperPunchMm, Across(part), inInches) is { } punchMm
            ? $"punch {(inInches ? LengthWords.ForRuler(punchMm, LengthUnit.Inch) : punchMm.ToString("0.#", CultureInfo.InvariantCulture))}"
            : "knife";

        private static double? Across(Part part) => part.Cutout switch
        {
            RoundCutout round => round.Diameter.Mm,
            FlattedCutout flatted => flatted.Diameter.Mm,
            _ => null,
        };
    }
}
