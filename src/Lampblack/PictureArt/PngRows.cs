using System;
using System.IO;
using System.IO.Compression;

namespace Lampblack.PictureArt;

/// <summary>Unpacks a PNG row by row; an interlaced one at once, at its first row.</summary>
internal sealed class PngRows : IPictureRows
{
    private readonly PngLayout _layout;
    private readonly PngDots _dots;
    private readonly string _fileName;
    private readonly ZLibStream _inflate;
    private byte[] _packed = [];
    private byte[] _above = [];
    private byte[] _row = [];
    private byte[]? _whole;
    private int _next;

    public PngRows(PngLayout layout, string fileName)
    {
        _layout = layout;
        _dots = new(layout);
        _fileName = fileName;
        _inflate = new(new PiecesStream(layout.Packed), CompressionMode.Decompress);
        if (!layout.IsInterlaced)
        {
            Start(layout.Header.Width);
        }
    }

    public void Dispose() => _inflate.Dispose();

    public void Read(Span<byte> rows)
    {
        var rowBytes = _layout.Header.Width * _layout.Header.Form.Bytes;
        if (_layout.IsInterlaced)
        {
            _whole ??= Interlaced();
            _whole.AsSpan(_next * rowBytes, rows.Length).CopyTo(rows);
            _next += rows.Length / rowBytes;
            return;
        }

        for (; rows.Length > 0; rows = rows[rowBytes..])
        {
            ReadRow();
            _dots.Make(_row, rows[..rowBytes]);
            _next++;
        }

        if (_next == _layout.Header.Height)
        {
            End();
        }
    }

    private void Start(int width)
    {
        var bytes = _layout.RowBytes(width);
        (_packed, _above, _row) = (new byte[1 + bytes], new byte[bytes], new byte[bytes]);
    }

    private void ReadRow()
    {
        (_above, _row) = (_row, _above);
        Inflate(_packed);
        if (!PngFilters.Undo(_packed[0], _packed.AsSpan(1), _above, _row, _layout.FilterStep))
        {
            throw PictureFault.Broken(_fileName, "a row names a filter that PNG does not have");
        }
    }

    private byte[] Interlaced()
    {
        var (width, bytes) = (_layout.Header.Width, _layout.Header.Form.Bytes);
        var whole = new byte[width * _layout.Header.Height * bytes];
        var part = new byte[width * bytes];
        foreach (var pass in PngLayout.Passes)
        {
            var (columns, rows) = _layout.Within(pass);
            if (columns == 0)
            {
                continue;
            }

            Start(columns);
            for (var row = 0; row < rows; row++)
            {
                ReadRow();
                _dots.Make(_row, part.AsSpan(0, columns * bytes));
                var line = whole.AsSpan((pass.Row + (row * pass.RowStep)) * width * bytes);
                for (var column = 0; column < columns; column++)
                {
                    part.AsSpan(column * bytes, bytes).CopyTo(line[((pass.Column + (column * pass.ColumnStep)) * bytes)..]);
                }
            }
        }

        End();
        return whole;
    }

    private void Inflate(Span<byte> bytes)
    {
        try
        {
            if (_inflate.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false) < bytes.Length)
            {
                throw PictureFault.CutOff(_fileName);
            }
        }
        catch (InvalidDataException)
        {
            throw PictureFault.Broken(_fileName, "its packed rows can't be unpacked");
        }
    }

    /// <summary>Reads on to the end, where the check sum of all rows stands.</summary>
    private void End()
    {
        try
        {
            _inflate.ReadByte();
        }
        catch (InvalidDataException)
        {
            throw PictureFault.Broken(_fileName, "the check sum of its rows is wrong");
        }
    }
}
