using System.Collections.Immutable;

namespace Lampblack.Numerics;

/// <summary>One equation about the unknowns: the sum of coefficient times unknown was seen to be a value, give or take a standard deviation.</summary>
/// <remarks>What was known before anything was measured is an observation too: of one unknown, with the spread that it is believed to have.</remarks>
/// <param name="Coefficients">One for each unknown.</param>
/// <param name="Value">What was seen.</param>
/// <param name="Sd">Standard deviation of what was seen; above 0.</param>
public sealed record Observation(ImmutableArray<double> Coefficients, double Value, double Sd);
