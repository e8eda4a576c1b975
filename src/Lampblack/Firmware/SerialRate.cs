using System;

namespace Lampblack.Firmware;

/// <summary>The serial line's rate as the chip can make it at 16 MHz in double speed: 2 MHz over a whole number.</summary>
public static class SerialRate
{
    private const int Fastest = 2_000_000;

    /// <summary>The number for the chip's register: one less than the divider.</summary>
    internal static int DividerOf(int baud) => Math.Clamp((int)Math.Round((double)Fastest / Math.Max(baud, 1), MidpointRounding.AwayFromZero), 1, 4096) - 1;

    /// <summary>How far off the chip's rate is, as a percentage of the rate asked for; above 0 it is faster. 250000 and 500000 are exact, 115200 is 2.1 off.</summary>
    public static double ErrorPercent(int baud) => baud <= 0 ? 100 : (Fastest / (double)(DividerOf(baud) + 1) / baud - 1) * 100;
}
