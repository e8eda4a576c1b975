using System;

namespace Lampblack.Geometry;

/// <summary>A place on a grid, in steps. Differences of two stay below 2^31 steps, so their products are exact.</summary>
internal readonly record struct GridPoint(long X, long Y) : IComparable<GridPoint>
{
    public int CompareTo(GridPoint other) => X != other.X ? X.CompareTo(other.X) : Y.CompareTo(other.Y);
}

/// <summary>A straight side of a ring, in the ring's sense of turn.</summary>
/// <param name="Start">Where it begins.</param>
/// <param name="End">Where the ring's next side begins.</param>
/// <param name="Ring">Which ring it is of; the sides of a ring follow each other.</param>
/// <param name="Corner">Which corner of the input it begins in; -1 where sides were cut.</param>
internal readonly record struct GridSide(GridPoint Start, GridPoint End, int Ring, int Corner)
{
    /// <summary>Twice the signed area of the triangle with a place: above 0 where it lies to the left.</summary>
    public long Left(GridPoint place) => ((End.X - Start.X) * (place.Y - Start.Y)) - ((End.Y - Start.Y) * (place.X - Start.X));

    /// <summary>Whether a place on the side's line lies between its ends, ends excluded.</summary>
    public bool HasBetween(GridPoint place) => Start.CompareTo(place) is var order && order != 0 && order == place.CompareTo(End);

    /// <summary>How far a place lies along the side, as a product with its length.</summary>
    public long Along(GridPoint place) => ((End.X - Start.X) * (place.X - Start.X)) + ((End.Y - Start.Y) * (place.Y - Start.Y));
}
