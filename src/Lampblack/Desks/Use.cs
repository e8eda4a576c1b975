namespace Lampblack.Desks;

/// <summary>How the desk is used; the rules of hand and eye go by it.</summary>
/// <param name="DistanceMm">From the eye to the panels.</param>
/// <param name="TwoHands">Whether both hands work controls at the same time.</param>
/// <param name="Gloves">Whether the hands wear gloves.</param>
/// <param name="Dim">Whether it is read by eyes that are used to the dark.</param>
public sealed record Use(double DistanceMm, bool TwoHands, bool Gloves, bool Dim)
{
    /// <summary>635 mm, one bare hand, a lit room: the farthest from which a summary of HF-STD-001B wants a panel read whose controls are worked. MIL-STD-1472 sizes its scales for 710 mm.</summary>
    public static Use Usual { get; } = new(635, TwoHands: false, Gloves: false, Dim: false);
}
