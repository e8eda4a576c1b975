using System.Collections.Immutable;
using System.Linq;
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
        return [.. ParallelEnumerable.Range(0, Places.Length).AsOrdered().WithCancellation(cancellation).Select(place => One(emitters, leaving, place))];
    }

    /// <summary>What each place gets of each emitter alone: for every emitter a row, one entry for each place; in lux.</summary>
    /// <param name="emitters">The emitters.</param>
    /// <param name="cancellation">Stops the work.</param>
    public ImmutableArray<ImmutableArray<double>> Responses(ImmutableArray<Emitter> emitters, CancellationToken cancellation)
    {
        var leavings = _box.Leavings(emitters, cancellation);
        return
        [
            .. ParallelEnumerable.Range(0, emitters.Length).AsOrdered().WithCancellation(cancellation).Select(emitter =>
                Enumerable.Range(0, Places.Length).Select(place => One([emitters[emitter]], leavings?[emitter], place)).ToImmutableArray()),
        ];
    }

    private double One(ImmutableArray<Emitter> emitters, float[]? leaving, int place) =>
        _box.Straight(emitters, Places[place]) + (leaving is null ? 0 : _box.ThroughShare * Chamber.Dot(_seen[place], leaving));
}
