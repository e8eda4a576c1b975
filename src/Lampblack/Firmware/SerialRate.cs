using System;

namespace Lampblack.Firmware;

/// <summary>
/// The serial line's rate as the chip can make it at 16 MHz: 1 MHz over a whole number, or 2 MHz over one.
/// The second takes fewer samples of each bit and is only used where it comes nearer.
/// </summary>
internal static class SerialRate
{
    private const double PlainHertz = 1_000_000;
    private const int DoubleSpeed = 0x8000;

    /// <summary>The number for the table: one less than the divider, the highest bit for double speed.</summary>
    public static int Packed(int baud) => (Divider(baud, IsDouble(baud)) - 1) | (IsDouble(baud) ? DoubleSpeed : 0);

    private static bool IsDouble(int baud) => Math.Abs(Error(baud, true)) < Math.Abs(Error(baud, false));

    private static double Error(int baud, bool isDouble) => PlainHertz * (isDouble ? 2 : 1) / Divider(baud, isDouble) / baud - 1;

    private static int Divider(int baud, bool isDouble) =>
        Math.Clamp((int)Math.Round(PlainHertz * (isDouble ? 2 : 1) / Math.Max(baud, 1), MidpointRounding.AwayFromZero), 1, 4096);
}
