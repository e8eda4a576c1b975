using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Lettering;

namespace Lampblack.Layout;

/// <summary>One or more lines of lettering, held at the origin.</summary>
/// <param name="Shape">The outlines.</param>
/// <param name="Box">From the top of the first line's capitals to the last baseline, and as wide as the widest line.</param>
/// <param name="Letters">What the eye has to tell apart.</param>
internal sealed record TextBlock(Region<ItemSpace> Shape, Box<ItemSpace> Box, LetterMeasures Letters)
{
    public static TextBlock Set(
        ImmutableArray<string> lines,
        TextStyle style,
        HorizontalAlign align,
        VerticalAnchor anchor,
        FontShelf fonts,
        Origin origin,
        ICollection<Finding> findings)
    {
        var face = fonts.Find(style.Font, origin.Span, findings);
        var runs = lines.Select(line => TextOutline.Line(face, line, style.HeightMm, style.SpacingMm)).ToList();
        var missing = runs.SelectMany(run => run.Missing).Distinct(StringComparer.Ordinal).ToList();
        if (missing.Count > 0)
        {
            findings.Add(Finding.Warn(
                "glyph-missing",
                $"the font {Shown.Code(style.Font)} has no {Shown.List(missing.Select(Shown.Code))}; it is left out",
                "choose another `font` for this text, or other characters",
                origin.Span,
                origin.Item));
        }

        var pitch = style.HeightMm * style.LeadingFactor;
        var height = style.HeightMm + (pitch * (lines.Length - 1));
        var firstBaseline = anchor switch
        {
            VerticalAnchor.Middle => (height / 2) - style.HeightMm,
            VerticalAnchor.Top => -style.HeightMm,
            VerticalAnchor.Baseline => 0,
            _ => height - style.HeightMm,
        };
        var shapes = new List<Region<ItemSpace>>();
        double left = 0;
        double right = 0;
        for (var index = 0; index < runs.Count; index++)
        {
            var start = align switch
            {
                HorizontalAlign.Left => 0,
                HorizontalAlign.Centre => -runs[index].WidthMm / 2,
                _ => -runs[index].WidthMm,
            };
            left = Math.Min(left, start);
            right = Math.Max(right, start + runs[index].WidthMm);

            // Whole steps of the grid, so that a word is the same shape wherever it stands.
            shapes.Add(runs[index].Shape.Map(Affine<ItemSpace, ItemSpace>.Shift(Resolution.Snap(start), Resolution.Snap(firstBaseline - (index * pitch)))));
        }

        return new(
            Region<ItemSpace>.Union(shapes),
            new(left, firstBaseline + style.HeightMm - height, right - left, height),
            fonts.Measure(face, style, lines.Length));
    }

    /// <summary>The block at a place on the panel, turned clockwise about the point where it is held.</summary>
    public PlacedText At(Point<PanelSpace> place, double turnDegrees, Origin origin, MarkStyle style, string words)
    {
        var map = Affine<ItemSpace, ItemSpace>.Turn(-turnDegrees).Then(Affine<ItemSpace, PanelSpace>.Shift(place.XMm, place.YMm));
        return new(origin, style, Shape.Map(map), Around(Box, map), words) { Letters = Letters };
    }

    private static Box<PanelSpace> Around(Box<ItemSpace> box, Affine<ItemSpace, PanelSpace> map)
    {
        Point<PanelSpace>[] corners =
        [
            map.Apply(new(box.LeftMm, box.BottomMm)), map.Apply(new(box.RightMm, box.BottomMm)),
            map.Apply(new(box.LeftMm, box.TopMm)), map.Apply(new(box.RightMm, box.TopMm)),
        ];
        var low = new Point<PanelSpace>(corners.Min(corner => corner.XMm), corners.Min(corner => corner.YMm));
        var high = new Point<PanelSpace>(corners.Max(corner => corner.XMm), corners.Max(corner => corner.YMm));
        return Box<PanelSpace>.Between(low, high);
    }
}
