using System;
using System.Runtime.CompilerServices;

namespace Lampblack.PictureArt;

/// <summary>How often each colour occurs, in 64 steps of each of red, green and blue.</summary>
/// <remarks>
/// Dots that resemble their left and upper neighbours count <see cref="QuietWeight"/> times: dots on edges are mixtures, and a histogram without them
/// has deeper valleys (J. S. Weszka, R. N. Nagel, A. Rosenfeld, IEEE Transactions on Computers 23 (1974) 1322-1326). Large pictures are counted in some of their rows only.
/// </remarks>
internal sealed class Census
{
    public const int Steps = 64;
    public const int QuietWeight = 16;

    private const int QuietCodes = 24;
    private const long EnoughDots = 8_000_000;

    private readonly uint[] _overBlack = new uint[Steps * Steps * Steps];
    private readonly uint[] _quietOverBlack = new uint[Steps * Steps * Steps];
    private readonly uint[]? _overWhite;
    private readonly uint[]? _quietOverWhite;
    private readonly int _rowStep;
    private byte[] _lastOfBand = [];

    public Census(PictureHeader header)
    {
        (_overWhite, _quietOverWhite) = header.Form.HasAlpha ? (new uint[_overBlack.Length], new uint[_overBlack.Length]) : (null, null);
        _rowStep = (int)Math.Max(1, (long)header.Width * header.Height / EnoughDots);
    }

    /// <summary>Dots that were counted.</summary>
    public long Dots { get; private set; }

    /// <summary>Opaqueness that was missing, in dots.</summary>
    public double Transparent { get; private set; }

    /// <summary>What is drawn on the transparent ground and is light, in dots.</summary>
    public double DrawnLight { get; private set; }

    /// <summary>What is drawn on the transparent ground and is dark, in dots.</summary>
    public double DrawnDark { get; private set; }

    /// <summary>All counted dots by colour; transparent ones as they look over black or white.</summary>
    public ReadOnlySpan<uint> All(bool overWhite) => overWhite && _overWhite is { } white ? white : _overBlack;

    /// <summary>The dots that resemble their neighbours.</summary>
    public ReadOnlySpan<uint> Quiet(bool overWhite) => overWhite && _quietOverWhite is { } white ? white : _quietOverBlack;

    /// <summary>Weights of the colours.</summary>
    public double[] Weights(bool overWhite)
    {
        var all = All(overWhite);
        var quiet = Quiet(overWhite);
        var weights = new double[all.Length];
        for (var bin = 0; bin < weights.Length; bin++)
        {
            weights[bin] = all[bin] + ((QuietWeight - 1.0) * quiet[bin]);
        }

        return weights;
    }

    /// <summary>The middle code of a step; black and white are kept as they are.</summary>
    public static int Code(int step) => step switch { 0 => 0, Steps - 1 => 255, _ => (step * 4) + 2 };

    public void Add(Band band)
    {
        for (var index = 0; index < band.Count; index++)
        {
            if ((band.First + index) % _rowStep == 0)
            {
                var row = band.Row(index);
                var above = index > 0 ? band.Row(index - 1) : _lastOfBand.Length > 0 ? _lastOfBand : row;
                AddRow(row, above, band.Form);
            }
        }

        _lastOfBand = band.Row(band.Count - 1).ToArray();
    }

    private void AddRow(ReadOnlySpan<byte> row, ReadOnlySpan<byte> above, DotForm form)
    {
        Dots += row.Length / form.Bytes;
        if (form.Bytes == 1)
        {
            AddGrey(row, above, _overBlack, _quietOverBlack);
        }
        else if (!form.HasAlpha)
        {
            AddColours(row, above, form.Bytes, _overBlack, _quietOverBlack);
        }
        else
        {
            AddTransparent(row, above);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void AddGrey(ReadOnlySpan<byte> row, ReadOnlySpan<byte> above, uint[] all, uint[] quiet)
    {
        int left = row[0];
        for (var index = 0; index < row.Length; index++)
        {
            int code = row[index];
            var isQuiet = Math.Abs(code - left) <= QuietCodes && Math.Abs(code - above[index]) <= QuietCodes;
            var bin = (code >> 2) * ((Steps * Steps) + Steps + 1);
            all[bin]++;
            quiet[bin] += isQuiet ? 1u : 0;
            left = code;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void AddColours(ReadOnlySpan<byte> row, ReadOnlySpan<byte> above, int bytes, uint[] all, uint[] quiet)
    {
        for (var at = 0; at + 2 < row.Length; at += bytes)
        {
            var bin = Bin(row[at], row[at + 1], row[at + 2]);
            all[bin]++;
            quiet[bin] += IsQuiet(row, above, at, bytes) ? 1u : 0;
        }
    }

    private static bool IsQuiet(ReadOnlySpan<byte> row, ReadOnlySpan<byte> above, int at, int bytes)
    {
        var left = Math.Max(at - bytes, at % bytes);
        return Near(row[at], row[left], above[at]) && Near(row[at + 1], row[left + 1], above[at + 1]) && Near(row[at + 2], row[left + 2], above[at + 2]);
    }

    private static bool Near(int code, int left, int above) => Math.Abs(code - left) <= QuietCodes && Math.Abs(code - above) <= QuietCodes;

    private void AddTransparent(ReadOnlySpan<byte> row, ReadOnlySpan<byte> above)
    {
        for (var at = 0; at + 3 < row.Length; at += 4)
        {
            var alpha = row[at + 3];
            var isQuiet = IsQuiet(row, above, at, 4) && Math.Abs(alpha - above[at + 3]) <= QuietCodes && (at == 0 || Math.Abs(alpha - row[at - 1]) <= QuietCodes);
            var black = Bin(Over(row[at], alpha, 0), Over(row[at + 1], alpha, 0), Over(row[at + 2], alpha, 0));
            var white = Bin(Over(row[at], alpha, 255), Over(row[at + 1], alpha, 255), Over(row[at + 2], alpha, 255));
            _overBlack[black]++;
            _overWhite![white]++;
            _quietOverBlack[black] += isQuiet ? 1u : 0;
            _quietOverWhite![white] += isQuiet ? 1u : 0;
            Transparent += (255 - alpha) / 255.0;
            if (alpha > 0)
            {
                if (Lightness.IsLight(row[at], row[at + 1], row[at + 2]))
                {
                    DrawnLight += alpha / 255.0;
                }
                else
                {
                    DrawnDark += alpha / 255.0;
                }
            }
        }
    }

    /// <summary>The code of a dot over a ground, mixed as drawing programs do: in stored codes.</summary>
    public static int Over(int code, int alpha, int ground) => ((code * alpha) + (ground * (255 - alpha)) + 127) / 255;

    private static int Bin(int red, int green, int blue) => ((((red >> 2) * Steps) + (green >> 2)) * Steps) + (blue >> 2);
}
