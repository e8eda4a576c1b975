using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Firmware;
using Lampblack.Parts;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Peers.Avr;

/// <summary>What the host may ask of a panel, and what a panel does without a table.</summary>
public sealed class PanelCommandTests
{
    public static TheoryData<ControllerChip> Chips => new(Enum.GetValues<ControllerChip>());

    private byte sequence;

    [Theory]
    [MemberData(nameof(Chips))]
    public void Without_a_table_the_engine_says_hello_with_nothing_and_drives_nothing(ControllerChip chip)
    {
        var log = PanelBench.RunImage(chip.ToString(), EngineImage.BuiltIn(chip).File.Write(), "run 1200000\nports\n");
        AssertEmptyHello(log, chip);
        Assert.Equal(1, log.Of(FrameType.Alive).Single().Word(0));
        Assert.All(log.Lines.Where(line => line[0] == "port"), line => Assert.Equal(("0", "0"), (line[3], line[4])));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(2)]
    [InlineData(5)]
    [InlineData(7)]
    [InlineData(9)]
    [InlineData(12)]
    [InlineData(40)]
    [InlineData(400)]
    public void A_table_with_one_wrong_bit_counts_as_none(int at)
    {
        var plan = BenchPlans.WholePorts();
        var table = PanelTable.Of(plan).Value;
        var image = EngineImage.BuiltIn(plan.Chip).File.With(new(0x6000, table.Bytes.SetItem(at, (byte)(table.Bytes[at] ^ 4))));
        var log = PanelBench.RunImage("ATmega2560", image.Write(), "run 200000\nports\n");
        AssertEmptyHello(log, plan.Chip);
        Assert.All(log.Lines.Where(line => line[0] == "port"), line => Assert.Equal(("0", "0"), (line[3], line[4])));
    }

    [Theory]
    [MemberData(nameof(Chips))]
    public void Hello_tells_the_plan(ControllerChip chip)
    {
        var plan = BenchPlans.Everything(chip) with { Index = 1 };
        var hello = Ask(plan, Frame(0x41)).Of(FrameType.Hello).Last();
        var hash = PanelTable.Of(plan).Value.PlanHash;
        Assert.Equal(
            [
                1, EngineVersions.Engine, 1, (int)chip + 1, 1, (int)(hash & 0xFF), (int)(hash >> 8 & 0xFF), (int)(hash >> 16 & 0xFF), (int)(hash >> 24), plan.Contacts.Length, 0,
                plan.Encoders.Length, plan.Wipers.Length, plan.Ladders.Length, plan.Indicators.Length, plan.Dimmers.Length,
            ],
            hello.Data[..16].Select(value => (int)value));
        Assert.Equal(17, hello.Data.Length);
    }

    [Fact]
    public void Each_command_is_acknowledged_by_its_number_and_result()
    {
        var plan = BenchPlans.Everything(ControllerChip.ATmega2560);
        (byte[] Frame, byte Result)[] commands =
        [
            (Frame(0x41), 0), (Frame(0x42), 0), (Frame(0x43, 1, 1), 0), (Frame(0x44, 4, 0, 128), 0), (Frame(0x45, 1), 0), (Frame(0x45, 0), 0), (Frame(0x46), 0), (Frame(0x47, 1), 0), (Frame(0x47, 0), 0),
            (Frame(0x40), 1), (Frame(0x48), 1), (Frame(1), 1), (Frame(0x41, 0), 2), (Frame(0x43, 1), 2), (Frame(0x44, 1, 2), 2), (Frame(0x46, 1), 2), (Frame(0x43, 2, 1), 3), (Frame(0x44, 5, 0, 0), 3), (Frame(0x45, 2), 3), (Frame(0x47, 2), 3),
        ];
        var log = Ask(plan, [.. commands.Select(command => command.Frame)]);
        Assert.Empty(log.Faults);
        Assert.Equal(commands.Select((command, index) => (index, (int)command.Result)).Order(), log.Of(FrameType.Acknowledge).Select(frame => ((int)frame.Data[0], (int)frame.Data[1])).Order());
    }

    [Fact]
    public void A_second_keeping_while_the_first_is_written_is_busy()
    {
        var plan = BenchPlans.Everything(ControllerChip.ATmega2560);
        var log = PanelBench.Run(plan, $"run 60000\n{Send(Frame(0x46))}{Send(Frame(0x46))}run 400000\n");
        Assert.Equal([(1, 4), (0, 0)], log.Of(FrameType.Acknowledge).Select(frame => ((int)frame.Data[0], (int)frame.Data[1])));
    }

    [Fact]
    public void A_command_is_acknowledged_within_two_milliseconds()
    {
        var log = PanelBench.Run(BenchPlans.Everything(ControllerChip.ATmega2560), $"until 100000\n{Send(Frame(0x43, 0, 1))}run 100000\n");
        var sentUs = 100_000 + 8 * 44;
        Assert.InRange(log.Of(FrameType.Acknowledge).Single().Us - sentUs, 0, 2000);
    }

    [Fact]
    public void Broken_frames_are_counted_and_not_obeyed()
    {
        var plan = BenchPlans.Everything(ControllerChip.ATmega2560);
        var good = Frame(0x43, 0, 1);
        var flipped = good.ToArray();
        flipped[2] ^= 0x10;
        var overrun = good.ToArray();
        overrun[0] += 1; // the stuffing's code leads past the end
        byte[] endless = [.. Enumerable.Repeat((byte)0x55, 60), 0];
        byte[][] bad = [flipped, overrun, endless, [0x01, 0x00], [0x02, 0x43, 0x00]];
        var log = PanelBench.Run(plan, $"run 60000\n{string.Concat(bad.Select(Send))}{Send([0, 0, 0])}run 50000\nlamps\n{Send(good)}until 1200000\nlamps\n");
        Assert.Equal("0", log.Lines.First(line => line[0] == "lamp" && line[2] == "indicator.0")[3]);
        Assert.Equal("1", log.Last("lamp", "", "indicator.0")[3]);
        Assert.Single(log.Of(FrameType.Acknowledge));
        Assert.Equal(bad.Length, log.Of(FrameType.Alive).Single().Word(2));
    }

    [Theory]
    [MemberData(nameof(Chips))]
    public void Lamps_on_pins_and_chains_are_lit_and_tested(ControllerChip chip)
    {
        var plan = BenchPlans.Chains(chip, 2, 3) with { Indicators = [.. BenchPlans.Chains(chip, 2, 3).Indicators, new("yard/pin", new DirectOutput(BenchPlans.Pin("PD4")))] };
        byte[] lit = [0, 9, 17, 23, 24];
        var script = $"run 60000\n{string.Concat(lit.Select(lamp => Send(Frame(0x43, lamp, 1))))}run 50000\nlamps\necho tested\n{Send(Frame(0x45, 1))}{Send(Frame(0x43, 9, 0))}run 50000\nlamps\necho after\n{Send(Frame(0x45, 0))}run 50000\nlamps\n";
        var lines = PanelBench.Run(plan, script).Lines;
        Assert.Equal(lit.Select(lamp => (int)lamp), Lit(lines.TakeWhile(line => line[0] != "echo"), plan));
        Assert.Equal(Enumerable.Range(0, 25), Lit(lines.TakeWhile(line => line[0] != "echo" || line[1] != "after"), plan));
        Assert.Equal([0, 17, 23, 24], Lit(lines, plan));
    }

    [Theory]
    [MemberData(nameof(Chips))]
    public void Dimmers_are_linear_and_end_in_off_and_on(ControllerChip chip)
    {
        var plan = BenchPlans.Everything(chip);
        int[] levels = [0, 1, 13107, 32768, 65534, 65535];
        var script = "run 60000\nlamps\n" + string.Concat(levels.Select(level => string.Concat(Enumerable.Range(0, plan.Dimmers.Length).Select(dimmer => Send(Frame(0x44, (byte)dimmer, (byte)level, (byte)(level >> 8))))) + "run 30000\nlamps\n"));
        var told = PanelBench.Run(plan, script).Lines.Where(line => line[0] == "dimmer").ToList();
        var shown = told.Select(line => (On: Number(line[3]), Of: Number(line[4]))).ToList();
        var expected = levels.Prepend(16384).SelectMany(level => Enumerable.Repeat(level, plan.Dimmers.Length)).ToList();
        Assert.Equal(expected.Count, shown.Count);
        Assert.All(shown.Zip(expected), pair => Assert.InRange(pair.First.On - pair.Second / 65535.0 * pair.First.Of, -0.51, 0.51));
        Assert.All(shown.Zip(expected).Where(pair => pair.Second is 0 or 65535), pair => Assert.Equal(pair.Second == 0 ? 0 : pair.First.Of, pair.First.On));
        Assert.All(plan.Dimmers.Select((dimmer, index) => (Timer: EnginePins.TimerOf(chip, dimmer.Pin)!.Timer, index)), pair => Assert.Equal(pair.Timer switch { 0 => 250, 2 => 256, _ => 5120 }, shown[pair.index].Of));
    }

    [Theory]
    [MemberData(nameof(Chips))]
    public void Levels_that_were_kept_are_there_after_power_off_and_others_are_not(ControllerChip chip)
    {
        var plan = BenchPlans.Everything(chip);
        var script = $"run 60000\n{Send(Frame(0x44, 0, 0x34, 0x92))}{Send(Frame(0x44, 1, 0, 0))}{Send(Frame(0x46))}run 400000\n{Send(Frame(0x44, 0, 0, 0x40))}run 20000\nrestart\nrun 100000\n{Send(Frame(0x42))}run 20000\n";
        var log = PanelBench.Run(plan, script);
        var levels = log.Of(FrameType.Snapshot).Where(frame => frame.Data[0] == 5).SelectMany(frame => Enumerable.Range(0, (frame.Data.Length - 3) / 2).Select(index => frame.Word(3 + 2 * index))).ToList();
        Assert.Equal([0x9234, 0, .. Enumerable.Repeat(16384, plan.Dimmers.Length - 2)], levels);
    }

    [Theory]
    [MemberData(nameof(Chips))]
    public void A_snapshot_tells_everything_as_it_is(ControllerChip chip)
    {
        var plan = BenchPlans.Everything(chip);
        var script = $"close contact.0\nslide wiper.1 0.5\nrun 60000\nclose contact.2\nturn encoder.0 -37 2000\nselect ladder.0 3\n{Send(Frame(0x43, 0, 1))}run 100000\n{Send(Frame(0x42))}run 50000\n";
        var log = PanelBench.Run(plan, script);
        Assert.Empty(log.Faults);
        Assert.Equal([2], log.Contacts().Select(change => change.Number)); // what was closed at the start is no change
        var entries = Enumerable.Range(0, 6).Select(kind => log.Of(FrameType.Snapshot).Where(frame => frame.Data[0] == kind).ToList()).ToList();
        Assert.All(entries, frames => Assert.Equal(0, frames[0].Word(1)));
        Assert.Equal(0b101, entries[0][0].Data[3]);
        Assert.All(entries[0].SelectMany(frame => frame.Data.Skip(3)).Skip(1), value => Assert.Equal(0, value));
        Assert.Equal(-37, entries[1][0].SignedWord(3));
        Assert.InRange(entries[2][0].Word(5) / 4.0, 510.5, 512.5);
        Assert.Equal(3, entries[3][0].Data[3]);
        Assert.Equal(1, entries[4][0].Data[3]);
        Assert.Equal(16384, entries[5][0].Word(3));
        Assert.Equal(0xFF, log.Of(FrameType.Snapshot).Last().Data[0]);
        Assert.All(log.Of(FrameType.Snapshot), frame => Assert.InRange(frame.Data.Length, 3, 11));

        // The time of this run before the answer: a host that missed a hello knows of the start before it compares.
        Assert.Equal(FrameType.Alive, log.Frames.TakeWhile(frame => frame.Type != FrameType.Snapshot).Last().Type);
    }

    [Fact]
    public void Noise_is_no_change()
    {
        var plan = BenchPlans.WholePorts();
        var steady = plan.Contacts.Select((contact, index) => (contact, index)).First(pair => pair.contact.Steady).index;
        var script = string.Concat(Enumerable.Range(0, 40).Select(index => FormattableString.Invariant($"@{60_000 + index * 60_000} close contact.0\n@{60_000 + index * 60_000 + 3000} open contact.0\n@{70_000 + index * 60_000} close contact.{steady}\n@{70_000 + index * 60_000 + 11_000} open contact.{steady}\n")));
        Assert.Empty(PanelBench.Run(plan, script + "until 2600000\n").Contacts());
    }

    [Fact]
    public void Bounce_is_reported_while_it_is_asked_for()
    {
        var plan = BenchPlans.Direct(ControllerChip.ATmega2560);
        var bouncing = "@200100 close contact.2\n@201100 open contact.2\n@202100 close contact.2\n@204100 open contact.2\n@206100 close contact.2\n";
        var log = PanelBench.Run(plan, $"{bouncing.Replace("@20", "@6", StringComparison.Ordinal)}@70000 open contact.2\nuntil 150000\n{Send(Frame(0x47, 1))}{bouncing}until 400000\n");
        var report = Assert.Single(log.Of(FrameType.Bounce));
        Assert.Equal((2, 5), (report.Word(0), (int)report.Data[2]));
        Assert.InRange(report.Data[3], 44, 52); // 6 ms are 48 eighths; a scan here is four
    }

    private static int Number(string text) => int.Parse(text, CultureInfo.InvariantCulture);

    private static string Send(byte[] packet) => $"send {Convert.ToHexStringLower(packet)}\n";

    private static List<int> Lit(IEnumerable<System.Collections.Immutable.ImmutableArray<string>> lines, ControllerPlan plan)
    {
        var last = lines.Where(line => line[0] == "lamp").ToList();
        return [.. Enumerable.Range(0, plan.Indicators.Length).Where(lamp => last.Last(line => line[2] == FormattableString.Invariant($"indicator.{lamp}"))[3] == "1")];
    }

    private static void AssertEmptyHello(BenchLog log, ControllerChip chip)
    {
        Assert.Empty(log.Faults);
        var hello = log.Of(FrameType.Hello).Single();
        Assert.Equal([1, EngineVersions.Engine, 0, (int)chip + 1, .. Enumerable.Repeat(0, 12)], hello.Data[..16].Select(value => (int)value));
    }

    private byte[] Frame(byte type, params byte[] data) => [.. BenchFrame.Write(type, sequence++, data)];

    private static BenchLog Ask(ControllerPlan plan, params byte[][] frames) =>
        PanelBench.Run(plan, "run 60000\n" + string.Concat(frames.Select(frame => Send(frame) + "run 5000\n")) + "run 400000\n");
}
