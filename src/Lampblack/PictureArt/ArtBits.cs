using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Numerics;
using System.Runtime.CompilerServices;
using System.Threading.Tasks;
using Lampblack.Bitmaps;
using Lampblack.Findings;

namespace Lampblack.PictureArt;

/// <summary>A picture's openings as set and clear dots at a resolution that printers have.</summary>
/// <param name="Openings">The dots that shine; all others are field.</param>
/// <param name="ResolutionDpi">1200 where the picture has 900 dots to the inch or more at its wanted size, else 600.</param>
/// <param name="MmPerDot">The side of a dot: the wanted width over the dots of a row.</param>
public sealed record ArtBits(BitRaster Openings, double ResolutionDpi, double MmPerDot)
{
    /// <summary>From this resolution on, 1200 dots to the inch are worth their room.</summary>
    public const double FineFromDpi = 900;

    /// <summary>Below this, edges come out soft.</summary>
    public const double SoftBelowDpi = 150;

    private const double FineDpi = 1200;
    private const double UsualDpi = 600;
    private const double MostDots = 400e6;
    private const float Rounding = 0.01f;

    /// <summary>
    /// Makes the dots. A coarser picture is brought to 600 by straight lines through its lightness, and the border is drawn where they cross the threshold:
    /// edges come out where they were drawn to a tenth of the picture's own dots, but nothing is added that is not in it.
    /// </summary>
    /// <param name="found">The field.</param>
    /// <param name="widthMm">The width that the picture is to have.</param>
    /// <exception cref="ArgumentOutOfRangeException">The width is not above 0, or there would be more than 400 million dots.</exception>
    public static Checked<ArtBits> Of(FoundField found, double widthMm)
    {
        ArgumentNullException.ThrowIfNull(found);
        var plane = found.Plane;
        var own = OwnDpi(plane.Width, widthMm);
        var (width, height, dpi) = Size(plane.Width, plane.Height, widthMm);
        if (!(widthMm > 0 && width * height <= MostDots))
        {
            throw new ArgumentOutOfRangeException(nameof(widthMm), widthMm, "artwork has a width above 0 mm and at most 400 million dots");
        }

        var openings = width == plane.Width && height == plane.Height ? found.Openings : Resampled(plane, found.Threshold, (int)width, (int)height);
        return new(new(openings, dpi, widthMm / width), Notes(found.Picture.FileName, own));
    }

    /// <summary>A finding where a picture would become more dots than are worked with.</summary>
    /// <param name="picture">The picture.</param>
    /// <param name="widthMm">The width that it is to have.</param>
    internal static ImmutableArray<Finding> Check(SourcePicture picture, double widthMm)
    {
        var (width, height, dpi) = Size(picture.WidthPx, picture.HeightPx, widthMm);
        return width * height <= MostDots ? [] :
        [
            Finding.Stop(
                "art-too-large",
                string.Create(CultureInfo.InvariantCulture, $"{Shown.Quoted(picture.FileName)} has {width * height / 1e6:0} million dots at {widthMm:0} mm and {dpi:0} to the inch; 400 million are the most."),
                "Give a smaller width: the largest sheet, A3, is 420 mm long."),
        ];
    }

    private static (double Width, double Height, double Dpi) Size(int widthPx, int heightPx, double widthMm)
    {
        var dpi = OwnDpi(widthPx, widthMm) >= FineFromDpi ? FineDpi : UsualDpi;
        var width = Math.Max(1, Math.Round(widthMm / 25.4 * dpi, MidpointRounding.AwayFromZero));
        return (width, Math.Max(1, Math.Round(width * heightPx / widthPx, MidpointRounding.AwayFromZero)), dpi);
    }

    /// <summary>How many dots to the inch a picture has at a width.</summary>
    private static double OwnDpi(int widthPx, double widthMm) => widthPx * 25.4 / widthMm;

    private static ImmutableArray<Finding> Notes(string fileName, double own)
    {
        var shown = string.Create(CultureInfo.InvariantCulture, $"{Shown.Quoted(fileName)} has {own:0} dots to the inch at this width");
        if (own < SoftBelowDpi)
        {
            return [Finding.Warn("art-coarse", $"{shown}; below 150 edges are soft and small letters may close.", "Export it again with 600 dots to the inch at its true size, or as SVG.")];
        }

        // Half a dot on a page's width is rounding, no change of resolution.
        return own < UsualDpi * 0.99
            ? [Finding.Note("art-upscaled", $"{shown}; its edges were drawn smoothly at 600, details stay as coarse as they are.", "Export it with 600 dots to the inch for finer ones.")]
            : [];
    }

    private static BitRaster Resampled(GainPlane plane, int threshold, int width, int height)
    {
        // One step for both ways: dots stay square, and what half a row is too much or too little falls on the lower edge.
        var step = (double)plane.Width / width;
        var (across, down) = (new Resampling(width, step), new Resampling(height, step));
        var bits = new BitRasterBuilder(width, height);
        Parallel.For(0, (height + 63) / 64, band =>
        {
            var sums = new float[plane.Width + across.Taps + across.Taps];
            for (var row = band * 64; row < Math.Min((band + 1) * 64, height); row++)
            {
                var line = sums.AsSpan(across.Taps, plane.Width);
                line.Clear();
                var weights = down.Weights(row);
                for (var tap = 0; tap < weights.Length; tap++)
                {
                    Resampling.AddWeighted(plane.Row(Math.Clamp(down.First(row) + tap, 0, plane.Height - 1)), weights[tap], line);
                }

                sums.AsSpan(0, across.Taps).Fill(line[0]);
                sums.AsSpan(across.Taps + plane.Width).Fill(line[^1]);
                Cross(sums, across, threshold - 0.5f, bits.Row(row), width);
            }
        });
        return bits.ToRaster();
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Cross(ReadOnlySpan<float> sums, Resampling across, float threshold, Span<ulong> words, int width)
    {
        for (var word = 0; word < words.Length; word++)
        {
            var (start, end) = (word * 64, Math.Min((word * 64) + 64, width));
            var from = Math.Clamp(across.First(start) + across.Taps, 0, sums.Length);
            var to = Math.Clamp(across.First(end - 1) + across.Taps + across.Taps, 0, sums.Length);
            words[word] = Sides(sums[from..to], threshold) switch
            {
                > 0 => end - start == 64 ? ulong.MaxValue : (1UL << (end - start)) - 1,
                < 0 => 0,
                _ => Exact(sums, across, threshold, start, end),
            };
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static ulong Exact(ReadOnlySpan<float> sums, Resampling across, float threshold, int start, int end)
    {
        var bits = 0UL;
        for (var column = start; column < end; column++)
        {
            var weights = across.Weights(column);
            var from = Math.Max(0, across.First(column) + across.Taps);
            var sum = 0f;
            for (var tap = 0; tap < weights.Length && from + tap < sums.Length; tap++)
            {
                sum += weights[tap] * sums[from + tap];
            }

            bits |= sum >= threshold ? 1UL << (column - start) : 0;
        }

        return bits;
    }

    /// <summary>1 where all lie above, -1 where all lie below, with room for rounding.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static int Sides(ReadOnlySpan<float> sums, float threshold)
    {
        var (low, high) = (new Vector<float>(float.MaxValue), new Vector<float>(float.MinValue));
        var (lowest, highest) = (float.MaxValue, float.MinValue);
        var index = 0;
        for (; index <= sums.Length - Vector<float>.Count; index += Vector<float>.Count)
        {
            var part = new Vector<float>(sums[index..]);
            (low, high) = (Vector.Min(low, part), Vector.Max(high, part));
        }

        for (; index < sums.Length; index++)
        {
            (lowest, highest) = (Math.Min(lowest, sums[index]), Math.Max(highest, sums[index]));
        }

        for (var lane = 0; lane < Vector<float>.Count; lane++)
        {
            (lowest, highest) = (Math.Min(lowest, low[lane]), Math.Max(highest, high[lane]));
        }

        return lowest - Rounding > threshold ? 1 : highest + Rounding < threshold ? -1 : 0;
    }
}
