using System.Collections.Immutable;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Imaging;
using Lampblack.Layout;
using Lampblack.Optics;
using Lampblack.Parts;
using Lampblack.Quantities;

namespace Lampblack.Separations;

/// <summary>A separated panel as layers for pictures: the same shapes as in print, the lowest laid under the others whole, so that no hairline shows between them.</summary>
public static class PictureLayers
{
    /// <summary>How far a picture of the face reaches beyond the panel.</summary>
    public const double BorderMm = 6;
    private const double RimMm = 0.5;

    /// <summary>The panel as it will look once cut: its outline, its holes, what its parts cover.</summary>
    public static PanelLayers Finished(PanelSeparation separation)
    {
        System.ArgumentNullException.ThrowIfNull(separation);
        var laid = separation.Artwork.Laid;
        var view = new Box<PanelSpace>(0, 0, laid.Panel.WidthMm, laid.Panel.HeightMm).Grow(BorderMm);
        return new(view, laid.Outline, Front(separation), Mask(separation), separation.Artwork.Holes, Fitted(laid.Parts));
    }

    /// <summary>The print before it is cut, bleed and crosshairs included, in the same view.</summary>
    /// <param name="separation">The separated panel.</param>
    /// <param name="finished">Its layers when it is finished; front and mask are the same.</param>
    public static PanelLayers Uncut(PanelSeparation separation, PanelLayers finished)
    {
        System.ArgumentNullException.ThrowIfNull(separation);
        System.ArgumentNullException.ThrowIfNull(finished);
        return finished with { Panel = Region<PanelSpace>.Rectangle(separation.Bleed), Holes = Region<PanelSpace>.Empty, Bezels = [] };
    }

    /// <summary>Nuts and bezels in a soft metal gray, knobs nearly black with a lighter rim, so that they can be told from the field.</summary>
    private static ImmutableArray<PlacedBezel> Fitted(ImmutableArray<PlacedPart> parts) =>
    [
        .. parts.Where(part => !part.Covered.IsEmpty).SelectMany(part => new[]
        {
            new PlacedBezel(part.Covered, LinearColour.Grey(0.16)),
            new PlacedBezel(part.Covered.Grow(-RimMm), LinearColour.Grey(part.Part.Class == PartClass.Screw ? 0.11 : 0.09)),
        }),
        .. parts.Where(part => part.Part.KnobDiameter is not null).SelectMany(part => new[]
        {
            new PlacedBezel(Region<PanelSpace>.Disc(part.Centre, part.Part.KnobDiameter!.Value.Mm / 2), LinearColour.Grey(0.06)),
            new PlacedBezel(Region<PanelSpace>.Disc(part.Centre, (part.Part.KnobDiameter!.Value.Mm / 2) - RimMm), LinearColour.Grey(0.018)),
        }),
    ];

    private static ImmutableArray<Painted<PanelSpace>> Front(PanelSeparation separation)
    {
        var shapes = separation.Shapes;
        var build = separation.Build;
        var bare = Region<PanelSpace>.Union(shapes.Visible.Where(Separator.Knocks).Select(mark => mark.Shape).Append(shapes.Windows));
        return
        [
            new(Region<PanelSpace>.Rectangle(separation.Bleed), MarkInks.Field(separation.Artwork.Laid.Panel, build) ?? build.Ink),
            new(shapes.HatchGaps, build.Edge),
            new(bare, Ink.None),
            .. MarkInks.Coloured(shapes.Visible, build),
            .. shapes.Covers,
            .. DotPaint.Front([.. shapes.Dots.Select(dot => dot.AsPrinted)], build, shapes.FrontBlack, core: null, [], 0),
            new(shapes.FrontCrosshairs, Ink.FullK),
        ];
    }

    private static ImmutableArray<Painted<PanelSpace>> Mask(PanelSeparation separation)
    {
        var shapes = separation.Shapes;
        return
        [
            new(Region<PanelSpace>.Rectangle(separation.Bleed), separation.Build.Ink),
            new(shapes.Openings.Union(shapes.Windows), Ink.None),
            .. MarkInks.Backed(shapes, separation.Build, separation.SpreadMm),
            .. DotPaint.Mask([.. shapes.Dots.Select(dot => dot.AsPrinted)], separation.Build, core: null, 0),
            new(shapes.MaskCrosshairs, Ink.FullK),
        ];
    }
}
