using System.Linq;
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
    [InlineData(70_000, false)]
    [InlineData(140_000, false)]
    [InlineData(long.MaxValue, true)]
    public void A_search_that_ends_early_gives_a_plan_that_works_and_a_bound_that_holds(long steps, bool isStopped)
    {
        const int optimum = 2397;
        var task = Published.Task("cgcut2", kerfMm: 1);
        using var stop = new CancellationTokenSource();
        if (isStopped)
        {
            stop.Cancel();
        }

        var plan = CutSearch.Run(task, new(steps, stop.Token));
        Assert.Empty(PlanValidator.Faults(task, plan));
        Assert.InRange(plan.Value, 1, optimum);
        Assert.True(plan.Bound >= optimum);
        Assert.Equal((false, isStopped), (plan.IsProven, plan.IsStopped));
    }

    [Fact]
    public void The_same_task_gives_the_same_plan()
    {
        var task = Published.Task("cgcut3", rotate: true);
        var plans = new[] { 0, 1 }.Select(_ => CutSearch.Run(task, new(2_000_000_000, CancellationToken.None))).ToList();
        Assert.Equal(plans[0].Plates[0].Cuts, plans[1].Plates[0].Cuts);
        Assert.Equal(plans[0].Steps, plans[1].Steps);
    }
}
