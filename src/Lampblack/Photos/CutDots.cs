using System;
using Lampblack.PictureArt;

namespace Lampblack.Photos;

/// <summary>The dots of a photo in which a colour is as bright as a file can tell, so that more light would look the same.</summary>
internal sealed class CutDots
{
    private const byte Most = 254;

    private bool[] _isCut = [];
    private int _width;
    private PictureHeader? _header;

    /// <summary>Whether the dot at a place is cut off; nothing is outside.</summary>
    public bool this[double x, double y]
    {
        get
        {
            var (column, row) = ((int)Math.Floor(x), (int)Math.Floor(y));
            return column >= 0 && row >= 0 && column < _width && row < _isCut.Length / _width && _isCut[(row * _width) + column];
        }
    }

    /// <summary>Makes room.</summary>
    public void Begin(PictureHeader header)
    {
        _header = header;
        _width = header.Turn.Size(header.Width, header.Height).Width;
        _isCut = new bool[header.Width * header.Height];
    }

    /// <summary>Looks at some rows.</summary>
    public void Take(Band band)
    {
        var header = _header!;
        var (start, byColumn, byRow) = header.Turn.Steps(header.Width, header.Height);
        var (step, colours) = (band.Form.Bytes, Math.Min(3, band.Form.Bytes));
        for (var index = 0; index < band.Count; index++)
        {
            var row = band.Row(index);
            var to = start + ((band.First + index) * byRow);
            for (var at = 0; at + colours <= row.Length; at += step, to += byColumn)
            {
                _isCut[to] = row.Slice(at, colours).IndexOfAnyInRange(Most, byte.MaxValue) >= 0;
            }
        }
    }
}
