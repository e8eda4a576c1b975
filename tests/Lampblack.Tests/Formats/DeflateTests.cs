using System;
using System.Collections.Generic;
using System.Globalization;
using System.IO;
using System.IO.Compression;
using System.Linq;
using System.Text;
using CsCheck;
using Lampblack.Formats;
using Xunit;

namespace Lampblack.Tests.Formats;

/// <summary>What we deflate is inflated by the platform's own library (zlib), which checks the Adler-32 sum as well.</summary>
public sealed class DeflateTests
{
    public static TheoryData<string> Kinds => [.. Samples.Keys];

    private static Dictionary<string, Func<byte[]>> Samples { get; } = new(StringComparer.Ordinal)
    {
        ["nothing"] = () => [],
        ["one byte"] = () => [42],
        ["two bytes"] = () => [1, 1],
        ["all byte values"] = () => [.. Enumerable.Range(0, 256).Select(value => (byte)value)],
        ["one letter, 300 times"] = () => [.. Enumerable.Repeat((byte)'a', 300)],
        ["a million zeros"] = () => new byte[1_000_000],
        ["a million random bytes"] = () => RandomBytes(1_000_000, 256),
        ["a million random bytes of two values"] = () => RandomBytes(1_000_000, 2),
        ["more literals than a block holds"] = () => RandomBytes(40_000, 256),
        ["a repetition just inside and just outside the window"] = () => [.. RandomBytes(32_767, 256), .. RandomBytes(32_769, 256), .. RandomBytes(32_767, 256)],
        ["counts that ask for codes longer than 15 bits"] = Lopsided,
        ["a path"] = () => PathText(200_000),
    };

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Every_kind_of_bytes_comes_back(string kind)
    {
        ArgumentNullException.ThrowIfNull(kind);
        Check(Samples[kind]());
    }

    [Fact]
    public void Any_bytes_come_back() => Gen.Byte.Array[0, 3_000].Sample(Check);

    [Fact]
    public void Any_repetitive_bytes_come_back() =>
        Gen.Select(Gen.Byte[0, 3].Array[1, 40], Gen.Int[1, 400], Gen.Byte.Array[0, 20])
            .Sample((unit, times, rest) => Check([.. Enumerable.Repeat(unit, times).SelectMany(bytes => bytes), .. rest, .. unit]));

    [Theory]
    [InlineData("", 0x00000001)]
    [InlineData("a", 0x00620062)]
    [InlineData("Wikipedia", 0x11E60398)] // A much printed worked example of Adler-32; from memory.
    public void The_sum_at_the_end_is_adler_32(string text, int expected)
    {
        var file = Deflate.Zlib(Encoding.ASCII.GetBytes(text)).AsSpan();
        Assert.Equal(expected, System.Buffers.Binary.BinaryPrimitives.ReadInt32BigEndian(file[^4..]));
    }

    [Theory]
    [InlineData("a path")]
    [InlineData("a million zeros")]
    [InlineData("a million random bytes of two values")]
    public void Nothing_gets_much_longer_than_with_the_platforms_own_compressor(string kind)
    {
        ArgumentNullException.ThrowIfNull(kind);
        var data = Samples[kind]();
        var ours = Deflate.Zlib(data).Length;
        var theirs = Platform(data).Length;
        TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant($"{data.Length} bytes: {ours}, platform {theirs}, ratio {(double)ours / theirs:0.000}"));
        Assert.True(ours <= theirs * 1.35, $"{ours} against {theirs}");
    }

    [Fact]
    public void Random_bytes_grow_by_less_than_two_percent()
    {
        var length = Deflate.Zlib(RandomBytes(200_000, 256)).Length;
        Assert.InRange(length, 200_000, 204_000);
    }

    /// <summary>Text as our content streams have it: a random walk of corners with four decimals.</summary>
    private static byte[] PathText(int length)
    {
        var random = new Random(7);
        var text = new StringBuilder(length + 40);
        double x = 100;
        double y = 100;
        while (text.Length < length)
        {
            x += random.NextDouble() - 0.5;
            y += random.NextDouble() - 0.5;
            text.Append(CultureInfo.InvariantCulture, $"{x:0.####} {y:0.####} l\n");
        }

        return Encoding.ASCII.GetBytes(text.ToString());
    }

    private static void Check(byte[] data)
    {
        var file = Deflate.Zlib(data);
        Assert.True(file.AsSpan().SequenceEqual(Deflate.Zlib(data).AsSpan()), "two runs differ");
        var bytes = file.ToArray();
        using (var inflated = new ZLibStream(new MemoryStream(bytes), CompressionMode.Decompress))
        {
            Assert.True(Rest(inflated).AsSpan().SequenceEqual(data), "the zlib format does not give the bytes back");
        }

        using var deflated = new DeflateStream(new MemoryStream(bytes, 2, bytes.Length - 6), CompressionMode.Decompress);
        Assert.True(Rest(deflated).AsSpan().SequenceEqual(data), "the blocks alone do not give the bytes back");
    }

    private static byte[] Rest(Stream stream)
    {
        var all = new MemoryStream();
        stream.CopyTo(all);
        return all.ToArray();
    }

    private static byte[] Platform(byte[] data)
    {
        var all = new MemoryStream();
        using (var stream = new ZLibStream(all, CompressionLevel.Optimal, leaveOpen: true))
        {
            stream.Write(data);
        }

        return all.ToArray();
    }

    private static byte[] RandomBytes(int count, int values)
    {
        var random = new Random(count);
        return [.. Enumerable.Range(0, count).Select(_ => (byte)random.Next(values))];
    }

    /// <summary>
    /// 240 values about equally often, which take 8 bits each and hardly ever repeat four in a row, and nine rare ones with Fibonacci counts,
    /// which without a limit would hang from one another to a depth of about 17. All fit into one block.
    /// </summary>
    private static byte[] Lopsided()
    {
        var bytes = RandomBytes(32_400, 240).ToList();
        var (count, next) = (1, 2);
        for (byte value = 240; value < 249; value++)
        {
            bytes.AddRange(Enumerable.Repeat(value, count));
            (count, next) = (next, count + next);
        }

        var shuffled = bytes.ToArray();
        new Random(3).Shuffle(shuffled);
        return shuffled;
    }
}
