using System.Collections.Generic;

namespace Lampblack.VectorArt;

/// <summary>Collects trails.</summary>
internal sealed class PathBuilder
{
    private readonly List<Trail> _trails = [];
    private Spot _start;
    private List<PathPiece>? _pieces;

    /// <summary>Where the pen is.</summary>
    public Spot Here { get; private set; }

    public void MoveTo(Spot to)
    {
        End(isClosed: false);
        (_start, Here, _pieces) = (to, to, []);
    }

    public void LineTo(Spot to) => Add(PathPiece.Line(Here, to));

    public void CubicTo(Spot first, Spot second, Spot to) => Add(new(false, Here, first, second, to, true));

    /// <summary>A quadratic curve, raised to a cubic one exactly.</summary>
    public void QuadraticTo(Spot control, Spot to) =>
        Add(new(false, Here, Spot.Between(Here, control, 2.0 / 3), Spot.Between(to, control, 2.0 / 3), to, true));

    public void ArcTo(double radiusX, double radiusY, double turnDegrees, bool isLarge, bool isSweep, Spot to)
    {
        foreach (var piece in EllipseArc.Pieces(Here, radiusX, radiusY, turnDegrees, isLarge, isSweep, to))
        {
            Add(piece);
        }
    }

    public void Close()
    {
        if (_pieces is null)
        {
            return;
        }

        if (Here != _start)
        {
            Add(PathPiece.Line(Here, _start));
        }

        End(isClosed: true);
        Here = _start;
    }

    public List<Trail> Trails()
    {
        End(isClosed: false);
        return _trails;
    }

    private void Add(PathPiece piece)
    {
        // After a close, drawing goes on from where it closed.
        if (_pieces is null)
        {
            (_start, _pieces) = (Here, []);
        }

        _pieces.Add(piece);
        Here = piece.To;
    }

    private void End(bool isClosed)
    {
        if (_pieces is not null && (_pieces.Count > 0 || isClosed))
        {
            _trails.Add(new(_start, _pieces, isClosed));
        }

        _pieces = null;
    }
}
