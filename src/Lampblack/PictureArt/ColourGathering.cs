using System;
using System.Numerics;
using System.Runtime.CompilerServices;
using System.Threading;
using System.Threading.Tasks;
using Lampblack.Bitmaps;

namespace Lampblack.PictureArt;

/// <summary>Takes the strongest dot of each square of some dots while a picture is read, and makes legends' colours of them.</summary>
internal sealed class ColourGathering
{
    private const long MostDots = 10_000_000;

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

        if (form != DotForm.Rgb)
        {
            _tones.Gain.Opaque(dots, form, _line);
        }

        if (row % _square == 0)
        {
            _strongest.AsSpan().Clear();
        }

        Strongest(gains, form == DotForm.Rgb ? dots : _line, _square, _strongest, to);
    }

    /// <summary>The later of equally strong dots counts.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Strongest(ReadOnlySpan<byte> gains, ReadOnlySpan<byte> colours, int square, Span<byte> strongest, Span<byte> to)
    {
        var column = 0;
        for (var at = 0; at < strongest.Length; at++)
        {
            var (most, best) = (strongest[at], -1);
            for (var end = Math.Min(column + square, gains.Length); column < end; column++)
            {
                if (gains[column] >= most)
                {
                    (most, best) = (gains[column], column);
                }
            }

            if (best >= 0)
            {
                strongest[at] = most;
                (to[at * 3], to[(at * 3) + 1], to[(at * 3) + 2]) = (colours[best * 3], colours[(best * 3) + 1], colours[(best * 3) + 2]);
            }
        }
    }

    /// <summary>The finished colours; null where nothing but bare paper is left.</summary>
    public ArtColours? Finish(GainPlane plane)
    {
        var turn = _header.Turn;
        _rgb = turn.Apply(_rgb, _width, _height, 3);
        var (width, height) = turn.Size(_width, _height);
        var threshold = _tones.Valley!.Value.Threshold;
        var lit = _square == 1 ? plane.Between(threshold, 255) : Lit(width, height, threshold);
        var inner = lit.Shrink(1.5, BeyondEdge.Set);
        var deep = inner.Shrink(1.5, BeyondEdge.Set);
        // Dots on edges take their colour from well inside; thin strokes from their own middle; the thinnest from their strongest dot.
        var done = Carry(new(deep), lit, 4);
        done.Add(inner);
        Carry(done, lit, 3);
        Strengthen(lit.Except(done.ToRaster()), lit);
        done.Add(lit);
        var paper = _tones.PaperBins();
        if (Coloured(lit, paper) < FewestColoured)
        {
            return null;
        }

        Bleach(Carry(done, lit.Grow(ReachDots + 0.5), ReachDots).ToRaster(), paper);
        return new(width, height, _square, turn.Size(_header.Width, _header.Height), _rgb);
    }

    private BitRaster Lit(int width, int height, int threshold)
    {
        var bits = new BitRasterBuilder(width, height);
        Parallel.For(0, height, row =>
        {
            Span<byte> line = new byte[width];
            _tones.Gain.Of(_rgb.AsSpan(row * width * 3, width * 3), DotForm.Rgb, line);
            GainPlane.Pack(line, (byte)threshold, 255, bits.Row(row));
        });
        return bits.ToRaster();
    }

    private long Coloured(BitRaster dots, bool[] paper)
    {
        var count = 0L;
        Parallel.For(0, dots.HeightDots, row =>
        {
            var (start, found) = (row * dots.WidthDots, 0L);
            var words = dots.Row(row);
            for (var index = 0; index < words.Length; index++)
            {
                for (var word = words[index]; word != 0; word &= word - 1)
                {
                    found += paper[BinAt(start + (index * 64) + BitOperations.TrailingZeroCount(word))] ? 0 : 1;
                }
            }

            Interlocked.Add(ref count, found);
        });
        return count;
    }

    private int BinAt(int dot) => Tones.Bin(_rgb[dot * 3], _rgb[(dot * 3) + 1], _rgb[(dot * 3) + 2]);

    /// <summary>Hands colours on from dot to dot, one dot farther in each round, to dots that are wanted; gives all that have one now.</summary>
    private DotFront Carry(DotFront from, BitRaster wanted, int rounds)
    {
        for (var round = 0; round < rounds; round++)
        {
            from.Advance(wanted, Copy);
        }

        return from;
    }

    // Straight neighbours before slanting ones; always in this order, so that the same picture gives the same colours.
    private static ReadOnlySpan<sbyte> Around => [-1, 0, 1, 0, 0, -1, 0, 1, -1, -1, 1, -1, -1, 1, 1, 1];

    private void Copy(int from, int to) =>
        (_rgb[to * 3], _rgb[(to * 3) + 1], _rgb[(to * 3) + 2]) = (_rgb[from * 3], _rgb[(from * 3) + 1], _rgb[(from * 3) + 2]);

    private int GainAt(int dot) => _tones.Gain.Of(_rgb[dot * 3], _rgb[(dot * 3) + 1], _rgb[(dot * 3) + 2]);

    /// <summary>Gives each dot of the thinnest strokes the colour of its strongest neighbour, from the first row to the last.</summary>
    private void Strengthen(BitRaster thin, BitRaster lit)
    {
        for (var row = 0; row < thin.HeightDots; row++)
        {
            var top = row;
            GainPlane.ForEach(thin.Row(row), column =>
            {
                var own = (top * thin.WidthDots) + column;
                var (best, most) = (own, GainAt(own));
                for (var index = 0; index < Around.Length; index += 2)
                {
                    var (x, y) = (column + Around[index], top + Around[index + 1]);
                    if (x >= 0 && y >= 0 && x < lit.WidthDots && y < lit.HeightDots && lit[x, y] && GainAt((y * lit.WidthDots) + x) is var gain && gain > most)
                    {
                        (best, most) = ((y * lit.WidthDots) + x, gain);
                    }
                }

                Copy(best, own);
            });
        }
    }

    /// <summary>Makes everything white that is bare paper or has no legend's colour.</summary>
    private void Bleach(BitRaster kept, bool[] paper) =>
        Parallel.For(0, kept.HeightDots, row => Bleach(kept.Row(row), paper, _rgb.AsSpan(row * kept.WidthDots * 3, kept.WidthDots * 3)));

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Bleach(ReadOnlySpan<ulong> kept, ReadOnlySpan<bool> paper, Span<byte> dots)
    {
        for (var index = 0; index < kept.Length; index++)
        {
            var part = dots[(index * 64 * 3)..Math.Min((index + 1) * 64 * 3, dots.Length)];
            if (kept[index] == 0)
            {
                part.Fill(255);
                continue;
            }

            for (var at = 0; at + 2 < part.Length; at += 3)
            {
                if (((kept[index] >> (at / 3)) & 1) == 0 || paper[Tones.Bin(part[at], part[at + 1], part[at + 2])])
                {
                    (part[at], part[at + 1], part[at + 2]) = (255, 255, 255);
                }
            }
        }
    }
}
