using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Threading;

namespace Lampblack.Illumination;

/// <summary>
/// Looks for the fewest units that light all legends evenly: for one more unit at a time it starts from several choices, exchanges single units for
/// better ones until none is, shakes the result and goes on. The same task and seed give the same answer.
/// </summary>
public sealed class EmitterSearch
{
    /// <summary>So many legends may be looked at to prove that fewer units won't do, a second or so; beyond that the number is left open.</summary>
    public const long UsualLooks = 400_000_000;

    /// <summary>How often a choice is shaken and mended before one more unit is tried.</summary>
    private const int Rounds = 24;

    /// <summary>After so many rounds a number of units that is still far off is given up.</summary>
    private const int FirstRounds = 5;
    private const float FarOff = 1.5f;

    /// <summary>Where so many more units bring no more than this, more still won't.</summary>
    private const int Patience = 6;
    private const float PatienceGain = 0.03f;

    /// <summary>Smaller gains are rounding, and could go round in circles.</summary>
    private const float LeastGain = 1e-4f;

    private readonly UnitLights _lights;
    private readonly PlanWish _wish;
    private readonly SeededRandom _random;
    private readonly long _mostLooks;
    private readonly IProgress<string> _progress;
    private readonly CancellationToken _stop;

    private EmitterSearch(UnitLights lights, PlanWish wish, ulong seed, long mostLooks, IProgress<string> progress, CancellationToken stop)
    {
        _lights = lights;
        _wish = wish;
        _random = new(seed);
        _mostLooks = mostLooks;
        _progress = progress;
        _stop = stop;
    }

    /// <summary>Looks.</summary>
    /// <param name="lights">What there is to choose from; at least one unit and one legend.</param>
    /// <param name="wish">What is wanted.</param>
    /// <param name="starts">Choices to start from as well, such as those nearest to a regular grid.</param>
    /// <param name="mostUnits">Give up above so many.</param>
    /// <param name="seed">Another seed looks elsewhere.</param>
    /// <param name="progress">Told how many units are being tried.</param>
    /// <param name="stop">Ends the search; the best choice so far is given.</param>
    /// <param name="mostLooks">How long to prove that fewer won't do: so many legends are looked at.</param>
    public static UnitChoice Run(
        UnitLights lights, PlanWish wish, ImmutableArray<ImmutableArray<int>> starts, int mostUnits, ulong seed, IProgress<string> progress, CancellationToken stop, long mostLooks = UsualLooks) =>
        new EmitterSearch(lights, wish, seed, mostLooks, progress, stop).Run(starts, mostUnits);

    private UnitChoice Run(ImmutableArray<ImmutableArray<int>> starts, int mostUnits)
    {
        var least = LeastUnits.ByLight(_lights, _wish);
        List<int>? best = null;
        var bestScore = float.PositiveInfinity;
        var (markScore, markCount) = (float.PositiveInfinity, 0);
        for (var count = Math.Max(least, 1); count <= Math.Min(mostUnits, _lights.Units.Length) && !_stop.IsCancellationRequested; count++)
        {
            _progress.Report(string.Create(CultureInfo.InvariantCulture, $"trying {count} {(count == 1 ? "place" : "places")} for emitters"));
            if (BestOf(count, best, starts) is not { } tally)
            {
                continue;
            }

            if (tally.Score() is var score && score < bestScore)
            {
                (best, bestScore) = ([.. tally.Units], score);
            }

            if (bestScore < (1 - PatienceGain) * markScore)
            {
                (markScore, markCount) = (bestScore, count);
            }

            if (tally.Figures().Meets(_wish))
            {
                var proven = LeastUnits.Proven(_lights, _wish, least, count, _mostLooks, _stop);
                return new(tally.Sorted(), tally.Figures(), true, proven, _stop.IsCancellationRequested);
            }

            if (count >= markCount + Patience && markCount > 0)
            {
                break;
            }
        }

        var found = new Tally(_lights, _wish, best ?? []);
        return new(found.Sorted(), found.Figures(), false, least, _stop.IsCancellationRequested);
    }

    private Tally? BestOf(int count, List<int>? fewer, ImmutableArray<ImmutableArray<int>> starts)
    {
        Tally? best = null;
        foreach (var start in starts.Where(start => start.Length == count).Select(start => start.ToList()).Append(Filled(fewer ?? [], count)))
        {
            best = Better(best, start);
        }

        // Once it is met, the rounds that are left make it evener.
        for (var round = 0; round < Rounds && !_stop.IsCancellationRequested; round++)
        {
            if (round == FirstRounds && best?.Score() > FarOff)
            {
                break;
            }

            best = Better(best, round % 4 == 3 || best is null ? Filled([], count) : Shaken(best));
        }

        return best;
    }

    private Tally? Better(Tally? best, List<int>? start)
    {
        if (start is null)
        {
            return best;
        }

        var tally = new Tally(_lights, _wish, start);
        Descend(tally);
        return best is null || tally.Score() < best.Score() ? tally : best;
    }

    /// <summary>Exchanges one unit after the other for the best that could stand in its stead, until none gets better.</summary>
    private void Descend(Tally tally)
    {
        var score = tally.Score();
        var still = 0;
        for (var place = 0; still < tally.Units.Count && !_stop.IsCancellationRequested; place = (place + 1) % tally.Units.Count)
        {
            var (best, chosen) = (score - LeastGain, -1);
            tally.Lift(place);
            for (var unit = 0; unit < _lights.Units.Length; unit++)
            {
                var with = tally.ScoreWith(unit, best);
                if (with < best && tally.HasRoom(unit, place))
                {
                    (best, chosen) = (with, unit);
                }
            }

            if (chosen < 0)
            {
                still++;
                continue;
            }

            tally.Exchange(place, chosen);
            (score, still) = (tally.Score(), 0);
        }
    }

    /// <summary>A choice with as many units as are wanted: those given, then others where there is room.</summary>
    private List<int>? Filled(List<int> given, int count)
    {
        var tally = new Tally(_lights, _wish, given);
        for (var tries = 0; tally.Units.Count < count; tries++)
        {
            var unit = _random.Below(_lights.Units.Length);
            if (tally.HasRoom(unit, -1))
            {
                tally.Add(unit);
            }
            else if (tries > 200)
            {
                return null;
            }
        }

        return [.. tally.Units];
    }

    private List<int>? Shaken(Tally best)
    {
        var kept = best.Units.ToList();
        for (var times = 0; times < Math.Max(1, kept.Count / 3); times++)
        {
            kept.RemoveAt(_random.Below(kept.Count));
        }

        return Filled(kept, best.Units.Count);
    }
}
