using System.Collections.Generic;
using System.Collections.Immutable;
using System.Threading;
using Lampblack.Findings;

namespace Lampblack.Jobs;

/// <summary>Begins to listen to a panel.</summary>
public static class Listen
{
    /// <summary>Reads what is needed to understand the panel.</summary>
    /// <param name="desk">The desk; null where a file of pins says all.</param>
    /// <param name="plan">A file of pins, which goes before the desk's own; empty for none.</param>
    /// <param name="planName">That file's name for findings.</param>
    /// <param name="cancellation">Stops the planning of a desk that was never built.</param>
    /// <returns>The listening; null beside a <c>stop</c> finding.</returns>
    public static Checked<Listening?> Begin(DeskSource? desk, ImmutableArray<byte> plan, string planName, CancellationToken cancellation = default)
    {
        List<Finding> findings = [];
        var expected = LinkPlans.Of(desk, plan, planName, findings, cancellation);
        return new(expected is null ? null : new(expected), [.. findings]);
    }
}
