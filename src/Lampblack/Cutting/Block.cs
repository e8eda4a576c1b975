namespace Lampblack.Cutting;

/// <summary>Pieces that one run of cuts takes out of one rectangle: a single piece, or two blocks beside or above one another.</summary>
internal sealed class Block
{
    private Block()
    {
    }

    /// <summary>The widths that it fits.</summary>
    public Extent Wide { get; private init; }

    /// <summary>The heights that it fits.</summary>
    public Extent High { get; private init; }

    /// <summary>The kind of the piece; -1 for two blocks.</summary>
    public int Kind { get; private init; } = -1;

    /// <summary>Whether a piece lies turned, here or in any of its blocks.</summary>
    public bool IsTurned { get; private init; }

    /// <summary>Whether the cut between the two blocks is upright.</summary>
    public bool IsBeside { get; private init; }

    /// <summary>The left or lower block.</summary>
    public Block? First { get; private init; }

    /// <summary>The right or upper block.</summary>
    public Block? Second { get; private init; }

    /// <summary>What it is worth.</summary>
    public long Value { get; private init; }

    public static Block Piece(int kind, int width, int height, bool isTurned, long value, int narrowest) => new()
    {
        Kind = kind,
        Wide = new(width, narrowest <= 1),
        High = new(height, narrowest <= 1),
        IsTurned = isTurned,
        Value = value,
    };

    /// <summary>Two blocks beside one another.</summary>
    public static Block Beside(Block left, Block right, int narrowest) => new()
    {
        Wide = left.Wide.And(right.Wide),
        High = left.High.Both(right.High, narrowest),
        First = left,
        Second = right,
        IsBeside = true,
        IsTurned = left.IsTurned || right.IsTurned,
        Value = left.Value + right.Value,
    };

    /// <summary>Two blocks above one another.</summary>
    public static Block Above(Block lower, Block upper, int narrowest) => new()
    {
        Wide = lower.Wide.Both(upper.Wide, narrowest),
        High = lower.High.And(upper.High),
        First = lower,
        Second = upper,
        IsTurned = lower.IsTurned || upper.IsTurned,
        Value = lower.Value + upper.Value,
    };

    /// <summary>Whether the other is of no use where this one is there, both of the same pieces.</summary>
    public bool Covers(Block other, int narrowest) =>
        (!IsTurned || other.IsTurned) && Wide.Covers(other.Wide, narrowest) && High.Covers(other.High, narrowest);

    /// <summary>Whether it can be cut from such a plate.</summary>
    public bool Fits(int width, int height, bool hasGrain, int narrowest) =>
        !(hasGrain && IsTurned) && Wide.Serves(width, narrowest) && High.Serves(height, narrowest);
}
