using System;
using System.Collections.Immutable;
using System.Linq;
using System.Runtime.InteropServices;
using System.Threading;
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
        var leaving = _box.Leaving(emitters);
        return [.. ParallelEnumerable.Range(0, Places.Length).AsOrdered().WithCancellation(cancellation).Select(place => _box.Straight(emitters, Places[place]) + Thrown(place, leaving))];
    }

    /// <summary>What each place gets of each emitter alone: for every emitter a row, one entry for each place; in lux.</summary>
    /// <param name="emitters">The emitters.</param>
    /// <param name="cancellation">Stops the work.</param>
    public ImmutableArray<ImmutableArray<double>> Responses(ImmutableArray<Emitter> emitters, CancellationToken cancellation)
    {
        var leavings = _box.Leavings(emitters, cancellation);
        const int together = LightProduct.Together;
        return
        [
            .. ParallelEnumerable.Range(0, (emitters.Length + together - 1) / together).AsOrdered().WithCancellation(cancellation)
                .SelectMany(group => Responses(emitters, leavings, group * together, Math.Min(together, emitters.Length - (group * together)))),
        ];
    }

    private ImmutableArray<double>[] Responses(ImmutableArray<Emitter> emitters, float[][]? leavings, int from, int count)
    {
        var rows = new double[count][];
        for (var row = 0; row < count; row++)
        {
            ImmutableArray<Emitter> emitter = [emitters[from + row]];
            rows[row] = [.. Places.Select(place => _box.Straight(emitter, place))];
        }

        for (var place = 0; leavings is not null && place < Places.Length; place++)
        {
            if (count < LightProduct.Together)
            {
                for (var row = 0; row < count; row++)
                {
                    rows[row][place] += Thrown(place, leavings[from + row]);
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

    private double Thrown(int place, float[]? leaving) => leaving is null ? 0 : _box.ThroughShare * LightProduct.Of(_seen[place], _box.ToMask(leaving));
}
