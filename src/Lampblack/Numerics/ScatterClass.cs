using System.Collections.Immutable;

namespace Lampblack.Numerics;

/// <summary>Unknowns that scatter alike from group to group, and what is believed of that before anything was measured.</summary>
/// <param name="Unknowns">Their numbers, from 0.</param>
/// <param name="PriorSds">The standard deviation that each is believed to scatter by, in its own unit.</param>
/// <param name="PriorDegrees">How many observed deviations that belief is worth; above 2.</param>
public sealed record ScatterClass(ImmutableArray<int> Unknowns, ImmutableArray<double> PriorSds, double PriorDegrees);

/// <summary>How much one class of unknowns scatters.</summary>
/// <param name="TimesPrior">Its scale, in units of the prior's: each unknown's predictive distribution is Student's t with this scale.</param>
/// <param name="Degrees">Degrees of freedom of that.</param>
public sealed record ScatterEstimate(double TimesPrior, double Degrees);
