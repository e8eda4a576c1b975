using System;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Firmware;
using Lampblack.Formats;
using Lampblack.Parts;
using Lampblack.Tests.Peers.Avr;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Firmware;

public sealed class PanelTableTests
{
    private static readonly ControllerPlan Small = new()
    {
        Index = 2,
        Chip = ControllerChip.ATmega2560,
        Columns = BenchPlans.Pins("PA0", "PA1"),
        Rows = BenchPlans.Pins("PC0", "PC7"),
        Inputs = new(BenchPlans.Pin("PB0"), BenchPlans.Pin("PB1"), BenchPlans.Pin("PB2"), 1),
        Outputs = new(BenchPlans.Pin("PB3"), BenchPlans.Pin("PB4"), BenchPlans.Pin("PH1"), 1),
        Contacts =
        [
            new("dome/a", new MatrixInput(1, 0)), new("dome/b", new MatrixInput(0, 1), Steady: true), new("dome/c", new DirectInput(BenchPlans.Pin("PL7"))), new("dome/d", new ChainInput(0, 4)),
        ],
        Encoders = [new("dome/focus", BenchPlans.Pin("PD0"), BenchPlans.Pin("PD1"), 4)],
        Wipers = [new("dome/dew", BenchPlans.Pin("PK1"), 9)],
        Ladders = [new("dome/filter", BenchPlans.Pin("PF0"), 0, [new(0, 10), new(1000, 1023)])],
        Indicators = [new("dome/lamp", new DirectOutput(BenchPlans.Pin("PJ3"))), new("dome/open", new ChainOutput(0, 6))],
        Dimmers = [new("legends", BenchPlans.Pin("PB5"), 3125), new("flat", BenchPlans.Pin("PH6"), 1000)],
    };

    // Written by hand from the layout in docs/engine.md; none of it by the code under test.
    private const string SmallBody =
        "00 02 0300 02 01 01 01 01 0400 01 01 01 02 02 02  10 11 12  13 14 71  00 01  02 81  0A 80 "
        + "80 80 FFFF FFFF FFFF FFFF FFFF FFFF FFFF 0100 "
        + "01 00 0000 FFFF FFFF FFFF FFFF FFFF FFFF FFFF "
        + "80 00 FFFF FFFF FFFF FFFF FFFF FFFF FFFF 0200 "
        + "10 00 FFFF FFFF FFFF FFFF 0300 FFFF FFFF FFFF "
        + "30 31  09  00 02 0000 0A00 E803 FF03  8300 0680  01 01 FF13  02 03 FF00  15 01 00  76 02 01";

    [Fact]
    public void A_small_plan_gives_the_bytes_of_the_layout()
    {
        var table = PanelTable.Of(Small);
        Assert.Empty(table.Findings);
        var bytes = table.Value.Bytes;
        var body = Convert.FromHexString(SmallBody.Replace(" ", string.Empty, StringComparison.Ordinal));
        Assert.Equal(body, bytes[12..]);
        byte[] head = [(byte)'L', (byte)'B', 1, 1, 1, 1, (byte)bytes.Length, 0];
        Assert.Equal(head, bytes[..8]);
        Assert.Equal(Crc32.Of([.. head, .. body]), table.Value.PlanHash);
        Assert.Equal(table.Value.PlanHash, BitConverter.ToUInt32(bytes.AsSpan()[8..12]));
    }

    /// <summary>Vendor, product, options, then each encoder's edges; the table needs an engine that knows of them. One without USB does not.</summary>
    [Fact]
    public void A_game_controller_has_five_more_bytes_and_one_for_each_encoder()
    {
        var plan = Small with { Usb = new(0x1234, 0xABCD, true) };
        var (with, without) = (PanelTable.Of(plan).Value.Bytes, PanelTable.Of(Small).Value.Bytes);
        Assert.Equal((2, 1), (with[3], without[3]));
        Assert.Equal(without.Length + 6, with.Length);
        Assert.Equal([0x34, 0x12, 0xCD, 0xAB, 1, 4], with[^6..].Select(value => value ^ with[12]));
        var axes = PanelTable.Of(plan with { Usb = new(0x1234, 0xABCD, false) }).Value.Bytes;
        Assert.Equal(0, axes[^2] ^ axes[12]);
    }

    /// <summary>Eleven ports with rows and sixteen encoders are more than a beat has time for; on one port they are not.</summary>
    [Fact]
    public void A_plan_that_the_chip_can_not_read_in_time_is_told()
    {
        var rows = BenchPlans.Pins("PA0", "PB0", "PC0", "PD4", "PE4", "PF0", "PG0", "PH0", "PJ0", "PK0", "PL0");
        var encoders = Enumerable.Range(0, 4).Select(index => new PlannedEncoder($"dome/knob-{index}", new('A', 7 - index, string.Empty), new('L', 7 - index, string.Empty), 4))
            .Concat(Enumerable.Range(0, 4).Select(index => new PlannedEncoder($"dome/more-{index}", new('C', 7 - index, string.Empty), new('K', 7 - index, string.Empty), 4)));
        var plan = BenchPlans.Matrix(ControllerChip.ATmega2560, BenchPlans.Pins("PJ4", "PJ5"), rows) with { Encoders = [.. encoders] };
        var finding = Assert.Single(PanelTable.Of(plan).Findings);
        Assert.Equal(("firmware-pace", Severity.Warn), (finding.Code, finding.Severity));
        // 330, 8 encoders of 78, 11 ports with one contact each (164), 400 for the line.
        Assert.Contains("3158 of 2000 cycles a beat", finding.Message, StringComparison.Ordinal);
        Assert.NotEmpty(PanelTable.Of(plan).Value.Bytes);
        Assert.Empty(PanelTable.Of(BenchPlans.Matrix(ControllerChip.ATmega2560, BenchPlans.Pins("PJ4", "PJ5"), BenchPlans.Port('G', 6)) with { Encoders = plan.Encoders }).Findings);
    }

    /// <summary>
    /// By hand: five conversions for each input, two beats of 0.125 ms each, twice; 20 ms and twice 5 more. Seven inputs 17.5 + 30, one 2.5 + 30.
    /// With forty encoders and a fast link a conversion takes three beats: 26.25 + 30. The simulated panels hold every position for just so long.
    /// </summary>
    [Fact]
    public void How_long_a_selector_has_to_stand_is_reckoned_and_told()
    {
        var everything = BenchPlans.Everything(ControllerChip.ATmega2560);
        Assert.Equal(48, EnginePace.LadderHoldMs(everything));
        Assert.Equal(33, EnginePace.LadderHoldMs(everything with { Wipers = [] }));
        Assert.Equal(0, EnginePace.LadderHoldMs(everything with { Ladders = [] }));
        var laden = everything with { Baud = 1_000_000, Encoders = [.. Enumerable.Repeat(everything.Encoders[0], 40)] };
        Assert.InRange(EnginePace.LadenCycles(laden), 4001, 6000);
        Assert.Equal(57, EnginePace.LadderHoldMs(laden));
        var finding = Assert.Single(PanelTable.Of(laden).Findings, finding => finding.Code == "firmware-pace");
        Assert.Contains("has to stand for 57 ms at a position", finding.Message, StringComparison.Ordinal);
    }

    /// <summary>Contacts 33 on bits 0 and 5 of a steady bank: as they stand they would give 21 21 21.</summary>
    [Fact]
    public void What_old_boot_loaders_take_for_a_command_never_stands_in_a_table()
    {
        var places = Enumerable.Range(0, 33).Select(index => (InputPlace)new ChainInput(index / 8, index % 8))
            .Concat([new DirectInput(BenchPlans.Pin("PA0")), new DirectInput(BenchPlans.Pin("PA5"))]);
        var plan = new ControllerPlan
        {
            Index = 0,
            Chip = ControllerChip.ATmega2560,
            Inputs = new(BenchPlans.Pin("PB0"), BenchPlans.Pin("PB1"), BenchPlans.Pin("PB2"), 5),
            Contacts = [.. places.Select((place, index) => new PlannedContact($"yard/{index}", place, Steady: true))],
        };
        var bytes = PanelTable.Of(plan).Value.Bytes.AsSpan();
        var key = bytes[12];
        Assert.NotEqual(0, key);
        Assert.Equal(-1, bytes.IndexOf("!!!"u8));
        Assert.NotEqual(-1, ((ReadOnlySpan<byte>)bytes[13..].ToArray().Select(value => (byte)(value ^ key)).ToArray()).IndexOf("!!!"u8));

        for (var seed = 0; seed < 300; seed++)
        {
            Assert.Equal(-1, PanelTable.Of(BenchPlans.ByChance(new Random(seed))).Value.Bytes.AsSpan().IndexOf("!!!"u8));
        }
    }

    [Fact]
    public void The_same_plan_gives_the_same_bytes() => Assert.Equal(PanelTable.Of(Small).Value.Bytes, PanelTable.Of(Small with { }).Value.Bytes);

    public static TheoryData<string, string, string> Refused => new()
    {
        { "firmware-pin", "no pin", "PG7 for dome/c: ATmega2560 has no such pin" },
        { "firmware-pin", "serial", "PE0 for dome/c: it is kept for the serial line" },
        { "firmware-pin", "twice", "PD0 is used more than once" },
        { "firmware-pin", "no timer", "PA7 for legends can't dim on ATmega2560; allowed are PB4, PB5, PB6, PB7, PE3" },
        { "firmware-pin", "no converter", "PK1 for dome/dew does not measure channel 8 on ATmega2560; PK0 does" },
        { "firmware-place", "no column", "dome/a is planned at a place that the controller has not" },
        { "firmware-place", "no chip", "dome/open is planned at a place that the controller has not" },
        { "firmware-place", "same crossing", "where dome/a is already" },
        { "firmware-ladder", "windows", "dome/filter: its windows overlap" },
        { "firmware-room", "banks", "bytes of contacts" },
        { "firmware-room", "encoders", "has 17 encoders; ATmega2560 holds 16" },
    };

    [Theory]
    [MemberData(nameof(Refused))]
    public void What_the_engine_can_not_run_is_refused(string code, string kind, string message)
    {
        var table = PanelTable.Of(Broken(kind));
        var finding = table.Findings.First(found => found.Code == code);
        Assert.Equal(Severity.Stop, finding.Severity);
        Assert.Contains(message, finding.Message, StringComparison.Ordinal);
        Assert.Empty(table.Value.Bytes);
    }

    [Fact]
    public void A_table_that_its_place_does_not_hold_is_refused()
    {
        var plan = BenchPlans.WholePorts() with { Indicators = [], Ladders = [.. Enumerable.Range(0, 8).Select(channel => new PlannedLadder($"dome/ladder-{channel}", BenchPlans.Pin(EnginePins.AnalogPin(ControllerChip.ATmega2560, channel)), channel, [.. Enumerable.Range(0, 140).Select(index => new LadderWindow(index * 7, index * 7 + 3))]))] };
        var finding = Assert.Single(PanelTable.Of(plan).Findings);
        Assert.Equal("firmware-room", finding.Code);
        Assert.Contains("there is room for 4096", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_frequency_beyond_the_timer_is_told()
    {
        var table = PanelTable.Of(Small with { Dimmers = [new("legends", BenchPlans.Pin("PG5"), 20_000)] });
        var finding = Assert.Single(table.Findings);
        Assert.Equal(("firmware-dimmer", Severity.Warn), (finding.Code, finding.Severity));
        Assert.Contains("wants 20000 switchings a second; the timer of PG5 gives 8000", finding.Message, StringComparison.Ordinal);
        Assert.NotEmpty(table.Value.Bytes);
    }

    // 16 MHz over divider and steps; fast PWM, from the chips' data sheets (from memory).
    [Theory]
    [InlineData(1, 3125, 1, 5120, 3125)]
    [InlineData(3, 1250, 1, 12800, 1250)]
    [InlineData(4, 100, 2, 20000, 100)]
    [InlineData(5, 100_000, 1, 256, 62_500)]
    [InlineData(2, 1000, 3, 256, 1953.125)]
    [InlineData(2, 976, 4, 256, 976.5625)]
    [InlineData(2, 70_000, 1, 256, 62_500)]
    [InlineData(0, 1000, 0, 250, 8000)]
    public void Timers_switch_at_least_as_often_as_asked_where_they_can(int timer, double wanted, int clockBits, int steps, double hertz)
    {
        var setting = TimerSetting.For(timer, wanted);
        Assert.Equal((clockBits, steps), (setting.ClockBits, setting.Steps));
        Assert.Equal(hertz, setting.PwmHertz, 1e-9);
    }

    /// <summary>The divider that the table carries gives the rate that the pin plan was judged by (ATmega2560 data sheet, baud rate registers: 16 MHz over 16 or 8 and the divider).</summary>
    [Theory]
    [InlineData(250_000)]
    [InlineData(500_000)]
    [InlineData(1_000_000)]
    [InlineData(38_400)]
    [InlineData(76_800)]
    public void The_tables_divider_makes_the_rate_that_was_judged(int baud)
    {
        var bytes = PanelTable.Of(Small with { Baud = baud }).Value.Bytes;
        var packed = (bytes[14] ^ bytes[12]) | ((bytes[15] ^ bytes[12]) << 8);
        var made = 16e6 / ((packed & 0x8000) != 0 ? 8 : 16) / ((packed & 0x7FFF) + 1);
        Assert.Equal(Lampblack.Wiring.SerialSpeed.ErrorShare(baud), (made / baud) - 1, 1e-9);
        Assert.InRange(made / baud, 0.98, 1.02);
    }

    private static ControllerPlan Broken(string kind) => kind switch
    {
        "no pin" => Small with { Contacts = [new("dome/c", new DirectInput(BenchPlans.Pin("PG7")))] },
        "serial" => Small with { Contacts = [new("dome/c", new DirectInput(BenchPlans.Pin("PE0")))] },
        "twice" => Small with { Contacts = [new("dome/c", new DirectInput(BenchPlans.Pin("PD0")))] },
        "no timer" => Small with { Dimmers = [new("legends", BenchPlans.Pin("PA7"), 1000)] },
        "no converter" => Small with { Wipers = [new("dome/dew", BenchPlans.Pin("PK1"), 8)] },
        "no column" => Small with { Contacts = [new("dome/a", new MatrixInput(2, 0))] },
        "no chip" => Small with { Indicators = [new("dome/open", new ChainOutput(1, 0))] },
        "same crossing" => Small with { Contacts = [new("dome/a", new MatrixInput(0, 0)), new("dome/b", new MatrixInput(0, 0))] },
        "windows" => Small with { Ladders = [new("dome/filter", BenchPlans.Pin("PF0"), 0, [new(0, 10), new(10, 20)])] },
        "banks" => Small with { Inputs = Small.Inputs! with { ChipCount = 130 } },
        _ => Small with { Encoders = [.. Enumerable.Range(0, 17).Select(index => new PlannedEncoder($"dome/{index}", BenchPlans.Pin("PD0"), BenchPlans.Pin("PD1"), 4))] },
    };
}
