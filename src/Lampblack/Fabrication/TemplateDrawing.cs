using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Sheets;

namespace Lampblack.Fabrication;

/// <summary>What a drill template shows of its panel.</summary>
internal static class TemplateDrawing
{
    private const double CornerMarkMm = 6;
    private const double LabelMm = 1.8;
    private const double SmallLabelMm = 1.3;

    /// <summary>Edge, score lines, corner mark, openings, crosses, numbers.</summary>
    public static IEnumerable<Region<PanelSpace>> Shapes(HoleChart chart)
    {
        var panel = chart.Laid.Panel;
        var plate = chart.Plate.ToRegion();
        yield return TrialDrawing.Lines(plate);
        foreach (var line in ScoreLines(panel.WidthMm, panel.HeightMm, panel.CornerMm))
        {
            yield return line;
        }

        yield return CornerMark(plate, panel.CornerMm);
        yield return Text("0, 0", LabelMm, new(-TemplateTiles.AroundMm / 2, -TemplateTiles.AroundMm / 2));
        var crosses = new Dictionary<double, Region<PanelSpace>>();
        foreach (var (hole, line) in chart.Holes.Zip(Region<PanelSpace>.OfAlike(chart.Holes.Select(hole => hole.Shape), shape => TrialDrawing.Lines(shape))))
        {
            yield return line;
            foreach (var start in hole.Starts)
            {
                yield return Cross(crosses, HoleLabels.CrossMm(hole)).Map(Affine<PanelSpace, PanelSpace>.Shift(start.XMm, start.YMm));
            }
        }

        foreach (var label in HoleLabels.Of(chart, [LabelMm, SmallLabelMm], withSizes: true))
        {
            yield return label;
        }
    }

    /// <summary>The cross of a size, about the origin: one for all holes of that size.</summary>
    private static Region<PanelSpace> Cross(Dictionary<double, Region<PanelSpace>> crosses, double reachMm)
    {
        if (!crosses.TryGetValue(reachMm, out var cross))
        {
            crosses.Add(reachMm, cross = TrialDrawing.Cross(default(Point<PanelSpace>), reachMm));
        }

        return cross;
    }

    /// <summary>How far the black corner reaches along both edges. The arc of a round corner comes nearest to the box's corner where x + y is (2 - sqrt 2) of its radius.</summary>
    public static double CornerReachMm(double cornerMm, double markMm = CornerMarkMm) => markMm + ((2 - Math.Sqrt(2)) * cornerMm);

    /// <summary>The black corner, the lower left one: as deep in a round corner as in a sharp one.</summary>
    /// <param name="plate">The plate.</param>
    /// <param name="cornerMm">The radius of its corners.</param>
    /// <param name="markMm">How far it reaches along the edges of a sharp corner.</param>
    public static Region<PanelSpace> CornerMark(Region<PanelSpace> plate, double cornerMm, double markMm = CornerMarkMm)
    {
        var reachMm = CornerReachMm(cornerMm, markMm);
        return Region<PanelSpace>.FromCorners([new(0, 0), new(reachMm, 0), new(0, reachMm)]).Intersect(plate);
    }

    /// <summary>Words in the panel, in the small print of sheets.</summary>
    public static Region<PanelSpace> Text(string words, double heightMm, Point<PanelSpace> middle) =>
        SheetText.Centred(words, heightMm, new(0, 0), Side.Front).Map(Affine<SheetSpace, PanelSpace>.Shift(middle.XMm, middle.YMm));

    /// <summary>The straight cuts: beyond the plate's edge, and across the corners that are filed later.</summary>
    private static IEnumerable<Region<PanelSpace>> ScoreLines(double widthMm, double heightMm, double cornerMm)
    {
        const double LineMm = TrialDrawing.LineMm;
        var reach = TemplateTiles.AroundMm - 1;
        foreach (var x in new[] { 0, widthMm })
        {
            yield return Region<PanelSpace>.Rectangle(new(x - (LineMm / 2), -reach, LineMm, reach + cornerMm));
            yield return Region<PanelSpace>.Rectangle(new(x - (LineMm / 2), heightMm - cornerMm, LineMm, reach + cornerMm));
        }

        foreach (var y in new[] { 0, heightMm })
        {
            yield return Region<PanelSpace>.Rectangle(new(-reach, y - (LineMm / 2), reach + cornerMm, LineMm));
            yield return Region<PanelSpace>.Rectangle(new(widthMm - cornerMm, y - (LineMm / 2), reach + cornerMm, LineMm));
        }
    }
}
