namespace Lampblack.Books;

/// <summary>What a wire of the lamps' circuit ends at.</summary>
internal enum LampPlace
{
    /// <summary>A leg of an emitter, or a mark of a piece of strip.</summary>
    Emitter,

    /// <summary>The plus rail of a lamp board.</summary>
    Plus,

    /// <summary>The 0 V rail of a lamp board.</summary>
    Zero,

    /// <summary>The line of a channel's transistor that its emitters come back to.</summary>
    Drain,

    /// <summary>The free end of a string's resistor.</summary>
    Resistor,

    /// <summary>The part of a channel that its pin leads to.</summary>
    First,

    /// <summary>The data line of pixels.</summary>
    Data,

    /// <summary>The lamps' supply.</summary>
    Supply,

    /// <summary>GND of a controller.</summary>
    ControllerZero,

    /// <summary>A pin of a controller or register.</summary>
    Pin,
}

/// <summary>An end of such a wire.</summary>
/// <param name="Place">What it is.</param>
/// <param name="Words">What the book calls it.</param>
internal sealed record LampEnd(LampPlace Place, string Words)
{
    /// <summary>Which of the channel's strings, from 0; -1 where that does not matter.</summary>
    public int Piece { get; init; } = -1;

    /// <summary>Which controller, from 0; -1 for none.</summary>
    public int Controller { get; init; } = -1;

    /// <summary>The board whose rail it is; null for all else.</summary>
    public LampBoard? Board { get; init; }
}
