using System;
using System.Linq;
using CsCheck;
using Lampblack.Link;
using Xunit;

namespace Lampblack.Tests.Link;

public sealed class FrameTests
{
    /// <summary>Bytes written by hand from the table of frames in docs/link.md, which the firmware was written from too.</summary>
    [Fact]
    public void Frames_are_the_bytes_of_the_table()
    {
        Check("01 00 01 02 03 01 00 78 56 34 12 2C 01 02 03 04 05 06 08", new HelloFrame(0)
        {
            EngineVersion = 2, TableVersion = 3, PlanHash = 0x12345678, Counts = new(300, 2, 3, 4, 5, 6), ResetCause = 8,
        });
        Check("02 01 05 80", new ContactFrame(1, 5, true));
        Check("02 02 2C 01", new ContactFrame(2, 300, false));
        Check("03 03 01 FC FE FF 07", new EncoderFrame(3, 1, -4, -2, 7));
        Check("04 FF 02 FC 0F", new WiperFrame(255, 2, 4092));
        Check("05 04 00 FF 00 08", new LadderFrame(4, 0, LadderFrame.None, 2048));
        Check("06 05 10 0E 01 00 02 00", new AliveFrame(5, 3600, 1, 2));
        Check("07 06 00 08 00 81 02", new SnapshotFrame(6, SnapshotKind.Contacts, 8, [1, 0, 0, 0, 0, 0, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0]));
        Check("07 06 01 00 00 FF FF 02 00", new SnapshotFrame(6, SnapshotKind.Encoders, 0, [-1, 2]));
        Check("07 06 02 01 00 FC 0F", new SnapshotFrame(6, SnapshotKind.Wipers, 1, [4092]));
        Check("07 06 03 00 00 02 34 02", new SnapshotFrame(6, SnapshotKind.Ladders, 0, [2 | (0x234 << 8)]));
        Check("07 06 04 00 00 01 00", new SnapshotFrame(6, SnapshotKind.Indicators, 0, [1, 0]));
        Check("07 06 05 00 00 FF FF", new SnapshotFrame(6, SnapshotKind.Dimmers, 0, [65535]));
        Check("07 06 FF 00 00", new SnapshotFrame(6, SnapshotKind.End, 0, []));
        Check("08 07 09 03", new AcknowledgeFrame(7, 9, CommandResult.OutOfRange));
        Check("09 08 05 00 06 FF", new BounceFrame(8, 5, 6, 255));
    }

    [Fact]
    public void Commands_are_the_bytes_of_the_table()
    {
        Check("41 00", new AskHello(), 0);
        Check("42 01", new AskSnapshot(), 1);
        Check("43 02 05 01", new SetIndicator(5, true), 2);
        Check("44 03 01 34 12", new SetDimmer(1, 0x1234), 3);
        Check("45 04 01", new LampTest(true), 4);
        Check("46 05", new KeepLevels(), 5);
        Check("47 FF 00", new ReportBounce(false), 255);
    }

    [Theory]
    [InlineData("02 01 05")]
    [InlineData("02 01 05 80 00")]
    [InlineData("01 00 01")]
    [InlineData("04 00 00 FD 0F")]
    [InlineData("07 00 01 00 00 FF")]
    [InlineData("07 00 06 00 00")]
    [InlineData("08 00 00 05")]
    [InlineData("0A 00")]
    [InlineData("00 00")]
    [InlineData("02")]
    public void What_does_not_fit_is_no_frame(string payload) => Assert.Null(PanelFrames.Read(Bytes(payload)));

    [Theory]
    [InlineData("40 00")]
    [InlineData("43 00 01")]
    [InlineData("44 00 01 02")]
    [InlineData("41")]
    public void What_does_not_fit_is_no_command(string payload) => Assert.Null(HostFrames.Read(Bytes(payload)));

    [Fact]
    public void Any_payload_that_is_a_frame_is_written_back_as_it_was() => Gen.Byte.Array[0, 32].Sample(
        payload => PanelFrames.Read(payload) is not { } frame || PanelFrames.Write(frame).SequenceEqual(payload), seed: "0000KyzF4Rw1", iter: 20_000, threads: 1);

    private static void Check(string bytes, PanelFrame frame)
    {
        Assert.Equal(Bytes(bytes), PanelFrames.Write(frame));
        var read = PanelFrames.Read(Bytes(bytes));
        Assert.Equal(Bytes(bytes), PanelFrames.Write(read!));
        if (frame is SnapshotFrame snapshot)
        {
            // Lists are equal by their contents here, not by being the same list.
            Assert.Equal(snapshot.Entries, Assert.IsType<SnapshotFrame>(read).Entries);
            return;
        }

        Assert.Equal(frame, read);
    }

    private static void Check(string bytes, HostFrame frame, byte sequence)
    {
        Assert.Equal(Bytes(bytes), HostFrames.Write(frame, sequence));
        Assert.Equal((frame, sequence), HostFrames.Read(Bytes(bytes)));
    }

    private static byte[] Bytes(string text) => [.. text.Split(' ').Select(word => Convert.ToByte(word, 16))];
}
