using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Geometry;
using Lampblack.Illumination;
using Xunit;

namespace Lampblack.Tests.Illumination;

/// <summary>The search for the fewest emitters, against going through all choices.</summary>
public class EmitterSearchTests
{
    /// <summary>Small tasks of two kinds: a row of legends before a row of places, and numbers without any order.</summary>
    public static TheoryData<int, double, double?> Tasks => new()
    {
        { 1, 1.5, null }, { 2, 2, null }, { 3, 1.3, null }, { 4, 3, null }, { 5, 2, 0.6 }, { 6, 1.6, 0.5 }, { 7, 2.5, 0.4 },
        { 8, 2, null }, { 9, 1.4, null }, { 10, 1.7, 0.7 },
    };

    [Theory]
    [MemberData(nameof(Tasks))]
    public void NoChoiceOfFewerUnitsDoesWhatTheOneFoundDoes(int seed, double evenness, double? share)
    {
        var lights = Lights(seed);
        var wish = new PlanWish(evenness, 0.5, share);
        var found = Run(lights, wish);
        var fewest = Enumerable.Range(1, lights.Units.Length).FirstOrDefault(count => Choices(lights.Units.Length, count).Any(choice => Meets(lights, wish, choice)));
        if (fewest == 0)
        {
            Assert.False(found.IsMet);
            return;
        }

        Assert.True(found.IsMet);
        Assert.True(Meets(lights, wish, found.Units), "the choice does not do what it says");
        Assert.Equal(fewest, found.Units.Length);
        Assert.InRange(found.LeastUnits, 1, fewest);
    }

    [Fact]
    public void TheSameTaskGivesTheSameChoice()
    {
        var lights = Lights(3);
        var wish = new PlanWish(1.4, 0.5, null);
        Assert.Equal(Run(lights, wish).Units, Run(lights, wish).Units);
    }

    [Fact]
    public void WhatIsSaidToBeImpossibleIsImpossible()
    {
        // Six places in a row, legends right before them: one emitter can't light both ends alike.
        var lights = Row(6, heightMm: 20, pitchMm: 30);
        var found = Run(lights, new PlanWish(1.5, 0, null));
        Assert.True(found.LeastUnits > 1);
        for (var count = 1; count < found.LeastUnits; count++)
        {
            Assert.DoesNotContain(Choices(6, count), choice => Meets(lights, new PlanWish(1.5, 0, null), choice));
        }
    }

    [Fact]
    public void UnitsThatWouldLieOnEachOtherAreNotTakenTogether()
    {
        var lights = Row(8, heightMm: 30, pitchMm: 10) with { };
        var wide = lights with { Units = [.. lights.Units.Select(unit => unit with { Footprint = unit.Footprint.Grow(8) })] };
        var found = Run(wide, new PlanWish(1.3, 0, null));
        var boxes = found.Units.Select(unit => wide.Units[unit].Footprint).ToList();
        Assert.All(boxes, box => Assert.DoesNotContain(boxes, other => other != box && other.Overlaps(box, -1e-6)));
    }

    [Fact]
    public void AStoppedSearchSaysSo()
    {
        using var stopped = new CancellationTokenSource();
        stopped.Cancel();
        var found = EmitterSearch.Run(Lights(1), new PlanWish(1.01, 0, null), [], 20, 1, new Progress<string>(), stopped.Token);
        Assert.True(found.IsStopped);
        Assert.False(found.IsMet);
    }

    private static UnitChoice Run(UnitLights lights, PlanWish wish) => EmitterSearch.Run(lights, wish, [], 20, 1, new Progress<string>(), CancellationToken.None);

    private static bool Meets(UnitLights lights, PlanWish wish, IEnumerable<int> choice)
    {
        var units = choice.ToList();
        var sums = Enumerable.Range(0, lights.CandelaPerM2[0].Length).Select(piece => units.Sum(unit => (double)lights.CandelaPerM2[unit][piece])).ToList();
        var shares = sums.Select((sum, piece) => units.Max(unit => lights.LargestCandelaPerM2[unit][piece]) / sum);
        return sums.Min() > 0 && sums.Max() / sums.Min() <= wish.MostEvennessFactor * (1 + 1e-6) && sums.Average() >= wish.LeastMeanCandelaPerM2 * (1 - 1e-6)
            && (wish.MostOneShare is not { } most || shares.Max() <= most * (1 + 1e-6));
    }

    private static IEnumerable<ImmutableArray<int>> Choices(int of, int count, int from = 0)
    {
        if (count == 0)
        {
            yield return [];
            yield break;
        }

        for (var first = from; first <= of - count; first++)
        {
            foreach (var rest in Choices(of, count - 1, first + 1))
            {
                yield return rest.Insert(0, first);
            }
        }
    }

    private static UnitLights Lights(int seed)
    {
        if (seed % 2 == 0)
        {
            return Row(7 + (seed % 3), heightMm: 15 + seed, pitchMm: 20);
        }

        var random = new SeededRandom((ulong)seed);
        return Of(9, Enumerable.Range(0, 9).Select(_ => Enumerable.Range(0, 6).Select(_ => (float)(1 + random.Below(1000)) / 500).ToArray()).ToArray());
    }

    /// <summary>cos^4 from every place to every legend.</summary>
    private static UnitLights Row(int count, double heightMm, double pitchMm) => Of(
        count,
        [.. Enumerable.Range(0, count).Select(unit => Enumerable.Range(0, count).Select(piece => (float)Math.Pow(heightMm * heightMm / ((heightMm * heightMm) + Math.Pow((unit - piece) * pitchMm, 2)), 2)).ToArray())]);

    private static UnitLights Of(int count, float[][] light) => new(
        [.. Enumerable.Range(0, count).Select(index => new EmitterUnit([new Emitter(new(index * 10, 0), 1, 60)], new Box<PanelSpace>((index * 10) - 2, -2, 4, 4)))], light, light);
}
