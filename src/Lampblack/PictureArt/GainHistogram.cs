using System;

namespace Lampblack.PictureArt;

/// <summary>How often each gain occurs, smoothed, with its hills and the valley between the field's hill and the first one that shines.</summary>
/// <remarks>
/// The mode method: J. M. S. Prewitt, M. L. Mendelsohn, Annals of the New York Academy of Sciences 128 (1966) 1035-1053. In an empty valley every threshold
/// would do for the areas; the one nearest to the middle puts anti-aliased edges where they were drawn.
/// </remarks>
internal sealed class GainHistogram
{
    private const double SmoothingCodes = 4;

    /// <summary>A hill that is less of the picture than this is dust.</summary>
    private const double LeastHill = 2e-4;

    private readonly double[] _smooth;
    private readonly double[] _raw;
    private readonly double[] _quiet;

    /// <param name="raw">All gains, quiet dots counted more.</param>
    /// <param name="quiet">Those of quiet dots alone: hills of mixtures on edges are not in it.</param>
    public GainHistogram(double[] raw, double[] quiet)
    {
        (_raw, _quiet) = (raw, quiet);
        _smooth = Smoothed(raw);
    }

    /// <summary>What was found.</summary>
    /// <param name="Field">Gain of the field's hill.</param>
    /// <param name="Lit">Gain of the first hill that shines.</param>
    /// <param name="Threshold">First gain that is no field.</param>
    /// <param name="Depth">1 for an empty valley, 0 for none: (1 - lowest / lower hill) less the share of what lies between the hills.</param>
    public readonly record struct Valley(int Field, int Lit, int Threshold, double Depth);

    /// <summary>The valley to the right of the field; null where nothing shines.</summary>
    /// <param name="field">Around where the field's hill stands.</param>
    /// <param name="tolerance">Hills nearer than this belong to the field.</param>
    public Valley? Find(int field, int tolerance)
    {
        var low = Top(Math.Max(0, field - 8), Math.Min(255, field + Math.Min(tolerance, 24)));
        if (Share(_raw, low + tolerance, 255) < LeastHill)
        {
            return null;
        }

        var lit = FirstHill(low, low + tolerance);
        var deepest = Deepest(low, lit);
        var lower = Math.Min(_smooth[low], _smooth[lit]);
        var floor = _smooth[deepest] + (0.1 * Math.Max(0, lower - _smooth[deepest]));
        var threshold = deepest;
        var middle = (low + lit + 1) / 2;

        // The part of the valley around its deepest place that is about as deep.
        for (var step = Math.Sign(middle - deepest); step != 0 && threshold != middle && _smooth[threshold + step] <= floor; threshold += step)
        {
        }

        var depth = lower > 0 ? Math.Max(0, 1 - (_smooth[deepest] / lower)) : 0;
        return new(low, lit, Math.Max(threshold, low + 1), depth * (1 - Filling(low, lit)));
    }

    /// <summary>How much lies between the hills, as against the smaller side; a hill on a plain parts nothing.</summary>
    private double Filling(int low, int lit)
    {
        var (from, to) = (low + (int)(0.3 * (lit - low)), lit - (int)(0.3 * (lit - low)));
        var counted = Counted(low + 1);
        var sides = Math.Min(Share(counted, 0, from), Share(counted, to, 255));
        return sides > 0 ? Math.Min(1, Share(counted, from + 1, to - 1) / sides) : 1;
    }

    /// <summary>Quiet dots, but for pictures whose legends are all edge.</summary>
    private double[] Counted(int from) => Share(_quiet, from, 255) >= LeastHill ? _quiet : _raw;

    private static double Share(double[] histogram, int from, int to)
    {
        var (sum, total) = (0.0, 0.0);
        for (var index = 0; index < histogram.Length; index++)
        {
            total += histogram[index];
            sum += index >= from && index <= to ? histogram[index] : 0;
        }

        return total > 0 ? sum / total : 0;
    }

    /// <summary>
    /// The first hill beyond the tolerance that rises to twice the lowest place before it and is more than dust; the highest place beyond where none does.
    /// </summary>
    private int FirstHill(int low, int from)
    {
        var lowest = double.PositiveInfinity;
        for (var at = low; at < from && at < 256; at++)
        {
            lowest = Math.Min(lowest, _smooth[at]);
        }

        var counted = Counted(from);
        for (var at = Math.Min(from, 255); at < 256; at++)
        {
            lowest = Math.Min(lowest, _smooth[at]);
            var isTop = (at == 255 || _smooth[at] > _smooth[at + 1]) && _smooth[at] >= _smooth[at - 1];
            if (isTop && _smooth[at] >= 2 * lowest && Share(counted, at - 12, at + 12) >= LeastHill)
            {
                return at;
            }
        }

        return Top(Math.Min(from, 255), 255);
    }

    private int Top(int from, int to)
    {
        var best = from;
        for (var at = from; at <= to; at++)
        {
            best = _smooth[at] > _smooth[best] ? at : best;
        }

        return best;
    }

    private int Deepest(int from, int to)
    {
        var best = from;
        for (var at = from; at <= to; at++)
        {
            best = _smooth[at] < _smooth[best] ? at : best;
        }

        return best;
    }

    // A bell curve over 4 codes; what would fall off the ends is mirrored back.
    private static double[] Smoothed(double[] raw)
    {
        var reach = (int)(3 * SmoothingCodes);
        var smooth = new double[raw.Length];
        for (var at = 0; at < raw.Length; at++)
        {
            var (sum, weights) = (0.0, 0.0);
            for (var off = -reach; off <= reach; off++)
            {
                var weight = Math.Exp(-off * off / (2 * SmoothingCodes * SmoothingCodes));
                var from = at + off < 0 ? -(at + off) - 1 : at + off >= raw.Length ? (2 * raw.Length) - 1 - at - off : at + off;
                (sum, weights) = (sum + (weight * raw[from]), weights + weight);
            }

            smooth[at] = sum / weights;
        }

        return smooth;
    }
}
