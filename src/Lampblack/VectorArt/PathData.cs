using System;
using System.Collections.Generic;

namespace Lampblack.VectorArt;

/// <summary>Reads the attribute d (SVG 1.1, 8.3). What comes before a fault is drawn, as the specification asks.</summary>
internal ref struct PathData
{
    private readonly PathBuilder _path = new();
    private readonly Budget _budget;
    private NumberReader _reader;
    private char _command;
    private Spot _start;

    // Control points that smooth curves mirror; they count only after a curve of the same kind.
    private Spot _lastCubic;
    private Spot _lastQuadratic;

    private PathData(string text, Budget budget)
    {
        _reader = new(text);
        _budget = budget;
    }

    /// <summary>The trails, and the place of the first fault in the text; -1 where there is none.</summary>
    public static (List<Trail> Trails, int FaultAt) Read(string text, Budget budget)
    {
        if (text.AsSpan().Trim() is "none")
        {
            return ([], -1);
        }

        var data = new PathData(text, budget);
        var fault = data.ReadAll();
        return (data._path.Trails(), fault);
    }

    private int ReadAll()
    {
        _reader.SkipBlanks();
        while (!_reader.IsAtEnd)
        {
            var place = _reader.Place;
            if (char.IsAsciiLetter(_reader.Here))
            {
                var isFirst = _command == 0;
                _command = _reader.Here;
                if (isFirst && _command is not ('m' or 'M'))
                {
                    return place;
                }

                _reader.Skip();
                _reader.SkipBlanks();
            }
            else if (_command is '\0' or 'z' or 'Z')
            {
                return place;
            }

            if (!Step())
            {
                return _reader.Place;
            }

            _reader.SkipComma();
        }

        return -1;
    }

    private bool Step()
    {
        var here = _path.Here;
        var origin = char.IsAsciiLetterLower(_command) ? here : default;
        var (cubic, quadratic) = (_lastCubic, _lastQuadratic);
        _budget.Spend(1);
        switch (char.ToUpperInvariant(_command))
        {
            case 'M' when TryPair(origin, out var to):
                _path.MoveTo(to);
                _start = to;

                // More pairs after a moveto are lines.
                _command = _command == 'm' ? 'l' : 'L';
                break;
            case 'L' when TryPair(origin, out var to):
                _path.LineTo(to);
                break;
            case 'H' when _reader.TryNumber(out var x):
                _path.LineTo(new(origin.X + x, here.Y));
                break;
            case 'V' when _reader.TryNumber(out var y):
                _path.LineTo(new(here.X, origin.Y + y));
                break;
            case 'C' when TryPair(origin, out var first) && TryPair(origin, out var second) && TryPair(origin, out var to):
                Cubic(first, second, to);
                return true;
            case 'S' when TryPair(origin, out var second) && TryPair(origin, out var to):
                Cubic((2 * here) - cubic, second, to);
                return true;
            case 'Q' when TryPair(origin, out var control) && TryPair(origin, out var to):
                Quadratic(control, to);
                return true;
            case 'T' when TryPair(origin, out var to):
                Quadratic((2 * here) - quadratic, to);
                return true;
            case 'A' when TryArc(origin):
                break;
            case 'Z':
                _path.Close();
                break;
            default:
                return false;
        }

        (_lastCubic, _lastQuadratic) = (_path.Here, _path.Here);
        return true;
    }

    private void Cubic(Spot first, Spot second, Spot to)
    {
        _path.CubicTo(first, second, to);
        (_lastCubic, _lastQuadratic) = (second, to);
    }

    private void Quadratic(Spot control, Spot to)
    {
        _path.QuadraticTo(control, to);
        (_lastCubic, _lastQuadratic) = (to, control);
    }

    private bool TryArc(Spot origin)
    {
        if (!TryPair(default, out var radii) || !_reader.TryNumber(out var degrees))
        {
            return false;
        }

        _reader.SkipComma();
        if (!_reader.TryFlag(out var isLarge))
        {
            return false;
        }

        _reader.SkipComma();
        if (!_reader.TryFlag(out var isSweep))
        {
            return false;
        }

        _reader.SkipComma();
        if (!TryPair(origin, out var to))
        {
            return false;
        }

        _path.ArcTo(radii.X, radii.Y, degrees, isLarge, isSweep, to);
        return true;
    }

    private bool TryPair(Spot origin, out Spot spot)
    {
        spot = default;
        if (!_reader.TryNumber(out var x))
        {
            return false;
        }

        _reader.SkipComma();
        if (!_reader.TryNumber(out var y))
        {
            return false;
        }

        _reader.SkipComma();
        spot = new(origin.X + x, origin.Y + y);
        return true;
    }
}
