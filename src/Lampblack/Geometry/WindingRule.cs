using System;

namespace Lampblack.Geometry;

/// <summary>Which places are inside, by how often the rings of two sets go around them; both counts are kept in one number.</summary>
/// <param name="SecondFrom">The first ring of the second set; those before it are of the first one.</param>
/// <param name="IsIn">Whether a place is inside, by the turns of the first set and of the second around it.</param>
internal sealed record WindingRule(int SecondFrom, Func<int, int, bool> IsIn)
{
    private const long SecondTurn = 1L << 32;

    /// <summary>One set only, by a fill rule.</summary>
    public static WindingRule Of(FillRule rule) => new(int.MaxValue, rule == FillRule.NonZero ? (turns, _) => turns != 0 : (turns, _) => turns % 2 != 0);

    /// <summary>What crossing a side of a ring from its right to its left adds.</summary>
    public long Turns(int ring) => ring < SecondFrom ? 1 : SecondTurn;

    /// <summary>Whether a place with these turns is inside.</summary>
    public bool IsInside(long winding)
    {
        var first = (int)winding;
        return IsIn(first, (int)((winding - first) / SecondTurn));
    }
}
