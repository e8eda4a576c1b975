using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using System.Text;
using Lampblack.Formats;
using Lampblack.Tests.Peers;
using Xunit;

namespace Lampblack.Tests.Formats;

public sealed class HexFileTests
{
    private const string End = ":00000001FF\n";

    // Records as published in descriptions of the format (docs/sources.md).
    [Theory]
    [InlineData(":06010000010203040506E4", 0x0100, "010203040506")]
    [InlineData(":04FEDC00210080CFB2", 0xFEDC, "210080CF")]
    [InlineData(":100079000218EC2026D4C29630B2FDD29632171D52", 0x0079, "0218EC2026D4C29630B2FDD29632171D")]
    [InlineData(":10010000214601360121470136007EFE09D2190140", 0x0100, "214601360121470136007EFE09D21901")]
    public void Published_records_are_read_and_written(string record, int address, string bytes)
    {
        var reading = HexFile.Read(record + "\r\n" + End);
        Assert.Equal(string.Empty, reading.Fault);
        var segment = Assert.Single(reading.File.Segments);
        Assert.Equal(address, segment.Address);
        Assert.Equal(bytes, Convert.ToHexString(segment.Bytes.AsSpan()));
        Assert.Equal(record + "\n" + End, reading.File.Write());
    }

    [Fact]
    public void Addresses_beyond_64_kib_come_by_extended_records()
    {
        var reading = HexFile.Read(":020000040800F2\n:0100000001FE\n:020000021000EC\n:0100000002FD\n" + End);
        Assert.Equal(string.Empty, reading.Fault);
        Assert.Equal([0x10000, 0x08000000], reading.File.Segments.Select(segment => segment.Address));
        Assert.Equal(0, HexFile.Read(reading.File.Write()).FaultLine);
    }

    [Theory]
    [InlineData(":10000001FF\n", 1, "the record says 16 bytes and has 0")]
    [InlineData(":06010000010203040506E5\n" + End, 1, "the record's checksum is wrong")]
    [InlineData("06010000010203040506E4\n" + End, 1, "a record begins with a colon")]
    [InlineData(":0601000001020304050xE4\n" + End, 1, "a record is pairs of hexadecimal digits")]
    [InlineData("\n:06010000010203040506E4\n", 3, "the end record is missing")]
    [InlineData(End + ":06010000010203040506E4\n", 2, "something follows the end record")]
    [InlineData(":06010000010203040506E4\n:06010000010203040506E4\n" + End, 2, "the byte at 0x100 was given before")]
    [InlineData(":02000004FFFFFC\n:0100000001FE\n" + End, 2, "the address is beyond 2 GiB")]
    [InlineData(":00000009F7\n" + End, 1, "there is no record of type 9 with 0 bytes")]
    public void Faults_are_told_by_their_line(string text, int line, string fault)
    {
        var reading = HexFile.Read(text);
        Assert.Equal((line, fault), (reading.FaultLine, reading.Fault));
    }

    [Fact]
    public void The_gnu_tool_reads_what_we_write_and_we_read_what_it_writes()
    {
        using var folder = new ScratchFolder();
        var random = new Random(7);
        var bytes = Enumerable.Range(0x3F0, 0x2A5).Concat(Enumerable.Range(0x1FFF0, 0x33)).ToDictionary(address => address, _ => (byte)random.Next(256));
        var ours = HexFile.Of(bytes);
        folder.Write("ours.hex", Encoding.ASCII.GetBytes(ours.Write()));
        OutsideProgram.RunWell("avr-objcopy", ["-I", "ihex", "-O", "ihex", "ours.hex", "theirs.hex"], folder.FullPath);
        Assert.Equal(bytes.OrderBy(pair => pair.Key), HexFile.Read(File.ReadAllText(folder.PathOf("theirs.hex"))).File.Bytes());

        OutsideProgram.RunWell("avr-objcopy", ["-I", "ihex", "-O", "binary", "--gap-fill", "0xff", "ours.hex", "flat.bin"], folder.FullPath);
        var flat = File.ReadAllBytes(folder.PathOf("flat.bin"));
        Assert.All(bytes, pair => Assert.Equal(pair.Value, flat[pair.Key - 0x3F0]));
    }

    [Fact]
    public void Bytes_laid_over_a_file_win()
    {
        var file = HexFile.Of([KeyValuePair.Create(4, (byte)1), KeyValuePair.Create(5, (byte)2)]).With(new(5, [9, 8]));
        Assert.Equal((byte?)1, file[4]);
        Assert.Equal((byte?)9, file[5]);
        Assert.Equal((byte?)8, file[6]);
        Assert.Null(file[7]);
    }

    [Fact]
    public void The_checksum_of_the_table_has_the_published_check_value() => Assert.Equal(0xCBF43926, Crc32.Of("123456789"u8));
}
