using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Lampblack.Geometry;

namespace Lampblack.Formats;

/// <summary>Text that is built as bytes: no culture, and nothing allocated for a number, so that a hundred thousand corners are quick.</summary>
internal sealed class ByteText(int expectedBytes)
{
    /// <summary>Coordinates are refused beyond 100 m, far outside any page and far inside what 64 bits hold.</summary>
    internal const double FarthestMm = 100_000;

    private byte[] _bytes = new byte[Math.Max(256, expectedBytes)];

    /// <summary>How many bytes there are.</summary>
    public int Length { get; private set; }

    /// <summary>The bytes so far.</summary>
    public ReadOnlySpan<byte> Written => _bytes.AsSpan(0, Length);

    /// <summary>Adds bytes as they are.</summary>
    public ByteText Add(ReadOnlySpan<byte> bytes)
    {
        bytes.CopyTo(Room(bytes.Length));
        Length += bytes.Length;
        return this;
    }

    /// <summary>Adds text in UTF-8; a lone surrogate becomes U+FFFD.</summary>
    public ByteText Add(string text)
    {
        Length += Encoding.UTF8.GetBytes(text, Room(Encoding.UTF8.GetByteCount(text)));
        return this;
    }

    /// <summary>Adds a whole number.</summary>
    /// <param name="number">The number.</param>
    /// <param name="format">As the platform formats numbers, such as D10 for ten digits; plain where empty. At most 20 characters come out.</param>
    public ByteText Add(long number, ReadOnlySpan<char> format = default)
    {
        _ = number.TryFormat(Room(20), out var written, format, CultureInfo.InvariantCulture);
        Length += written;
        return this;
    }

    /// <summary>Adds a number given in ten-thousandths, with a point and at most four decimals.</summary>
    public ByteText AddTenThousandths(long tenThousandths)
    {
        var size = Math.Abs(tenThousandths);
        return AddDecimal(tenThousandths < 0, size / 10_000, (int)(size % 10_000), 1_000);
    }

    /// <summary>The whole part digit by digit from its end, then what is left of the fraction from its first place on.</summary>
    private ByteText AddDecimal(bool isNegative, long whole, int fraction, int place)
    {
        var room = Room(26);
        var at = 0;
        if (isNegative)
        {
            room[at++] = (byte)'-';
        }

        at += DigitsOf(whole);
        var end = at;
        do
        {
            room[--at] = (byte)('0' + (whole % 10));
            whole /= 10;
        }
        while (whole > 0);

        at = end;
        if (fraction > 0)
        {
            room[at++] = (byte)'.';
            for (; fraction > 0; place /= 10)
            {
                room[at++] = (byte)('0' + (fraction / place));
                fraction %= place;
            }
        }

        Length += at;
        return this;
    }

    private static int DigitsOf(long number)
    {
        var digits = 1;
        for (; number >= 10; number /= 10)
        {
            digits++;
        }

        return digits;
    }

    /// <summary>Adds a plain number rounded to four decimals.</summary>
    public ByteText AddRounded(double number) =>
        AddTenThousandths((long)Math.Round(number * 10_000, MidpointRounding.AwayFromZero));

    /// <summary>Adds a length in mm, snapped to the grid.</summary>
    public ByteText AddMm(double mm) => AddTenThousandths(GridSteps(mm));

    /// <summary>Adds a length in points of 1/72 inch, snapped to the grid in mm before.</summary>
    /// <remarks>
    /// A thousandth of a point is 0.35 µm, so the nearest one is within 0.18 µm: a 240th of a dot at 600 dpi. A fourth decimal would make files a tenth longer.
    /// Whole-number arithmetic, 72/25.4 being 360/127. The doubled number is odd and 254 even, so there is neither a tie nor a division without rest.
    /// </remarks>
    public ByteText AddPoints(double mm) => AddStepsAsPoints(GridSteps(mm));

    /// <summary>Adds a length in points, given in steps of the grid.</summary>
    /// <inheritdoc cref="AddPoints"/>
    public ByteText AddStepsAsPoints(long steps)
    {
        var thousandths = ((Math.Abs(steps) * 72) + 127) / 254;
        return AddDecimal(steps < 0 && thousandths > 0, thousandths / 1_000, (int)(thousandths % 1_000), 100);
    }

    /// <summary>
    /// Adds a length in points to four decimals: the few numbers of a page's boxes; and the side of a picture made of dots, which is not on the grid. Snapped, 320 dots of a 600th of an inch would be a hair wider than they are,
    /// and programs that round a picture's edges outwards would make 321 of them.
    /// </summary>
    public ByteText AddExactPoints(double mm)
    {
        _ = GridSteps(mm);
        return AddRounded(mm * 72 / 25.4);
    }

    /// <summary>The bytes, no longer to be changed.</summary>
    public ImmutableArray<byte> ToImmutable() => [.. Written];

    private static long GridSteps(double mm) => Math.Abs(mm) <= FarthestMm
        ? (long)Math.Round(mm / Resolution.GridMm, MidpointRounding.AwayFromZero)
        : throw new ArgumentException($"a coordinate is not a number within {FarthestMm} mm", nameof(mm));

    private Span<byte> Room(int more)
    {
        if (Length + more > _bytes.Length)
        {
            Array.Resize(ref _bytes, Math.Max(_bytes.Length * 2, Length + more));
        }

        return _bytes.AsSpan(Length);
    }
}
