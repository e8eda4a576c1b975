namespace Lampblack.Parts;

/// <summary>A hole beside the main one.</summary>
/// <param name="XMm">Its centre to the right of the part's anchor, in mm.</param>
/// <param name="YMm">Its centre above the part's anchor, in mm.</param>
/// <param name="Diameter">Its diameter; the source covers its place too.</param>
/// <param name="Purpose">What it takes, in plain words: "screw M3", "locating lug".</param>
public sealed record ExtraHole(double XMm, double YMm, Figure Diameter, string Purpose);

/// <summary>A straight notch filed into the edge of a round hole, so that the part can't turn.</summary>
/// <param name="Width">Across the notch.</param>
/// <param name="Depth">From the circle outwards to the notch's bottom.</param>
/// <param name="DirectionDegrees">Where it stands, counter-clockwise from the x axis: 90 is on top.</param>
public sealed record KeyNotch(Figure Width, Figure Depth, double DirectionDegrees);

/// <summary>
/// The room a part takes behind the panel, terminals included: a box centred on the anchor.
/// Where the real body stands to one side, the box is wide enough for both.
/// </summary>
/// <param name="Width">Along x.</param>
/// <param name="Height">Along y.</param>
/// <param name="Depth">From the back of the panel.</param>
/// <param name="IsRound">Whether it is a barrel: width and height are its diameter.</param>
public sealed record Body(Figure Width, Figure Height, Figure Depth, bool IsRound = false);

/// <summary>The lever of a toggle, in front of the panel.</summary>
/// <param name="Length">From the panel to the tip.</param>
/// <param name="Tip">Diameter of the tip.</param>
/// <param name="SwingDegrees">From upright to either end.</param>
public sealed record Lever(Figure Length, Figure Tip, double SwingDegrees);

/// <summary>Where a lever, key or knob can stand.</summary>
/// <param name="Count">How many positions.</param>
/// <param name="StepDegrees">Angle from one to the next.</param>
/// <param name="CentreDegrees">The direction in the middle of all, counter-clockwise from the x axis: 90 is up.</param>
public sealed record Positions(int Count, double StepDegrees, double CentreDegrees);
