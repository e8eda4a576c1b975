using System;
using System.Linq;
using System.Threading;

namespace Lampblack.Illumination;

/// <summary>How few units can't do, whatever places they take of those on offer.</summary>
internal static class LeastUnits
{
    /// <summary>Fewer than this give too little light in the mean, even if all stood in the best place.</summary>
    public static int ByLight(UnitLights lights, PlanWish wish)
    {
        var best = lights.CandelaPerM2.Max(light => light.Average());
        var least = best > 0 ? Math.Max(1, (int)Math.Ceiling((wish.LeastMeanCandelaPerM2 / best) - 1e-6)) : 1;
        return wish.MostOneShare is < 1 ? Math.Max(least, (int)Math.Ceiling((1 / wish.MostOneShare.Value) - 1e-6) / Math.Max(1, lights.Units[0].Emitters.Length)) : least;
    }

    /// <summary>The smallest number that was not ruled out by going through all choices; at most the number that was found to do.</summary>
    public static int Proven(UnitLights lights, PlanWish wish, int from, int found, long mostLooks, CancellationToken stop)
    {
        var proof = new Proof(lights, wish, mostLooks, stop);
        var count = Math.Max(1, from);
        while (count < found && proof.RulesOut(count))
        {
            count++;
        }

        return count;
    }

    private sealed class Proof
    {
        private readonly float[][] _lights;
        private readonly float[][] _most;
        private readonly float[][] _least;
        private readonly float _evenness;
        private readonly CancellationToken _stop;
        private readonly long _mostLooks;
        private long _looks;

        public Proof(UnitLights lights, PlanWish wish, long mostLooks, CancellationToken stop)
        {
            // The most and the least that any of the later units gives to each legend.
            _lights = lights.CandelaPerM2;
            _evenness = (float)wish.MostEvennessFactor;
            _stop = stop;
            _mostLooks = mostLooks;
            _most = new float[_lights.Length][];
            _least = new float[_lights.Length][];
            for (var unit = _lights.Length - 1; unit >= 0; unit--)
            {
                var next = unit + 1;
                _most[unit] = next < _lights.Length ? [.. _lights[unit].Zip(_most[next], Math.Max)] : _lights[unit];
                _least[unit] = next < _lights.Length ? [.. _lights[unit].Zip(_least[next], Math.Min)] : _lights[unit];
            }
        }

        public bool RulesOut(int count)
        {
            var sums = Enumerable.Range(0, count + 1).Select(_ => new float[_lights[0].Length]).ToArray();
            return RulesOut(0, count, sums);
        }

        /// <summary>Whether no choice of so many units from a place on makes what is already there even enough.</summary>
        private bool RulesOut(int from, int left, float[][] sums)
        {
            var have = sums[left];
            for (var unit = from; unit <= _lights.Length - left; unit++)
            {
                // Whatever comes: no legend gets more than so much, none less than so much.
                if (left > 0 && !CanBeEven(have, _most[unit], _least[unit], left))
                {
                    return true;
                }

                if (_looks > _mostLooks || _stop.IsCancellationRequested)
                {
                    return false;
                }

                var light = _lights[unit];
                if (left == 1)
                {
                    if (CanBeEven(have, light, light, 1))
                    {
                        return false;
                    }

                    continue;
                }

                var with = sums[left - 1];
                for (var piece = 0; piece < with.Length; piece++)
                {
                    with[piece] = have[piece] + light[piece];
                }

                _looks += with.Length;
                if (!RulesOut(unit + 1, left - 1, sums))
                {
                    return false;
                }
            }

            return true;
        }

        private bool CanBeEven(float[] have, float[] most, float[] least, int left)
        {
            var (bounds, looked) = LightSums.Within(have, most, least, left, _evenness);
            _looks += looked;
            return bounds.Most <= _evenness * bounds.Least;
        }
    }
}
