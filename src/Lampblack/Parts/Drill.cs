namespace Lampblack.Parts;

/// <summary>A drill one can take in hand.</summary>
/// <param name="Name">As it is called and marked: "6.5 mm", "1/4 in", "number 7", "letter F".</param>
/// <param name="DiameterMm">Its diameter.</param>
public sealed record Drill(string Name, double DiameterMm);
