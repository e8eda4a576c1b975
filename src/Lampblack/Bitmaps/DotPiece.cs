using System;

namespace Lampblack.Bitmaps;

/// <summary>Set dots that hang together over sides or corners, as far as they have been seen.</summary>
internal struct DotPiece
{
    /// <summary>No run, or no piece.</summary>
    public const int None = -1;

    /// <summary>The piece it became part of; itself where it is not part of another.</summary>
    public int Owner;

    /// <summary>How many dots.</summary>
    public long Dots;

    public int Left;
    public int Top;
    public int Right;
    public int Bottom;

    /// <summary>Its runs in the pool, as long as they are few.</summary>
    public int FirstRun;
    public int LastRun;

    /// <summary>The last row it was met in.</summary>
    public int LastRow;

    public readonly DotBox Box => new(Left, Top, Right - Left, Bottom - Top);

    public static DotPiece At(int owner) => new()
    {
        Owner = owner,
        Left = int.MaxValue,
        Top = int.MaxValue,
        FirstRun = None,
        LastRun = None,
    };

    public void Include(int left, int top, int right, int bottom)
    {
        Left = Math.Min(Left, left);
        Top = Math.Min(Top, top);
        Right = Math.Max(Right, right);
        Bottom = Math.Max(Bottom, bottom);
    }
}
