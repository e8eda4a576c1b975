using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Geometry;
using Lampblack.Quantities;

namespace Lampblack.Imaging;

/// <summary>
/// A panel laid out in dots, from which all its pictures are made: each shape is drawn once, each field is worked out when the first picture
/// asks for it and then kept. Safe to use from several threads.
/// </summary>
public sealed class PanelRaster
{
    private static readonly LinearColour HoleReflectance = LinearColour.Grey(0.012);
    private static readonly LinearColour BackdropReflectance = new(0.205, 0.200, 0.190);

    // The backdrop is scenery, like the panel's shadow on it: both are there so that the panel's edge can be seen.
    private const double ShadowDepth = 0.35;
    private const double ShadowSpreadMm = 7;
    private static readonly Vector<PanelSpace> ShadowWay = new(0.3, -0.9);

    private readonly DotGrid<PanelSpace> _grid;
    private readonly PanelLayers _layers;
    private readonly InkOptics _inks;
    private readonly Lazy<LightField> _frontTransmission;
    private readonly Lazy<LightField> _maskTransmission;
    private readonly Lazy<LightField> _maskLight;
    private readonly Lazy<LightField> _reflectance;
    private readonly Lazy<ImmutableArray<Placed>> _front;
    private readonly Lazy<ImmutableArray<Placed>> _mask;
    private readonly Lazy<Scenery> _scenery;

    private PanelRaster(PanelLayers layers, DotGrid<PanelSpace> grid, InkOptics inks, PaperOptics paper, Vector<PanelSpace> misregister, PanelRaster? inRegister)
    {
        _layers = layers;
        _grid = grid;
        _inks = inks;
        Paper = paper;
        Misregister = misregister;
        _scenery = inRegister?._scenery ?? Once(DrawScenery);
        _front = inRegister?._front ?? Once(() => Draw(_layers.Front, _grid));
        _mask = inRegister?._mask ?? Once(() => Draw(_layers.Mask, _grid));
        _frontTransmission = inRegister?._frontTransmission ?? Once(() => Transmission(_front.Value));
        _reflectance = inRegister?._reflectance ?? Once(() => Face(_front.Value));
        _maskTransmission = Once(() => Transmission(inRegister is null ? _mask.Value : Draw(_layers.Mask, Displaced(misregister))));
        _maskLight = Once(() => _maskTransmission.Value.Copy().Blur(Paper.SpreadMm));
    }

    /// <summary>How far the mask lies from its place, seen from the front.</summary>
    public Vector<PanelSpace> Misregister { get; }

    /// <summary>Dots in a row.</summary>
    public int WidthPx => _grid.WidthPx;

    /// <summary>Rows.</summary>
    public int HeightPx => _grid.HeightPx;

    /// <summary>Side of a dot, in mm.</summary>
    public double MmPerDot => _grid.MmPerDot;

    /// <summary>The paper that both sides are printed on.</summary>
    internal PaperOptics Paper { get; }

    /// <summary>What the front's inks let through.</summary>
    internal LightField FrontTransmission => _frontTransmission.Value;

    /// <summary>What the mask lets through, where it lies, smeared by the paper in front of it.</summary>
    internal LightField MaskLight => _maskLight.Value;

    /// <summary>What all that is seen throws back in room light.</summary>
    internal LightField Reflectance => _reflectance.Value;

    /// <summary>Lays a panel out in dots, mask in register.</summary>
    /// <param name="layers">The panel.</param>
    /// <param name="mmPerDot">Side of a dot, in mm; 0.125 shows a panel at about screen size.</param>
    /// <param name="inks">What the inks do to light.</param>
    /// <param name="paper">What the paper does to light.</param>
    /// <exception cref="ArgumentOutOfRangeException">The view or the dots have no size, or there are more than 400 million dots.</exception>
    public static PanelRaster Of(PanelLayers layers, double mmPerDot, InkOptics inks, PaperOptics paper)
    {
        ArgumentNullException.ThrowIfNull(layers);
        ArgumentNullException.ThrowIfNull(inks);
        ArgumentNullException.ThrowIfNull(paper);
        return new(layers, new DotGrid<PanelSpace>(layers.View, mmPerDot).Checked(), inks, paper, default, inRegister: null);
    }

    /// <summary>The same panel with its mask out of register by this much; everything else is shared.</summary>
    /// <param name="misregister">From where the mask should lie to where it lies, in mm, seen from the front.</param>
    public PanelRaster WithMisregister(Vector<PanelSpace> misregister) =>
        misregister == Misregister ? this : new(_layers, _grid, _inks, Paper, misregister, this);

    /// <summary>The light of cells and all, through the mask where it lies, smeared by the paper.</summary>
    internal LightField LightBehind(Backlight light)
    {
        if (light.Cells.IsEmpty)
        {
            return MaskLight.Copy().Multiply(light.Colour);
        }

        var behind = LightField.Filled(WidthPx, HeightPx, MmPerDot, light.Colour);
        foreach (var cell in light.Cells)
        {
            if (Draw(cell.Region, _grid) is { } placed)
            {
                behind.Paint(placed.Coverage, cell.Colour, placed.LeftPx, placed.TopPx);
            }
        }

        return behind.Multiply(_maskTransmission.Value).Blur(Paper.SpreadMm);
    }

    /// <summary>Takes away the light of places where the panel is not, or is hidden.</summary>
    internal LightField OnlyPanel(LightField light)
    {
        light.Paint(_scenery.Value.Outside, LinearColour.Black);
        foreach (var placed in _scenery.Value.Holes.Concat(_scenery.Value.Bezels))
        {
            light.Paint(placed.Coverage, LinearColour.Black, placed.LeftPx, placed.TopPx);
        }

        return light;
    }

    /// <summary>The mask's print as if it could be seen from the front in room light.</summary>
    internal LightField MaskFace() => Surround(Painted(_mask.Value));

    private static Lazy<T> Once<T>(Func<T> make) => new(make, LazyThreadSafetyMode.ExecutionAndPublication);

    private static Placed? Draw(Region<PanelSpace> region, DotGrid<PanelSpace> grid) =>
        !region.IsEmpty && grid.Window(region.Bounds) is { } window
            ? new(CoverageMap.Of(region, window.Grid), window.LeftPx, window.TopPx, Ink.None, default)
            : null;

    private static ImmutableArray<Placed> Draw(IEnumerable<InkLayer> layers, DotGrid<PanelSpace> grid) =>
        [.. layers.Select(layer => Draw(layer.Region, grid) is { } placed ? placed with { Ink = layer.Ink } : null).OfType<Placed>()];

    // A mask that lies further to the right is the same as a view that lies further to the left.
    private DotGrid<PanelSpace> Displaced(Vector<PanelSpace> misregister) => _grid with
    {
        View = _grid.View with
        {
            LeftMm = _grid.View.LeftMm - misregister.DxMm,
            BottomMm = _grid.View.BottomMm - misregister.DyMm,
        },
    };

    private LightField Transmission(ImmutableArray<Placed> print)
    {
        var field = LightField.Filled(WidthPx, HeightPx, MmPerDot, LinearColour.White);
        foreach (var placed in print)
        {
            field.Paint(placed.Coverage, _inks.Transmission(placed.Ink), placed.LeftPx, placed.TopPx);
        }

        return field;
    }

    private LightField Painted(ImmutableArray<Placed> print)
    {
        var field = LightField.Filled(WidthPx, HeightPx, MmPerDot, _inks.Reflectance(Ink.None, Paper));
        foreach (var placed in print)
        {
            field.Paint(placed.Coverage, _inks.Reflectance(placed.Ink, Paper), placed.LeftPx, placed.TopPx);
        }

        return field;
    }

    private LightField Surround(LightField face) =>
        face.Paint(_scenery.Value.Outside, BackdropReflectance).Paint(_scenery.Value.Shadow, ShadowDepth * BackdropReflectance);

    private LightField Face(ImmutableArray<Placed> print)
    {
        var face = Surround(Painted(print));
        foreach (var hole in _scenery.Value.Holes)
        {
            face.Paint(hole.Coverage, HoleReflectance, hole.LeftPx, hole.TopPx);
        }

        foreach (var bezel in _scenery.Value.Bezels)
        {
            face.Paint(bezel.Coverage, bezel.Reflectance, bezel.LeftPx, bezel.TopPx);
        }

        return face;
    }

    private Scenery DrawScenery()
    {
        var outside = CoverageMap.Of(_layers.Panel, _grid).Rest();
        var shadow = CoverageMap.Of(_layers.Panel, Displaced(ShadowWay)).Blur(ShadowSpreadMm).Within(outside);
        return new(outside, shadow, [.. new[] { Draw(_layers.Holes, _grid) }.OfType<Placed>()],
        [.. _layers.Bezels.Select(bezel => Draw(bezel.Region, _grid) is { } placed ? placed with { Reflectance = bezel.Reflectance } : null).OfType<Placed>()]);
    }

    /// <summary>A shape in dots at its place in the picture, and what lies there.</summary>
    private sealed record Placed(CoverageMap Coverage, int LeftPx, int TopPx, Ink Ink, LinearColour Reflectance);

    /// <summary>What bounds the panel and what hides it.</summary>
    private sealed record Scenery(CoverageMap Outside, CoverageMap Shadow, ImmutableArray<Placed> Holes, ImmutableArray<Placed> Bezels);
}
