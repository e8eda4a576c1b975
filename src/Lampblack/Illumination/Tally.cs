using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Illumination;

/// <summary>A choice of units that is being changed, with what each legend gets; says of every exchange how good it would be.</summary>
internal sealed class Tally
{
    /// <summary>So much weighs how far all legends are from the mean, so that of two choices with the same extremes the calmer one wins.</summary>
    private const float CalmWeight = 0.02f;

    private readonly UnitLights _lights;
    private readonly PlanWish _wish;
    private readonly float[] _sum;
    private readonly float[] _rest;
    private readonly float[] _nothing;
    private int _lifted = -1;

    public Tally(UnitLights lights, PlanWish wish, IEnumerable<int> units)
    {
        _lights = lights;
        _wish = wish;
        _sum = new float[lights.CandelaPerM2.Length == 0 ? 0 : lights.CandelaPerM2[0].Length];
        _rest = new float[_sum.Length];
        _nothing = new float[_sum.Length];
        foreach (var unit in units)
        {
            Add(unit);
        }
    }

    /// <summary>The units chosen.</summary>
    public List<int> Units { get; } = [];

    /// <summary>How far the choice is from what was asked for: 1 is just met, and lower is better.</summary>
    public float Score()
    {
        Lift(-1);
        return ScoreWith(-1, float.PositiveInfinity);
    }

    public void Add(int unit)
    {
        Units.Add(unit);
        Change(unit);
    }

    public void Exchange(int place, int unit)
    {
        // Summed anew, so that rounding doesn't pile up over many exchanges.
        Units[place] = unit;
        Array.Clear(_sum);
        foreach (var each in Units)
        {
            Change(each);
        }
    }

    /// <summary>Whether a unit has room, one of the chosen ones taken away.</summary>
    public bool HasRoom(int unit, int without)
    {
        for (var place = 0; place < Units.Count; place++)
        {
            if (place != without && (Units[place] == unit || _lights.Units[Units[place]].Footprint.Overlaps(_lights.Units[unit].Footprint, -1e-6)))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Makes ready to ask what others would do in a chosen unit's stead; -1 to ask about one more.</summary>
    public void Lift(int place)
    {
        _lifted = place;
        _sum.CopyTo(_rest, 0);
        if (place >= 0)
        {
            var taken = _lights.CandelaPerM2[Units[place]];
            for (var piece = 0; piece < _rest.Length; piece++)
            {
                _rest[piece] -= taken[piece];
            }
        }
    }

    /// <summary>The score with a unit in the place that was lifted, -1 for none; above the limit only that it is above.</summary>
    public float ScoreWith(int unit, float limit)
    {
        var light = LightSums.Of(_rest, unit < 0 ? _nothing : _lights.CandelaPerM2[unit], limit * (float)_wish.MostEvennessFactor);
        if (light.Least <= 0 || light.Total <= 0)
        {
            return float.PositiveInfinity;
        }

        var mean = light.Total / _rest.Length;
        var uneven = light.Most / light.Least / (float)_wish.MostEvennessFactor;
        var score = Math.Max(uneven, (float)_wish.LeastMeanCandelaPerM2 / mean);
        score += CalmWeight * Math.Clamp((light.Squares / (_rest.Length * mean * mean)) - 1, 0, 1);
        return score >= limit || _wish.MostOneShare is not { } share ? score : Math.Max(score, OneShare(_lifted, unit) / (float)share);
    }

    public PlanFigures Figures() => new(_sum.Max() / Math.Max(_sum.Min(), float.Epsilon), _sum.Average(), OneShare(-1, -1));

    private float OneShare(int place, int unit)
    {
        float worst = 0;
        for (var piece = 0; piece < _sum.Length; piece++)
        {
            float largest = 0, sum = _sum[piece];
            for (var index = 0; index < Units.Count; index++)
            {
                if (index != place)
                {
                    largest = Math.Max(largest, _lights.LargestCandelaPerM2[Units[index]][piece]);
                }
            }

            if (unit >= 0)
            {
                sum += _lights.CandelaPerM2[unit][piece];
                largest = Math.Max(largest, _lights.LargestCandelaPerM2[unit][piece]);
            }

            if (place >= 0)
            {
                sum -= _lights.CandelaPerM2[Units[place]][piece];
            }

            worst = Math.Max(worst, largest / sum);
        }

        return worst;
    }

    private void Change(int unit)
    {
        var light = _lights.CandelaPerM2[unit];
        for (var piece = 0; piece < _sum.Length; piece++)
        {
            _sum[piece] += light[piece];
        }
    }

    public ImmutableArray<int> Sorted() => [.. Units.Order()];
}
