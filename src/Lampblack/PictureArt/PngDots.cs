using System;

namespace Lampblack.PictureArt;

/// <summary>Turns unpacked rows of a PNG into dots with one byte a colour.</summary>
internal sealed class PngDots
{
    private readonly PngLayout _layout;
    private readonly int[] _transparent;
    private readonly byte[] _palette = new byte[256 * 4];

    public PngDots(PngLayout layout)
    {
        _layout = layout;
        var key = layout.Transparency.Span;
        _transparent = layout.Colours is PngColours.Grey or PngColours.Rgb && key.Length > 0 ? new int[key.Length / 2] : [];
        for (var index = 0; index < _transparent.Length; index++)
        {
            _transparent[index] = (key[index * 2] << 8) | key[(index * 2) + 1];
        }

        if (layout.Colours == PngColours.Palette)
        {
            FillPalette(layout.Palette.Span, key);
        }
    }

    /// <summary>Colours that the table does not have are black, as most readers show them.</summary>
    private void FillPalette(ReadOnlySpan<byte> colours, ReadOnlySpan<byte> alphas)
    {
        for (var index = 0; index < 256; index++)
        {
            var entry = _palette.AsSpan(index * 4, 4);
            if (index * 3 < colours.Length)
            {
                colours.Slice(index * 3, 3).CopyTo(entry);
            }

            entry[3] = index < alphas.Length ? alphas[index] : (byte)255;
        }

        _layout.Colour.Apply(_palette, DotForm.Rgba);
    }

    /// <summary>Makes dots of one unpacked row.</summary>
    /// <param name="row">Unpacked, filters undone.</param>
    /// <param name="dots">As many dots as the row has.</param>
    public void Make(ReadOnlySpan<byte> row, Span<byte> dots)
    {
        var (layout, bytes) = (_layout, _layout.Header.Form.Bytes);
        var count = dots.Length / bytes;
        if (layout.BitDepth == 8 && layout.Samples == bytes && layout.Colours != PngColours.Palette)
        {
            row[..dots.Length].CopyTo(dots);
        }
        else if (layout.Colours == PngColours.Palette)
        {
            for (var index = 0; index < count; index++)
            {
                _palette.AsSpan(Sample(row, index) * 4, bytes).CopyTo(dots[(index * bytes)..]);
            }

            return;
        }
        else
        {
            for (var index = 0; index < count; index++)
            {
                MakeDot(row, index, dots.Slice(index * bytes, bytes));
            }
        }

        if (!layout.Colour.IsNone)
        {
            layout.Colour.Apply(dots, layout.Header.Form);
        }
    }

    private void MakeDot(ReadOnlySpan<byte> row, int index, Span<byte> dot)
    {
        var (samples, most) = (_layout.Samples, (1 << _layout.BitDepth) - 1);
        var isClear = _transparent.Length > 0;
        Span<byte> codes = stackalloc byte[4];
        for (var part = 0; part < samples; part++)
        {
            var sample = Sample(row, (index * samples) + part);
            codes[part] = _layout.BitDepth == 8 ? (byte)sample : (byte)(((sample * 255) + (most / 2)) / most);
            isClear = isClear && sample == _transparent[part];
        }

        if (samples <= 2)
        {
            dot[..Math.Min(dot.Length, 3)].Fill(codes[0]);
        }
        else
        {
            codes[..3].CopyTo(dot);
        }

        if (dot.Length == 4)
        {
            dot[3] = samples is 2 or 4 ? codes[samples - 1] : isClear ? (byte)0 : (byte)255;
        }
    }

    private int Sample(ReadOnlySpan<byte> row, int index) => _layout.BitDepth switch
    {
        8 => row[index],
        16 => (row[index * 2] << 8) | row[(index * 2) + 1],
        var bits => (row[index * bits / 8] >> (8 - bits - (index * bits % 8))) & ((1 << bits) - 1),
    };
}
