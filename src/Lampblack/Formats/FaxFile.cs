using System;
using System.Buffers.Binary;
using System.Collections.Immutable;
using System.Numerics;
using Lampblack.Bitmaps;

namespace Lampblack.Formats;

/// <summary>Packs pictures of dots as facsimile group 4 does (ITU-T T.6): each row is told by how it differs from the one above. Same dots, same bytes.</summary>
public static class FaxFile
{
    /// <summary>The rows from the top, set dots as black, with the mark that ends them; the highest bit of a byte comes first.</summary>
    public static ImmutableArray<byte> Write(BitRaster raster)
    {
        ArgumentNullException.ThrowIfNull(raster);
        var rows = new FaxRows(raster.WidthDots);
        for (var row = 0; row < raster.HeightDots; row++)
        {
            rows.Add(raster.Row(row));
        }

        return rows.End();
    }

    /// <summary>The state between rows. Places where the colour changes: those at even indexes from white to black, the others back; the width ends them.</summary>
    private sealed class FaxRows(int width)
    {
        private byte[] _bytes = new byte[1 << 12];
        private int _length;
        private ulong _bits;
        private int _bitCount;
        private int[] _above = [width, width, width];
        private int[] _here = new int[width + 4];
        private bool _first = true;

        public void Add(ReadOnlySpan<ulong> dots)
        {
            Changes(dots);
            var (from, colour, change, near) = (-1, 0, 0, 0);
            while (from < width)
            {
                // The first change above that lies to the right and goes the same way (clause 2.2.1).
                near = Math.Max(0, near - 1);
                while (_above[near] < width && (_above[near] <= from || near % 2 != colour))
                {
                    near++;
                }

                var (next, above) = (_here[change], _above[near]);
                if (above < width && _above[near + 1] < next)
                {
                    Send(FaxCodes.Pass);
                    from = _above[near + 1];
                }
                else if (Math.Abs(next - above) <= 3)
                {
                    Send(FaxCodes.Vertical[next - above + 3]);
                    (from, colour, change) = (next, 1 - colour, change + 1);
                }
                else
                {
                    Send(FaxCodes.Horizontal);
                    SendRun(next - Math.Max(from, 0), colour);
                    from = _here[change + 1];
                    SendRun(from - next, 1 - colour);
                    change += 2;
                }
            }

            (_above, _here) = (_here, _first ? new int[width + 4] : _above);
            _first = false;
        }

        public ImmutableArray<byte> End()
        {
            Send(FaxCodes.EndOfLine);
            Send(FaxCodes.EndOfLine);
            Send(new(0, (8 - (_bitCount % 8)) % 8));
            for (; _bitCount > 0; _bitCount -= 8)
            {
                Room();
                _bytes[_length++] = (byte)(_bits >> (_bitCount - 8));
            }

            return [.. _bytes.AsSpan(0, _length)];
        }

        /// <summary>A change is a dot unlike the one to its left: unlike itself shifted by one.</summary>
        private void Changes(ReadOnlySpan<ulong> dots)
        {
            var count = 0;
            var before = 0UL;
            for (var index = 0; index < dots.Length; index++)
            {
                var word = dots[index];
                var changes = word ^ ((word << 1) | before);
                before = word >> (BitRaster.DotsPerWord - 1);
                for (; changes != 0; changes &= changes - 1)
                {
                    _here[count++] = (index * BitRaster.DotsPerWord) + BitOperations.TrailingZeroCount(changes);
                }
            }

            // The clear dots beyond the width may add a change at the width itself, where it does no harm.
            _here.AsSpan(count, 3).Fill(width);
        }

        private void SendRun(int dots, int colour)
        {
            var codes = colour == 0 ? FaxCodes.White : FaxCodes.Black;
            for (; dots > FaxCodes.LongestMakeUp + 63; dots -= FaxCodes.LongestMakeUp)
            {
                Send(codes[63 + (FaxCodes.LongestMakeUp / 64)]);
            }

            if (dots >= 64)
            {
                Send(codes[63 + (dots / 64)]);
            }

            Send(codes[dots % 64]);
        }

        private void Send(FaxCode code)
        {
            _bits = (_bits << code.Length) | code.Bits;
            _bitCount += code.Length;
            if (_bitCount >= 32)
            {
                Room();
                BinaryPrimitives.WriteUInt32BigEndian(_bytes.AsSpan(_length), (uint)(_bits >> (_bitCount - 32)));
                _length += 4;
                _bitCount -= 32;
            }
        }

        private void Room()
        {
            if (_length + 4 > _bytes.Length)
            {
                Array.Resize(ref _bytes, 2 * _bytes.Length);
            }
        }
    }
}
