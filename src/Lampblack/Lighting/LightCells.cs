using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Desks;
using Lampblack.Geometry;
using Lampblack.Illumination;
using Lampblack.Parts;

namespace Lampblack.Lighting;

/// <summary>Light-tight cells for what has a light of its own.</summary>
internal static class LightCells
{
    /// <summary>Walls of black card, white inside. Common practice, no source.</summary>
    public const double WallMm = 0.5;

    /// <summary>What stays open between a wall's edge and the panel, unless it is sealed: card that is cut by hand. From memory.</summary>
    public const double SeamMm = 0.1;

    /// <summary>More room than the light's way through the plate asks for.</summary>
    private const double SpareMm = 0.5;

    /// <summary>The steepest that light goes inside acrylic that it entered from air, index 1.49: 42.155 degrees.</summary>
    private const double CriticalDegrees = 42.155;

    private const int MostEmitters = 8;
    private const double LeastDriveShare = 0.02;

    /// <summary>How far light wanders sideways in the plate before it meets the mask; a cell must be that much larger than what it lights.</summary>
    public static double ReachMm(double plateMm) => plateMm * Math.Tan(CriticalDegrees * Math.PI / 180);

    /// <summary>The room that a cell takes, walls included.</summary>
    public static Box<PanelSpace> Outside(Box<PanelSpace> inside) => inside.Grow(WallMm);

    /// <summary>The cells of a panel, leaks not yet known.</summary>
    public static ImmutableArray<LitCell> Of(LightSetting setting, CancellationToken cancellation)
    {
        var own = LitPieces.OwnItems(setting.Artwork);
        return
        [
            .. setting.Artwork.Marks.Where(mark => mark.Style.Role != LightRole.Unlit && !mark.Shape.IsEmpty && own.ContainsKey(mark.Origin.Item))
                .GroupBy(mark => mark.Origin.Item, StringComparer.Ordinal)
                .Select(group => Lit(setting, [.. group.SelectMany(mark => LitPieces.Cut(mark, setting.Luminance))], string.Join(" ", group.Select(mark => mark.Name).Distinct(StringComparer.Ordinal)), own[group.Key], cancellation)),
        ];
    }

    /// <summary>The same cells with what comes in from the light around them.</summary>
    public static ImmutableArray<LitCell> WithLeaks(ImmutableArray<LitCell> cells, PanelLighting around, LightSetting setting)
    {
        if (cells.IsEmpty || around.Emitters.IsEmpty)
        {
            return cells;
        }

        return [.. cells.Select(cell => cell with { LeakShare = LeakShare(cell, setting) })];
    }

    /// <summary>How hard single emitters are driven; strips and pixels always get all of it, and are dimmed.</summary>
    public static double DriveShareOf(LightSetting setting, double wantedShare, double leastShare) =>
        setting.Type.Form == EmitterForm.Single && double.IsFinite(wantedShare) ? Math.Clamp(wantedShare, leastShare, 1) : 1;

    /// <summary>
    /// Light that comes in over the walls' edges, as a share of what falls on the panel outside: what falls on the seam enters, half of it meets the panel
    /// within at once, half goes down and comes back in part. An estimate that errs upwards.
    /// </summary>
    /// <remarks>Flux = E seam perimeter; mean illuminance within = flux / area (1/2 + R / 2 (1 - R)) for walls of reflectance R (the sphere's multiplier).</remarks>
    private static double LeakShare(LitCell cell, LightSetting setting)
    {
        var (width, height) = (cell.Inside.WidthMm, cell.Inside.HeightMm);
        var area = width * height;
        var sides = 2 * (width + height) * setting.EmitterMm;
        var back = ((sides * setting.Wish.WallReflectance) + (area * setting.Wish.FloorReflectance) + (area * setting.MaskReflectance)) / (sides + (2 * area));
        return SeamMm * 2 * (width + height) / area * (0.5 + (back / (2 * (1 - back)) * area / (sides + (2 * area))));
    }

    private static LitCell Lit(LightSetting setting, ImmutableArray<LitPiece> pieces, string words, int output, CancellationToken cancellation)
    {
        var (left, bottom) = (pieces.Min(piece => piece.Box.LeftMm), pieces.Min(piece => piece.Box.BottomMm));
        var bounds = new Box<PanelSpace>(left, bottom, pieces.Max(piece => piece.Box.RightMm) - left, pieces.Max(piece => piece.Box.TopMm) - bottom);
        var inside = bounds.Grow(ReachMm(setting.PlateMm) + SpareMm);
        var box = new LightBox(inside, setting.EmitterMm, setting.Wish.WallReflectance, setting.Wish.FloorReflectance, setting.MaskReflectance);
        var places = new PieceLights(BoxLight.Of(box, cancellation), pieces, cancellation);
        LitCell? best = null;
        var room = Math.Clamp((int)(Math.Max(inside.WidthMm, inside.HeightMm) / setting.Type.WidthMm), 1, MostEmitters);
        for (var count = 1; count <= room; count++)
        {
            ImmutableArray<Emitter> emitters = [.. InARow(inside, count, setting)];
            var legends = places.Of(emitters, cancellation);
            var drive = DriveShareOf(setting, setting.WantedCandelaPerM2 / legends.Average(legend => legend.CandelaPerM2), LeastDriveShare);
            var cell = new LitCell(
                pieces[0].Origin,
                words,
                output,
                inside,
                [.. emitters.Select(emitter => emitter with { FluxLumens = drive * emitter.FluxLumens })],
                [.. legends.Select(legend => legend with { Lux = drive * legend.Lux })],
                drive,
                0);
            best = cell;
            if (cell.EvennessFactor <= setting.Wish.EvennessFactor && cell.MeanCandelaPerM2 >= setting.WantedCandelaPerM2 * (1 - 1e-9))
            {
                break;
            }
        }

        return best!;
    }

    /// <summary>So many emitters spread along a cell's longer side, those at its ends as far from its walls as others stay, where there is room for that.</summary>
    private static IEnumerable<Emitter> InARow(Box<PanelSpace> inside, int count, LightSetting setting)
    {
        var longMm = Math.Max(inside.WidthMm, inside.HeightMm);
        var even = longMm / (2 * count);
        var endMm = count == 1 ? even : Math.Max(even, Math.Min(EmitterPlaces.FromWallMm, (longMm - ((count - 1) * setting.Type.WidthMm)) / 2));
        return Enumerable.Range(0, count).Select(index =>
        {
            var along = count == 1 ? even : endMm + (index * (longMm - (2 * endMm)) / (count - 1));
            var at = inside.WidthMm >= inside.HeightMm
                ? new Point<PanelSpace>(inside.LeftMm + along, inside.Centre.YMm)
                : new Point<PanelSpace>(inside.Centre.XMm, inside.BottomMm + along);
            return new Emitter(at, setting.Figures.FluxLumens, setting.Type.HalfAngleDegrees);
        });
    }
}
