using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
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
        var field = separation.Artwork.Laid.Panel.Field ?? separation.Build.Ink;
        var layers = new List<InkLayer> { new(Region<PanelSpace>.Rectangle(separation.Bleed), field) };
        foreach (var mark in shapes.Visible.Where(mark => mark.Style.Ink is not null))
        {
            layers.Add(new(mark.Shape, mark.Style.Role == LightRole.Hidden ? FrontSide.Cover(mark.Style.CoverShare, separation.Build.Ink.Space) : mark.Style.Ink!));
        }

        layers.Add(new(shapes.Windows, Ink.None));
        layers.Add(new(HoleWindows.Crosshairs(separation.Artwork.Laid.Parts, mirrored: false), Ink.FullK));
        return [.. layers];
    }

    private static ImmutableArray<InkLayer> Mask(PanelSeparation separation)
    {
        var shapes = separation.Shapes;
        var layers = new List<InkLayer>
        {
            new(Region<PanelSpace>.Rectangle(separation.Bleed), separation.Build.Ink),
            new(shapes.Openings, Ink.None),
        };
        layers.AddRange(MaskSide.Backed(shapes, separation.SpreadMm).Select(area => new InkLayer(area.Region, area.Ink)));
        layers.Add(new(shapes.Windows, Ink.None));
        layers.Add(new(HoleWindows.Crosshairs(separation.Artwork.Laid.Parts, mirrored: true), Ink.FullK));
        return [.. layers];
    }
}
