using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using Lampblack.Geometry;

namespace Lampblack.Lighting;

/// <summary>Gathers the places of one stretch of a mark. Many lie close together; the middle of each neighbourhood is enough.</summary>
/// <remarks>A page of legends has a million places, so that neighbourhoods are looked for among the few of this stretch, the newest first: outlines run on where they were.</remarks>
internal sealed class LitStretch
{
    /// <summary>From one place that is looked up to the next, in mm.</summary>
    private const double StepMm = 4;

    private readonly List<Neighbourhood> _near = [];
    private double _leftMm = double.PositiveInfinity;
    private double _bottomMm = double.PositiveInfinity;
    private double _rightMm = double.NegativeInfinity;
    private double _topMm = double.NegativeInfinity;

    /// <summary>What all its places lie in.</summary>
    public Box<PanelSpace> Box => new(_leftMm, _bottomMm, _rightMm - _leftMm, _topMm - _bottomMm);

    /// <summary>One place for each neighbourhood, in the order in which they were met.</summary>
    public ImmutableArray<LitPlace> Places()
    {
        var places = ImmutableArray.CreateBuilder<LitPlace>(_near.Count);
        foreach (var near in _near)
        {
            places.Add(new(new(near.X / near.Weight, near.Y / near.Weight), near.Weight));
        }

        return places.MoveToImmutable();
    }

    /// <summary>One more place.</summary>
    public void Add(LitPlace place)
    {
        var (x, y) = (place.At.XMm, place.At.YMm);
        (_leftMm, _bottomMm, _rightMm, _topMm) = (Math.Min(_leftMm, x), Math.Min(_bottomMm, y), Math.Max(_rightMm, x), Math.Max(_topMm, y));
        var (column, row) = (Math.Floor(x / StepMm), Math.Floor(y / StepMm));
        for (var index = _near.Count - 1; index >= 0; index--)
        {
            if (_near[index].Column == column && _near[index].Row == row)
            {
                _near[index].Add(place);
                return;
            }
        }

        var first = new Neighbourhood(column, row);
        first.Add(place);
        _near.Add(first);
    }

    private sealed class Neighbourhood(double column, double row)
    {
        public double Column { get; } = column;

        public double Row { get; } = row;

        public double Weight { get; private set; }

        public double X { get; private set; }

        public double Y { get; private set; }

        public void Add(LitPlace place) =>
            (Weight, X, Y) = (Weight + place.Weight, X + (place.Weight * place.At.XMm), Y + (place.Weight * place.At.YMm));
    }
}
