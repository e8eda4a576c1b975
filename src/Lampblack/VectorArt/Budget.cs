using System;

namespace Lampblack.VectorArt;

/// <summary>Counts what a drawing asks for; beyond the limits reading ends at once with one finding.</summary>
internal sealed class Budget
{
    private long _corners;
    private long _elements;
    private long _dots;

    /// <summary>How many pairs of sides may still come near each other.</summary>
    public long MeetingsLeft = Limits.Meetings;

    /// <summary>How many dots of pictures may still be made.</summary>
    public long DotsLeft => Limits.PictureDots - _dots;

    /// <summary>Counts numbers of paths and corners of outlines.</summary>
    public void Spend(int corners)
    {
        if ((_corners += corners) > Limits.Corners)
        {
            throw new TooMuchException(TooMuch.Corners);
        }
    }

    /// <summary>Counts an element that is drawn; uses, clip paths, patterns, masks and markers are as much work as several.</summary>
    public void SpendElement(int weight = 1)
    {
        if ((_elements += weight) > Limits.Elements)
        {
            throw new TooMuchException(TooMuch.Elements);
        }
    }

    /// <summary>How many dots may still be painted, one over the other.</summary>
    public double PaintedDotsLeft { get; private set; } = Limits.PaintedDots;

    public void SpendDots(long dots, double painted)
    {
        _dots += dots;
        PaintedDotsLeft -= painted;
    }
}

/// <summary>What there is too much of.</summary>
internal enum TooMuch
{
    /// <summary>Elements drawn, copies included.</summary>
    Elements,

    /// <summary>Corners of outlines.</summary>
    Corners,

    /// <summary>Elements within elements.</summary>
    Depth,

    /// <summary>Outlines that cross.</summary>
    Meetings,

    /// <summary>Rules of style sheets.</summary>
    Rules,

    /// <summary>What can only be dots.</summary>
    Dots,
}

/// <summary>Ends the reading of a drawing that asks for too much; never leaves the reader.</summary>
internal sealed class TooMuchException(TooMuch what) : Exception
{
    public TooMuch What { get; } = what;
}
