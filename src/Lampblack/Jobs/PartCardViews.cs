using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Parts;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>One look at a part at true size.</summary>
/// <param name="Name">From where.</param>
/// <param name="Shape">Its lines.</param>
internal sealed record PartView(string Name, Region<ItemSpace> Shape);

/// <summary>A part as lines to lay the real one on: from the front, from behind, from the side.</summary>
internal static class PartCardViews
{
    private const double CrossMm = 2;

    public static IEnumerable<PartView> Of(Part part)
    {
        var holes = Region<ItemSpace>.Union([.. part.Holes().Select(hole => TrialDrawing.Lines(hole)), TrialDrawing.Cross(default(Point<ItemSpace>), CrossMm)]);
        var knob = part.KnobDiameter is { } diameter ? TrialDrawing.Lines(Region<ItemSpace>.Disc(default, diameter.Mm / 2)) : Region<ItemSpace>.Empty;
        var covered = part.Covered();
        yield return new(FrontName(part), Region<ItemSpace>.Union([holes, TrialDrawing.Lines(covered), knob]));
        if (part.Body is not null)
        {
            yield return new("behind: hole, body", holes.Union(TrialDrawing.Lines(part.BodyShape)));
        }

        if (Side(part) is { } side)
        {
            yield return side;
        }
    }

    private static string FrontName(Part part) =>
        "front: " + string.Join(", ", new[] { "hole", part.Bezel is null ? null : "nut or bezel", part.KnobDiameter is null ? null : "knob" }.OfType<string>());

    /// <summary>From the side, the front to the right; the body's shoulder lies at the origin, where the panel's back is. Nothing where no length is known.</summary>
    private static PartView? Side(Part part)
    {
        var shapes = new List<Region<ItemSpace>>();
        var names = new List<string>();
        var hole = part.Holes()[0].Bounds;
        var halfMm = Math.Max(part.Body?.Height.Mm ?? 0, hole.HeightMm) / 2;
        if (part.Body is { } body)
        {
            shapes.Add(TrialDrawing.Lines(Region<ItemSpace>.Rectangle(new(-body.Depth.Mm, -body.Height.Mm / 2, body.Depth.Mm, body.Height.Mm))));
            names.Add("body");
        }

        if (part.BushingLength is { } length)
        {
            shapes.Add(TrialDrawing.Lines(Region<ItemSpace>.Rectangle(new(0, -hole.HeightMm / 2, length.Mm, hole.HeightMm))));
            names.Add("bushing");
        }

        if (part.LargestPanelThickness is { } thickest)
        {
            shapes.Add(TrialDrawing.Dashes(Region<ItemSpace>.Rectangle(new(0, -halfMm - 2, thickest.Mm, 2 * (halfMm + 2)))));
            names.Add("thickest panel dashed");
        }

        return shapes.Count == 0 ? null : new("side: " + string.Join(", ", names), Region<ItemSpace>.Union(shapes));
    }
}
