using Lampblack.Geometry;

namespace Lampblack.Sheets;

/// <summary>
/// A register mark, in a calibration sheet's size. Its front is a black square with a round window and, around it, bright cells that tell its number; its back, in K alone,
/// is a disc that stands in the middle of the window, with dark cells around it that tell the same number. Held to a lamp, disc and window show how side 2 lies.
/// </summary>
/// <param name="Number">Its number, from 1 on.</param>
/// <param name="Place">The middle of both, in front view.</param>
public sealed record RegisterMark(int Number, Point<SheetSpace> Place)
{
    /// <summary>Marks on other sheets than a calibration sheet are so many times as large.</summary>
    public const double SmallShare = 0.6;

    /// <summary>Half the side of the black square.</summary>
    public const double HalfSquareMm = 9.5;

    /// <summary>Radius of the window in the front.</summary>
    public const double WindowRadiusMm = 6;

    /// <summary>From here to <see cref="FrontCellsOuterMm"/> the front's cells reach; each is an arc of 30 degrees.</summary>
    public const double FrontCellsInnerMm = 7.2;

    /// <summary>Where the front's cells end.</summary>
    public const double FrontCellsOuterMm = 8.8;

    /// <summary>Radius of the disc on the back.</summary>
    public const double DiscRadiusMm = 1.5;

    /// <summary>From here to <see cref="BackCellsOuterMm"/> the back's cells reach.</summary>
    public const double BackCellsInnerMm = 2.3;

    /// <summary>Where the back's cells end: a shift of 2.9 mm takes them to the window's edge.</summary>
    public const double BackCellsOuterMm = 3.1;

    /// <summary>The cells of both sides, by <see cref="RingCodes.Of"/>.</summary>
    public int Cells => RingCodes.Of(Number);
}
