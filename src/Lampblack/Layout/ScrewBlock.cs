using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Layout;

/// <summary>
/// A block of wood behind a panel, level with the walls' upper edge, that one of its screws goes into: light, cells and the lamp board keep out of its way.
/// Common practice, no source; sizes from memory.
/// </summary>
/// <param name="Screw">The screw's middle, seen from the front.</param>
/// <param name="Area">Its footprint.</param>
/// <param name="Blocker">Why it has no place and is left out, as a clause; null for a block that has one.</param>
public sealed record ScrewBlock(Point<PanelSpace> Screw, Box<PanelSpace> Area, string? Blocker)
{
    /// <summary>How high a block is, from the plate's back.</summary>
    public const double HighMm = 10;

    /// <summary>Room between a block and the lamp board that is let down past it.</summary>
    public const double PastMm = 1;

    private const int UsualSideMm = 12;
    private const int LeastSideMm = 7;

    // A threaded insert of 4 mm, and wood round it.
    private const double RoundScrewMm = 4;

    // Farther away than this a block's shadow is soft.
    private const double ShadowMm = 6;

    /// <summary>The blocks of a panel: each as large as what is around it allows, and up to the walls that are near.</summary>
    /// <param name="laid">The panel.</param>
    /// <param name="inside">The inner faces of its box.</param>
    /// <param name="blocker">What a block there would run into, as a clause; null for nothing.</param>
    /// <param name="clearMm">How far away from a block there what shines is; a smaller block is taken to keep its shadow off.</param>
    public static ImmutableArray<ScrewBlock> Of(LaidPanel laid, Box<PanelSpace> inside, Func<Box<PanelSpace>, string?> blocker, Func<Box<PanelSpace>, double> clearMm)
    {
        ArgumentNullException.ThrowIfNull(laid);
        ArgumentNullException.ThrowIfNull(blocker);
        ArgumentNullException.ThrowIfNull(clearMm);
        var blocks = ImmutableArray.CreateBuilder<ScrewBlock>();
        foreach (var (x, y) in laid.Panel.Fixings?.PlacesMm ?? [])
        {
            string? Blocker(Box<PanelSpace> area) =>
                !inside.Contains(new Point<PanelSpace>(x, y)) ? "the wall stands over its hole" :
                area.LeftMm > inside.LeftMm && area.RightMm < inside.RightMm && area.BottomMm > inside.BottomMm && area.TopMm < inside.TopMm ? "no wall is near that it could be glued to"
                : area.WidthMm < LeastSideMm || area.HeightMm < LeastSideMm ? "the wall is there"
                : blocks.Any(other => other.Blocker is null && other.Area.Overlaps(area, -1e-6)) ? "the block of another screw is there"
                : blocker(area);
            var areas = Sizes(inside, x, y);
            var free = areas.FindAll(area => Blocker(area) is null);
            var place = free.Count > 0 ? free.MaxBy(area => Math.Min(ShadowMm, clearMm(area))) : areas[^1];
            blocks.Add(new(new(x, y), place, free.Count > 0 ? null : Blocker(place)));
        }

        return blocks.ToImmutable();
    }

    /// <summary>Every size that it may have, the largest first.</summary>
    private static List<Box<PanelSpace>> Sizes(Box<PanelSpace> inside, double xMm, double yMm) =>
    [
        .. (from width in Enumerable.Range(LeastSideMm, UsualSideMm - LeastSideMm + 1)
            from height in Enumerable.Range(LeastSideMm, UsualSideMm - LeastSideMm + 1)
            orderby width * height descending, width descending
            let across = Side(xMm, inside.LeftMm, inside.RightMm, width)
            let upwards = Side(yMm, inside.BottomMm, inside.TopMm, height)
            select new Box<PanelSpace>(across.From, upwards.From, across.To - across.From, upwards.To - upwards.From)),
    ];

    /// <summary>Up to the wall where one is near, with wood enough round the screw; else the screw is in its middle.</summary>
    private static (double From, double To) Side(double at, double from, double to, double sideMm)
    {
        var (start, end) = at - from <= UsualSideMm ? (from, Math.Max(from + sideMm, at + RoundScrewMm))
            : to - at <= UsualSideMm ? (Math.Min(to - sideMm, at - RoundScrewMm), to)
            : (at - Math.Max(sideMm / 2, RoundScrewMm), at + Math.Max(sideMm / 2, RoundScrewMm));
        return (Math.Max(from, start), Math.Max(Math.Max(from, start), Math.Min(to, end)));
    }
}
