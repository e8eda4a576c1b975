using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Runtime.InteropServices;
using System.Threading;
using Lampblack.Illumination;

namespace Lampblack.Lighting;

/// <summary>The places of all pieces in a box, ready to be asked about emitters.</summary>
internal sealed class PieceLights
{
    private readonly MaskPlaces _places;
    private readonly ImmutableArray<(int From, int Count)> _ranges;

    public PieceLights(BoxLight light, ImmutableArray<LitPiece> pieces, CancellationToken cancellation)
        : this(light.At([.. pieces.SelectMany(piece => piece.Places.Select(place => place.At))], cancellation), pieces, Ranges(pieces))
    {
    }

    private PieceLights(MaskPlaces places, ImmutableArray<LitPiece> pieces, ImmutableArray<(int From, int Count)> ranges) => (_places, Pieces, _ranges) = (places, pieces, ranges);

    /// <summary>The pieces.</summary>
    public ImmutableArray<LitPiece> Pieces { get; }

    /// <summary>Some of the pieces only.</summary>
    public PieceLights Only(IEnumerable<int> pieces)
    {
        var kept = pieces.ToList();
        return new(_places, [.. kept.Select(piece => Pieces[piece])], [.. kept.Select(piece => _ranges[piece])]);
    }

    /// <summary>The same pieces in the same box with other walls and floor.</summary>
    public PieceLights With(double wallReflectance, double floorReflectance) => new(_places.With(wallReflectance, floorReflectance), Pieces, _ranges);

    /// <summary>All pieces in the light of these emitters; what they owe to a single one is not looked up.</summary>
    public ImmutableArray<LitLegend> Of(ImmutableArray<Emitter> emitters, CancellationToken cancellation)
    {
        var lux = Means(_places.Lux(emitters, cancellation));
        return [.. Pieces.Select((piece, index) => new LitLegend(piece, lux[index]))];
    }

    /// <summary>The same with the largest share that each owes to a single emitter: that takes each emitter's light alone, so that it waits until it is asked for.</summary>
    public ImmutableArray<LitLegend> WithShares(ImmutableArray<Emitter> emitters, CancellationToken cancellation)
    {
        // It may be asked for long after this work, when whoever could have stopped it is gone.
        var shares = new Lazy<ImmutableArray<double>>(() => LargestShares(emitters));
        return [.. Of(emitters, cancellation).Select((legend, index) => legend with { OneShares = shares, Index = index })];
    }

    private ImmutableArray<double> LargestShares(ImmutableArray<Emitter> emitters)
    {
        var each = _places.Responses(emitters, CancellationToken.None).Select(Means).ToList();
        return
        [
            .. Enumerable.Range(0, Pieces.Length).Select(piece => each.Sum(light => light[piece]) is > 0 and var lux ? each.Max(light => light[piece]) / lux : 0),
        ];
    }

    /// <summary>What each unit alone gives to each piece.</summary>
    public UnitLights Of(ImmutableArray<EmitterUnit> units, CancellationToken cancellation)
    {
        var each = _places.Responses([.. units.SelectMany(unit => unit.Emitters)], cancellation).Select(light => Means(light).Select((lux, index) => (float)(lux * Pieces[index].CandelaPerM2PerLuxFactor)).ToArray()).ToArray();
        var (sums, largest, from) = (new List<float[]>(), new List<float[]>(), 0);
        foreach (var unit in units)
        {
            var own = each[from..(from + unit.Emitters.Length)];
            from += unit.Emitters.Length;
            sums.Add([.. Enumerable.Range(0, Pieces.Length).Select(piece => own.Sum(light => light[piece]))]);
            largest.Add([.. Enumerable.Range(0, Pieces.Length).Select(piece => own.Max(light => light[piece]))]);
        }

        return new(units, [.. sums], [.. largest]);
    }

    private ImmutableArray<double> Means(ImmutableArray<double> places)
    {
        var means = new double[Pieces.Length];
        for (var piece = 0; piece < means.Length; piece++)
        {
            var (sum, weight, at) = (0.0, 0.0, _ranges[piece].From);
            foreach (var place in Pieces[piece].Places)
            {
                (sum, weight) = (sum + (place.Weight * places[at]), weight + place.Weight);
                at++;
            }

            means[piece] = sum / weight;
        }

        return ImmutableCollectionsMarshal.AsImmutableArray(means);
    }

    private static ImmutableArray<(int From, int Count)> Ranges(ImmutableArray<LitPiece> pieces)
    {
        var from = 0;
        return
        [
            .. pieces.Select(piece =>
            {
                var start = from;
                from += piece.Places.Length;
                return (start, piece.Places.Length);
            }),
        ];
    }
}
