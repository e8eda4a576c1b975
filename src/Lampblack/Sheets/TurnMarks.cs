using Lampblack.Geometry;

namespace Lampblack.Sheets;

/// <summary>The boxes and the tick that tell how a sheet was turned: the same on production sheets, on which-way sheets and, smaller, in pictures of them.</summary>
internal static class TurnMarks
{
    private const double BoxMm = 5;
    private const double FrameMm = 0.25;

    /// <summary>A turn box with its letter beside it, towards the middle of the sheet.</summary>
    public static Region<SheetSpace> Box(string letter, Point<SheetSpace> middle, SheetRoom room)
    {
        var towards = middle.XMm < room.Paper.WidthMm / 2 ? 1 : -1;
        return Frame(middle, BoxMm, FrameMm).Union(
            SheetText.Centred(letter, 2.6, new(middle.XMm + (towards * ((BoxMm / 2) + 1.8)), middle.YMm), Side.Front));
    }

    /// <summary>A square frame.</summary>
    public static Region<SheetSpace> Frame(Point<SheetSpace> middle, double sideMm, double lineMm)
    {
        var box = new Box<SheetSpace>(middle.XMm - (sideMm / 2), middle.YMm - (sideMm / 2), sideMm, sideMm);
        return Region<SheetSpace>.Rectangle(box).Except(Region<SheetSpace>.Rectangle(box.Grow(-lineMm)));
    }

    /// <summary>A tick, heavy enough to be seen through the paper. Its long arm points up and to the right in front view.</summary>
    public static Region<SheetSpace> Tick(Point<SheetSpace> middle, double size = 1, bool mirrored = false)
    {
        var side = mirrored ? -size : size;
        return Region<SheetSpace>.Stroke(
            new(
                [new(middle.XMm - (1.5 * side), middle.YMm), new(middle.XMm - (0.4 * side), middle.YMm - (1.3 * size)), new(middle.XMm + (1.6 * side), middle.YMm + (1.5 * size))],
                Closed: false),
            0.8 * size,
            LineEnd.Round);
    }
}
