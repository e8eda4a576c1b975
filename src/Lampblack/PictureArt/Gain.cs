using System;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Lampblack.PictureArt;

/// <summary>How much stronger than the field a dot is in the colour where it is strongest: 0 like the field or darker, up to 255.</summary>
/// <remarks>
/// Light from behind comes through a saturated blue as well as through a grey of the same strength, though the eye calls the blue dark; and on an edge
/// between the field and any one colour this number grows evenly from one to the other, as drawing programs mix stored codes.
/// </remarks>
/// <param name="Red">The field's code.</param>
/// <param name="Green">The field's code.</param>
/// <param name="Blue">The field's code.</param>
/// <param name="Ground">The code behind transparent dots.</param>
/// <param name="Inverted">Whether the field is the light part; gains then go downwards.</param>
internal readonly record struct Gain(int Red, int Green, int Blue, int Ground, bool Inverted)
{
    public int Of(int red, int green, int blue) => Inverted
        ? Math.Max(0, Math.Max(Red - red, Math.Max(Green - green, Blue - blue)))
        : Math.Max(0, Math.Max(red - Red, Math.Max(green - Green, blue - Blue)));

    /// <summary>The gains of a row.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Of(ReadOnlySpan<byte> row, DotForm form, Span<byte> gains)
    {
        var (red, green, blue, ground, bytes) = (Red, Green, Blue, Ground, form.Bytes);
        if (bytes == 1)
        {
            // A grey gains most over the field's weakest colour, and loses most against its strongest.
            var field = Inverted ? Math.Max(red, Math.Max(green, blue)) : Math.Min(red, Math.Min(green, blue));
            for (var index = 0; index < gains.Length; index++)
            {
                gains[index] = (byte)Math.Max(0, Inverted ? field - row[index] : row[index] - field);
            }
        }
        else if (!form.HasAlpha && !Inverted)
        {
            var done = bytes == 3 ? OfThrees(row, gains) : 0;
            for (int index = done, at = done * bytes; index < gains.Length && at + 2 < row.Length; index++, at += bytes)
            {
                gains[index] = (byte)Math.Max(0, Math.Max(row[at] - red, Math.Max(row[at + 1] - green, row[at + 2] - blue)));
            }
        }
        else
        {
            for (int index = 0, at = 0; index < gains.Length; index++, at += bytes)
            {
                var alpha = form.HasAlpha ? row[at + 3] : 255;
                gains[index] = (byte)Of(Census.Over(row[at], alpha, ground), Census.Over(row[at + 1], alpha, ground), Census.Over(row[at + 2], alpha, ground));
            }
        }
    }

    /// <summary>The gains of a row's first dots, five at a time: three loads, each a byte farther on, have the three colours of a dot below each other. Gives how many.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private int OfThrees(ReadOnlySpan<byte> row, Span<byte> gains)
    {
        var (first, second, third) = (Field(0), Field(1), Field(2));
        var starts = Vector128.Create((byte)0, 3, 6, 9, 12, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255);
        var (index, at) = (0, 0);

        // Sixteen bytes are written for five dots; the eleven beyond them are the next ones' and are written over.
        for (; at + 18 <= row.Length && index + 16 <= gains.Length; index += 5, at += 15)
        {
            var most = Vector128.Max(Above(row[at..], first), Vector128.Max(Above(row[(at + 1)..], second), Above(row[(at + 2)..], third)));
            Vector128.Shuffle(most, starts).CopyTo(gains[index..]);
        }

        return index;
    }

    /// <summary>The field's colours again and again, beginning with one of them.</summary>
    private Vector128<byte> Field(int from)
    {
        Span<byte> codes = stackalloc byte[16];
        for (var index = 0; index < codes.Length; index++)
        {
            codes[index] = (byte)(((index + from) % 3) switch { 0 => Red, 1 => Green, _ => Blue });
        }

        return Vector128.Create<byte>(codes);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<byte> Above(ReadOnlySpan<byte> codes, Vector128<byte> field) => Vector128.Max(Vector128.Create(codes), field) - field;

    /// <summary>The opaque colours of a row.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Opaque(ReadOnlySpan<byte> row, DotForm form, Span<byte> colours)
    {
        if (form.Bytes == 3)
        {
            row[..colours.Length].CopyTo(colours);
            return;
        }

        if (form.Bytes == 4 && !form.HasAlpha)
        {
            for (int at = 0, to = 0; to + 2 < colours.Length && at + 2 < row.Length; at += 4, to += 3)
            {
                (colours[to], colours[to + 1], colours[to + 2]) = (row[at], row[at + 1], row[at + 2]);
            }

            return;
        }

        for (int at = 0, to = 0; to < colours.Length; at += form.Bytes, to += 3)
        {
            var alpha = form.HasAlpha ? row[at + 3] : 255;
            for (var part = 0; part < 3; part++)
            {
                colours[to + part] = (byte)Census.Over(row[form.Bytes == 1 ? at : at + part], alpha, Ground);
            }
        }
    }
}
