using System.Collections.Immutable;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Imaging;
using Lampblack.Quantities;

namespace Lampblack.Separations;

/// <summary>A separated panel as layers for pictures: the same shapes as in print, the lowest laid under the others whole, so that no hairline shows between them.</summary>
public static class PictureLayers
{
    private const double BorderMm = 6;

    /// <summary>The panel as it will look once cut: its outline, its holes, what its parts cover.</summary>
    public static PanelLayers Finished(PanelSeparation separation)
    {
        System.ArgumentNullException.ThrowIfNull(separation);
        var laid = separation.Artwork.Laid;
        var view = new Box<PanelSpace>(0, 0, laid.Panel.WidthMm, laid.Panel.HeightMm).Grow(BorderMm);
        return new(view, laid.Outline, Front(separation), Mask(separation), separation.Artwork.Holes, []);
    }

    /// <summary>The print before it is cut, bleed and crosshairs included.</summary>
    public static PanelLayers Uncut(PanelSeparation separation)
    {
        System.ArgumentNullException.ThrowIfNull(separation);
        var sheet = Region<PanelSpace>.Rectangle(separation.Bleed);
        return new(separation.Bleed.Grow(BorderMm - PanelSeparation.BleedMm), sheet, Front(separation), Mask(separation), Region<PanelSpace>.Empty, []);
    }

    private static ImmutableArray<InkLayer> Front(PanelSeparation separation)
    {
        var shapes = separation.Shapes;
        var build = separation.Build;
        var bare = Region<PanelSpace>.Union(shapes.Visible.Where(Separator.Knocks).Select(mark => mark.Shape).Append(shapes.Windows));
        return
        [
            new(Region<PanelSpace>.Rectangle(separation.Bleed), separation.Artwork.Laid.Panel.Field ?? build.Ink),
            new(bare, Ink.None),
            .. MarkInks.Coloured(shapes.Visible, build).Select(Layer),
            .. shapes.Visible.Where(MarkInks.IsHidden).Select(mark => new InkLayer(mark.Shape, MarkInks.Cover(mark.Style, build))),
            new(HoleWindows.Crosshairs(separation.Artwork.Laid, onMask: false), Ink.FullK),
        ];
    }

    private static ImmutableArray<InkLayer> Mask(PanelSeparation separation)
    {
        var shapes = separation.Shapes;
        return
        [
            new(Region<PanelSpace>.Rectangle(separation.Bleed), separation.Build.Ink),
            new(shapes.Openings.Union(shapes.Windows), Ink.None),
            .. MarkInks.Backed(shapes, separation.Build, separation.SpreadMm).Select(Layer),
            new(HoleWindows.Crosshairs(separation.Artwork.Laid, onMask: true), Ink.FullK),
        ];
    }

    private static InkLayer Layer(Painted<PanelSpace> area) => new(area.Region, area.Ink);
}
