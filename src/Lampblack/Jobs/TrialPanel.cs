using System.Collections.Generic;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>A panel in thin lines: the plate, its parts from the front and, dashed, from behind, and what is written on it; no field.</summary>
internal static class TrialPanel
{
    // A wider line is drawn as an outline, as areas are: this sheet is to be read, not to be black.
    private const double WidestFilledMm = 3;
    private const double CrossMm = 2;

    public static Region<PanelSpace> Draw(PanelArtwork artwork)
    {
        var laid = artwork.Laid;
        var marks = Region<PanelSpace>.Union(Marks(laid));
        var inside = laid.Outline.Contains(marks) ? marks : marks.Intersect(laid.Outline);
        return Region<PanelSpace>.Union([TrialDrawing.Lines(laid.Outline), inside, .. laid.Parts.SelectMany(Part)]);
    }

    private static IEnumerable<Region<PanelSpace>> Marks(LaidPanel laid) =>
    [
        .. laid.Areas.Select(area => TrialDrawing.Lines(AreaShape.Of(area))),
        .. laid.Rules.Select(rule => rule.Rule.WidthMm > WidestFilledMm ? TrialDrawing.Lines(RuleShape.Of(rule)) : RuleShape.Of(rule)),
        .. laid.Dials.SelectMany(dial => dial.Ranges.Select(band => TrialDrawing.Lines(DialShape.Band(dial.Centre, band)))),
        .. laid.Dials.Select(DialShape.Marks),
        .. laid.Leaders.Select(leader => Region<PanelSpace>.Stroke(new([leader.Start, leader.End], Closed: false), leader.WidthMm, LineEnd.Round)),
        .. laid.Texts.Select(text => text.Shape),
    ];

    private static IEnumerable<Region<PanelSpace>> Part(PlacedPart placed)
    {
        var map = Affine<ItemSpace, ItemSpace>.Turn(-placed.TurnDegrees).Then(Affine<ItemSpace, PanelSpace>.Shift(placed.Centre.XMm, placed.Centre.YMm));
        foreach (var hole in placed.Holes)
        {
            yield return TrialDrawing.Lines(hole);
            yield return TrialDrawing.Cross(hole == placed.Holes[0] ? placed.Centre : hole.Bounds.Centre, CrossMm);
        }

        yield return TrialDrawing.Lines(placed.Covered);
        if (placed.Part.KnobDiameter is { } knob)
        {
            yield return TrialDrawing.Lines(Region<PanelSpace>.Disc(placed.Centre, knob.Mm / 2));
        }

        if (placed.Part.Body is not null)
        {
            yield return TrialDrawing.Dashes(Region<ItemSpace>.Rectangle(placed.Part.BodyBox).Map(map));
        }
    }
}
