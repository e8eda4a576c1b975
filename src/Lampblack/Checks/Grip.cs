using System;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Parts;

namespace Lampblack.Checks;

/// <summary>
/// What fingers touch of a control, seen from the front: the knob, the swing of the lever, the cap. A round one or a lever is a line with a radius,
/// so that distances are exact and cheap; anything with corners is compared by its outline.
/// </summary>
internal sealed class Grip
{
    private readonly Point<PanelSpace> _start;
    private readonly Point<PanelSpace> _end;
    private readonly double _radiusMm;
    private readonly Region<PanelSpace>? _outline;

    private Grip(Point<PanelSpace> start, Point<PanelSpace> end, double radiusMm, Region<PanelSpace>? outline)
    {
        (_start, _end, _radiusMm, _outline) = (start, end, radiusMm, outline);
        Bounds = outline?.Bounds ?? Box<PanelSpace>.Between(start, end).Grow(radiusMm);
    }

    /// <summary>The box around it.</summary>
    public Box<PanelSpace> Bounds { get; }

    /// <summary>Its smaller measure, in mm.</summary>
    public double AcrossMm => _outline is null ? 2 * _radiusMm : Math.Min(Bounds.WidthMm, Bounds.HeightMm);

    public static Grip Of(PlacedPart placed)
    {
        var part = placed.Part;
        if (part.KnobDiameter is { } knob)
        {
            return new(placed.Centre, placed.Centre, knob.Mm / 2, null);
        }

        if (part.Lever is { } lever)
        {
            var swingMm = lever.Length.Mm * Math.Sin(lever.SwingDegrees * Math.PI / 180);
            return new(placed.Centre.Polar(swingMm, 90 - placed.TurnDegrees), placed.Centre.Polar(-swingMm, 90 - placed.TurnDegrees), lever.Tip.Mm / 2, null);
        }

        return (part.Bezel ?? part.Cutout) switch
        {
            RoundCutout round => new(placed.Centre, placed.Centre, round.Diameter.Mm / 2, null),
            FlattedCutout flatted => new(placed.Centre, placed.Centre, flatted.Diameter.Mm / 2, null),
            _ => new(placed.Centre, placed.Centre, 0, part.Bezel is null ? placed.Holes[0] : placed.Covered),
        };
    }

    /// <summary>Free space to another, in mm; 0 where they touch.</summary>
    public double DistanceMm(Grip other) => _outline is null && other._outline is null
        ? Math.Max(0, BetweenLinesMm(other) - _radiusMm - other._radiusMm)
        : Outline().DistanceMm(other.Outline());

    private Region<PanelSpace> Outline() => _outline ?? (_start == _end
        ? Region<PanelSpace>.Disc(_start, _radiusMm)
        : Region<PanelSpace>.Stroke(new([_start, _end], Closed: false), 2 * _radiusMm, LineEnd.Round));

    private double BetweenLinesMm(Grip other) => Math.Min(
        Math.Min(ToLineMm(_start, other._start, other._end), ToLineMm(_end, other._start, other._end)),
        Math.Min(ToLineMm(other._start, _start, _end), ToLineMm(other._end, _start, _end)));

    /// <summary>From a point to a stretch of line. Two levers never cross without their parts doing so, which is told elsewhere.</summary>
    private static double ToLineMm(Point<PanelSpace> point, Point<PanelSpace> start, Point<PanelSpace> end)
    {
        var (way, off) = (end - start, point - start);
        var square = (way.DxMm * way.DxMm) + (way.DyMm * way.DyMm);
        var share = square > 0 ? Math.Clamp(((off.DxMm * way.DxMm) + (off.DyMm * way.DyMm)) / square, 0, 1) : 0;
        return point.DistanceMm(start + (share * way));
    }
}
