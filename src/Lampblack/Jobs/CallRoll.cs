using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Layout;

namespace Lampblack.Jobs;

/// <summary>Begins to call the roll of a panel.</summary>
public static class CallRoll
{
    /// <summary>Reads what is needed.</summary>
    /// <param name="desk">The desk; null where a file of pins says all.</param>
    /// <param name="plan">A file of pins, which goes before the desk's own; empty for none.</param>
    /// <param name="planName">That file's name for findings.</param>
    /// <param name="only">Ids that are called, or "panel/" for all of a panel, "row 2" for all of a row, "column 1"; empty for all.</param>
    /// <param name="record">An earlier record, whose controls that answered are not called again; empty for none.</param>
    /// <param name="recordName">That file's name for findings.</param>
    /// <param name="isSimulated">Whether the panel is a simulated one: its record is never taken for that of a real panel.</param>
    /// <param name="cancellation">Stops the planning of a desk that was never built.</param>
    /// <returns>The roll-call; null beside a <c>stop</c> finding.</returns>
    public static Checked<RollCalling?> Begin(
        DeskSource? desk, ImmutableArray<byte> plan, string planName, ImmutableArray<string> only, ImmutableArray<byte> record, string recordName,
        bool isSimulated = false, CancellationToken cancellation = default)
    {
        List<Finding> findings = [];
        if (LinkPlans.Of(desk, plan, planName, findings, cancellation) is not { } expected)
        {
            return new(null, [.. findings]);
        }

        var ids = RollCallChoice.Of(expected.Plan, only, findings);
        var earlier = record.IsDefaultOrEmpty ? [] : RollCallFile.Earlier(record.AsSpan(), recordName, RollCalling.MarkOf(expected, isSimulated), findings);

        // The layout only shows where a control is; what is wrong with the desk is told elsewhere.
        LaidDesk? laid = desk is null ? null : DeskLoading.Load(desk, []);
        return new(findings.Any(finding => finding.Severity == Severity.Stop) ? null : new(expected, ids, earlier, laid, isSimulated), [.. findings]);
    }
}
