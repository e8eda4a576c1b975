using System.Threading;
using Lampblack.Cutting;
using Xunit;

namespace Lampblack.Tests.Cutting;

public sealed class PublishedTests
{
    /// <summary>
    /// Optima. Fixed and with demands: the papers, CHL5 and gcut1x1 also the test data of GuillotineModels.jl. Without demands: Cintra et al. (ime.usp.br/~glauber/gcut) and PackLib.
    /// With rotation and with a kerf: computed by a program of another kind than ours before this one was written.
    /// </summary>
    public static TheoryData<string, bool, bool, double, int> Optima => new()
    {
        { "cgcut1", false, false, 0, 244 },
        { "cgcut1", true, false, 0, 260 },
        { "cgcut1", false, true, 0, 249 },
        { "cgcut1", true, true, 0, 278 },
        { "cgcut1", false, false, 1, 177 },
        { "cgcut1", false, false, 2, 169 },
        { "cgcut1", false, false, 5, 68 },
        { "cgcut2", false, false, 0, 2892 },
        { "cgcut2", true, false, 0, 2901 },
        { "cgcut2", false, true, 0, 3076 },
        { "cgcut2", false, false, 1, 2397 },
        { "cgcut3", false, false, 0, 1860 },
        { "cgcut3", true, false, 0, 1920 },
        { "cgcut3", false, true, 0, 2240 },
        { "CHL5", false, false, 0, 390 },
        { "Wang1", false, false, 0, 2277 },
        { "Wang2", false, false, 0, 2694 },
        { "Wang3", false, false, 0, 2721 },
        { "gcut1", false, true, 0, 56460 },
        { "gcut1", true, true, 0, 58136 },
        { "gcut1", false, true, 2, 56460 },
        { "gcut2", false, true, 0, 60536 },
        { "gcut2", true, true, 0, 60611 },
        { "gcut2", false, true, 2, 59476 },
        { "gcut3", false, true, 0, 61036 },
        { "gcut3", true, true, 0, 61626 },
        { "gcut4", false, true, 0, 61698 },
        { "gcut4", true, true, 0, 62265 },
        { "gcut1x1", false, false, 0, 48368 },
        { "gcut1x1", true, false, 0, 58136 },
        { "gcut2x1", false, false, 0, 59307 },
    };

    [Theory]
    [MemberData(nameof(Optima))]
    public void The_published_optimum_is_found_and_proven(string name, bool rotate, bool isEndless, double kerfMm, int value)
    {
        var task = Published.Task(name, rotate, isEndless, kerfMm);
        var plan = CutSearch.Run(task, new(2_000_000_000, CancellationToken.None));
        Assert.Empty(PlanValidator.Faults(task, plan));
        Assert.Equal((value, value, true, false), ((int)plan.Value, (int)plan.Bound, plan.IsProven, plan.IsStopped));
    }

    [Theory]
    [InlineData("cgcut2")]
    [InlineData("cgcut3")]
    public void A_search_that_ends_early_gives_a_plan_and_a_bound_above_it(string name)
    {
        var task = Published.Task(name);
        var best = CutSearch.Run(task, new(2_000_000_000, CancellationToken.None)).Value;
        using var stopped = new CancellationTokenSource();
        stopped.Cancel();
        var plan = CutSearch.Run(task with { Rules = task.Rules with { KerfMm = 1 } }, new(70_000, CancellationToken.None));
        Assert.Empty(PlanValidator.Faults(task with { Rules = task.Rules with { KerfMm = 1 } }, plan));
        Assert.True(plan.Bound >= plan.Value);
        Assert.True(best > plan.Value);
    }
}
