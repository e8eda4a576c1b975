using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text;

namespace Lampblack.Formats;

/// <summary>A stretch of a chip's memory.</summary>
/// <param name="Address">Of its first byte.</param>
/// <param name="Bytes">At least one.</param>
public sealed record HexSegment(int Address, ImmutableArray<byte> Bytes)
{
    /// <summary>The address after its last byte.</summary>
    public int End => Address + Bytes.Length;
}

/// <summary>What reading an Intel HEX file gave.</summary>
/// <param name="File">The file; with a fault, what came before it.</param>
/// <param name="FaultLine">The line with the first fault, one-based; 0 without one.</param>
/// <param name="Fault">What is wrong there; empty without a fault.</param>
public sealed record HexReading(HexFile File, int FaultLine, string Fault);

/// <summary>
/// A chip's memory as Intel HEX files carry it: data records, extended segment and linear addresses, start addresses (passed over), the end record.
/// Addresses are below 2 GiB.
/// </summary>
/// <param name="Segments">In the order of their addresses; none touches the next.</param>
public sealed record HexFile(ImmutableArray<HexSegment> Segments)
{
    private const int RecordBytes = 16;

    /// <summary>The byte at an address; null where the file says nothing of it.</summary>
    public byte? this[int address] => Segments.FirstOrDefault(segment => address >= segment.Address && address < segment.End) is { } found ? found.Bytes[address - found.Address] : null;

    /// <summary>A file from bytes at addresses.</summary>
    public static HexFile Of(IEnumerable<KeyValuePair<int, byte>> bytes)
    {
        ArgumentNullException.ThrowIfNull(bytes);
        var segments = ImmutableArray.CreateBuilder<HexSegment>();
        var run = ImmutableArray.CreateBuilder<byte>();
        var start = 0;
        foreach (var (address, value) in bytes.OrderBy(pair => pair.Key))
        {
            if (run.Count > 0 && address != start + run.Count)
            {
                segments.Add(new(start, run.ToImmutable()));
                run.Clear();
            }

            start = run.Count == 0 ? address : start;
            run.Add(value);
        }

        if (run.Count > 0)
        {
            segments.Add(new(start, run.ToImmutable()));
        }

        return new(segments.ToImmutable());
    }

    /// <summary>This file with other bytes laid over it.</summary>
    public HexFile With(HexSegment segment)
    {
        ArgumentNullException.ThrowIfNull(segment);
        var bytes = Bytes().ToDictionary();
        for (var index = 0; index < segment.Bytes.Length; index++)
        {
            bytes[segment.Address + index] = segment.Bytes[index];
        }

        return Of(bytes);
    }

    /// <summary>Every byte with its address, in order.</summary>
    public IEnumerable<KeyValuePair<int, byte>> Bytes() =>
        Segments.SelectMany(segment => segment.Bytes.Select((value, index) => KeyValuePair.Create(segment.Address + index, value)));

    /// <summary>Reads a file. Whoever wrote it, nothing is thrown.</summary>
    public static HexReading Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var bytes = new SortedDictionary<int, byte>();
        long offset = 0;
        var number = 0;
        var ended = false;
        foreach (var line in text.ReplaceLineEndings("\n").Split('\n').Select(line => line.Trim()))
        {
            number++;
            if (line.Length == 0)
            {
                continue;
            }

            var fault = ended ? "something follows the end record" : ReadRecord(line, bytes, ref offset, ref ended);
            if (fault.Length > 0)
            {
                return new(Of(bytes), number, fault);
            }
        }

        return ended ? new(Of(bytes), 0, string.Empty) : new(Of(bytes), number, "the end record is missing");
    }

    /// <summary>The file's text: records of at most 16 bytes, upper case, lines ended by LF.</summary>
    public string Write()
    {
        var text = new StringBuilder();
        var high = 0;
        foreach (var segment in Segments)
        {
            for (var at = 0; at < segment.Bytes.Length;)
            {
                var address = segment.Address + at;
                if (address >> 16 != high)
                {
                    high = address >> 16;
                    WriteRecord(text, 4, 0, [(byte)(high >> 8), (byte)high]);
                }

                var count = Math.Min(Math.Min(RecordBytes, segment.Bytes.Length - at), 0x10000 - (address & 0xFFFF));
                WriteRecord(text, 0, address & 0xFFFF, segment.Bytes.AsSpan().Slice(at, count));
                at += count;
            }
        }

        WriteRecord(text, 1, 0, []);
        return text.ToString();
    }

    private static string ReadRecord(string line, SortedDictionary<int, byte> bytes, ref long offset, ref bool ended)
    {
        if (line[0] != ':')
        {
            return "a record begins with a colon";
        }

        if (line.Length < 11 || line.Length % 2 == 0 || !line.Skip(1).All(char.IsAsciiHexDigit))
        {
            return "a record is pairs of hexadecimal digits";
        }

        var record = Convert.FromHexString(line.AsSpan(1));
        var data = record.AsSpan(4, record.Length - 5);
        if (data.Length != record[0])
        {
            return string.Create(CultureInfo.InvariantCulture, $"the record says {record[0]} bytes and has {data.Length}");
        }

        if ((record.Sum(value => value) & 0xFF) != 0)
        {
            return "the record's checksum is wrong";
        }

        var address = record[1] << 8 | record[2];
        switch (record[3])
        {
            case 0:
                return PutData(data, address, offset, bytes);
            case 1:
                ended = true;
                return string.Empty;
            case 2 when data.Length == 2:
                offset = (data[0] << 8 | data[1]) << 4;
                return string.Empty;
            case 4 when data.Length == 2:
                offset = (long)(data[0] << 8 | data[1]) << 16;
                return string.Empty;
            case 3 or 5 when data.Length == 4:
                return string.Empty;
            default:
                return string.Create(CultureInfo.InvariantCulture, $"there is no record of type {record[3]} with {data.Length} bytes");
        }
    }

    private static string PutData(ReadOnlySpan<byte> data, int address, long offset, SortedDictionary<int, byte> bytes)
    {
        if (offset + address + data.Length > int.MaxValue)
        {
            return "the address is beyond 2 GiB";
        }

        for (var index = 0; index < data.Length; index++)
        {
            if (!bytes.TryAdd((int)offset + address + index, data[index]))
            {
                return string.Create(CultureInfo.InvariantCulture, $"the byte at 0x{offset + address + index:X} was given before");
            }
        }

        return string.Empty;
    }

    private static void WriteRecord(StringBuilder text, byte type, int address, ReadOnlySpan<byte> data)
    {
        byte[] record = [(byte)data.Length, (byte)(address >> 8), (byte)address, type, .. data];
        text.Append(':').Append(Convert.ToHexString(record)).Append(Convert.ToHexString([(byte)-record.Sum(value => value)])).Append('\n');
    }
}
