using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Optics;
using Lampblack.Quantities;

namespace Lampblack.Imaging;

/// <summary>
/// A panel laid out in dots, from which all its pictures are made: each shape is drawn once, when the first picture asks for it, and then kept.
/// Light is worked out in bands of rows and not kept, as it takes sixteen times the room of a shape. Safe to use from several threads.
/// </summary>
public sealed class PanelRaster
{
    private static readonly LinearColour HoleReflectance = LinearColour.Grey(0.012);
    private static readonly LinearColour BackdropReflectance = new(0.205, 0.200, 0.190);

    // A band's light is then 2 MB, which stays in the processor's cache.
    private const int BandPx = 1 << 17;

    // The backdrop is scenery, like the panel's shadow on it: both are there so that the panel's edge can be seen.
    private const double ShadowDepth = 0.35;
    private const double ShadowSpreadMm = 7;
    private static readonly Vector<PanelSpace> ShadowWay = new(0.3, -0.9);

    private readonly DotGrid<PanelSpace> _grid;
    private readonly PanelLayers _layers;
    private readonly SheetOptics _sheet;
    private readonly Lazy<ImmutableArray<Placed>> _front;
    private readonly Lazy<ImmutableArray<Placed>> _frontAgain;
    private readonly Lazy<ImmutableArray<Placed>> _mask;
    private readonly Lazy<ImmutableArray<Placed>> _maskAgain;
    private readonly Lazy<ImmutableArray<Placed>> _maskInRegister;
    private readonly Lazy<Scenery> _scenery;
    private readonly Lazy<LinearColour[]> _transmissions;
    private readonly Lazy<LinearColour[]> _reflectances;

    private PanelRaster(PanelLayers layers, DotGrid<PanelSpace> grid, SheetOptics sheet, Vector<PanelSpace> misregister, PanelRaster? alike)
    {
        _layers = layers;
        _grid = grid;
        _sheet = sheet;
        Misregister = misregister;
        _transmissions = alike?._transmissions ?? Once(() => DotPalette.Of(sheet.Inks.Transmission));
        _reflectances = alike?._reflectances ?? Once(() => DotPalette.Of(sheet.Reflectance));
        _scenery = alike?._layers == layers ? alike._scenery : Once(DrawScenery);
        _front = alike?._layers.Front == layers.Front ? alike._front : Once(() => Draw(_layers.Front, _grid));
        _maskInRegister = alike?._layers.Mask == layers.Mask ? alike._maskInRegister : Once(() => Draw(_layers.Mask, _grid));
        _frontAgain = alike?._layers.FrontAgain == layers.FrontAgain ? alike._frontAgain : Once(() => Draw(_layers.FrontAgain, _grid));
        _maskAgain = alike?._layers.MaskAgain == layers.MaskAgain && alike.Misregister == misregister ? alike._maskAgain : Once(() => Draw(_layers.MaskAgain, Displaced(misregister)));
        _mask = misregister == default ? _maskInRegister : Once(() => Draw(_layers.Mask, Displaced(misregister)));
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
    internal PaperOptics Paper => _sheet.Paper;

    /// <summary>Lays a panel out in dots, mask in register.</summary>
    /// <param name="layers">The panel.</param>
    /// <param name="mmPerDot">Side of a dot, in mm; 0.125 shows a panel at about screen size.</param>
    /// <param name="sheet">What inks and paper do to light.</param>
    /// <exception cref="ArgumentOutOfRangeException">The view or the dots have no size, or there are more than 400 million dots.</exception>
    public static PanelRaster Of(PanelLayers layers, double mmPerDot, SheetOptics sheet)
    {
        ArgumentNullException.ThrowIfNull(layers);
        ArgumentNullException.ThrowIfNull(sheet);
        return new(layers, new DotGrid<PanelSpace>(layers.View, mmPerDot).Checked(), sheet, default, alike: null);
    }

    /// <summary>Other layers in the same view, with the same dots, inks and paper; front and mask are drawn once where they are the same lists.</summary>
    /// <param name="layers">The panel as it is to be seen.</param>
    /// <exception cref="ArgumentException">The view is another one.</exception>
    public PanelRaster With(PanelLayers layers)
    {
        ArgumentNullException.ThrowIfNull(layers);
        return layers.View == _layers.View
            ? new(layers, _grid, _sheet, Misregister, this)
            : throw new ArgumentException("the view is another one", nameof(layers));
    }

    /// <summary>The same panel with its mask out of register by this much; everything else is shared.</summary>
    /// <param name="misregister">From where the mask should lie to where it lies, in mm, seen from the front.</param>
    public PanelRaster WithMisregister(Vector<PanelSpace> misregister) =>
        misregister == Misregister ? this : new(_layers, _grid, _sheet, misregister, this);

    /// <summary>Works a picture out band by band.</summary>
    /// <param name="light">The light of a band; it is given back to its pool here.</param>
    internal Picture Picture(Func<DotRows, LightField> light) => Pictures(1, rows => [light(rows)])[0];

    /// <summary>Works several pictures out at once, band by band.</summary>
    /// <param name="count">How many.</param>
    /// <param name="lights">The light of a band in each of them.</param>
    internal ImmutableArray<Picture> Pictures(int count, Func<DotRows, LightField[]> lights)
    {
        ImmutableArray<Picture> pictures = [.. Enumerable.Range(0, count).Select(_ => new Picture(WidthPx, HeightPx, MmPerDot))];
        var band = Math.Max(1, BandPx / WidthPx);
        for (var first = 0; first < HeightPx; first += band)
        {
            foreach (var (picture, light) in pictures.Zip(lights(new(first, Math.Min(band, HeightPx - first)))))
            {
                light.Encode(picture.Codes[(first * WidthPx * 4)..]);
                light.Dispose();
            }
        }

        return pictures;
    }

    /// <summary>What the front's inks let through.</summary>
    internal LightField FrontTransmission(DotRows rows) => Transmission(_front.Value, _frontAgain.Value, _sheet.FrontTransmission, rows);

    /// <summary>What the mask lets through, where it lies, smeared by the paper in front of it.</summary>
    internal LightField MaskLight(DotRows rows) => Smeared(rows, MaskTransmission);

    /// <summary>What all that is seen throws back in room light.</summary>
    internal LightField Reflectance(DotRows rows)
    {
        var face = Surround(Painted(_front.Value, rows), rows);
        foreach (var hole in _scenery.Value.Holes)
        {
            Paint(face, hole, HoleReflectance, rows);
        }

        foreach (var bezel in _scenery.Value.Bezels)
        {
            Paint(face, bezel, bezel.Reflectance, rows);
        }

        return face;
    }

    /// <summary>The light of cells and all, through the mask where it lies, smeared by the paper.</summary>
    internal Func<DotRows, LightField> LightBehind(Backlight light)
    {
        if (light.Cells.IsEmpty)
        {
            return rows => Uneven(MaskLight(rows).Multiply(light.Colour), light.Map, rows);
        }

        var cells = light.Cells.Select(cell => Draw(cell.Region, _grid) is { } placed ? placed with { Reflectance = cell.Colour } : null).OfType<Placed>().ToList();
        return rows => Smeared(rows, wider =>
        {
            var behind = Uneven(Filled(light.Colour, wider), light.Map, wider);
            foreach (var cell in cells)
            {
                Paint(behind, cell, cell.Reflectance, wider);
            }

            using var mask = MaskTransmission(wider);
            return behind.Multiply(mask);
        });
    }

    /// <summary>Light as bright as a map says it is; it changes so slowly that each dot's middle is enough.</summary>
    private LightField Uneven(LightField field, LightMap? map, DotRows rows)
    {
        if (map is null)
        {
            return field;
        }

        var levels = new float[WidthPx];
        for (var row = 0; row < rows.Count; row++)
        {
            var y = _grid.View.TopMm - ((rows.First + row + 0.5) * MmPerDot);
            for (var column = 0; column < levels.Length; column++)
            {
                levels[column] = map.At(_grid.View.LeftMm + ((column + 0.5) * MmPerDot), y);
            }

            field.MultiplyRow(row, levels);
        }

        return field;
    }

    /// <summary>Takes away the light of places where the panel is not, or is hidden.</summary>
    internal LightField OnlyPanel(LightField light, DotRows rows)
    {
        light.Paint(_scenery.Value.Outside, LinearColour.Black, topPx: -rows.First);
        foreach (var placed in _scenery.Value.Holes.Concat(_scenery.Value.Bezels))
        {
            Paint(light, placed, LinearColour.Black, rows);
        }

        return light;
    }

    /// <summary>The mask's print as if it could be seen from the front in room light.</summary>
    internal LightField MaskFace(DotRows rows) => Surround(Painted(_maskInRegister.Value, rows), rows);

    private static Lazy<T> Once<T>(Func<T> make) => new(make, LazyThreadSafetyMode.ExecutionAndPublication);

    private static Placed? Draw(Region<PanelSpace> region, DotGrid<PanelSpace> grid) =>
        !region.IsEmpty && grid.Window(region.Bounds) is { } window
            ? new(CoverageMap.Of(region, window.Grid), window.LeftPx, window.TopPx, Ink.None, default)
            : null;

    private static ImmutableArray<Placed> Draw(IEnumerable<Painted<PanelSpace>> layers, DotGrid<PanelSpace> grid) =>
        [.. layers.Select(layer => Draw(layer, grid)).OfType<Placed>()];

    private static Placed? Draw(Painted<PanelSpace> layer, DotGrid<PanelSpace> grid)
    {
        if (layer.Dots is not { } dots)
        {
            return Draw(layer.Region, grid) is { } whole ? whole with { Ink = layer.Ink } : null;
        }

        return !layer.Region.IsEmpty && grid.Window(layer.Region.Bounds) is { } window
            ? new(DotCoverage.Of(dots, window.Grid), window.LeftPx, window.TopPx, layer.Ink, default)
            {
                Colours = dots.Content is ColourDots colours ? DotCoverage.Colours(colours, dots, window.Grid) : null,
            }
            : null;
    }

    // A mask that lies further to the right is the same as a view that lies further to the left.
    private DotGrid<PanelSpace> Displaced(Vector<PanelSpace> misregister) => _grid with
    {
        View = _grid.View with
        {
            LeftMm = _grid.View.LeftMm - misregister.DxMm,
            BottomMm = _grid.View.BottomMm - misregister.DyMm,
        },
    };

    /// <summary>Smears light as the paper does; the rows around that reach into the band are worked out with it.</summary>
    private LightField Smeared(DotRows rows, Func<DotRows, LightField> sharp)
    {
        var reachPx = LineSpread.Of(Paper.SpreadMm, MmPerDot).ReachPx;
        var first = Math.Max(0, rows.First - reachPx);
        var end = Math.Min(HeightPx, rows.First + rows.Count + reachPx);
        return sharp(new(first, end - first)).Blur(Paper.SpreadMm).Keep(rows.First - first, rows.Count);
    }

    private LightField Filled(LinearColour colour, DotRows rows) => LightField.Filled(WidthPx, rows.Count, MmPerDot, colour);

    private static void Paint(LightField field, Placed placed, LinearColour colour, DotRows rows) =>
        field.Paint(placed.Coverage, colour, placed.LeftPx, placed.TopPx - rows.First);

    private static void Paint(LightField field, Placed placed, LinearColour colour, Lazy<LinearColour[]> palette, DotRows rows)
    {
        if (placed.Colours is { } colours)
        {
            field.Paint(placed.Coverage, colours, palette.Value, placed.LeftPx, placed.TopPx - rows.First);
        }
        else
        {
            Paint(field, placed, colour, rows);
        }
    }

    private LightField MaskTransmission(DotRows rows) => Transmission(_mask.Value, _maskAgain.Value, _sheet.MaskTransmission, rows);

    /// <summary>What a print lets through, and what is left of that after what is printed over it once more.</summary>
    private LightField Transmission(ImmutableArray<Placed> print, ImmutableArray<Placed> again, Func<Ink, LinearColour> light, DotRows rows)
    {
        var field = Transmission(print, light, rows);
        if (!again.IsEmpty)
        {
            using var second = Transmission(again, light, rows);
            field.Multiply(second);
        }

        return field;
    }

    private LightField Transmission(ImmutableArray<Placed> print, Func<Ink, LinearColour> light, DotRows rows)
    {
        var field = Filled(LinearColour.White, rows);
        foreach (var placed in print)
        {
            Paint(field, placed, light(placed.Ink), _transmissions, rows);
        }

        return field;
    }

    private LightField Painted(ImmutableArray<Placed> print, DotRows rows)
    {
        var field = Filled(_sheet.Reflectance(Ink.None), rows);
        foreach (var placed in print)
        {
            Paint(field, placed, _sheet.Reflectance(placed.Ink), _reflectances, rows);
        }

        return field;
    }

    private LightField Surround(LightField face, DotRows rows) => face
        .Paint(_scenery.Value.Outside, BackdropReflectance, topPx: -rows.First)
        .Paint(_scenery.Value.Shadow, ShadowDepth * BackdropReflectance, topPx: -rows.First);

    private Scenery DrawScenery()
    {
        var outside = CoverageMap.Of(_layers.Panel, _grid).Rest();
        var shadow = CoverageMap.Of(_layers.Panel, Displaced(ShadowWay)).Blur(ShadowSpreadMm).Within(outside);
        return new(outside, shadow, [.. new[] { Draw(_layers.Holes, _grid) }.OfType<Placed>()],
        [.. _layers.Bezels.Select(bezel => Draw(bezel.Region, _grid) is { } placed ? placed with { Reflectance = bezel.Reflectance } : null).OfType<Placed>()]);
    }

    /// <summary>A shape in dots at its place in the picture, and what lies there.</summary>
    private sealed record Placed(CoverageMap Coverage, int LeftPx, int TopPx, Ink Ink, LinearColour Reflectance)
    {
        /// <summary>For a picture in many colours, the palette's place of each dot; null for one ink.</summary>
        public ushort[]? Colours { get; init; }
    }

    /// <summary>What bounds the panel and what hides it.</summary>
    private sealed record Scenery(CoverageMap Outside, CoverageMap Shadow, ImmutableArray<Placed> Holes, ImmutableArray<Placed> Bezels);
}
