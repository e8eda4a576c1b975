using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Tests.Photos;

/// <summary>
/// A printed calibration sheet as light passes it, drawn by the tests themselves: places and sizes are the plan's, everything else is this file's own.
/// An edge is soft over the width of what looks at it, so that coverage is exact for straight edges.
/// </summary>
internal sealed partial class DrawnSheet
{
    private readonly CalibrationPlan _plan;
    private readonly int _frontCells;
    private readonly List<(Box<SheetSpace> Box, double Front, double Back)>[]? _patches;
    private readonly List<Box<SheetSpace>>[] _clutter = [[], [], [], [], [], []];

    public DrawnSheet(CalibrationPlan plan, int copy)
    {
        _plan = plan;
        var paper = PaperSize.All.IndexOf(plan.Paper);
        _frontCells = new SheetCode(copy, paper, CalibrationPlan.Version, false, false).ToCells();
        BackCopy = copy;

        // Other things that stand on such a sheet: dark patches and rulings in the upper lanes.
        for (var row = 1; row < 5; row++)
        {
            var bottom = plan.Marks[row * 4].Place.YMm + 12;
            for (var part = 0; part < 6; part++)
            {
                var box = new Box<SheetSpace>(14 + (part * 7), bottom + (part % 2), 1 + part, 12);
                _clutter[row].Add(box);
                _clutter[row].Add(new(plan.Paper.WidthMm - box.RightMm, box.BottomMm, box.WidthMm, box.HeightMm));
            }
        }
    }

    /// <summary>How dark each layer of the wedge's patches is, front and back, instead of the other things in the lanes; null for those.</summary>
    public Func<CalibrationPatch, (double Front, double Back)>? Wedge
    {
        get;
        init
        {
            field = value;
            _patches = value is null ? null : [.. Enumerable.Range(0, 6).Select(_ => new List<(Box<SheetSpace>, double, double)>())];
            foreach (var patch in value is null ? [] : CalibrationPatches.Of(_plan, IsBlackOnly))
            {
                var (front, back) = value!(patch);
                _patches![Lane(patch.Box.Centre.YMm)].Add((patch.Box, Math.Pow(10, -front), Math.Pow(10, -back)));
            }
        }
    }

    /// <summary>Whether it is of a printer with black only; to be told before the wedge.</summary>
    public bool IsBlackOnly { get; init; }

    public bool HasFront { get; init; } = true;

    public bool HasBack { get; init; } = true;

    /// <summary>The number that side 2 carries.</summary>
    public int BackCopy { get; init; }

    /// <summary>By how much toner grows at every edge.</summary>
    public double GainMm { get; init; }

    public double FrontTransmittance { get; init; } = 0.01;

    public double BackTransmittance { get; init; } = 0.06;

    /// <summary>0 as it should be; 1 mirrored in the upright axis, 2 half-turned, 3 mirrored in the level axis.</summary>
    public int BackTurn { get; init; }

    /// <summary>Where back marks land: front view, mm.</summary>
    public Affine<SheetSpace, SheetSpace> Back { get; init; } = Affine<SheetSpace, SheetSpace>.Identity;

    /// <summary>Something dark that lies on the sheet.</summary>
    public (double X, double Y, double RadiusMm) Thumb { get; init; } = (-100, -100, 1);

    /// <summary>Back marks that were smeared by so much.</summary>
    public Dictionary<int, (double X, double Y)> Smeared { get; init; } = [];

    public CalibrationPlan Plan => _plan;

    public bool IsPaper(double x, double y) => x >= 0 && y >= 0 && x <= _plan.Paper.WidthMm && y <= _plan.Paper.HeightMm;

    /// <summary>Light through the front's toner.</summary>
    public double Front(double x, double y, double width, int channel = -1)
    {
        if (!HasFront)
        {
            return 1;
        }

        var outside = double.MaxValue;
        var mark = Nearest(x, y);
        var (dx, dy) = (x - mark.Place.XMm, y - mark.Place.YMm);
        if (Math.Abs(dx) < 12 && Math.Abs(dy) < 12)
        {
            var square = Math.Max(Math.Abs(dx), Math.Abs(dy)) - RegisterMark.HalfSquareMm;
            var r = Math.Sqrt((dx * dx) + (dy * dy));
            var cells = Arcs(dx, dy, r, mark.Cells, RegisterMark.FrontCellsInnerMm, RegisterMark.FrontCellsOuterMm);
            outside = Math.Max(square, Math.Max(RegisterMark.WindowRadiusMm - r, -cells));
        }

        var bar = Rectangle(_plan.FrontCode.Grow(SheetCode.AirMm), x, y);
        if (bar < 1)
        {
            outside = Math.Min(outside, Math.Max(bar, -Row(_plan.FrontCode, _frontCells, x, y)));
        }

        outside = Math.Min(outside, Gauges(x, y));
        foreach (var box in HasGauges ? [] : _clutter[Lane(y)])
        {
            outside = Math.Min(outside, Rectangle(box, x, y));
        }

        outside = Math.Min(outside, Math.Sqrt(((x - Thumb.X) * (x - Thumb.X)) + ((y - Thumb.Y) * (y - Thumb.Y))) - Thumb.RadiusMm);
        return Through(outside - GainMm, width, FrontTransmittance) * Patch(x, y, width, isBack: false) * Colour(x, y, width, channel);
    }

    /// <summary>Light through the back's toner at a place of the sheet.</summary>
    public double BackSide(double x, double y, double width)
    {
        if (!HasBack)
        {
            return 1;
        }

        var meant = BackInverse.Apply(new Point<SheetSpace>(x, y));
        (x, y) = BackTurn switch
        {
            1 => (_plan.Paper.WidthMm - meant.XMm, meant.YMm),
            2 => (_plan.Paper.WidthMm - meant.XMm, _plan.Paper.HeightMm - meant.YMm),
            3 => (meant.XMm, _plan.Paper.HeightMm - meant.YMm),
            _ => (meant.XMm, meant.YMm),
        };
        var mark = Nearest(x, y);
        var smear = Smeared.GetValueOrDefault(mark.Number);
        var outside = BackMark(x - mark.Place.XMm - smear.X, y - mark.Place.YMm - smear.Y, mark.Cells);
        var turn = _plan.TurnPlaces[0];
        outside = Math.Min(outside, BackMark(x - turn.XMm, y - turn.YMm, RingCodes.Of(CalibrationPlan.TurnMarkNumber)));
        if (Rectangle(_plan.BackCode, x, y) < 1)
        {
            outside = Math.Min(outside, Row(_plan.BackCode, BackCells, x, y));
        }

        return Through(outside - GainMm, width, BackTransmittance) * Patch(x, y, width, isBack: true);
    }

    private double Patch(double x, double y, double width, bool isBack)
    {
        var light = 1.0;
        foreach (var (box, front, back) in _patches is null ? [] : _patches[Lane(y)])
        {
            if (Math.Abs(y - box.Centre.YMm) > box.HeightMm || Math.Abs(x - box.Centre.XMm) > box.WidthMm)
            {
                continue;
            }

            var dark = isBack ? back : front;
            light *= dark < 1 ? Through(Rectangle(box, x, y), width, dark) : 1;
        }

        return light;
    }

    private int Lane(double y) => Math.Clamp((int)Math.Floor((y - _plan.Marks[0].Place.YMm - 10) / _plan.PitchYMm), 0, 5);

    private int BackCells => new SheetCode(BackCopy, PaperSize.All.IndexOf(_plan.Paper), CalibrationPlan.Version, false, true).ToCells();

    private Affine<SheetSpace, SheetSpace> BackInverse => field ??= Back.Inverse();

    private static double BackMark(double dx, double dy, int cells)
    {
        var r = Math.Sqrt((dx * dx) + (dy * dy));
        return r > 6 ? double.MaxValue : Math.Min(r - RegisterMark.DiscRadiusMm, Arcs(dx, dy, r, cells, RegisterMark.BackCellsInnerMm, RegisterMark.BackCellsOuterMm));
    }

    private static double Through(double outside, double width, double dark)
    {
        var ink = Math.Clamp(0.5 - (outside / width), 0, 1);
        return 1 - (ink * (1 - dark));
    }

    private static double Rectangle(Box<SheetSpace> box, double x, double y) =>
        Math.Max(Math.Abs(x - box.Centre.XMm) - (box.WidthMm / 2), Math.Abs(y - box.Centre.YMm) - (box.HeightMm / 2));

    /// <summary>How far outside of the set cells; negative inside.</summary>
    private static double Arcs(double dx, double dy, double r, int cells, double inner, double outer)
    {
        var radial = Math.Max(inner - r, r - outer);
        var angle = Math.Atan2(dy, dx) * 6 / Math.PI;
        angle = angle < 0 ? angle + 12 : angle;
        var cell = Math.Min(11, (int)angle);
        var (before, after) = (angle - cell, cell + 1 - angle);
        var here = IsSet(cells, cell);
        var way = Math.Min(IsSet(cells, cell + 11) != here ? before : 9, IsSet(cells, cell + 1) != here ? after : 9) * Math.PI / 6;
        var across = r * Math.Sin(Math.Min(way, Math.PI / 2));
        return Math.Max(radial, here ? -across : across);
    }

    private static double Row(Box<SheetSpace> box, int cells, double x, double y)
    {
        var best = double.MaxValue;
        var place = (int)Math.Floor((x - box.LeftMm) / SheetCode.CellLengthMm);
        for (var cell = Math.Max(0, place - 1); cell <= Math.Min(SheetCode.Cells - 1, place + 1); cell++)
        {
            if (((cells >> cell) & 1) != 0)
            {
                best = Math.Min(best, Rectangle(new(box.LeftMm + (cell * SheetCode.CellLengthMm), box.BottomMm, SheetCode.CellLengthMm, box.HeightMm), x, y));
            }
        }

        return best;
    }

    private static bool IsSet(int cells, int cell) => ((cells >> (cell % 12)) & 1) != 0;

    private RegisterMark Nearest(double x, double y)
    {
        var first = _plan.Marks[0].Place;
        var column = Math.Clamp((int)Math.Round((x - first.XMm) / _plan.PitchXMm), 0, 3);
        var row = Math.Clamp((int)Math.Round((y - first.YMm) / _plan.PitchYMm), 0, 5);
        return _plan.Marks[(row * 4) + column];
    }
}
