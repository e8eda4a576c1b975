using System;
using Lampblack.Findings;
using Lampblack.Parts;

namespace Lampblack.Wiring;

/// <summary>How exactly a controller meets a serial line's speed: its clock is divided by a whole number, and by 8 or 16.</summary>
public static class SerialSpeed
{
    /// <summary>More than this and bytes get lost once the other side is off as well. Common practice, no source.</summary>
    public const double MostErrorShare = 0.02;

    /// <summary>How far off the speed is, of the better of both dividers: 0.021 for 2.1 % too fast.</summary>
    /// <param name="baud">Bits a second, above 0.</param>
    public static double ErrorShare(int baud)
    {
        var (fast, slow) = (Of(8), Of(16));
        return Math.Abs(fast) < Math.Abs(slow) ? fast : slow;

        double Of(int divider)
        {
            // The chip's register holds 12 bits.
            var steps = Math.Clamp(Math.Round(Controller.ClockHertz / divider / baud, MidpointRounding.AwayFromZero), 1, 4096);
            return (Controller.ClockHertz / divider / steps / baud) - 1;
        }
    }

    /// <summary>A finding where the speed is too far off; else null.</summary>
    /// <param name="baud">Bits a second.</param>
    /// <param name="span">Where it is asked for.</param>
    public static Finding? Check(int baud, SourceSpan? span)
    {
        var error = ErrorShare(baud);
        return Math.Abs(error) <= MostErrorShare
            ? null
            : Finding.Stop(
                "baud-error",
                FormattableString.Invariant($"{baud} bits a second can't be made from 16 MHz: it comes out {Math.Abs(error) * 100:0.0} % too {(error > 0 ? "fast" : "slow")}, and at most {MostErrorShare * 100:0} % is good"),
                "250000 and 500000 are exact, 38400 and 76800 nearly so",
                span);
    }
}
