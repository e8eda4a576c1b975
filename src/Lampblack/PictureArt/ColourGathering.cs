using System;
using Lampblack.Bitmaps;

namespace Lampblack.PictureArt;

/// <summary>Takes the strongest dot of each square of some dots while a picture is read, and makes legends' colours of them.</summary>
internal sealed class ColourGathering
{
    private const long MostDots = 40_000_000;

    /// <summary>How far colours are carried under the field, in dots: at least a dot of the finest print at any usual resolution.</summary>
    private const int ReachDots = 4;

    /// <summary>Fewer coloured dots than this are dust.</summary>
    private const int FewestColoured = 9;

    private readonly Tones _tones;
    private readonly PictureHeader _header;
    private readonly int _square;
    private readonly int _width;
    private readonly int _height;
    private readonly byte[] _strongest;
    private readonly byte[] _line;
    private byte[] _rgb;

    public ColourGathering(Tones tones, PictureHeader header)
    {
        (_tones, _header, _square) = (tones, header, 1);
        while ((long)header.Width * header.Height > MostDots * _square * _square)
        {
            _square++;
        }

        (_width, _height) = ((header.Width + _square - 1) / _square, (header.Height + _square - 1) / _square);
        _rgb = new byte[_width * _height * 3];
        _strongest = new byte[_width];
        _line = new byte[header.Width * 3];
    }

    /// <summary>Takes a stored row with its gains; the first row comes first.</summary>
    public void Add(int row, ReadOnlySpan<byte> dots, DotForm form, ReadOnlySpan<byte> gains)
    {
        var to = _rgb.AsSpan(row / _square * _width * 3, _width * 3);
        if (_square == 1)
        {
            _tones.Gain.Opaque(dots, form, to);
            return;
        }

        _tones.Gain.Opaque(dots, form, _line);
        if (row % _square == 0)
        {
            _strongest.AsSpan().Clear();
        }

        for (var column = 0; column < gains.Length; column++)
        {
            var at = column / _square;
            if (gains[column] >= _strongest[at])
            {
                _strongest[at] = gains[column];
                _line.AsSpan(column * 3, 3).CopyTo(to[(at * 3)..]);
            }
        }
    }

    /// <summary>The finished colours; null where nothing but bare paper is left.</summary>
    public ArtColours? Finish()
    {
        var turn = _header.Turn;
        _rgb = turn.Apply(_rgb, _width, _height, 3);
        var (width, height) = turn.Size(_width, _height);
        var lit = Lit(width, height);
        var inner = lit.Shrink(1.5, BeyondEdge.Set);
        var deep = inner.Shrink(1.5, BeyondEdge.Set);
        var paper = _tones.PaperBins();
        if (Coloured(deep, paper) < FewestColoured && Coloured(lit, paper) < FewestColoured + (lit.Count() / 50))
        {
            return null;
        }

        // Dots on edges take their colour from well inside; thin strokes from their own middle; the thinnest from their strongest dot.
        var done = Carry(deep, lit, 4);
        done = Carry(done.Or(inner), lit, 3);
        Strengthen(lit.Except(done), lit);
        var all = Carry(lit, lit.Grow(ReachDots + 0.5), ReachDots);
        Bleach(all, paper);
        return new(width, height, _square, turn.Size(_header.Width, _header.Height), _rgb);
    }

    private BitRaster Lit(int width, int height)
    {
        var threshold = _tones.Valley!.Value.Threshold;
        var bits = new BitRasterBuilder(width, height);
        for (var row = 0; row < height; row++)
        {
            var words = bits.Row(row);
            var dots = _rgb.AsSpan(row * width * 3, width * 3);
            for (var column = 0; column < width; column++)
            {
                var dot = dots.Slice(column * 3, 3);
                words[column / 64] |= _tones.Gain.Of(dot[0], dot[1], dot[2]) >= threshold ? 1UL << (column % 64) : 0;
            }
        }

        return bits.ToRaster();
    }

    private long Coloured(BitRaster dots, bool[] paper)
    {
        var count = 0L;
        for (var row = 0; row < dots.HeightDots; row++)
        {
            var start = row * dots.WidthDots;
            GainPlane.ForEach(dots.Row(row), column => count += paper[BinAt(start + column)] ? 0 : 1);
        }

        return count;
    }

    private int BinAt(int dot) => Tones.Bin(_rgb[dot * 3], _rgb[(dot * 3) + 1], _rgb[(dot * 3) + 2]);

    /// <summary>Hands colours on from dot to dot, one dot farther in each round, to dots that are wanted; gives all that have one now.</summary>
    private BitRaster Carry(BitRaster from, BitRaster wanted, int rounds)
    {
        for (var round = 0; round < rounds; round++)
        {
            var next = from.Grow(1.5).And(wanted).Except(from);
            if (next.Count() == 0)
            {
                break;
            }

            for (var row = 0; row < next.HeightDots; row++)
            {
                var y = row;
                GainPlane.ForEach(next.Row(row), column => CopyFromNeighbour(from, column, y));
            }

            from = from.Or(next);
        }

        return from;
    }

    // Straight neighbours before slanting ones; always in this order, so that the same picture gives the same colours.
    private static ReadOnlySpan<sbyte> Around => [-1, 0, 1, 0, 0, -1, 0, 1, -1, -1, 1, -1, -1, 1, 1, 1];

    private void CopyFromNeighbour(BitRaster from, int column, int row)
    {
        for (var index = 0; index < Around.Length; index += 2)
        {
            var (x, y) = (column + Around[index], row + Around[index + 1]);
            if (x >= 0 && y >= 0 && x < from.WidthDots && y < from.HeightDots && from[x, y])
            {
                _rgb.AsSpan(((y * from.WidthDots) + x) * 3, 3).CopyTo(_rgb.AsSpan(((row * from.WidthDots) + column) * 3));
                return;
            }
        }
    }

    private void Strengthen(BitRaster thin, BitRaster lit)
    {
        var before = new byte[3];
        for (var row = 0; row < thin.HeightDots; row++)
        {
            var y0 = row;
            GainPlane.ForEach(thin.Row(row), column =>
            {
                var own = ((y0 * thin.WidthDots) + column) * 3;
                var (best, most) = (own, _tones.Gain.Of(_rgb[own], _rgb[own + 1], _rgb[own + 2]));
                for (var index = 0; index < Around.Length; index += 2)
                {
                    var (x, y) = (column + Around[index], y0 + Around[index + 1]);
                    if (x >= 0 && y >= 0 && x < lit.WidthDots && y < lit.HeightDots && lit[x, y])
                    {
                        var at = ((y * lit.WidthDots) + x) * 3;
                        var gain = _tones.Gain.Of(_rgb[at], _rgb[at + 1], _rgb[at + 2]);
                        (best, most) = gain > most ? (at, gain) : (best, most);
                    }
                }

                _rgb.AsSpan(best, 3).CopyTo(before);
                before.CopyTo(_rgb, own);
            });
        }
    }

    private void Bleach(BitRaster kept, bool[] paper)
    {
        var white = kept.Complement();
        for (var row = 0; row < kept.HeightDots; row++)
        {
            var start = row * kept.WidthDots;
            GainPlane.ForEach(white.Row(row), column => _rgb.AsSpan((start + column) * 3, 3).Fill(255));
            GainPlane.ForEach(kept.Row(row), column =>
            {
                if (paper[BinAt(start + column)])
                {
                    _rgb.AsSpan((start + column) * 3, 3).Fill(255);
                }
            });
        }
    }
}
