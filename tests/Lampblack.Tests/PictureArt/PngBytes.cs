using System;
using System.Buffers.Binary;
using System.Collections.Generic;
using System.IO;
using System.IO.Compression;
using System.Text;

namespace Lampblack.Tests.PictureArt;

/// <summary>Writes PNGs of any form by hand, filters changing from row to row. Shares no code with the product.</summary>
internal sealed record PngBytes(int Width, int Height, int ColourType, int BitDepth, Func<int, int, int[]> Samples)
{
    public bool Interlaced { get; init; }

    /// <summary>Parts before the rows.</summary>
    public List<(string Type, byte[] Data)> Parts { get; init; } = [];

    public static (string Type, byte[] Data) Resolution(int perMetreX, int perMetreY)
    {
        var data = new byte[9];
        BinaryPrimitives.WriteInt32BigEndian(data, perMetreX);
        BinaryPrimitives.WriteInt32BigEndian(data.AsSpan(4), perMetreY);
        data[8] = 1;
        return ("pHYs", data);
    }

    public static (string Type, byte[] Data) Profile(byte[] icc) => ("iCCP", [.. "p\0\0"u8, .. Pack(icc)]);

    public static byte[] Pack(byte[] bytes)
    {
        var packed = new MemoryStream();
        using (var deflate = new ZLibStream(packed, CompressionLevel.Optimal, leaveOpen: true))
        {
            deflate.Write(bytes);
        }

        return packed.ToArray();
    }

    public byte[] Write()
    {
        var file = new MemoryStream();
        file.Write([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A]);
        file.Write(Chunk("IHDR", Head(Width, Height, ColourType, BitDepth, Interlaced)));
        foreach (var (type, data) in Parts)
        {
            file.Write(Chunk(type, data));
        }

        var packed = Pack(Rows());
        for (var at = 0; at < packed.Length; at += 1000)
        {
            file.Write(Chunk("IDAT", packed[at..Math.Min(at + 1000, packed.Length)]));
        }

        file.Write(Chunk("IEND", []));
        return file.ToArray();
    }

    public static byte[] Head(int width, int height, int colourType, int bitDepth, bool interlaced)
    {
        var head = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(head, width);
        BinaryPrimitives.WriteInt32BigEndian(head.AsSpan(4), height);
        (head[8], head[9], head[12]) = ((byte)bitDepth, (byte)colourType, interlaced ? (byte)1 : (byte)0);
        return head;
    }

    public static byte[] Chunk(string type, byte[] data)
    {
        var chunk = new byte[data.Length + 12];
        BinaryPrimitives.WriteInt32BigEndian(chunk, data.Length);
        Encoding.ASCII.GetBytes(type, chunk.AsSpan(4));
        data.CopyTo(chunk, 8);
        var crc = uint.MaxValue;
        foreach (var value in chunk.AsSpan(4, data.Length + 4))
        {
            crc ^= value;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) != 0 ? (crc >> 1) ^ 0xEDB88320 : crc >> 1;
            }
        }

        BinaryPrimitives.WriteUInt32BigEndian(chunk.AsSpan(data.Length + 8), ~crc);
        return chunk;
    }

    private byte[] Rows()
    {
        var rows = new MemoryStream();
        if (!Interlaced)
        {
            Part(rows, 0, 0, 1, 1);
        }
        else
        {
            foreach (var (x, y, dx, dy) in new[] { (0, 0, 8, 8), (4, 0, 8, 8), (0, 4, 4, 8), (2, 0, 4, 4), (0, 2, 2, 4), (1, 0, 2, 2), (0, 1, 1, 2) })
            {
                Part(rows, x, y, dx, dy);
            }
        }

        return rows.ToArray();
    }

    private void Part(MemoryStream rows, int x0, int y0, int dx, int dy)
    {
        var count = 0;
        byte[]? above = null;
        for (var y = y0; y < Height && x0 < Width; y += dy)
        {
            var bits = new List<int>();
            for (var x = x0; x < Width; x += dx)
            {
                foreach (var sample in Samples(x, y))
                {
                    for (var bit = BitDepth - 1; bit >= 0; bit--)
                    {
                        bits.Add((sample >> bit) & 1);
                    }
                }
            }

            var row = new byte[(bits.Count + 7) / 8];
            for (var index = 0; index < bits.Count; index++)
            {
                row[index / 8] |= (byte)(bits[index] << (7 - (index % 8)));
            }

            Filter(rows, row, above ?? new byte[row.Length], count++ % 5);
            above = row;
        }
    }

    private void Filter(MemoryStream rows, byte[] row, byte[] above, int filter)
    {
        var step = Math.Max(1, Samples(0, 0).Length * BitDepth / 8);
        rows.WriteByte((byte)filter);
        for (var index = 0; index < row.Length; index++)
        {
            int left = index >= step ? row[index - step] : 0, up = above[index], corner = index >= step ? above[index - step] : 0;
            var guess = left + up - corner;
            var (far1, far2, far3) = (Math.Abs(guess - left), Math.Abs(guess - up), Math.Abs(guess - corner));
            var paeth = far1 <= far2 && far1 <= far3 ? left : far2 <= far3 ? up : corner;
            rows.WriteByte((byte)(row[index] - filter switch { 1 => left, 2 => up, 3 => (left + up) / 2, 4 => paeth, _ => 0 }));
        }
    }
}
