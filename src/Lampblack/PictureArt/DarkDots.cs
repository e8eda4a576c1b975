using System;
using System.Numerics;
using System.Runtime.CompilerServices;
using System.Threading.Tasks;
using Lampblack.Bitmaps;

namespace Lampblack.PictureArt;

/// <summary>Gathers the dots that shine by one strong colour only and are dark to the eye, while a picture is read.</summary>
internal sealed class DarkDots
{
    /// <summary>What shines but is lighter than the field (L*) by less than this, is dark to the eye.</summary>
    private const double DarkerBy = 20;

    private readonly Gain _gain;
    private readonly int _threshold;
    private readonly bool[]? _bins;
    private readonly int _upright;
    private readonly (long Start, long ByColumn, long ByRow) _steps;
    private readonly BitRasterBuilder _dots;
    private readonly ulong[] _lit;

    public DarkDots(Tones tones, SourcePicture picture)
    {
        var header = picture.Header;
        (_gain, _threshold) = (tones.Gain, tones.Valley!.Value.Threshold);
        (_upright, var high) = header.Turn.Size(header.Width, header.Height);
        (_steps, _dots, _lit) = (header.Turn.Steps(header.Width, header.Height), new(_upright, high), new ulong[(header.Width + 63) / 64]);
        _bins = header.Form.Bytes > 1 && !_gain.Inverted ? Bins(tones, picture.Census) : null;
    }

    /// <summary>Takes a stored row with its gains.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Add(int row, ReadOnlySpan<byte> dots, DotForm form, ReadOnlySpan<byte> gains)
    {
        if (_bins is null)
        {
            return;
        }

        // Only what shines is asked for its colour, and most of a panel is field.
        GainPlane.Pack(gains, (byte)_threshold, 255, _lit);
        for (var index = 0; index < _lit.Length; index++)
        {
            for (var word = _lit[index]; word != 0; word &= word - 1)
            {
                var column = (index * 64) + BitOperations.TrailingZeroCount(word);
                if (_bins[BinOf(dots, column * form.Bytes, form)])
                {
                    var at = _steps.Start + (column * _steps.ByColumn) + (row * _steps.ByRow);
                    _dots[(int)(at % _upright), (int)(at / _upright)] = true;
                }
            }
        }
    }

    /// <summary>All of them, upright.</summary>
    public BitRaster ToRaster() => _dots.ToRaster();

    private int BinOf(ReadOnlySpan<byte> dots, int at, DotForm form)
    {
        if (!form.HasAlpha)
        {
            return Tones.Bin(dots[at], dots[at + 1], dots[at + 2]);
        }

        var alpha = dots[at + 3];
        return Tones.Bin(Census.Over(dots[at], alpha, _gain.Ground), Census.Over(dots[at + 1], alpha, _gain.Ground), Census.Over(dots[at + 2], alpha, _gain.Ground));
    }

    /// <summary>Which colours count, by <see cref="Tones.Bin"/>; null where the picture has none of them.</summary>
    private static bool[]? Bins(Tones tones, Census census)
    {
        const int OfRed = Census.Steps * Census.Steps;
        var bins = new bool[Census.Steps * OfRed];
        var limit = tones.FieldLightness + DarkerBy;
        Parallel.For(0, Census.Steps, step =>
        {
            for (var bin = step * OfRed; bin < (step + 1) * OfRed; bin++)
            {
                var (red, green, blue) = (Census.Code(step), Census.Code(bin / Census.Steps % Census.Steps), Census.Code(bin % Census.Steps));
                bins[bin] = tones.Gain.Of(red, green, blue) >= tones.Valley!.Value.Threshold && Lightness.Of(red, green, blue) < limit;
            }
        });
        var counted = census.All(tones.Gain.Ground == 255);
        for (var bin = 0; bin < bins.Length; bin++)
        {
            if (bins[bin] && counted[bin] > 0)
            {
                return bins;
            }
        }

        return null;
    }
}
