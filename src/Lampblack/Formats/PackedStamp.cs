using System;
using System.Collections.Immutable;
using System.Security.Cryptography;

namespace Lampblack.Formats;

/// <summary>A shape as a form of a PDF (ISO 32000-1 clause 8.10): drawn once, its first corner at the origin, and painted in the ink of wherever it is stamped.</summary>
/// <param name="Name">Made from its drawing.</param>
/// <param name="Head">The entries of its dictionary, but for its length.</param>
/// <param name="Bytes">Its drawing, plain: too short to be worth packing.</param>
internal sealed record PackedStamp(string Name, ImmutableArray<byte> Head, ImmutableArray<byte> Bytes) : NamedPart(Name, Head, Bytes)
{
    /// <summary>Steps of the grid in a point, rounded down: boxes made with it are a little too large.</summary>
    private const int StepsPerPoint = 3527;

    /// <summary>The stamp of a piece.</summary>
    /// <param name="corners">Of each border the number of corners, and the corners in steps of the grid.</param>
    public static PackedStamp Of(ReadOnlySpan<int> corners)
    {
        var content = new ByteText(corners.Length * 7);
        var (left, bottom, right, top) = AddBorders(content, corners, 0, 0);
        content.Add("f*"u8);
        var head = new ByteText(128).Add("/Type /XObject /Subtype /Form /Resources << >> /BBox ["u8)
            .Add(Outwards(left)).Add(" "u8).Add(Outwards(bottom)).Add(" "u8).Add(Outwards(right)).Add(" "u8).Add(Outwards(top)).Add("]"u8);

        // 96 bits tell any two drawings apart.
        return new("S" + Convert.ToHexString(SHA256.HashData(content.Written).AsSpan(0, 12)), head.ToImmutable(), content.ToImmutable());
    }

    /// <summary>Adds borders as closed sub-paths, shifted by so many steps.</summary>
    /// <returns>How far they reach, in steps.</returns>
    public static (long Left, long Bottom, long Right, long Top) AddBorders(ByteText content, ReadOnlySpan<int> corners, long rightSteps, long upSteps)
    {
        var (left, bottom, right, top) = (long.MaxValue, long.MaxValue, long.MinValue, long.MinValue);
        while (!corners.IsEmpty)
        {
            var border = corners.Slice(1, 2 * corners[0]);
            for (var at = 0; at < border.Length; at += 2)
            {
                var (x, y) = (border[at] + rightSteps, border[at + 1] + upSteps);
                content.AddStepsAsPoints(x).Add(" "u8).AddStepsAsPoints(y).Add(at == 0 ? " m\n"u8 : " l\n"u8);
                (left, right, bottom, top) = (Math.Min(left, x), Math.Max(right, x), Math.Min(bottom, y), Math.Max(top, y));
            }

            content.Add("h\n"u8);
            corners = corners[(1 + border.Length)..];
        }

        return (left, bottom, right, top);
    }

    /// <summary>Whole points, at least one farther out.</summary>
    private static long Outwards(long steps) => (steps / StepsPerPoint) + (steps < 0 ? -1 : 1);
}
