using System;
using System.Collections.Immutable;
using System.Linq;
using System.Runtime.InteropServices;
using System.Threading;
using System.Threading.Tasks;
using Lampblack.Geometry;

namespace Lampblack.Illumination;

/// <summary>Places of the mask made ready, to be asked about many emitters.</summary>
public sealed class MaskPlaces
{
    private readonly BoxLight _box;
    private readonly float[][] _seen;

    internal MaskPlaces(BoxLight box, ImmutableArray<Point<PanelSpace>> places, float[][] seen)
    {
        _box = box;
        _seen = seen;
        Places = places;
    }

    /// <summary>The places.</summary>
    public ImmutableArray<Point<PanelSpace>> Places { get; }

    /// <summary>The same places in the same box with other walls and floor.</summary>
    internal MaskPlaces With(double wallReflectance, double floorReflectance) => new(_box.With(wallReflectance, floorReflectance), Places, _seen);

    /// <summary>The illuminance of each place, all emitters on; in lux.</summary>
    /// <param name="emitters">The emitters.</param>
    /// <param name="cancellation">Stops the work.</param>
    public ImmutableArray<double> Lux(ImmutableArray<Emitter> emitters, CancellationToken cancellation)
    {
        if (emitters.IsEmpty)
        {
            return [.. new double[Places.Length]];
        }

        var (leaving, beams, lux) = (_box.Leaving(emitters), _box.Beams(emitters), new double[Places.Length]);
        Parallel.For(0, lux.Length, new ParallelOptions { CancellationToken = cancellation }, place =>
        {
            var sum = leaving is null ? 0 : _box.ThroughShare * LightProduct.Of(_seen[place], _box.ToMask(leaving));
            foreach (var beam in beams)
            {
                sum += _box.Straight(beam, Places[place]);
            }

            lux[place] = sum;
        });
        return ImmutableCollectionsMarshal.AsImmutableArray(lux);
    }

    /// <summary>What each place gets of each emitter alone: for every emitter a row, one entry for each place; in lux.</summary>
    /// <param name="emitters">The emitters.</param>
    /// <param name="cancellation">Stops the work.</param>
    public ImmutableArray<ImmutableArray<double>> Responses(ImmutableArray<Emitter> emitters, CancellationToken cancellation)
    {
        var (leavings, beams) = (_box.Leavings(emitters, cancellation), _box.Beams(emitters));
        const int together = LightProduct.Together;
        return
        [
            .. ParallelEnumerable.Range(0, (emitters.Length + together - 1) / together).AsOrdered().WithCancellation(cancellation)
                .SelectMany(group => Responses(beams, leavings, group * together, Math.Min(together, beams.Length - (group * together)))),
        ];
    }

    private ImmutableArray<double>[] Responses(Beam[] beams, float[][]? leavings, int from, int count)
    {
        var rows = new double[count][];
        for (var row = 0; row < count; row++)
        {
            var (beam, straight) = (beams[from + row], new double[Places.Length]);
            for (var place = 0; place < straight.Length; place++)
            {
                straight[place] = _box.Straight(beam, Places[place]);
            }

            rows[row] = straight;
        }

        for (var place = 0; leavings is not null && place < Places.Length; place++)
        {
            if (count < LightProduct.Together)
            {
                for (var row = 0; row < count; row++)
                {
                    rows[row][place] += _box.ThroughShare * LightProduct.Of(_seen[place], _box.ToMask(leavings[from + row]));
                }

                continue;
            }

            var (first, second, third, fourth) = LightProduct.Four(_seen[place], _box.ToMask(leavings[from]), _box.ToMask(leavings[from + 1]), _box.ToMask(leavings[from + 2]), _box.ToMask(leavings[from + 3]));
            rows[0][place] += _box.ThroughShare * first;
            rows[1][place] += _box.ThroughShare * second;
            rows[2][place] += _box.ThroughShare * third;
            rows[3][place] += _box.ThroughShare * fourth;
        }

        return [.. rows.Select(ImmutableCollectionsMarshal.AsImmutableArray)];
    }
}
