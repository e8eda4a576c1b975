using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Cutting;
using Xunit;

namespace Lampblack.Tests.Cutting;

public sealed class CutSearchTests
{
    private static readonly CutEffort Enough = new(500_000_000, CancellationToken.None);

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 60)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void No_way_of_cutting_a_small_plate_is_worth_more(int seed)
    {
        var task = Small(seed) with { MostPlates = 1 };
        var plan = CutSearch.Run(task, Enough);
        Assert.Empty(PlanValidator.Faults(task, plan));
        Assert.True(plan.IsProven);
        Assert.Equal(new EveryCut(task, task.Rules.Rotate).BestValue(task.Stocks[0]), plan.Value);
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void No_way_of_cutting_takes_fewer_plates(int seed)
    {
        var task = Small(seed);
        var plan = CutSearch.Run(task, Enough);
        Assert.Empty(PlanValidator.Faults(task, plan));
        Assert.True(plan.IsProven);
        var fewest = new EveryCut(task, task.Rules.Rotate).FewestPlates(task.Stocks[0]);
        Assert.Equal(fewest == 0 ? plan.Left.Sum(left => left.Count) : 0, plan.Left.Sum(left => left.Count));
        Assert.Equal(fewest == 0 ? plan.Plates.Length : fewest, plan.Plates.Length);
        Assert.Equal(fewest == 0, !plan.Left.IsEmpty);
    }

    [Fact]
    public void As_many_plates_cost_the_least()
    {
        // Two plates in any case, as three halves are no plate; one of them may be the cheap small one.
        var task = new CutTask([new("a", 100, 100, 3)], [new("large", 200, 100) { Price = 5 }, new("small", 100, 100) { Price = 2 }], new(0, 0, true));
        var plan = CutSearch.Run(task, Enough);
        Assert.Equal((2, 7m, true), (plan.Plates.Length, plan.Plates.Sum(plate => plate.Stock.Price), plan.IsProven));
    }

    [Fact]
    public void Plates_that_are_owned_are_not_taken_more_often()
    {
        var task = new CutTask([new("a", 100, 100, 3)], [new("large", 200, 100) { Count = 1 }], new(0, 0, true));
        var plan = CutSearch.Run(task, Enough);
        Assert.Empty(PlanValidator.Faults(task, plan));
        Assert.Equal([("a", 1)], plan.Left);
    }

    [Theory]
    [InlineData(false, 2)]
    [InlineData(true, 1)]
    public void With_a_grain_nothing_is_turned(bool hasGrain, int count)
    {
        var task = new CutTask([new("a", 60, 100, 2)], [new("plate", 210, 60) { Count = 1, HasGrain = hasGrain }], new(0, 0, true));
        Assert.Equal(hasGrain ? 0 : count, CutSearch.Run(task, Enough).Plates.Sum(plate => plate.Pieces.Length));
    }

    [Theory]
    [InlineData(0, 290, 1)]
    [InlineData(25, 290, 0)]
    [InlineData(25, 275, 1)]
    [InlineData(25, 300, 1)]
    [InlineData(10, 290, 1)]
    public void A_strip_that_is_too_narrow_is_not_snapped_off(double narrowestMm, double widthMm, int count)
    {
        var task = new CutTask([new("a", widthMm, 100, 1)], [new("plate", 300, 100)], new(0, narrowestMm, false));
        var plan = CutSearch.Run(task, Enough);
        Assert.Empty(PlanValidator.Faults(task, plan));
        Assert.Equal(count, plan.Plates.Length);
        Assert.Equal(1 - count, CutSearch.TooLarge(task).Length);
    }

    [Fact]
    public void Hundredths_of_a_millimetre_count()
    {
        var task = new CutTask([new("a", 100.01, 50, 3)], [new("plate", 300, 50)], new(0, 0, false));
        Assert.Equal(2, CutSearch.Run(task, Enough).Plates.Length);
        Assert.Single(CutSearch.Run(task with { Stocks = [new("plate", 300.03, 50)] }, Enough).Plates);
    }

    [Fact]
    public void What_is_left_over_is_kept_in_one_long_strip()
    {
        var task = new CutTask([new("a", 80, 60, 2), new("b", 80, 100, 1)], [new("plate", 300, 400)], new(0, 25, true));
        var plan = CutSearch.Run(task, Enough);
        Assert.Empty(PlanValidator.Faults(task, plan));
        Assert.Contains(plan.Plates[0].Offcuts, offcut => offcut is { WidthMm: >= 200, HeightMm: 400 });
    }

    [Fact]
    public void Many_pieces_get_a_plan_that_works_and_a_bound()
    {
        var task = Many(40);
        var plan = CutSearch.Run(task, new(20_000_000, CancellationToken.None));
        Assert.Empty(PlanValidator.Faults(task, plan));
        Assert.Empty(plan.Left);
        Assert.InRange(plan.PlatesBound, 1, plan.Plates.Length);

        // The plates' area is a bound that needs no proof.
        var area = task.Pieces.Sum(piece => piece.WidthMm * piece.HeightMm);
        Assert.InRange(plan.Plates.Length, (int)System.Math.Ceiling(area / (300 * 400)), (int)System.Math.Ceiling(area / (300 * 400) * 1.5));
    }

    [Fact]
    public void Nothing_to_cut_is_no_fault() =>
        Assert.Equal((0, true), (CutSearch.Run(new([], [], new(0, 0, true)), Enough).Plates.Length, CutSearch.Run(new([], [], new(0, 0, true)), Enough).IsProven));

    [Fact]
    public void Broken_plans_are_told_from_good_ones()
    {
        var task = Many(12) with { Rules = new(2, 20, true) };
        var good = CutSearch.Run(task, new(5_000_000, CancellationToken.None));
        Assert.Empty(PlanValidator.Faults(task, good));
        var broken = Enumerable.Range(0, 100).Select(number => Breakages[number % Breakages.Length](good, number)).ToList();
        Assert.Equal([], broken.Select((plan, number) => (number, Faults: PlanValidator.Faults(task, plan).Count)).Where(plan => plan.Faults == 0).Select(plan => plan.number));
    }

    private static readonly ImmutableArray<System.Func<CutPlan, int, CutPlan>> Breakages =
    [
        (plan, number) => Plate(plan, number, plate => plate with { Cuts = plate.Cuts.RemoveAt(number % plate.Cuts.Length) }),
        (plan, number) => Plate(plan, number, plate => plate with { Cuts = Changed(plate.Cuts, number, cut => cut with { AtMm = cut.AtMm + 1 + (number / 10.0) }) }),
        (plan, number) => Plate(plan, number, plate => plate with { Cuts = Changed(plate.Cuts, number, cut => cut with { IsUpright = !cut.IsUpright }) }),
        (plan, number) => Plate(plan, number, plate => plate with { Cuts = [.. plate.Cuts.Reverse()] }),
        (plan, number) => Plate(plan, number, plate => plate with { Cuts = Changed(plate.Cuts, number, cut => cut with { InHand = cut.InHand with { WidthMm = cut.InHand.WidthMm + 5 } }) }),
        (plan, number) => Plate(plan, number, plate => plate with { Pieces = Changed(plate.Pieces, number, piece => piece with { Box = piece.Box with { XMm = piece.Box.XMm + 3 } }) }),
        (plan, number) => Plate(plan, number, plate => plate with { Pieces = plate.Pieces.RemoveAt(number % plate.Pieces.Length) }),
        (plan, number) => Plate(plan, number, plate => plate with { Pieces = plate.Pieces.Add(plate.Pieces[number % plate.Pieces.Length]) }),
        (plan, number) => Plate(plan, number, plate => plate with { Pieces = Changed(plate.Pieces, number, piece => piece with { Box = piece.Box with { HeightMm = piece.Box.HeightMm - 1 } }) }),
        (plan, number) => Plate(plan, number, plate => plate with { Offcuts = plate.Offcuts.Add(new(0, 0, 10 + number, 10)) }),
        (plan, number) => plan with { Value = plan.Value + 1 + number },
        (plan, number) => Plate(plan, number, plate => plate with { Stock = new("other", plate.Stock.WidthMm + number + 1, plate.Stock.HeightMm) }),
    ];

    private static CutPlan Plate(CutPlan plan, int number, System.Func<CutPlate, CutPlate> change) =>
        plan with { Plates = Changed(plan.Plates, number, change) };

    private static ImmutableArray<T> Changed<T>(ImmutableArray<T> all, int number, System.Func<T, T> change) =>
        all.SetItem(number % all.Length, change(all[number % all.Length]));

    private static CutTask Many(int count)
    {
        var chance = new Chance(7);
        return new([.. Enumerable.Range(0, count).Select(index => new CutPiece($"p{index}", chance.Whole(40, 160), chance.Whole(40, 160), 1))], [new("plate", 300, 400)], new(0, 25, true));
    }

    private static CutTask Small(int seed)
    {
        var chance = new Chance(seed);
        var pieces = new List<CutPiece>();
        for (var index = 0; index < 3 + (seed % 3); index++)
        {
            pieces.Add(new($"p{index}", chance.Whole(2, 7), chance.Whole(2, 7), 1) { Value = chance.Whole(1, 40) });
        }

        return new([.. pieces], [new("plate", chance.Whole(7, 13), chance.Whole(7, 13))], new(seed % 4 == 1 ? 1 : 0, seed % 4 >= 2 ? 2 : 0, seed % 2 == 0));
    }

    /// <summary>Numbers that look like chance and are always the same (Park and Miller, Communications of the ACM 31, 1988).</summary>
    private sealed class Chance(int seed)
    {
        private long _state = 1 + (seed * 7919L);

        public int Whole(int from, int to)
        {
            _state = _state * 48271 % 2147483647;
            return from + (int)(_state % (to - from + 1));
        }
    }
}
