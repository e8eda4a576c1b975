using System;

namespace Lampblack.Firmware;

/// <summary>
/// The serial line's rate as the chip can make it at 16 MHz: 1 MHz over a whole number, or 2 MHz over one.
/// The second takes fewer samples of each bit and is only used where it comes nearer.
/// </summary>
public static class SerialRate
{
    private const double PlainHertz = 1_000_000;
    private const int DoubleSpeed = 0x8000;

    /// <summary>How far off the chip's rate is, as a percentage of the rate asked for; above 0 it is faster. 250000 and 500000 are exact, 115200 is 2.1 off.</summary>
    public static double ErrorPercent(int baud) => baud <= 0 ? 100 : Error(baud, IsDouble(baud)) * 100;

    /// <summary>The number for the table: one less than the divider, the highest bit for double speed.</summary>
    internal static int Packed(int baud) => (Divider(baud, IsDouble(baud)) - 1) | (IsDouble(baud) ? DoubleSpeed : 0);

    private static bool IsDouble(int baud) => Math.Abs(Error(baud, true)) < Math.Abs(Error(baud, false));

    private static double Error(int baud, bool isDouble) => PlainHertz * (isDouble ? 2 : 1) / Divider(baud, isDouble) / baud - 1;

    private static int Divider(int baud, bool isDouble) =>
        Math.Clamp((int)Math.Round(PlainHertz * (isDouble ? 2 : 1) / Math.Max(baud, 1), MidpointRounding.AwayFromZero), 1, 4096);
}
