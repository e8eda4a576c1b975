using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using Lampblack.Calibration;
using Lampblack.Geometry;

namespace Lampblack.Tests.Photos;

/// <summary>The lit lines and the marks of the colours on a drawn sheet.</summary>
internal sealed partial class DrawnSheet
{
    // What red, green and blue light each toner lets through. Invented, about what toner does.
    private static readonly Dictionary<char, double[]> Toners = new() { ['C'] = [0.22, 0.7, 0.85], ['M'] = [0.85, 0.25, 0.6], ['Y'] = [0.96, 0.9, 0.3] };

    private ImmutableArray<LitLine> _lines = [];
    private ImmutableArray<PlaneMark> _planes = [];
    private Box<SheetSpace>? _block;

    /// <summary>Whether lit lines and colours are drawn, instead of other things in their lanes; they are with the wedge, too.</summary>
    public bool HasGauges
    {
        get => field || Wedge is not null;
        init;
    }

    /// <summary>How far each colour lies off K, by its letter and the mark's number among that colour's own.</summary>
    public Func<char, int, (double RightMm, double UpMm)> Off { get; init; } = (_, _) => (0, 0);

    /// <summary>Whether it must be drawn in three lights.</summary>
    public bool HasColours => HasGauges && !IsBlackOnly;

    private Box<SheetSpace> Block => _block ??= CalibrationLines.Block(_plan);

    private ImmutableArray<LitLine> Lines => _lines.IsEmpty ? _lines = CalibrationLines.Of(_plan) : _lines;

    private ImmutableArray<PlaneMark> Planes => _planes.IsEmpty ? _planes = CalibrationPlanes.Of(_plan) : _planes;

    /// <summary>Whether a place is so near to a colour that lights differ there.</summary>
    public bool IsNearColour(double x, double y)
    {
        for (var index = 0; HasColours && index < Planes.Length; index++)
        {
            if (Math.Abs(x - Planes[index].Place.XMm) < 5 && Math.Abs(y - Planes[index].Place.YMm) < 5)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>How far outside of the black that lines are lit in, and of the colours' frames.</summary>
    private double Gauges(double x, double y)
    {
        var outside = double.MaxValue;
        if (!HasGauges || Math.Abs(y - Block.Centre.YMm) > 30 + (_plan.PitchYMm * 2))
        {
            return outside;
        }

        var block = Rectangle(Block, x, y);
        if (block < 1)
        {
            outside = block;
            foreach (var line in Lines)
            {
                outside = Math.Max(outside, -Rectangle(line.Box, x, y));
            }
        }

        foreach (var mark in IsBlackOnly ? [] : Planes)
        {
            var (dx, dy) = (x - mark.Place.XMm, y - mark.Place.YMm);
            if (Math.Abs(dx) < 6 && Math.Abs(dy) < 6)
            {
                outside = Math.Min(outside, Math.Max(Math.Max(Math.Abs(dx), Math.Abs(dy)) - 4.2, 3 - Math.Sqrt((dx * dx) + (dy * dy))));
            }
        }

        return outside;
    }

    /// <summary>What the colours let through: of one light, or of all with green counting twice.</summary>
    private double Colour(double x, double y, double width, int channel)
    {
        var light = 1.0;
        for (var index = 0; HasColours && IsNearColour(x, y) && index < Planes.Length; index++)
        {
            var mark = Planes[index];
            if (Math.Abs(x - mark.Place.XMm) < 6 && Math.Abs(y - mark.Place.YMm) < 6)
            {
                var (right, up) = Off(mark.Letter, index / 3);
                var (dx, dy) = (x - mark.Place.XMm - right, y - mark.Place.YMm - up);
                var toner = Toners[mark.Letter];
                light *= Through(Math.Sqrt((dx * dx) + (dy * dy)) - 1.5 - GainMm, width, channel < 0 ? (toner[0] + (2 * toner[1]) + toner[2]) / 4 : toner[channel]);
            }
        }

        return light;
    }
}
