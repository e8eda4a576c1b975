using System;

namespace Lampblack.PictureArt;

/// <summary>Parts a histogram in two so that the two differ most: N. Otsu, IEEE Transactions on Systems, Man and Cybernetics 9 (1979) 62-66.</summary>
internal static class Otsu
{
    /// <summary>Where the upper part starts, the means of both, the upper one's share, and how much of the variance lies between the two (0 to 1).</summary>
    public readonly record struct Parts(int Threshold, double Low, double High, double HighShare, double Separability);

    public static Parts Of(ReadOnlySpan<double> histogram)
    {
        var (total, sum, squares) = (0.0, 0.0, 0.0);
        for (var index = 0; index < histogram.Length; index++)
        {
            total += histogram[index];
            sum += index * histogram[index];
            squares += (double)index * index * histogram[index];
        }

        var best = default(Parts);
        var (below, sumBelow, most) = (0.0, 0.0, 0.0);
        for (var index = 0; index + 1 < histogram.Length; index++)
        {
            below += histogram[index];
            sumBelow += index * histogram[index];
            if (below <= 0 || total - below <= 0)
            {
                continue;
            }

            var (low, high) = (sumBelow / below, (sum - sumBelow) / (total - below));
            var between = below / total * ((total - below) / total) * (high - low) * (high - low);
            if (between > most)
            {
                var variance = (squares / total) - (sum / total * (sum / total));
                best = new(index + 1, low, high, (total - below) / total, variance > 0 ? between / variance : 0);
                most = between;
            }
        }

        return best;
    }
}
