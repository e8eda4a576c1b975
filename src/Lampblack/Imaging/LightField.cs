using System;
using System.Buffers;
using System.Buffers.Binary;
using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using Lampblack.Optics;

namespace Lampblack.Imaging;

/// <summary>
/// Light (or a share of light) per dot, linear, in three bands; row 0 at the top. A working surface: its methods change it in place
/// and give it back, so that they can be chained.
/// </summary>
/// <remarks>
/// The loops over all dots are compiled at full strength at once: most runs make each picture only one time. The numbers' room comes from a pool,
/// and disposing gives it back; a field that is not disposed does no harm, one that is must not be used again.
/// </remarks>
public sealed class LightField : IDisposable
{
    // Four numbers per dot, the last unused: one dot is then one register. The room may be larger than the field.
    private float[] _values;

    private LightField(int widthPx, int heightPx, double mmPerDot, float[] values)
    {
        WidthPx = widthPx;
        HeightPx = heightPx;
        MmPerDot = mmPerDot;
        _values = values;
    }

    /// <summary>Dots in a row.</summary>
    public int WidthPx { get; }

    /// <summary>Rows.</summary>
    public int HeightPx { get; private set; }

    /// <summary>Side of a dot, in mm.</summary>
    public double MmPerDot { get; }

    /// <summary>The mean over all dots.</summary>
    public LinearColour Mean
    {
        get
        {
            double red = 0, green = 0, blue = 0;
            foreach (var dot in Dots)
            {
                red += dot.X;
                green += dot.Y;
                blue += dot.Z;
            }

            return 1.0 / (WidthPx * (double)HeightPx) * new LinearColour(red, green, blue);
        }
    }

    private Span<float> Values => _values.AsSpan(0, WidthPx * HeightPx * 4);

    private Span<Vector4> Dots => MemoryMarshal.Cast<float, Vector4>(Values);

    /// <summary>The light at a dot; column from the left, row from the top.</summary>
    /// <exception cref="ArgumentOutOfRangeException">There is no such dot.</exception>
    public LinearColour this[int columnPx, int rowPx]
    {
        get
        {
            ArgumentOutOfRangeException.ThrowIfNegative(columnPx);
            ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(columnPx, WidthPx);
            ArgumentOutOfRangeException.ThrowIfNegative(rowPx);
            ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(rowPx, HeightPx);
            var dot = Dots[(rowPx * WidthPx) + columnPx];
            return new(dot.X, dot.Y, dot.Z);
        }
    }

    /// <summary>The same light everywhere.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A size is not above 0.</exception>
    public static LightField Filled(int widthPx, int heightPx, double mmPerDot, LinearColour colour)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(widthPx);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(heightPx);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(mmPerDot);
        var field = new LightField(widthPx, heightPx, mmPerDot, ArrayPool<float>.Shared.Rent(checked(widthPx * heightPx * 4)));
        field.Dots.Fill(Packed(colour));
        return field;
    }

    /// <summary>A second surface with the same light.</summary>
    public LightField Copy()
    {
        var copy = new LightField(WidthPx, HeightPx, MmPerDot, ArrayPool<float>.Shared.Rent(WidthPx * HeightPx * 4));
        Values.CopyTo(copy._values);
        return copy;
    }

    /// <summary>Gives the room back.</summary>
    public void Dispose()
    {
        if (_values.Length > 0)
        {
            ArrayPool<float>.Shared.Return(_values);
            _values = [];
        }
    }

    /// <summary>Puts a colour in place of what is there, by the share that is covered; a map may lie anywhere, what sticks out is left out.</summary>
    /// <param name="coverage">Where.</param>
    /// <param name="colour">The new light.</param>
    /// <param name="leftPx">Column of the map's first column.</param>
    /// <param name="topPx">Row of the map's first row.</param>
    /// <exception cref="ArgumentException">The map's dots have another size.</exception>
    public LightField Paint(CoverageMap coverage, LinearColour colour, int leftPx = 0, int topPx = 0)
    {
        ArgumentNullException.ThrowIfNull(coverage);
        SameDots(coverage.MmPerDot);
        var paint = Packed(colour);
        var firstColumn = Math.Max(0, -leftPx);
        var endColumn = Math.Min(coverage.WidthPx, WidthPx - leftPx);
        for (var row = Math.Max(0, -topPx); row < Math.Min(coverage.HeightPx, HeightPx - topPx) && firstColumn < endColumn; row++)
        {
            PaintRow(
                coverage.Row(row)[firstColumn..endColumn],
                Dots.Slice(((row + topPx) * WidthPx) + leftPx + firstColumn, endColumn - firstColumn),
                paint);
        }

        return this;
    }

    /// <summary>Paints dots of many colours.</summary>
    /// <param name="coverage">How much of each dot is painted.</param>
    /// <param name="places">For each of its dots the place of its colour in the palette.</param>
    /// <param name="palette">The colours.</param>
    /// <param name="leftPx">Where the coverage's first column lies.</param>
    /// <param name="topPx">Where its first row lies.</param>
    internal LightField Paint(CoverageMap coverage, ReadOnlySpan<ushort> places, ReadOnlySpan<LinearColour> palette, int leftPx, int topPx)
    {
        SameDots(coverage.MmPerDot);
        for (var row = Math.Max(0, -topPx); row < Math.Min(coverage.HeightPx, HeightPx - topPx); row++)
        {
            var covered = coverage.Row(row);
            for (var column = Math.Max(0, -leftPx); column < Math.Min(coverage.WidthPx, WidthPx - leftPx); column++)
            {
                if (covered[column] > 0)
                {
                    ref var dot = ref Dots[((row + topPx) * WidthPx) + leftPx + column];
                    dot += covered[column] / 255f * (Packed(palette[places[(row * coverage.WidthPx) + column]]) - dot);
                }
            }
        }

        return this;
    }

    /// <summary>Filters all light.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public LightField Multiply(LinearColour share)
    {
        var factor = Packed(share);
        foreach (ref var dot in Dots)
        {
            dot *= factor;
        }

        return this;
    }

    /// <summary>Filters each dot by the dot of another field.</summary>
    /// <exception cref="ArgumentException">The fields differ in size.</exception>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public LightField Multiply(LightField share)
    {
        SameSize(share);
        var mine = Dots;
        var other = share.Dots[..mine.Length];
        for (var index = 0; index < mine.Length; index++)
        {
            mine[index] *= other[index];
        }

        return this;
    }

    /// <summary>Makes the dots of a row so many times as bright.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal void MultiplyRow(int row, ReadOnlySpan<float> times)
    {
        var dots = Dots.Slice(row * WidthPx, WidthPx);
        for (var column = 0; column < dots.Length; column++)
        {
            dots[column] *= times[column];
        }
    }

    /// <summary>Adds another field's light, a number of times.</summary>
    /// <exception cref="ArgumentException">The fields differ in size.</exception>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public LightField Add(LightField light, double times = 1)
    {
        SameSize(light);
        var mine = Dots;
        var other = light.Dots[..mine.Length];
        var factor = (float)times;
        for (var index = 0; index < mine.Length; index++)
        {
            mine[index] += factor * other[index];
        }

        return this;
    }

    /// <summary>Makes all light a number of times as strong.</summary>
    public LightField Scale(double times) => Multiply(LinearColour.Grey(times));

    /// <summary>Smears the light as paper does that it passes; the sum stays.</summary>
    /// <param name="spreadMm">kp in mm, see <see cref="PaperOptics.SpreadMm"/>; 0 changes nothing.</param>
    public LightField Blur(double spreadMm)
    {
        LineSpread.Of(spreadMm, MmPerDot).Apply(Values, WidthPx, HeightPx, channels: 4);
        return this;
    }

    /// <summary>Drops all rows but some.</summary>
    internal LightField Keep(int firstRow, int rows)
    {
        Values.Slice(firstRow * WidthPx * 4, rows * WidthPx * 4).CopyTo(_values);
        HeightPx = rows;
        return this;
    }

    /// <summary>The field as a picture; light above 1 is shown as 1.</summary>
    public Picture ToPicture()
    {
        var picture = new Picture(WidthPx, HeightPx, MmPerDot);
        Encode(picture.Codes);
        return picture;
    }

    /// <summary>Writes the field's codes as a picture has them: red, green, blue and 255 for each dot.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal void Encode(Span<byte> rgba)
    {
        var dots = Dots;
        rgba = rgba[..(dots.Length * 4)];
        var (last, code) = (new Vector4(float.NaN), 0u);
        for (var index = 0; index < dots.Length; index++)
        {
            // Most dots are like their neighbour.
            var dot = dots[index];
            if (dot != last)
            {
                (last, code) = (dot, Srgb.Code(dot.X) | ((uint)Srgb.Code(dot.Y) << 8) | ((uint)Srgb.Code(dot.Z) << 16) | 0xFF000000);
            }

            BinaryPrimitives.WriteUInt32LittleEndian(rgba[(index * 4)..], code);
        }
    }

    private static Vector4 Packed(LinearColour colour) => new((float)colour.Red, (float)colour.Green, (float)colour.Blue, 0);

    /// <summary>Puts four numbers in place of what is there, by the share that is covered.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static void PaintRow(ReadOnlySpan<byte> coverage, Span<Vector4> dots, Vector4 paint)
    {
        var column = 0;
        while (column < coverage.Length)
        {
            var covered = coverage[column];
            if (covered is > 0 and < 255)
            {
                dots[column] += covered / 255f * (paint - dots[column]);
                column++;
                continue;
            }

            // Nearly all dots come in long runs of nothing or everything.
            var run = coverage[column..].IndexOfAnyExcept(covered);
            var end = run < 0 ? coverage.Length : column + run;
            if (covered == 255)
            {
                dots[column..end].Fill(paint);
            }

            column = end;
        }
    }

    private void SameSize(LightField other)
    {
        ArgumentNullException.ThrowIfNull(other);
        if (other.WidthPx != WidthPx || other.HeightPx != HeightPx)
        {
            throw new ArgumentException("the fields differ in size", nameof(other));
        }

        SameDots(other.MmPerDot);
    }

    private void SameDots(double mmPerDot)
    {
        if (Math.Abs(mmPerDot - MmPerDot) > 1e-9 * MmPerDot)
        {
            throw new ArgumentException("the dots differ in size", nameof(mmPerDot));
        }
    }
}
