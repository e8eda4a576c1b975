using System;
using System.Collections.Generic;
using System.Linq;
using CsCheck;
using Lampblack.Link;
using Xunit;

namespace Lampblack.Tests.Link;

public sealed class PacketTests
{
    /// <summary>
    /// The examples of the paper on consistent overhead byte stuffing (Cheshire and Baker, IEEE/ACM Transactions on Networking 7(2), 1999) as collected
    /// for this project, recomputed there; the zero that ends a packet is not shown. "A..B" stands for the bytes from A to B.
    /// </summary>
    [Theory]
    [InlineData("", "01")]
    [InlineData("00", "01 01")]
    [InlineData("00 00", "01 01 01")]
    [InlineData("00 11 00", "01 02 11 01")]
    [InlineData("11 22 00 33", "03 11 22 02 33")]
    [InlineData("11 22 33 44", "05 11 22 33 44")]
    [InlineData("11 00 00 00", "02 11 01 01 01")]
    [InlineData("01..FE", "FF 01..FE")]
    [InlineData("00 01..FE", "01 FF 01..FE")]
    [InlineData("01..FF", "FF 01..FE 02 FF")]
    [InlineData("02..FF 00", "FF 02..FF 01 01")]
    [InlineData("03..FF 00 01", "FE 03..FF 02 01")]
    public void Bytes_are_stuffed_as_published(string plain, string stuffed)
    {
        Assert.Equal(Bytes(stuffed), Cobs.Encode(Bytes(plain)));
        Assert.Equal(Bytes(plain), Cobs.Decode(Bytes(stuffed)));
    }

    [Theory]
    [InlineData("")]
    [InlineData("02")]
    [InlineData("03 11")]
    [InlineData("05 11 22 33")] // a length that was 04 on its way
    [InlineData("02 00")]
    [InlineData("01 00 01")]
    public void A_packet_that_overruns_or_is_cut_is_refused(string stuffed) => Assert.Null(Cobs.Decode(Bytes(stuffed)));

    [Fact]
    public void Stuffing_is_undone_whatever_the_bytes_and_costs_what_it_may() => Gen.Byte.Array[0, 700].Sample(bytes =>
    {
        var stuffed = Cobs.Encode(bytes);
        return !stuffed.Contains((byte)0) && stuffed.Length <= bytes.Length + 1 + (bytes.Length / 254) && Cobs.Decode(stuffed)!.SequenceEqual(bytes);
    }, seed: "0000KyzF4Rw1", iter: 3000, threads: 1);

    /// <summary>The catalogued check value of CRC-16/XMODEM.</summary>
    [Fact]
    public void The_check_is_the_published_one() => Assert.Equal(0x31C3, Crc16.Of("123456789"u8));

    [Fact]
    public void Bytes_with_their_check_behind_them_check_to_zero() => Gen.Byte.Array[0, 64].Sample(
        bytes => Crc16.Of([.. bytes, (byte)(Crc16.Of(bytes) >> 8), (byte)Crc16.Of(bytes)]) == 0, seed: "0000KyzF4Rw1", iter: 2000, threads: 1);

    [Fact]
    public void Packets_are_read_however_they_are_cut()
    {
        byte[][] payloads = [[2, 0, 5, 0x80], [6, 1, 0, 0, 0, 0, 0, 0], [.. Enumerable.Range(1, 32).Select(one => (byte)one)]];
        var line = payloads.SelectMany(one => PacketReader.Pack(one)).ToArray();
        for (var size = 1; size <= line.Length; size++)
        {
            PacketReader reader = new();
            Assert.Equal(payloads, line.Chunk(size).SelectMany(chunk => reader.Read(chunk)).Select(payload => payload.ToArray()));
            Assert.Equal(0, reader.Refused);
        }
    }

    [Fact]
    public void Every_single_flipped_bit_is_noticed()
    {
        byte[] payload = [3, 7, 1, 0xFF, 0x10, 0x00, 0];
        var good = PacketReader.Pack(payload).ToArray();
        for (var bit = 0; bit < (good.Length - 1) * 8; bit++)
        {
            var bad = good.ToArray();
            bad[bit / 8] ^= (byte)(1 << (bit % 8));
            PacketReader reader = new();
            Assert.DoesNotContain(reader.Read(bad), one => one.SequenceEqual(payload));
            Assert.NotEqual(0, reader.Refused);
        }
    }

    /// <summary>A million bytes of rubbish between good packets: whatever came before, the packet after the next is read.</summary>
    [Fact]
    public void A_million_bytes_of_rubbish_cost_at_most_one_packet()
    {
        XorShift chance = new(20_261_127);
        byte[] payload = [2, 9, 3, 0];
        var good = PacketReader.Pack(payload).ToArray();
        PacketReader reader = new();
        for (var sent = 0; sent < 1_000_000;)
        {
            var rubbish = new byte[chance.Below(200)];
            for (var index = 0; index < rubbish.Length; index++)
            {
                rubbish[index] = (byte)chance.Below(256);
            }

            sent += rubbish.Length;
            foreach (var wild in reader.Read(rubbish))
            {
                _ = PanelFrames.Read(wild.AsSpan());
            }

            var read = reader.Read([.. good, .. good]);
            Assert.True(read.Length >= 1 && read[^1].SequenceEqual(payload), "it did not find its place again within one packet");
        }

        Assert.True(reader.Refused > 1000);
    }

    [Fact]
    public void A_payload_too_long_for_the_panel_is_never_sent() =>
        Assert.Throws<ArgumentException>(() => PacketReader.Pack(new byte[33]));

    /// <summary>"11 22" and "A..B".</summary>
    private static byte[] Bytes(string text)
    {
        List<byte> bytes = [];
        foreach (var word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            var ends = word.Split("..").Select(end => Convert.ToInt32(end, 16)).ToArray();
            bytes.AddRange(Enumerable.Range(ends[0], ends[^1] - ends[0] + 1).Select(one => (byte)one));
        }

        return [.. bytes];
    }
}
