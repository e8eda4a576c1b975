using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Books;

/// <summary>A short piece of strip on a wall of the box, that the lamp board lies on; or the notch in the board at a wall.</summary>
/// <param name="Wall">Which wall, seen from the front: "left", "right", "upper", "lower".</param>
/// <param name="Area">What of the lamp board it takes, in panel mm.</param>
internal sealed record LampRest(string Wall, Box<PanelSpace> Area)
{
    /// <summary>Whether it lies along the panel's width.</summary>
    public bool IsLevel => Wall is "upper" or "lower";
}

/// <summary>
/// Where a lamp board is carried: emitters stand as near to the walls as light wants them, with their legs through the board. So no strip runs round the box:
/// short pieces stand where no emitter is near. Common practice for shelves; the sizes are from memory.
/// </summary>
internal static class LampRests
{
    /// <summary>Side of the square strip that the pieces are cut from.</summary>
    public const double StripMm = 8;

    /// <summary>How far a joint stays from a piece at least.</summary>
    public const double ClearMm = 4;

    // A finger holds it; a screw has room in it.
    private const double PieceMm = 20;
    private const double ShortestMm = 12;
    private const double LongWallMm = 150;

    /// <summary>So far from a corner a board of 3 mm is still stiff. From memory.</summary>
    public const double CornerMm = 40;
    private const double NotchWideMm = 20;
    private const double NotchDeepMm = 12;

    private static readonly ImmutableArray<(string Across, string Up)> Corners = [("left", "lower"), ("right", "lower"), ("left", "upper"), ("right", "upper")];

    /// <summary>The notch for the loom; null where no loom comes, or no wall has room for one.</summary>
    /// <param name="inside">The box's inner faces.</param>
    /// <param name="joints">Places of joints: legs of emitters.</param>
    /// <param name="blocks">Corners that are cut off.</param>
    /// <param name="loom">Where the loom leaves the panel.</param>
    public static LampRest? Notch(Box<PanelSpace> inside, IReadOnlyCollection<Point<PanelSpace>> joints, ImmutableArray<Box<PanelSpace>> blocks, Point<PanelSpace> loom)
    {
        var nearest = loom.YMm > inside.Centre.YMm ? "upper" : "lower";
        return (from wall in new[] { nearest, nearest == "upper" ? "lower" : "upper", "left", "right" }
                from place in Free(inside, wall, joints, blocks, NotchDeepMm)
                where place.To - place.From >= NotchWideMm
                let wanted = wall is "left" or "right" ? loom.YMm : loom.XMm
                let start = Whole(Math.Clamp(wanted - (NotchWideMm / 2), place.From, place.To - NotchWideMm), place.From, place.To - NotchWideMm, wall is "left" or "right" ? inside.BottomMm : inside.LeftMm)
                orderby wall == nearest descending, Math.Abs(start + (NotchWideMm / 2) - wanted)
                select new LampRest(wall, Area(inside, wall, start, NotchWideMm, NotchDeepMm))).FirstOrDefault();
    }

    /// <summary>The pieces, wall by wall: two on a wall, three on a long one, one on the short sides, and one more near each corner that is bare else.</summary>
    /// <param name="inside">The box's inner faces.</param>
    /// <param name="joints">Places of joints.</param>
    /// <param name="blocks">Corners that are cut off.</param>
    /// <param name="notch">The notch; null for none.</param>
    public static ImmutableArray<LampRest> Of(Box<PanelSpace> inside, IReadOnlyCollection<Point<PanelSpace>> joints, ImmutableArray<Box<PanelSpace>> blocks, LampRest? notch)
    {
        var rests = ImmutableArray.CreateBuilder<LampRest>();
        foreach (var wall in new[] { "lower", "upper", "left", "right" })
        {
            var isLevel = wall is "lower" or "upper";
            var (start, length) = isLevel ? (inside.LeftMm, inside.WidthMm) : (inside.BottomMm, inside.HeightMm);

            // Pieces on two walls do not meet in the corner.
            var margin = isLevel ? 0 : StripMm + ClearMm;
            double[] wanted = !isLevel ? [0.5] : length > LongWallMm ? [0, 1, 0.5] : [0, 1];
            foreach (var share in wanted)
            {
                ImmutableArray<Box<PanelSpace>> taken = [.. rests.Select(rest => rest.Area), .. blocks, .. notch is null ? [] : new[] { notch.Area }];
                var best = Free(inside, wall, joints, taken, StripMm)
                    .Select(free => (From: Math.Max(free.From, start + margin), To: Math.Min(free.To, start + length - margin)))
                    .Where(free => free.To - free.From >= ShortestMm)
                    .Select(free => (Long: Math.Floor(Math.Min(PieceMm, free.To - Whole(free.From, free.From, free.To, start) + 1e-9)), free.From, free.To))
                    .Where(free => free.Long >= ShortestMm)
                    .Select(free => (free.Long, From: Whole(Math.Clamp(start + (share * length) - (free.Long / 2), free.From, free.To - free.Long), free.From, free.To - free.Long, start)))
                    .OrderBy(free => Math.Abs(free.From + (free.Long / 2) - start - (share * length))).FirstOrDefault();
                if (best.Long > 0)
                {
                    rests.Add(new(wall, Area(inside, wall, best.From, best.Long, StripMm)));
                }
            }
        }

        // A corner that none of them is near gives under a finger.
        foreach (var (across, up) in Corners)
        {
            if (!IsCarried(inside, rests, across, up))
            {
                ImmutableArray<Box<PanelSpace>> taken = [.. rests.Select(rest => rest.Area), .. blocks, .. notch is null ? [] : new[] { notch.Area }];
                var extra = new[] { up, across }.SelectMany(wall => Free(inside, wall, joints, taken, StripMm).Select(free => Nearest(inside, wall, free, wall == up ? across == "left" : up == "lower")))
                    .OfType<LampRest>().FirstOrDefault(rest => IsCarried(inside, [rest], across, up));
                if (extra is not null)
                {
                    rests.Add(extra);
                }
            }
        }

        return rests.ToImmutable();
    }

    /// <summary>The corners that no piece is near: "lower left".</summary>
    /// <param name="inside">The box's inner faces.</param>
    /// <param name="rests">The pieces.</param>
    public static IEnumerable<string> BareCorners(Box<PanelSpace> inside, IReadOnlyCollection<LampRest> rests) =>
        Corners.Where(corner => !IsCarried(inside, rests, corner.Across, corner.Up)).Select(corner => $"{corner.Up} {corner.Across}");

    private static bool IsCarried(Box<PanelSpace> inside, IEnumerable<LampRest> rests, string across, string up)
    {
        var corner = new Point<PanelSpace>(across == "left" ? inside.LeftMm : inside.RightMm, up == "lower" ? inside.BottomMm : inside.TopMm);
        return rests.Any(rest => corner.DistanceMm(new(Math.Clamp(corner.XMm, rest.Area.LeftMm, rest.Area.RightMm), Math.Clamp(corner.YMm, rest.Area.BottomMm, rest.Area.TopMm))) <= CornerMm);
    }

    /// <summary>A piece in a free stretch, at its lower or its higher end; null where none fits.</summary>
    private static LampRest? Nearest(Box<PanelSpace> inside, string wall, (double From, double To) free, bool isLow)
    {
        var isLevel = wall is "lower" or "upper";
        var (start, length) = isLevel ? (inside.LeftMm, inside.WidthMm) : (inside.BottomMm, inside.HeightMm);
        var margin = isLevel ? 0 : StripMm + ClearMm;
        var (from, to) = (Math.Max(free.From, start + margin), Math.Min(free.To, start + length - margin));
        var longMm = Math.Floor(Math.Min(PieceMm, to - Whole(from, from, to, start) + 1e-9));
        return longMm < ShortestMm ? null : new(wall, Area(inside, wall, Whole(isLow ? from : to - longMm, from, to - longMm, start), longMm, StripMm));
    }

    /// <summary>A place as a ruler shows it, whole mm from the corner, between two bounds where a whole one lies there.</summary>
    private static double Whole(double at, double leastMm, double mostMm, double cornerMm)
    {
        var whole = Math.Clamp(Math.Round(at - cornerMm, MidpointRounding.AwayFromZero), Math.Ceiling(leastMm - cornerMm - 1e-9), Math.Max(Math.Ceiling(leastMm - cornerMm - 1e-9), Math.Floor(mostMm - cornerMm + 1e-9)));
        return cornerMm + whole;
    }

    private static Box<PanelSpace> Area(Box<PanelSpace> inside, string wall, double fromMm, double longMm, double deepMm) => wall switch
    {
        "lower" => new(fromMm, inside.BottomMm, longMm, deepMm),
        "upper" => new(fromMm, inside.TopMm - deepMm, longMm, deepMm),
        "left" => new(inside.LeftMm, fromMm, deepMm, longMm),
        _ => new(inside.RightMm - deepMm, fromMm, deepMm, longMm),
    };

    /// <summary>Stretches of a wall that no joint and nothing else comes near.</summary>
    private static IEnumerable<(double From, double To)> Free(Box<PanelSpace> inside, string wall, IReadOnlyCollection<Point<PanelSpace>> joints, ImmutableArray<Box<PanelSpace>> taken, double deepMm)
    {
        var isLevel = wall is "lower" or "upper";
        var (start, end) = isLevel ? (inside.LeftMm, inside.RightMm) : (inside.BottomMm, inside.TopMm);
        
        // A joint that is just so far away is far enough.
        var band = Area(inside, wall, start, end - start, deepMm).Grow(ClearMm - 1e-6);
        var blocked = joints.Where(band.Contains).Select(at => isLevel ? at.XMm : at.YMm).Select(at => (From: at - ClearMm, To: at + ClearMm))
            .Concat(taken.Where(area => area.Overlaps(band)).Select(area => isLevel ? (From: area.LeftMm - ClearMm, To: area.RightMm + ClearMm) : (From: area.BottomMm - ClearMm, To: area.TopMm + ClearMm)))
            .OrderBy(one => one.From).ToList();
        var at = start;
        foreach (var (from, to) in blocked)
        {
            if (from > at)
            {
                yield return (at, Math.Min(from, end));
            }

            at = Math.Max(at, to);
        }

        if (at < end)
        {
            yield return (at, end);
        }
    }
}
