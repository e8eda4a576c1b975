using System;
using System.Linq;
using Lampblack.Parts;
using Xunit;

namespace Lampblack.Tests.Parts;

public sealed class DrillSetTests
{
    [Theory]
    [InlineData(4, 1.588)] // 1/16
    [InlineData(5, 1.984)] // 5/64
    [InlineData(8, 3.175)] // 1/8
    [InlineData(11, 4.366)]
    [InlineData(16, 6.350)] // 1/4
    [InlineData(24, 9.525)] // 3/8
    [InlineData(27, 10.716)]
    [InlineData(30, 11.906)] // 15/32: the hole of a standard toggle, computed from 25.4 mm (row 35)
    [InlineData(32, 12.700)] // 1/2
    public void Inch_drills_are_sixty_fourths(int count, double mm) => Assert.Equal(mm, DrillTables.OfSixtyFourths(count).DiameterMm, 0.0006);

    [Fact]
    public void Inch_drills_are_named_in_lowest_terms() => Assert.Equal(
        ["1/16 in", "15/32 in", "1/2 in", "33/64 in", "1 in", "1 1/4 in"],
        new[] { 4, 30, 32, 33, 64, 80 }.Select(count => DrillTables.OfSixtyFourths(count).Name));

    [Fact]
    public void Number_and_letter_drills_rise_without_a_slip_of_the_pen()
    {
        // Ends and inner figures as a published chart of number and letter drills has them: 1 = 0.2280, 2 = 0.2210, 4 = 0.2090, 7 = 0.2010, 10 = 0.1935,
        // 21 = 0.1590, 25 = 0.1495, A = 0.234, Z = 0.413 in (powertoolstoday.com, number and letter drill bit sizes; unitplanet.com).
        var byName = DrillTables.Numbers.Concat(DrillTables.Letters).ToDictionary(drill => drill.Name, drill => drill.DiameterMm / 25.4);
        foreach (var (name, inch) in new[] { ("number 1", 0.2280), ("number 2", 0.2210), ("number 4", 0.2090), ("number 7", 0.2010), ("number 10", 0.1935), ("number 21", 0.1590), ("number 25", 0.1495), ("letter A", 0.234), ("letter Z", 0.413) })
        {
            Assert.Equal(inch, byName[name], 1e-9);
        }

        Assert.Equal(60, DrillTables.Numbers.Length);
        Assert.Equal(26, DrillTables.Letters.Length);
        var all = DrillTables.Numbers.Concat(DrillTables.Letters).Select(drill => drill.DiameterMm).ToList();
        Assert.All(all.Zip(all.Skip(1)), pair => Assert.InRange(pair.Second - pair.First, 0.02, 0.4));
    }

    [Fact]
    public void The_nearest_drill_is_taken_and_one_too_small_counts_three_times()
    {
        var set = DrillSet.Of([DrillTables.OfMm(6), DrillTables.OfMm(6.35), DrillTables.OfMm(6.8)]);
        Assert.Equal((6.35, -0.05), Rounded(set.For(6.4)!));

        // 0.25 too small counts as 0.75, so that 0.3 too large is nearer.
        Assert.Equal((6.8, 0.2), Rounded(set.For(6.6)!));
        Assert.Equal((6.35, -0.07), Rounded(set.For(6.42)!));
        Assert.Equal((6.8, 0.3), Rounded(set.For(6.5)!));
        Assert.Null(set.For(6.9));
        Assert.NotNull(set.For(6.85));
    }

    [Fact]
    public void Every_size_finds_the_nearest_of_a_full_box()
    {
        var set = DrillSet.Of(DrillTables.Metric.Concat(DrillTables.Inch).Concat(DrillTables.Numbers).Concat(DrillTables.Letters));
        for (var mm = 1.0; mm < 13; mm += 0.01)
        {
            var choice = set.For(mm)!;
            Assert.Equal(choice.Drill.DiameterMm - mm, choice.ErrorMm, 1e-12);
            Assert.DoesNotContain(set.Drills, drill => drill.DiameterMm >= mm && drill.DiameterMm < mm + choice.ErrorMm - 1e-9);
        }
    }

    [Fact]
    public void An_empty_box_is_refused() => Assert.Throws<ArgumentException>(() => DrillSet.Of([]));

    private static (double, double) Rounded(DrillChoice choice) => (choice.Drill.DiameterMm, Math.Round(choice.ErrorMm, 6));
}
