using System;
using System.Buffers.Binary;

namespace Lampblack.Formats;

/// <summary>Bytes filled bit by bit from the lowest bit up (RFC 1951 clause 3.1.1).</summary>
internal sealed class BitBuffer(int expectedBytes)
{
    private byte[] _bytes = new byte[Math.Max(64, expectedBytes)];
    private int _length;
    private ulong _bits;
    private int _bitCount;

    /// <summary>Adds the lowest <paramref name="count"/> bits (at most 32) of a value that has no others.</summary>
    public void Add(uint value, int count)
    {
        _bits |= (ulong)value << _bitCount;
        _bitCount += count;
        if (_bitCount >= 32)
        {
            Reserve(4);
            BinaryPrimitives.WriteUInt32LittleEndian(_bytes.AsSpan(_length), (uint)_bits);
            _length += 4;
            _bits >>= 32;
            _bitCount -= 32;
        }
    }

    /// <summary>Fills the last byte up with zeros.</summary>
    public void Align()
    {
        Reserve(4);
        for (; _bitCount > 0; _bitCount -= 8)
        {
            _bytes[_length++] = (byte)_bits;
            _bits >>= 8;
        }

        _bitCount = 0;
    }

    /// <summary>Adds whole bytes, the highest first; only where aligned.</summary>
    public void AddBigEndian(uint value)
    {
        Reserve(4);
        BinaryPrimitives.WriteUInt32BigEndian(_bytes.AsSpan(_length), value);
        _length += 4;
    }

    /// <summary>How many whole bytes there are so far.</summary>
    public int Length => _length;

    /// <summary>All whole bytes so far.</summary>
    public byte[] ToArray() => _bytes[.._length];

    private void Reserve(int more)
    {
        if (_length + more > _bytes.Length)
        {
            Array.Resize(ref _bytes, _bytes.Length * 2);
        }
    }
}
