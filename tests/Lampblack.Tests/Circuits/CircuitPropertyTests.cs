using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Circuits;
using Xunit;

namespace Lampblack.Tests.Circuits;

/// <summary>What holds for every circuit. Wishes are drawn by a generator with a fixed seed, so that a failure can be repeated.</summary>
public sealed class CircuitPropertyTests
{
    private static readonly double[] Odd = [double.NaN, double.PositiveInfinity, double.NegativeInfinity, -1, 0, 1e-300, 1e300, 12, 0.02];

    [Fact]
    public void Preferred_values_are_never_below_what_is_asked_for_and_the_one_before_is()
    {
        foreach (var series in Enum.GetValues<ResistorSeries>())
        {
            // All values from 1 Ω to 10 MΩ, made another way: by decades one behind the other.
            var decade = PreferredValues.Decade(series);
            var all = Enumerable.Range(0, 7).SelectMany(power => decade.Select(value => value / (double)decade[0] * Math.Pow(10, power))).ToList();
            for (var ohms = 1.003; ohms < 9e6; ohms *= 1.0071)
            {
                var next = PreferredValues.NextAbove(series, ohms);
                Assert.InRange(next, ohms, double.MaxValue);
                Assert.Equal(next, PreferredValues.NextAbove(series, next));
                Assert.DoesNotContain(all, value => value >= ohms && value < next * (1 - 1e-9));
            }
        }

        Assert.Equal([1.0, 1, 1, 1, 1e7, 4.7], new[] { double.NaN, -3, 0, 1, 1e12, 4.6 }.Select(ohms => PreferredValues.NextAbove(ResistorSeries.E12, ohms)));
    }

    [Fact]
    public void Sound_circuits_keep_their_currents_within_bounds_and_leave_no_lamp_out()
    {
        var random = new Random(7);
        var strings = 0;
        for (var trial = 0; trial < 400; trial++)
        {
            var wish = Sound(random);
            var plan = CircuitDesign.Of(wish);
            foreach (var channel in plan.Channels.Where(channel => channel.Channel.Feed is SingleDiodes))
            {
                var feed = (SingleDiodes)channel.Channel.Feed;
                Assert.Equal(channel.Channel.Count, channel.Strings.Sum(kind => kind.StringCount * kind.String.DiodeCount));
                var hasRoom = !plan.Issues.Any(issue => issue is NoHeadroom && issue.Channel == channel.Channel.Name);
                foreach (var kind in channel.Strings)
                {
                    strings++;
                    Assert.InRange(kind.NominalAmperes, kind.LowestAmperes, kind.HighestAmperes);
                    Assert.InRange(kind.NominalAmperes, 0, feed.WantedAmperes * (1 + 1e-9));
                    Assert.InRange(kind.HighestAmperes, 0, feed.MostAmperes * (1 + 1e-9));
                    Assert.InRange(kind.RatingWatts, 2 * kind.ResistorWatts, double.MaxValue);
                    Assert.Contains(kind.String.ResistorOhms, new[] { PreferredValues.NextAbove(wish.Series, kind.String.ResistorOhms) });

                    // What the diodes take and what the resistor takes is the supply, and something is left for the resistor.
                    var diodes = kind.String.DiodeCount * feed.Curve.VoltsAt(kind.NominalAmperes);
                    Assert.Equal(wish.SupplyVolts, diodes + (kind.NominalAmperes * kind.String.ResistorOhms), 1e-9 * wish.SupplyVolts);
                    Assert.InRange(diodes, 0, wish.SupplyVolts);
                    if (hasRoom)
                    {
                        Assert.InRange(kind.LowestAmperes, feed.WantedAmperes / 3, feed.MostAmperes);
                    }
                }
            }

            Assert.Equal(plan.Channels.Sum(channel => channel.NominalAmperes) + wish.OtherAmperes, plan.Supply.NominalAmperes, 1e-9);
            Assert.Equal(wish.SupplyVolts * plan.Supply.NominalAmperes, plan.Heat.Watts, 1e-9);
            Assert.True(plan.Wire.DropShare <= 0.03 || plan.Issues.Any(issue => issue is WireDrop), "a drop is told of");
        }

        Assert.InRange(strings, 400, int.MaxValue);
    }

    [Fact]
    public void Strings_are_as_few_as_their_length_allows_and_differ_by_one_lamp_at_most()
    {
        foreach (var count in Enumerable.Range(1, 40))
        {
            var strings = CircuitDesign.Of(Wishes.Diodes(24, DiodeCurve.Red, count)).Channels[0].Strings;
            var most = CircuitDesign.Of(Wishes.Diodes(24, DiodeCurve.Red, 1000)).Channels[0].Strings[0].String.DiodeCount;
            Assert.Equal((count + most - 1) / most, strings.Sum(kind => kind.StringCount));
            Assert.InRange(strings[0].String.DiodeCount - strings[^1].String.DiodeCount, 0, 1);
            Assert.Equal(strings.Length, strings.Select(kind => kind.String.DiodeCount).Distinct().Count());
        }
    }

    [Fact]
    public void The_longest_string_is_the_last_that_a_low_supply_leaves_a_third_of_the_current()
    {
        // Three white lamps at 12 V: four would need 13.2 V.
        Assert.Equal(3, CircuitDesign.Of(Wishes.Diodes(12, DiodeCurve.White, 30, 0.02)).Channels[0].Strings[0].String.DiodeCount);

        // Six red ones would fit 12 V by their volts (11.4), but not with a low supply.
        var six = CircuitDesign.Of(Wishes.Diodes(12, DiodeCurve.Red, 60));
        Assert.InRange(six.Channels[0].Strings[0].String.DiodeCount, 4, 5);
        var steady = CircuitDesign.Of(Wishes.Diodes(12, DiodeCurve.Red, 60) with { SupplyToleranceShare = 0, ResistorToleranceShare = 0 });
        Assert.InRange(steady.Channels[0].Strings[0].String.DiodeCount, six.Channels[0].Strings[0].String.DiodeCount, 6);
        Assert.Contains("one more in series would", six.Channels[0].Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void No_wish_is_refused_with_an_exception()
    {
        var random = new Random(11);
        var planned = 0;
        for (var trial = 0; trial < 3000; trial++)
        {
            var plan = CircuitDesign.Of(Any(random));
            planned += plan.Channels.Length;
            Assert.All(CircuitFindings.Of(plan), finding => Assert.NotEqual(string.Empty, finding.Message));
            Assert.True(double.IsFinite(plan.Supply.NominalAmperes) && double.IsFinite(plan.Wire.DropShare) && double.IsFinite(plan.Heat.InsideCelsius), "figures are numbers");
        }

        Assert.InRange(planned, 1000, int.MaxValue);
        Assert.Empty(CircuitDesign.Of(new CircuitWish(12, default)).Channels);
        Assert.Throws<ArgumentNullException>(() => CircuitDesign.Of(null!));
    }

    [Fact]
    public void Pixels_are_fed_so_that_no_stretch_carries_more_than_2_A()
    {
        foreach (var count in new[] { 1, 2, 33, 34, 67, 100, 547 })
        {
            var feeds = CircuitDesign.Of(Wishes.Of(5, Wishes.Pixels(count))).Channels[0].Pixels!.FeedAt;
            Assert.Equal(1, feeds[0]);
            foreach (var (from, to) in feeds.Zip(feeds.Skip(1).Append(count + 1)))
            {
                Assert.InRange((to - from) * 0.06, 0.06, 2);
            }
        }
    }

    /// <summary>A circuit that could be built.</summary>
    internal static CircuitWish Sound(Random random)
    {
        DiodeCurve[] curves = [DiodeCurve.Red, DiodeCurve.Amber, DiodeCurve.Green, DiodeCurve.Blue, DiodeCurve.White];
        var volts = new double[] { 5, 9, 12, 24, 36 }[random.Next(5)];
        var channels = Enumerable.Range(0, 1 + random.Next(3)).Select(index => new LampChannel(
            FormattableString.Invariant($"channel {index}"),
            new SingleDiodes(curves[random.Next(curves.Length)], 0.002 + (0.018 * random.NextDouble()), 0.03),
            1 + random.Next(60),
            random.Next(2) == 0));
        return new(volts, [.. channels])
        {
            SupplyToleranceShare = 0.1 * random.NextDouble(),
            ResistorToleranceShare = 0.1 * random.NextDouble(),
            Series = (ResistorSeries)random.Next(3),
            OtherAmperes = 0.1 * random.NextDouble(),
            WireLengthMm = 3000 * random.NextDouble(),
            Box = random.Next(2) == 0 ? null : new(200, 150, 40),
        };
    }

    private static CircuitWish Any(Random random)
    {
        return new(Value(12), random.Next(9) == 0 ? [] : [.. Channels()])
        {
            SupplyToleranceShare = Value(0.1),
            SupplyAmperes = Maybe(1),
            OtherAmperes = Value(0),
            Series = (ResistorSeries)random.Next(-1, 5),
            ResistorToleranceShare = Value(0.05),
            ResistorWatts = Value(0.25),
            WireLengthMm = Value(1000),
            WireAwg = random.Next(3) == 0 ? random.Next(-50, 50) : null,
            Box = random.Next(3) == 0 ? new(Value(200), Value(100), Value(40)) : null,
            AmbientCelsius = Value(20),
            ControllerVolts = Value(3.3),
            ClockHertz = Value(16e6),
            PwmHertz = Maybe(2000),
        };

        // Usual figures between odd ones, else most wishes would fall at the first check.
        double Value(double usual) => random.Next(8) switch { 0 => Odd[random.Next(Odd.Length)], 1 => Math.Pow(10, (random.NextDouble() * 12) - 6), 2 => random.NextDouble() * 24, _ => usual };

        double? Maybe(double usual) => random.Next(2) == 0 ? null : Value(usual);

        IEnumerable<LampChannel> Channels() => Enumerable.Range(0, random.Next(4)).Select(index => new LampChannel(
            index == 2 ? string.Empty : "channel ↯\u0007",
            random.Next(3) switch
            {
                0 => new SingleDiodes(random.Next(2) == 0 ? DiodeCurve.White : new(Value(1e-20), Value(2), Value(5)), Value(0.02), Value(0.03)) { SpreadVolts = Value(0.1) },
                1 => new CutStrip(Value(12), Value(0.02), random.Next(-2, 10)),
                _ => new AddressablePixels(Value(5), Value(0.06)) { OwnHertz = Value(430) },
            },
            random.Next(5) == 0 ? int.MaxValue : random.Next(-2, 300),
            random.Next(2) == 0));
    }
}
