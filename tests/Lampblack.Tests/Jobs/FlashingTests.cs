using System;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Tests.Firmware;
using Lampblack.Tests.Link;
using Xunit;

namespace Lampblack.Tests.Jobs;

/// <summary>A desk's firmware on its way into a chip, as the shells carry it: bytes and times.</summary>
public sealed class FlashingTests
{
    /// <summary>A plan from a file was made elsewhere, or edited: 115200 comes out 2.1 % too fast at 16 MHz.</summary>
    [Fact]
    public void A_file_of_pins_with_a_speed_that_the_chip_can_not_make_is_refused()
    {
        var file = System.Text.Encoding.UTF8.GetString(HeardOf.PlanFile);
        Assert.Contains("250000", file, StringComparison.Ordinal);
        var begun = Flash.Begin(null, [.. System.Text.Encoding.UTF8.GetBytes(file.Replace("250000", "115200", StringComparison.Ordinal))], "pins.json", 1, TestContext.Current.CancellationToken);
        Assert.Equal("baud-error", Assert.Single(begun.Findings).Code);
        Assert.Null(begun.Value);
    }

    private static readonly byte[] Signature = [0x1E, 0x98, 0x01];

    [Fact]
    public void Engine_and_the_desks_table_arrive_and_are_read_back()
    {
        var flashing = Begin();
        var loader = ScriptedLoader.Second(Signature, -1);
        var send = flashing.Opened(0);
        for (var ms = 1; !flashing.IsDone && ms < 20_000; ms++)
        {
            send = flashing.Received(loader.Take(send), ms);
        }

        Assert.Null(flashing.Fault);
        Assert.Equal(1, flashing.DoneShare);
        Assert.Equal("LB", $"{(char)loader.Flash[0x6000]}{(char)loader.Flash[0x6001]}");
        Assert.NotEqual(0xFF, loader.Flash[0]);
    }

    [Fact]
    public void A_board_that_says_nothing_is_told_and_not_waited_for_without_end()
    {
        var flashing = Begin();
        _ = flashing.Opened(0);
        Assert.Empty(flashing.Tick(499));
        for (var ms = 500; !flashing.IsDone && ms < 60_000; ms += 500)
        {
            _ = flashing.Tick(ms);
        }

        Assert.Equal("flash-silent", flashing.Fault!.Code);
    }

    [Fact]
    public void A_cable_that_is_pulled_out_ends_it_with_words()
    {
        var flashing = Begin();
        _ = flashing.Opened(0);
        flashing.Closed(10);
        Assert.Equal(Severity.Stop, flashing.Fault!.Severity);
        Assert.Contains("nothing is lost", flashing.Fault.Hint, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(2)]
    public void A_controller_that_the_desk_has_not_is_refused(int controller) =>
        Assert.Equal("flash-controller", Assert.Single(Flash.Begin(null, [.. HeardOf.PlanFile], "pins.json", controller, TestContext.Current.CancellationToken).Findings).Code);

    [Fact]
    public void The_line_for_avrdude_names_chip_way_speed_and_file() =>
        Assert.Equal("avrdude -p m2560 -c stk500v2 -P /dev/ttyACM0 -b 115200 -D -U flash:w:out/firmware/panel.hex:i", Begin().AvrdudeLine("/dev/ttyACM0", "out/firmware/panel.hex"));

    private static Flashing Begin()
    {
        var begun = Flash.Begin(null, [.. HeardOf.PlanFile], "pins.json", 1, TestContext.Current.CancellationToken);
        Assert.DoesNotContain(begun.Findings, finding => finding.Severity == Severity.Stop);
        return begun.Value!;
    }
}
