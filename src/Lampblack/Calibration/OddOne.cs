using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Numerics;
using Lampblack.Printers;

namespace Lampblack.Calibration;

/// <summary>Looks whether the readings of one sheet fit together, and if not, which slip explains it best.</summary>
/// <remarks>
/// Readings fit where no residual is more than 4 of its own standard deviations (W. Baarda's data snooping). Where one is, every single slip that
/// makers make is tried in turn: a sign, two places or two directions swapped, one number or one place that is simply wrong, a scaled page.
/// The one that leaves least over is named; each number that it leaves free costs 6.
/// </remarks>
internal sealed class OddOne
{
    private const double Limit = 4;
    private const double CostOfFreedom = 6;
    private const double NearlyAsGood = 4;
    private const double LooseStretchShare = 0.05;

    private OddOne(string message, string hint, double? stretchShare)
    {
        Message = message;
        Hint = hint;
        StretchShare = stretchShare;
    }

    /// <summary>What does not fit.</summary>
    public string Message { get; }

    /// <summary>What to look at.</summary>
    public string Hint { get; }

    /// <summary>The stretch that would explain it, if that is the best explanation.</summary>
    public double? StretchShare { get; }

    /// <summary>The slip that explains readings which do not fit together; null where they fit.</summary>
    public static OddOne? In(ImmutableArray<SheetReading> readings)
    {
        if (readings.Length < 2 || Worst(readings, false) <= Limit)
        {
            return null;
        }

        var slips = Slips(readings).OrderBy(slip => slip.Score).ToList();
        var best = slips.FirstOrDefault(slip => slip.Fits);
        if (best is null)
        {
            var fit = Fit(readings, false);
            var worst = readings.MaxBy(reading => Math.Abs(Residual(fit, reading.Observation)))!;
            return new("more than one of the readings is off", $"read all of them again; the one that fits least is {worst.Name}. Nothing was stored", null);
        }

        if (best.StretchShare is null && slips.Where(slip => slip.Fits && slip.Score < best.Score + NearlyAsGood && !slip.Readings.SequenceEqual(best.Readings)).ToList() is { Count: > 0 } others
            && !others.Any(other => other.Readings.Intersect(best.Readings).Any()))
        {
            var names = new[] { best }.Concat(others).Select(slip => string.Join(" and ", slip.Readings.Select(reading => reading.Name))).Distinct().Take(4);
            return new($"{best.Message}, or another is off: too few readings to tell", $"look again at {string.Join(", at ", names)}; two more places would tell. Nothing was stored", null);
        }

        return new(best.Message, best.Hint, best.StretchShare);
    }

    private static IEnumerable<Slip> Slips(ImmutableArray<SheetReading> readings)
    {
        foreach (var reading in readings)
        {
            var others = readings.Remove(reading);
            var expected = Expected(others, reading);

            // On a sheet of a bracket the shift of its mask is in the number, so its sign says nothing.
            // A vernier has none; its whole number is what is easily read one too low or too high.
            if (reading.Kind == ReadFrom.Vernier)
            {
                foreach (var one in new[] { -1, 1 })
                {
                    yield return Slip.Of(
                        [.. others, reading with { ValueMm = reading.ValueMm + one }], 0, [reading],
                        $"{reading.Name} was read as {reading.Shown(reading.ValueMm)}, but the others put it near {reading.Shown(expected)}: its whole number looks one too {(one < 0 ? "high" : "low")}",
                        $"look at {reading.Name} again: the whole number is the front's at the back's line 0, or just before it. Nothing was stored");
                }
            }
            else if (reading.Kind != ReadFrom.Bracket)
            {
                yield return Slip.Of(
                    [.. others, reading with { ValueMm = -reading.ValueMm }], 0, [reading],
                    $"{reading.Name} was read as {reading.Shown(reading.ValueMm)}, but the others put it near {reading.Shown(expected)}: {(reading.Kind == ReadFrom.Scale ? "the sign looks turned round" : "the two rows look swapped")}",
                    $"look at {reading.Name} again: {(reading.Kind == ReadFrom.Scale ? "right and up are positive, left and down negative" : "each letter stands beside its own row")}. Nothing was stored");
            }

            yield return Slip.Of(
                others, 1, [reading],
                $"{reading.Name} was read as {reading.Shown(reading.ValueMm)}, but the others put it near {reading.Shown(expected)}",
                $"look at {reading.Name} again{(reading.Kind == ReadFrom.Vernier ? string.Empty : Guess(reading.ValueMm, expected))}. Nothing was stored");
        }

        var places = readings.GroupBy(reading => (reading.Place.Name, reading.Kind is ReadFrom.Scale or ReadFrom.Vernier ? "" : reading.Typed.Text)).Select(place => place.ToImmutableArray()).ToList();
        foreach (var (index, place) in places.Index())
        {
            var name = place[0].Place.Name;
            if (place.Length == 2)
            {
                yield return Slip.Of(
                    [.. readings.RemoveRange(place)], 2, place,
                    $"{name} does not fit the other readings: they put it near x {place[0].Shown(Expected([.. readings.RemoveRange(place)], place[0]))}, y {place[1].Shown(Expected([.. readings.RemoveRange(place)], place[1]))}",
                    $"look at {name} again, and whether it is the place you read. Nothing was stored");
                yield return Slip.Of(
                    [.. readings.RemoveRange(place), place[0] with { ValueMm = place[1].ValueMm }, place[1] with { ValueMm = place[0].ValueMm }], 0, place,
                    $"x and y of {name} look swapped",
                    $"look at {name} again: x is across, y is upwards. Nothing was stored");
            }

            foreach (var other in places.Skip(index + 1).Where(other => other.Length == place.Length && other[0].Kind == place[0].Kind && other.Select(reading => reading.IsUp).SequenceEqual(place.Select(reading => reading.IsUp))))
            {
                var swapped = place.Zip(other).SelectMany(pair => new[] { pair.First with { ValueMm = pair.Second.ValueMm }, pair.Second with { ValueMm = pair.First.ValueMm } });
                yield return Slip.Of(
                    [.. readings.RemoveRange(place).RemoveRange(other), .. swapped], 0, [.. place, .. other],
                    $"{name} and {other[0].Place.Name} look swapped",
                    $"look at both again: hold the sheet with its front towards you and TOP up. Nothing was stored");
            }
        }

        yield return Slip.Scaled(readings);
    }

    private static string Guess(double read, double expected) => (read / expected) switch
    {
        > 7 and < 14 => ": a decimal point may be missing",
        > 1.6 and < 2.5 => ": marks of 0.5 mm are typed with a c, such as 2c",
        _ => "",
    };

    private static double Expected(ImmutableArray<SheetReading> others, SheetReading reading) => Fit(others, false).MeanOf(reading.Shares);

    /// <summary>The largest residual in its own standard deviations, of the readings and of what is believed of any printer.</summary>
    private static double Worst(ImmutableArray<SheetReading> readings, bool looseStretch)
    {
        var fit = Fit(readings, looseStretch);
        return Prior(looseStretch).Concat(readings.Select(reading => reading.Observation)).Max(observation => Math.Abs(Residual(fit, observation)));
    }

    private static double Residual(LinearFit fit, Observation observation)
    {
        var variance = observation.Sd * observation.Sd;
        var left = variance - fit.CovarianceOf(observation.Coefficients, observation.Coefficients);

        // What nothing else controls leaves nothing over, whatever it is.
        return left < variance * 1e-3 ? 0 : (observation.Value - fit.MeanOf(observation.Coefficients)) / Math.Sqrt(left);
    }

    private static LinearFit Fit(ImmutableArray<SheetReading> readings, bool looseStretch) =>
        LeastSquares.Fit([.. Prior(looseStretch), .. readings.Select(reading => reading.Observation)]);

    private static ImmutableArray<Observation> Prior(bool looseStretch) =>
        RegisterEstimate.Prior(looseStretch ? LooseStretchShare : RegisterEstimate.PriorStretchSdPercent / 100);

    private sealed record Slip(string Message, string Hint, double Score, bool Fits, double? StretchShare, ImmutableArray<SheetReading> Readings)
    {
        public static Slip Of(ImmutableArray<SheetReading> mended, int freed, ImmutableArray<SheetReading> slipped, string message, string hint) =>
            new(message, hint, LeftOver(mended, false) + (freed * CostOfFreedom), Worst(mended, false) <= Limit, null, slipped);

        public static Slip Scaled(ImmutableArray<SheetReading> readings)
        {
            var fit = Fit(readings, true);
            var stretch = Math.Abs(fit.Mean[3]) > Math.Abs(fit.Mean[4]) ? fit.Mean[3] : fit.Mean[4];
            return new("", "", LeftOver(readings, true) + (2 * CostOfFreedom), Worst(readings, true) <= Limit, stretch, readings);
        }

        private static double LeftOver(ImmutableArray<SheetReading> readings, bool looseStretch)
        {
            var fit = Fit(readings, looseStretch);
            return Prior(looseStretch).Concat(readings.Select(reading => reading.Observation))
                .Sum(observation => Math.Pow((observation.Value - fit.MeanOf(observation.Coefficients)) / observation.Sd, 2));
        }
    }
}
