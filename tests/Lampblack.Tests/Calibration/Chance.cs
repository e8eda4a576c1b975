using System;

namespace Lampblack.Tests.Calibration;

/// <summary>Repeatable chance: xorshift with 64 bits, shifts 13, 7 and 17 (G. Marsaglia, 2003), and the polar way to normal numbers.</summary>
internal sealed class Chance(ulong seed)
{
    private ulong _state = (seed * 0x9E3779B97F4A7C15UL) | 1;

    public double Between(double low, double high)
    {
        _state ^= _state << 13;
        _state ^= _state >> 7;
        _state ^= _state << 17;
        return low + ((high - low) * ((_state >> 11) / (double)(1UL << 53)));
    }

    public double Normal(double sd)
    {
        while (true)
        {
            var (a, b) = (Between(-1, 1), Between(-1, 1));
            var square = (a * a) + (b * b);
            if (square is > 0 and < 1)
            {
                return sd * a * Math.Sqrt(-2 * Math.Log(square) / square);
            }
        }
    }
}
