using System;
using System.Collections.Immutable;
using System.IO;

namespace Lampblack.PictureArt;

/// <summary>Pieces of bytes, read one after the other without copying them together.</summary>
internal sealed class PiecesStream(ImmutableArray<ReadOnlyMemory<byte>> pieces) : Stream
{
    private int _piece;
    private int _at;

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override int Read(Span<byte> buffer)
    {
        while (_piece < pieces.Length && _at == pieces[_piece].Length)
        {
            (_piece, _at) = (_piece + 1, 0);
        }

        if (_piece == pieces.Length)
        {
            return 0;
        }

        var part = pieces[_piece].Span[_at..];
        var count = Math.Min(part.Length, buffer.Length);
        part[..count].CopyTo(buffer);
        _at += count;
        return count;
    }

    public override void Flush()
    {
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
}
