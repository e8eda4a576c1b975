using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Wiring;

namespace Lampblack.RollCalls;

/// <summary>
/// Finds what is wrong from what frames said: every single fault is put into a model of the wires,
/// and those are named with which the model says, at every step, what the panel said.
/// </summary>
internal static class Diagnosis
{
    /// <summary>Faults that explain everything that did not fit, the likeliest first; empty where there is nothing to explain or no single fault explains it.</summary>
    /// <param name="plan">The controller.</param>
    /// <param name="controls">The controls that were called.</param>
    /// <param name="observed">What came of each step.</param>
    public static ImmutableArray<Fault> Explain(ControllerPlan plan, ImmutableArray<WiredControl> controls, ImmutableArray<Observed> observed)
    {
        WiringModel good = new(plan, null);
        List<Observed> odd = [];
        List<Observed> fine = [];
        List<Misfit> misfits = [];
        foreach (var one in observed)
        {
            var found = Comparison.Misfits(plan, good, controls[one.Step.Control], one).ToList();
            (found.Count > 0 ? odd : fine).Add(one);
            misfits.AddRange(found);
        }

        if (odd.Count == 0)
        {
            return [];
        }

        // What did not fit is the harder test and comes first, so that most faults are ruled out at once.
        ImmutableArray<Observed> order = [.. odd, .. fine];
        var suspects = Suspects.Of(plan, [.. misfits.Distinct().OrderBy(one => one.Kind).ThenBy(one => one.Number)]);
        var left = suspects.AsParallel().AsOrdered().Where(fault => Explains(plan, controls, order, fault)).ToList();
        return [.. left.OrderBy(fault => left.Count > 1 ? Against(plan, controls, observed, fault) : 0)];
    }

    /// <summary>The same for each control on its own, where several things are wrong at once.</summary>
    /// <param name="plan">The controller.</param>
    /// <param name="controls">The controls that were called.</param>
    /// <param name="observed">What came of each step.</param>
    public static ImmutableArray<(int Control, ImmutableArray<Fault> Faults)> ExplainEach(
        ControllerPlan plan, ImmutableArray<WiredControl> controls, ImmutableArray<Observed> observed)
    {
        WiringModel good = new(plan, null);
        var byControl = observed.GroupBy(one => one.Step.Control).ToLookup(steps => steps.Any(step => Comparison.Misfits(plan, good, controls[steps.Key], step).Any()));

        // Those who answered well still rule out what would have stopped them, too.
        ImmutableArray<Observed> fine = [.. byControl[false].SelectMany(steps => steps)];
        return [.. byControl[true].Select(steps => (steps.Key, Explain(plan, controls, [.. steps, .. fine])))];
    }

    private static int Against(ControllerPlan plan, ImmutableArray<WiredControl> controls, ImmutableArray<Observed> observed, Fault fault)
    {
        WiringModel wires = new(plan, fault);
        return observed.Sum(one => FirstEdges.Against(plan, wires, controls[one.Step.Control], one));
    }

    private static bool Explains(ControllerPlan plan, ImmutableArray<WiredControl> controls, ImmutableArray<Observed> observed, Fault fault)
    {
        WiringModel wires = new(plan, fault);
        return observed.All(one => Comparison.Fits(plan, wires, controls[one.Step.Control], one));
    }
}
