using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Artwork;

/// <summary>The ring that a range follows, so that its hatch can follow it too.</summary>
/// <param name="Centre">The dial's centre.</param>
/// <param name="FromClockDegrees">Start, clockwise from straight up.</param>
/// <param name="ToClockDegrees">End, clockwise from straight up.</param>
/// <param name="InnerRadiusMm">Inner radius.</param>
/// <param name="OuterRadiusMm">Outer radius.</param>
public sealed record RingCourse(Point<PanelSpace> Centre, double FromClockDegrees, double ToClockDegrees, double InnerRadiusMm, double OuterRadiusMm)
{
    /// <summary>Radius of the middle, in mm.</summary>
    public double MiddleRadiusMm => (InnerRadiusMm + OuterRadiusMm) / 2;

    /// <summary>Width of the ring, in mm.</summary>
    public double WidthMm => OuterRadiusMm - InnerRadiusMm;

    /// <summary>Length along the middle, in mm.</summary>
    public double LengthMm => MiddleRadiusMm * Math.Abs(ToClockDegrees - FromClockDegrees) * Math.PI / 180;

    /// <summary>Whether it goes all around.</summary>
    public bool IsWhole => Math.Abs(ToClockDegrees - FromClockDegrees) >= 360 - 1e-9;

    /// <summary>A place of the straightened ring: x along it clockwise from its middle, y outwards from its middle.</summary>
    internal Point<PanelSpace> Bend(Point<ItemSpace> straight) => Centre.Polar(
        MiddleRadiusMm + straight.YMm,
        90 - ((FromClockDegrees + ToClockDegrees) / 2) - (straight.XMm / MiddleRadiusMm * 180 / Math.PI));
}

/// <summary>A filled shape as a hatch: which parts of it stay bare paper, the rest being black.</summary>
public static class Hatch
{
    // Both as wide as a line that a laser printer holds on any paper (600 dpi: eight dots and more; common practice, no source).
    private const double RimMm = 0.4;
    private const double RimGapMm = 0.4;
    private const double LeastWidthMm = 0.9;
    private const double LeastLengthMm = 2;
    private const double LengthWithEndsMm = 5;
    private const double WidthWithRimMm = 3;
    private const double LargestPieceThatIsLostMm2 = 0.1;
    private const double UsualBandMm = 1.6;
    private const double WideBandMm = 3;
    private const double LargestAreaOfScale1Mm = 40;
    private const double LargestUsualScale = 2.5;
    private const double LargestSheetMm = 420;
    private const double BendStepMm = 0.5;

    /// <summary>Whether a shape is large enough for patterns to be told apart in it.</summary>
    /// <param name="shape">The shape.</param>
    /// <param name="course">The ring it follows; null for none.</param>
    public static bool Fits(Region<PanelSpace> shape, RingCourse? course)
    {
        ArgumentNullException.ThrowIfNull(shape);
        return course is not null
            ? course.WidthMm >= LeastWidthMm - 1e-6 && course.LengthMm >= LeastLengthMm
            : !shape.Grow(-LeastWidthMm / 2).IsEmpty;
    }

    /// <summary>What stays bare of a shape.</summary>
    /// <param name="pattern">The pattern.</param>
    /// <param name="shape">The shape.</param>
    /// <param name="course">The ring it follows; null for none.</param>
    public static Region<PanelSpace> Bare(HatchPattern pattern, Region<PanelSpace> shape, RingCourse? course) =>
        course is null ? InArea(pattern, shape ?? throw new ArgumentNullException(nameof(shape))) : InRing(pattern, shape, course);

    /// <summary>An area gets a bare rim, from which the pattern keeps off, so that its outline is as sharp as it is in colour.</summary>
    private static Region<PanelSpace> InArea(HatchPattern pattern, Region<PanelSpace> shape)
    {
        var bounds = shape.Bounds;
        var narrow = shape.Grow(-WidthWithRimMm / 2).IsEmpty;
        var sizeMm = Math.Min(bounds.WidthMm, bounds.HeightMm);

        // Larger areas get coarser patterns; beyond any paper so coarse that drawing them takes no longer.
        var scale = narrow ? 0.8 : Math.Max(Math.Clamp(sizeMm / LargestAreaOfScale1Mm, 1, LargestUsualScale), LargestUsualScale * sizeMm / LargestSheetMm);
        var lines = HatchTiles.Draw(pattern, new(bounds.LeftMm, bounds.BottomMm, bounds.WidthMm, bounds.HeightMm), scale, narrow: false)
            .Select(corners => Region<PanelSpace>.FromCorners([.. corners.Select(corner => new Point<PanelSpace>(corner.XMm, corner.YMm))]));
        return narrow
            ? WithoutSlivers(Region<PanelSpace>.Union(lines).Intersect(shape))
            : WithoutSlivers(Region<PanelSpace>.Union(lines).Intersect(shape.Grow(-RimMm - RimGapMm))).Union(shape.Except(shape.Grow(-RimMm)));
    }

    /// <summary>A range ends in a bare bar, so that one can read where it ends.</summary>
    private static Region<PanelSpace> InRing(HatchPattern pattern, Region<PanelSpace> shape, RingCourse course)
    {
        var (length, width) = (course.LengthMm, course.WidthMm);
        var withEnds = !course.IsWhole && length >= LengthWithEndsMm;
        var insideMm = withEnds ? length - (2 * (RimMm + RimGapMm)) : length;
        var room = new Box<ItemSpace>(-insideMm / 2, -width / 2, insideMm, width);
        var scale = Math.Clamp(width / UsualBandMm, 0.8, 1.25);
        var lines = HatchTiles.Draw(pattern, room, scale, width < WideBandMm).Select(corners => Bent(corners, course));
        var inside = Region<PanelSpace>.Union(lines).Intersect(Bent(Corners(room), course)).Intersect(shape);
        if (!withEnds)
        {
            return WithoutSlivers(inside);
        }

        var ends = new[] { -1, 1 }.Select(end => Bent(
            Corners(new(end < 0 ? -length / 2 : (length / 2) - RimMm, -width / 2, RimMm, width)), course));
        return Region<PanelSpace>.Union([WithoutSlivers(inside), .. ends.Select(end => end.Intersect(shape))]);
    }

    private static ImmutableArray<Point<ItemSpace>> Corners(Box<ItemSpace> box) =>
        [new(box.LeftMm, box.BottomMm), new(box.RightMm, box.BottomMm), new(box.RightMm, box.TopMm), new(box.LeftMm, box.TopMm)];

    /// <summary>An outline bent around the ring; long sides along it follow it in short steps.</summary>
    private static Region<PanelSpace> Bent(ImmutableArray<Point<ItemSpace>> corners, RingCourse course)
    {
        var bent = ImmutableArray.CreateBuilder<Point<PanelSpace>>();
        for (var index = 0; index < corners.Length; index++)
        {
            var (from, to) = (corners[index], corners[(index + 1) % corners.Length]);
            var steps = Math.Max(1, (int)Math.Ceiling(Math.Abs(to.XMm - from.XMm) / BendStepMm));
            for (var step = 0; step < steps; step++)
            {
                bent.Add(course.Bend(from + ((double)step / steps * (to - from))));
            }
        }

        return Region<PanelSpace>.FromCorners(bent.ToImmutable());
    }

    private static Region<PanelSpace> WithoutSlivers(Region<PanelSpace> lines) =>
        Region<PanelSpace>.Union(lines.Pieces.Where(piece => piece.AreaMm2 > LargestPieceThatIsLostMm2));
}
