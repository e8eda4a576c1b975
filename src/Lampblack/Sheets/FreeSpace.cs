using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Sheets;

/// <summary>
/// What is still free of a sheet, as the largest upright rectangles that fit; they overlap each other. The method of maximal rectangles,
/// placing by best short side (J. Jylänki, "A Thousand Ways to Pack the Bin", 2010; from memory).
/// </summary>
internal sealed class FreeSpace
{
    private const double SlackMm = 1e-6;
    private List<Box<SheetSpace>> _free;

    public FreeSpace(Box<SheetSpace> room) => _free = [room];

    private FreeSpace(List<Box<SheetSpace>> free) => _free = free;

    public FreeSpace Copy() => new([.. _free]);

    /// <summary>The lower-left place that leaves least over for a rectangle of this size; null where it doesn't fit.</summary>
    public Box<SheetSpace>? Find(double widthMm, double heightMm)
    {
        Box<SheetSpace>? best = null;
        var score = (Short: double.MaxValue, Long: double.MaxValue);
        foreach (var free in _free.Where(free => free.WidthMm >= widthMm - SlackMm && free.HeightMm >= heightMm - SlackMm))
        {
            var overX = free.WidthMm - widthMm;
            var overY = free.HeightMm - heightMm;
            var here = (Math.Min(overX, overY), Math.Max(overX, overY));
            if (here.CompareTo(score) < 0)
            {
                score = here;
                best = new(free.LeftMm, free.BottomMm, widthMm, heightMm);
            }
        }

        return best;
    }

    /// <summary>The place nearest to a target for a rectangle of this size; null where it doesn't fit.</summary>
    public Box<SheetSpace>? FindNear(double widthMm, double heightMm, Point<SheetSpace> target) => _free
        .Where(free => free.WidthMm >= widthMm - SlackMm && free.HeightMm >= heightMm - SlackMm)
        .Select(free => new Box<SheetSpace>(
            Math.Clamp(target.XMm - (widthMm / 2), free.LeftMm, Math.Max(free.LeftMm, free.RightMm - widthMm)),
            Math.Clamp(target.YMm - (heightMm / 2), free.BottomMm, Math.Max(free.BottomMm, free.TopMm - heightMm)),
            widthMm, heightMm))
        .Cast<Box<SheetSpace>?>()
        .MinBy(box => box!.Value.Centre.DistanceMm(target));

    /// <summary>Takes a rectangle away.</summary>
    public void Take(Box<SheetSpace> taken)
    {
        var cut = new List<Box<SheetSpace>>();
        foreach (var free in _free)
        {
            if (!free.Overlaps(taken, SlackMm))
            {
                cut.Add(free);
                continue;
            }

            Add(cut, free.LeftMm, free.BottomMm, taken.LeftMm, free.TopMm);
            Add(cut, taken.RightMm, free.BottomMm, free.RightMm, free.TopMm);
            Add(cut, free.LeftMm, free.BottomMm, free.RightMm, taken.BottomMm);
            Add(cut, free.LeftMm, taken.TopMm, free.RightMm, free.TopMm);
        }

        // What lies inside another free rectangle says nothing new; of two equal ones the first stays.
        _free =
        [
            .. cut.Where((free, index) => !cut.Where((other, place) => place != index
                && other.Grow(SlackMm).Contains(free) && (place < index || !free.Grow(SlackMm).Contains(other))).Any())
                .OrderBy(free => free.BottomMm).ThenBy(free => free.LeftMm).ThenBy(free => free.WidthMm),
        ];
    }

    private static void Add(List<Box<SheetSpace>> boxes, double left, double bottom, double right, double top)
    {
        if (right - left > 1 && top - bottom > 1)
        {
            boxes.Add(new(left, bottom, right - left, top - bottom));
        }
    }
}
