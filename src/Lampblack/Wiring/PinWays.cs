using System.Collections.Immutable;
using Lampblack.Desks;
using Lampblack.Parts;

namespace Lampblack.Wiring;

/// <summary>How contacts are read.</summary>
internal enum InputWay
{
    /// <summary>Each by a pin of its own.</summary>
    Direct,

    /// <summary>In rows and columns.</summary>
    Matrix,

    /// <summary>By shift registers.</summary>
    Chain,
}

/// <summary>One way to plan a controller.</summary>
/// <param name="Input">How contacts are read.</param>
/// <param name="LadderCount">How many selectors, the largest first, are read through ladders.</param>
/// <param name="HasOutputChain">Whether indicators are driven by shift registers.</param>
internal sealed record PinWay(InputWay Input, int LadderCount, bool HasOutputChain)
{
    /// <summary>How many contacts may have pins of their own, which then lie on as few ports as can be; null for as many as there are pins, each the plainest.</summary>
    public int? MostDirect { get; init; }
}

/// <summary>What one controller has to do.</summary>
/// <param name="Index">Which it is.</param>
/// <param name="Wish">What the maker wants.</param>
/// <param name="Needs">What is to be wired to it.</param>
/// <param name="Dimmers">What it dims.</param>
internal sealed record PinTask(int Index, ControllerWish Wish, ImmutableArray<WiredNeed> Needs, ImmutableArray<DimmerNeed> Dimmers)
{
    /// <summary>A scan takes an eighth of a millisecond for each column: more than eight are never needed on the largest chip.</summary>
    public const int MostColumns = 8;

    /// <summary>A byte is read each eighth of a millisecond: so many take 3 ms.</summary>
    public const int MostChips = 24;

    /// <summary>So many registers drive lamps: the firmware's memory on the smallest chip.</summary>
    public const int MostOutputChips = 8;

    /// <summary>So many encoders does the firmware follow.</summary>
    public int MostEncoders => Controller.Chip switch { ControllerChip.ATmega2560 => 16, ControllerChip.ATmega32U4 => 10, _ => 8 };

    /// <summary>The controller.</summary>
    public Controller Controller => Wish.Controller;
}
