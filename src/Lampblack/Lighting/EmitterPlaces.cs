using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Illumination;
using Lampblack.Parts;

namespace Lampblack.Lighting;

/// <summary>The floor that emitters can take: which places are on offer, and which are taken already.</summary>
internal sealed class EmitterPlaces
{
    /// <summary>More places than this make the search long.</summary>
    private const int MostPlaces = 480;
    private const double LeastStepMm = 6;
    private const double RowStepMm = 5;

    /// <summary>Around bodies that reach the floor, and around screws. Common practice, no source.</summary>
    private const double AroundMm = 1;

    /// <summary>From a single emitter's middle to a wall, a cell or a block: a lamp of 5 mm, its legs' joints and a finger. From memory.</summary>
    public const double FromWallMm = 5;

    private readonly Box<PanelSpace> _inside;
    private readonly EmitterType _type;
    private readonly EmitterFigures _figures;
    private readonly ImmutableArray<Region<PanelSpace>> _taken;

    /// <param name="inside">The box's floor.</param>
    /// <param name="type">The emitters.</param>
    /// <param name="figures">What one gives.</param>
    /// <param name="taken">What stands on the floor already.</param>
    /// <param name="walled">What has walls: cells, and blocks that the floor is cut off for.</param>
    public EmitterPlaces(Box<PanelSpace> inside, EmitterType type, EmitterFigures figures, IEnumerable<Region<PanelSpace>> taken, IEnumerable<Box<PanelSpace>> walled)
    {
        (_inside, _type, _figures) = (inside, type, figures);
        var away = IsSingle ? Math.Max(AroundMm, FromWallMm - (type.HeightMm / 2)) : AroundMm;
        _taken = [.. taken.Where(region => !region.IsEmpty).Select(region => region.Grow(AroundMm)), .. walled.Select(box => Region<PanelSpace>.Rectangle(box.Grow(away)))];
    }

    /// <summary>All places on offer.</summary>
    public ImmutableArray<EmitterUnit> All() =>
    [
        .. (IsSingle ? Singles() : Pieces(turned: false).Concat(Pieces(turned: true))).Where(IsFree),
    ];

    /// <summary>Columns and rows spread evenly over the floor, what stands in the way left out; of strips whole rows.</summary>
    public ImmutableArray<EmitterUnit> Grid(int columns, int rows) =>
    [
        .. (from row in Enumerable.Range(0, rows)
            from column in Enumerable.Range(0, columns)
            select UnitAt(
                IsSingle ? _inside.LeftMm + ((column + 0.5) * _inside.WidthMm / columns) : _inside.Centre.XMm + ((column + 0.5 - (columns / 2.0)) * Long),
                _inside.BottomMm + ((row + 0.5) * _inside.HeightMm / rows),
                turned: false)).Where(IsFree),
    ];

    /// <summary>How many units at most lie in a row.</summary>
    public int MostColumns => IsSingle ? 40 : Math.Max(1, (int)(_inside.WidthMm / Long));

    private bool IsSingle => _type.Form == EmitterForm.Single;

    /// <summary>How far a middle stays from the walls; in a box that is too narrow for that it stands amid.</summary>
    private double WallMm => Math.Min(FromWallMm, Math.Min(_inside.WidthMm, _inside.HeightMm) / 2);

    /// <summary>A unit's length.</summary>
    private double Long => _type.WidthMm * _type.UnitCount;

    /// <summary>The unit in a place, free or not.</summary>
    public EmitterUnit UnitAt(double xMm, double yMm, bool turned)
    {
        var (width, height) = turned ? (_type.HeightMm, Long) : (Long, _type.HeightMm);
        return new(
            [.. Enumerable.Range(0, _type.UnitCount).Select(index =>
            {
                var along = (index + 0.5 - (_type.UnitCount / 2.0)) * _type.WidthMm;
                return new Emitter(turned ? new(xMm, yMm + along) : new(xMm + along, yMm), _figures.FluxLumens, _type.HalfAngleDegrees);
            })],
            new(xMm - (width / 2), yMm - (height / 2), width, height));
    }

    /// <summary>Whether nothing stands there.</summary>
    public bool IsFree(EmitterUnit unit) =>
        _inside.Grow(1e-6).Contains(unit.Footprint) && (!IsSingle || _inside.Grow(1e-6 - WallMm).Contains(unit.Footprint.Centre)) && !_taken.Any(taken => taken.Bounds.Overlaps(unit.Footprint) && taken.Touches(Region<PanelSpace>.Rectangle(unit.Footprint)));

    private IEnumerable<EmitterUnit> Singles()
    {
        var least = Math.Max(LeastStepMm, _type.WidthMm);
        var floor = _inside.Grow(-Math.Max(0, WallMm - (least / 2)));
        var step = Math.Max(least, Math.Sqrt(floor.WidthMm * floor.HeightMm / MostPlaces));
        var (columns, rows) = (Math.Max(1, (int)(floor.WidthMm / step)), Math.Max(1, (int)(floor.HeightMm / step)));
        return from row in Enumerable.Range(0, rows)
               from column in Enumerable.Range(0, columns)
               select UnitAt(floor.LeftMm + ((column + 0.5) * floor.WidthMm / columns), floor.BottomMm + ((row + 0.5) * floor.HeightMm / rows), turned: false);
    }

    /// <summary>Pieces of strip end to end in rows, and half a piece further; upright ones likewise.</summary>
    private IEnumerable<EmitterUnit> Pieces(bool turned)
    {
        var (along, across) = turned ? (_inside.HeightMm, _inside.WidthMm) : (_inside.WidthMm, _inside.HeightMm);
        var fit = (int)(along / Long);
        var rows = Math.Max(1, (int)((across - _type.HeightMm) / RowStepMm) + 1);
        while (rows > 1 && rows * 2 * fit > MostPlaces / 2)
        {
            rows--;
        }

        for (var row = 0; row < rows; row++)
        {
            var at = (_type.HeightMm / 2) + (rows == 1 ? (across - _type.HeightMm) / 2 : row * (across - _type.HeightMm) / (rows - 1));
            foreach (var count in new[] { fit, fit - 1 })
            {
                for (var piece = 0; piece < count; piece++)
                {
                    var middle = (along / 2) + ((piece + 0.5 - (count / 2.0)) * Long);
                    yield return turned
                        ? UnitAt(_inside.LeftMm + at, _inside.BottomMm + middle, turned)
                        : UnitAt(_inside.LeftMm + middle, _inside.BottomMm + at, turned);
                }
            }
        }
    }
}
