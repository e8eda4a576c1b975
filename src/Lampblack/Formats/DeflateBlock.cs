using System;
using System.Numerics;

namespace Lampblack.Formats;

/// <summary>Gathers literals and matches, and sends them as one block with the codes that suit them (RFC 1951 clauses 3.2.3 to 3.2.7).</summary>
internal sealed class DeflateBlock(BitBuffer output)
{
    private const int Capacity = 1 << 15;
    private const int EndOfBlock = 256;

    private static readonly byte[] FixedLengths = FixedLiteralLengths();
    private static readonly ushort[] FixedCodes = PrefixCode.Codes(FixedLengths);
    private static readonly byte[] FixedDistanceLengths = FixedDistances();
    private static readonly ushort[] FixedDistanceCodes = PrefixCode.Codes(FixedDistanceLengths);

    /// <summary>The order in which the lengths of the length code are sent: those likely to be zero last.</summary>
    private static readonly byte[] LengthOrder = [16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15];

    /// <summary>A literal is its byte; a match is distance &lt;&lt; 9 | length.</summary>
    private readonly int[] _tokens = new int[Capacity];
    private readonly int[] _literalCounts = new int[286];
    private readonly int[] _distanceCounts = new int[30];
    private int _count;

    /// <summary>Adds one byte as it is.</summary>
    public void AddLiteral(byte value)
    {
        _tokens[_count++] = value;
        _literalCounts[value]++;
        SendIfFull();
    }

    /// <summary>Adds a repetition of 3 to 258 bytes from 1 to 32,768 bytes back.</summary>
    public void AddMatch(int length, int distance)
    {
        _tokens[_count++] = (distance << 9) | length;
        _literalCounts[LengthSymbol(length).Symbol]++;
        _distanceCounts[DistanceSymbol(distance).Symbol]++;
        SendIfFull();
    }

    /// <summary>Sends what was gathered and starts anew.</summary>
    public void Send(bool last)
    {
        _literalCounts[EndOfBlock]++;
        var lengths = PrefixCode.Lengths(_literalCounts, 15);
        var distances = PrefixCode.Lengths(_distanceCounts, 15);
        var header = new CodeLengthText(lengths, distances);
        output.Add(last ? 1u : 0, 1);
        if (header.Bits + Bits(lengths, distances) < Bits(FixedLengths, FixedDistanceLengths))
        {
            output.Add(2, 2);
            header.Send(output);
            SendTokens(lengths, PrefixCode.Codes(lengths), distances, PrefixCode.Codes(distances));
        }
        else
        {
            output.Add(1, 2);
            SendTokens(FixedLengths, FixedCodes, FixedDistanceLengths, FixedDistanceCodes);
        }

        _count = 0;
        Array.Clear(_literalCounts);
        Array.Clear(_distanceCounts);
    }

    private static (int Symbol, uint Extra, int ExtraBits) LengthSymbol(int length)
    {
        if (length == 258)
        {
            return (285, 0, 0);
        }

        // Four symbols for each doubling, so two bits below the highest one name the symbol and the rest are sent as they are.
        var value = (uint)(length - 3);
        var extraBits = Math.Max(0, BitOperations.Log2(value) - 2);
        return (257 + (4 * extraBits) + (int)(value >> extraBits), value & ((1u << extraBits) - 1), extraBits);
    }

    private static (int Symbol, uint Extra, int ExtraBits) DistanceSymbol(int distance)
    {
        var value = (uint)(distance - 1);
        var extraBits = Math.Max(0, BitOperations.Log2(value) - 1);
        return ((2 * extraBits) + (int)(value >> extraBits), value & ((1u << extraBits) - 1), extraBits);
    }

    private static byte[] FixedLiteralLengths()
    {
        var lengths = new byte[288];
        lengths.AsSpan(0, 144).Fill(8);
        lengths.AsSpan(144, 112).Fill(9);
        lengths.AsSpan(256, 24).Fill(7);
        lengths.AsSpan(280, 8).Fill(8);
        return lengths;
    }

    private static byte[] FixedDistances()
    {
        var lengths = new byte[30];
        lengths.AsSpan().Fill(5);
        return lengths;
    }

    private void SendIfFull()
    {
        if (_count == Capacity)
        {
            Send(last: false);
        }
    }

    /// <summary>Bits of all symbols; the extra bits are left out, being the same with any code.</summary>
    private long Bits(byte[] lengths, byte[] distances)
    {
        long bits = 0;
        for (var symbol = 0; symbol < _literalCounts.Length; symbol++)
        {
            bits += (long)_literalCounts[symbol] * lengths[symbol];
        }

        for (var symbol = 0; symbol < _distanceCounts.Length; symbol++)
        {
            bits += (long)_distanceCounts[symbol] * distances[symbol];
        }

        return bits;
    }

    private void SendTokens(byte[] lengths, ushort[] codes, byte[] distanceLengths, ushort[] distanceCodes)
    {
        foreach (var token in _tokens.AsSpan(0, _count))
        {
            if (token < 256)
            {
                output.Add(codes[token], lengths[token]);
                continue;
            }

            var (symbol, extra, extraBits) = LengthSymbol(token & 511);
            output.Add(codes[symbol] | (extra << lengths[symbol]), lengths[symbol] + extraBits);
            (symbol, extra, extraBits) = DistanceSymbol(token >> 9);
            output.Add(distanceCodes[symbol] | (extra << distanceLengths[symbol]), distanceLengths[symbol] + extraBits);
        }

        output.Add(codes[EndOfBlock], lengths[EndOfBlock]);
    }

    /// <summary>The head of a block with its own codes: their lengths, themselves shortened by a code (RFC 1951 clause 3.2.7).</summary>
    private sealed class CodeLengthText
    {
        private readonly byte[] _symbols = new byte[286 + 30];
        private readonly byte[] _extras = new byte[286 + 30];
        private readonly byte[] _lengths;
        private readonly int _literals;
        private readonly int _distances;
        private readonly int _ordered;
        private readonly int _count;

        public CodeLengthText(byte[] literals, byte[] distances)
        {
            _literals = Math.Max(257, literals.AsSpan().LastIndexOfAnyExcept((byte)0) + 1);
            _distances = Math.Max(1, distances.AsSpan().LastIndexOfAnyExcept((byte)0) + 1);
            byte[] all = [.. literals.AsSpan(0, _literals), .. distances.AsSpan(0, _distances)];
            Span<int> counts = stackalloc int[19];
            for (var start = 0; start < all.Length; _count++)
            {
                var (symbol, covered, extra) = Next(all, start);
                _symbols[_count] = symbol;
                _extras[_count] = extra;
                counts[symbol]++;
                start += covered;
            }

            _lengths = PrefixCode.Lengths(counts, 7);
            _ordered = Math.Max(4, Array.FindLastIndex(LengthOrder, symbol => _lengths[symbol] > 0) + 1);
            Bits = 14 + (3 * _ordered) + (2 * counts[16]) + (3 * counts[17]) + (7 * counts[18]);
            for (var symbol = 0; symbol < counts.Length; symbol++)
            {
                Bits += counts[symbol] * _lengths[symbol];
            }
        }

        public int Bits { get; }

        public void Send(BitBuffer output)
        {
            output.Add((uint)_literals - 257, 5);
            output.Add((uint)_distances - 1, 5);
            output.Add((uint)_ordered - 4, 4);
            foreach (var symbol in LengthOrder.AsSpan(0, _ordered))
            {
                output.Add(_lengths[symbol], 3);
            }

            var codes = PrefixCode.Codes(_lengths);
            for (var index = 0; index < _count; index++)
            {
                var symbol = _symbols[index];
                output.Add(codes[symbol], _lengths[symbol]);
                output.Add(_extras[index], symbol switch { 16 => 2, 17 => 3, 18 => 7, _ => 0 });
            }
        }

        /// <summary>The symbol for the lengths from here on, how many it covers, and its extra bits.</summary>
        private static (byte Symbol, int Covered, byte Extra) Next(ReadOnlySpan<byte> all, int start)
        {
            var value = all[start];
            var run = all[start..].IndexOfAnyExcept(value);
            run = run < 0 ? all.Length - start : run;
            return value switch
            {
                0 when run >= 11 => (18, Math.Min(run, 138), (byte)(Math.Min(run, 138) - 11)),
                0 when run >= 3 => (17, run, (byte)(run - 3)),
                > 0 when run >= 3 && start > 0 && all[start - 1] == value => (16, Math.Min(run, 6), (byte)(Math.Min(run, 6) - 3)),
                _ => (value, 1, 0),
            };
        }
    }
}
