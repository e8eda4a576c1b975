using System.Collections.Generic;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Geometry;

namespace Lampblack.Layout;

/// <summary>Checks that words and parts do not stand on each other: what is seen only after printing if nobody says it before.</summary>
internal static class CollisionChecks
{
    public static void Check(LaidPanel laid, List<Finding> findings)
    {
        var fronts = laid.Parts.Select(part => (Part: part, Shape: Front(part))).Where(front => !front.Shape.IsEmpty).Select(front => (front.Part, front.Shape, Box: front.Shape.Bounds)).ToList();
        Words(laid, findings);
        foreach (var text in laid.Texts)
        {
            var over = fronts.FirstOrDefault(front => front.Box.Overlaps(text.Box) && front.Shape.Touches(text.Shape));
            if (over.Part is not null)
            {
                findings.Add(Finding.Warn(
                    "text-under-part",
                    $"{Shown.Code(text.Words)} of {Shown.Code(text.Origin.Item)} reaches under the nut, bezel or knob of {Shown.Code(over.Part.Origin.Item)}",
                    "move it outwards; `gap` moves a control's legend",
                    text.Origin.Span,
                    text.Origin.Item));
            }
        }

        for (var first = 0; first < fronts.Count; first++)
        {
            for (var second = first + 1; second < fronts.Count; second++)
            {
                var (a, b) = (fronts[first], fronts[second]);
                if (a.Box.Overlaps(b.Box) && a.Shape.Intersect(b.Shape).AreaMm2 > 0)
                {
                    findings.Add(Finding.Warn(
                        "parts-collide",
                        $"the nut, bezel or knob of {Shown.Code(a.Part.Origin.Item)} stands on that of {Shown.Code(b.Part.Origin.Item)}",
                        "move them apart",
                        b.Part.Origin.Span,
                        b.Part.Origin.Item));
                }
            }
        }
    }

    private static void Words(LaidPanel laid, List<Finding> findings)
    {
        var told = new PairFindings();

        // Words from left to right: each is compared only with those that start before it ends.
        var texts = laid.Texts.OrderBy(text => text.Box.LeftMm).ToList();
        for (var first = 0; first < texts.Count; first++)
        {
            for (var second = first + 1; second < texts.Count && texts[second].Box.LeftMm < texts[first].Box.RightMm; second++)
            {
                var (a, b) = (texts[first], texts[second]);
                if (a.Box.Overlaps(b.Box) && a.Shape.Touches(b.Shape))
                {
                    told.Add(a.Origin, b.Origin, Finding.Warn(
                        "texts-collide",
                        $"{Shown.Code(a.Words)} of {Shown.Code(a.Origin.Item)} and {Shown.Code(b.Words)} of {Shown.Code(b.Origin.Item)} run into each other",
                        "move one of them, make it smaller, or set it in two lines",
                        b.Origin.Span,
                        b.Origin.Item));
                }
            }
        }

        findings.AddRange(told.All);
    }

    private static Region<PanelSpace> Front(PlacedPart part) => PartForm.Of(part.Part).Front.Map(part.Map);
}
