using System.Collections.Generic;
using System.Collections.Immutable;
using System.Threading;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Firmware;

namespace Lampblack.Jobs;

/// <summary>Begins to write a desk's firmware into a controller.</summary>
public static class Flash
{
    /// <summary>Makes what is written.</summary>
    /// <param name="desk">The desk; null where a file of pins says all.</param>
    /// <param name="plan">A file of pins, which goes before the desk's own; empty for none.</param>
    /// <param name="planName">That file's name for findings.</param>
    /// <param name="controller">Which controller, from 1.</param>
    /// <param name="cancellation">Stops the planning of a desk that was never built.</param>
    /// <returns>The writing; null beside a <c>stop</c> finding.</returns>
    public static Checked<Flashing?> Begin(DeskSource? desk, ImmutableArray<byte> plan, string planName, int controller, CancellationToken cancellation = default)
    {
        List<Finding> findings = [];
        if (LinkPlans.Of(desk, plan, planName, findings, cancellation) is not { } expected)
        {
            return new(null, [.. findings]);
        }

        var all = FirmwareFiles.Of(expected.Plan, findings);
        if (controller < 1 || controller > all.Length)
        {
            findings.Add(Finding.Stop("flash-controller", System.FormattableString.Invariant($"there is no controller {controller}: the desk has {all.Length}"), "name one with --controller, from 1"));
            return new(null, [.. findings]);
        }

        var one = all[controller - 1];
        if (one.Image is not { } image || findings.Any(finding => finding.Severity == Severity.Stop))
        {
            return new(null, [.. findings]);
        }

        var session = FlashSession.Begin(one.Chip, image.File);
        return new(session.Value is { } begun ? new(begun, one) : null, [.. findings, .. session.Findings]);
    }
}
