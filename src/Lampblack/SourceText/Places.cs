using System;
using System.Collections.Generic;
using Lampblack.Findings;

namespace Lampblack.SourceText;

/// <summary>Tells line and column of any place in a text, quickly also where the text is one endless line.</summary>
internal sealed class Places
{
    private readonly string _file;
    private readonly string _text;
    private readonly List<int> _lineStarts = [0];

    /// <summary>How many code points stand before each unit; null while every unit is one code point.</summary>
    private readonly int[]? _codePoints;

    public Places(string file, string text)
    {
        _file = file;
        _text = text;
        var pairs = false;
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '\n')
            {
                _lineStarts.Add(i + 1);
            }

            pairs |= char.IsSurrogate(text[i]);
        }

        if (!pairs)
        {
            return;
        }

        _codePoints = new int[text.Length + 1];
        for (var i = 0; i < text.Length; i++)
        {
            _codePoints[i + 1] = _codePoints[i] + (char.IsLowSurrogate(text[i]) ? 0 : 1);
        }
    }

    /// <summary>The text that the offsets count in.</summary>
    public string Text => _text;

    /// <summary>The stretch from one offset up to another.</summary>
    public SourceSpan Span(int start, int end)
    {
        start = Math.Clamp(start, 0, _text.Length);
        end = Math.Clamp(end, start, _text.Length);
        var line = Line(start);
        var lineStart = _lineStarts[line - 1];
        var column = _codePoints is null ? start - lineStart : _codePoints[start] - _codePoints[lineStart];
        return new(_file, start, end - start, line, column + 1);
    }

    /// <summary>The line of an offset, counted from 1.</summary>
    public int Line(int offset)
    {
        var at = _lineStarts.BinarySearch(offset);
        return at >= 0 ? at + 1 : ~at;
    }

    /// <summary>Where the line of an offset begins.</summary>
    public int LineStart(int offset) => _lineStarts[Line(offset) - 1];

    /// <summary>Where the line of an offset ends, before its line break.</summary>
    public int LineEnd(int offset)
    {
        var line = Line(offset);
        var end = line < _lineStarts.Count ? _lineStarts[line] - 1 : _text.Length;
        return end > 0 && end > LineStart(offset) && line < _lineStarts.Count && _text[end - 1] == '\r' ? end - 1 : end;
    }
}
