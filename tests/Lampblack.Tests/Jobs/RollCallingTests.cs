using System;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using System.Text.Json;
using Lampblack.Jobs;
using Lampblack.Tests.Link;
using Xunit;

namespace Lampblack.Tests.Jobs;

public sealed class RollCallingTests
{
    [Fact]
    public void Without_a_desk_and_without_pins_nobody_can_be_understood() =>
        Assert.Equal("pins-unknown", Assert.Single(Listen.Begin(null, [], string.Empty, TestContext.Current.CancellationToken).Findings).Code);

    /// <summary>A desk that was never built is planned first, with its light, which takes a while.</summary>
    [Fact]
    public void Planning_a_desk_that_was_never_built_can_be_stopped()
    {
        var desk = SecondTime.Source("""
            lampblack = 1

            [controller]
            chip = "ATmega328P"

            [lighting]
            emitter = "strip-60"
            depth = 35

            [[panel]]
            id = "kiln"
            size = [120, 70]

              [[panel.control]]
              id = "fan"
              part = "toggle-mini-on-on"
              at = [30, 25]
              legend = "FAN"
              states = ["ON", "OFF"]

            """);
        System.Threading.CancellationToken stopped = new(canceled: true);
        Assert.ThrowsAny<OperationCanceledException>(() => Listen.Begin(desk, [], string.Empty, stopped));
        Assert.ThrowsAny<OperationCanceledException>(() => Flash.Begin(desk, [], string.Empty, 1, stopped));
        Assert.ThrowsAny<OperationCanceledException>(() => CallRoll.Begin(desk, [], string.Empty, [], [], string.Empty, cancellation: stopped));
        Assert.ThrowsAny<OperationCanceledException>(() => SimulatedPanel.Of(desk, [], string.Empty, "panel.hex", stopped));
    }

    [Fact]
    public void Levels_are_kept_when_that_is_asked_for()
    {
        var listening = HeardOf.Listening();
        var panel = HeardOf.YardPanel();
        panel.Receive(listening.Opened(100).AsSpan());
        for (var bytes = panel.Take(); bytes.Length > 0; bytes = panel.Take())
        {
            panel.Receive(listening.Received(bytes, 100).AsSpan());
        }

        panel.Receive(listening.Typed("{\"keep\": false}", 110).AsSpan());
        Assert.Contains("is not understood", Assert.Single(listening.TakeComplaints()), StringComparison.Ordinal);
        panel.Receive(listening.Typed("{\"keep\": true}", 120).AsSpan());
        Assert.Empty(listening.TakeComplaints());
        Assert.Single(panel.Commands, command => command is Lampblack.Link.KeepLevels);
    }

    [Theory]
    [InlineData("{}")]
    [InlineData("not json")]
    [InlineData("{\"schema\":\"lampblack-wiring/2\"}")]
    [InlineData("{\"schema\":\"lampblack-wiring/1\",\"controllers\":[],\"controls\":[]}")]
    [InlineData("{\"schema\":\"lampblack-wiring/1\",\"controllers\":[{\"chip\":\"ATmega2560\",\"baud\":250000,\"diodes\":true,\"columns\":[],\"rows\":[],\"contacts\":[{\"control\":\"a\",\"column\":0,\"row\":0,\"steady\":false}],\"encoders\":[],\"wipers\":[],\"ladders\":[],\"indicators\":[],\"dimmers\":[]}],\"controls\":[]}")]
    [InlineData("{\"schema\":\"lampblack-wiring/1\",\"controllers\":[{\"chip\":\"Z80\"}],\"controls\":[]}")]
    [InlineData("{\"schema\":\"lampblack-wiring/1\",\"controllers\":[{\"chip\":\"ATmega2560\",\"baud\":250000,\"diodes\":true,\"columns\":[],\"rows\":[],\"contacts\":[],\"encoders\":[],\"wipers\":[],\"ladders\":[{\"control\":\"a\",\"pin\":\"A0\",\"channel\":0,\"windows\":[[1]]}],\"indicators\":[],\"dimmers\":[]}],\"controls\":[]}")]
    public void A_file_that_is_no_plan_of_pins_is_refused(string text)
    {
        var begun = Listen.Begin(null, [.. Encoding.UTF8.GetBytes(text)], "pins.json", TestContext.Current.CancellationToken);
        Assert.Equal("pin-file", Assert.Single(begun.Findings).Code);
        Assert.Null(begun.Value);
    }

    [Theory]
    [InlineData("yard/points", "yard/points")]
    [InlineData("row 2", "yard/road")]
    [InlineData("column 2", "yard/points yard/road")]
    [InlineData("legends", "legends")]
    public void Who_is_called_can_be_chosen(string only, string ids) => Assert.Equal(ids, string.Join(' ', Ids(Begin([only]).Value!)));

    [Theory]
    [InlineData("row 9")]
    [InlineData("dome/")]
    [InlineData("")]
    public void A_choice_that_means_nobody_is_refused(string only)
    {
        var begun = Begin([only]);
        Assert.Equal("rollcall-nobody", Assert.Single(begun.Findings).Code);
        Assert.Null(begun.Value);
    }

    [Fact]
    public void A_record_is_read_back_and_those_who_answered_are_not_called_again()
    {
        var roll = Begin([]).Value!;
        Connect(roll);
        var file = roll.File();
        using var document = JsonDocument.Parse(file.AsMemory());
        Assert.Equal("lampblack-rollcall/1", document.RootElement.GetProperty("schema").GetString());
        var answered = Encoding.UTF8.GetString(file.AsSpan()).Replace("\"not-called\"", "\"answered\"", StringComparison.Ordinal);
        var again = CallRoll.Begin(null, [.. HeardOf.PlanFile], "pins.json", [], [.. Encoding.UTF8.GetBytes(answered)], "roll.json", cancellation: TestContext.Current.CancellationToken);
        Assert.Empty(again.Findings);
        Connect(again.Value!);
        Assert.True(again.Value!.IsGood);
        Assert.Contains("8 of 8 answer.", again.Value.Lines);

        var other = answered.Replace("\"plan\": \"", "\"plan\": \"0", StringComparison.Ordinal);
        var noted = CallRoll.Begin(null, [.. HeardOf.PlanFile], "pins.json", [], [.. Encoding.UTF8.GetBytes(other)], "roll.json", cancellation: TestContext.Current.CancellationToken);
        Assert.Equal("rollcall-other-plan", Assert.Single(noted.Findings).Code);
        Assert.NotNull(noted.Value);
    }

    [Fact]
    public void A_file_that_is_no_record_is_left_alone()
    {
        var begun = CallRoll.Begin(null, [.. HeardOf.PlanFile], "pins.json", [], [.. "my notes"u8], "notes.txt", cancellation: TestContext.Current.CancellationToken);
        Assert.Equal("rollcall-file", Assert.Single(begun.Findings).Code);
        Assert.Null(begun.Value);
    }

    [Fact]
    public void Words_that_are_not_understood_are_answered_with_those_that_are()
    {
        var roll = Begin([]).Value!;
        Connect(roll);
        roll.TakeSaid();
        roll.Typed("what?", 500);
        Assert.Contains("Type Enter", Assert.Single(roll.TakeSaid()), StringComparison.Ordinal);
        roll.Typed("q", 600);
        Assert.True(roll.IsStopped);
    }

    [Fact]
    public void A_simulated_panel_has_the_desks_own_wires_and_table()
    {
        var panel = SimulatedPanel.Of(null, [.. HeardOf.PlanFile], "pins.json", "panel.hex", TestContext.Current.CancellationToken).Value!;
        var wires = Encoding.ASCII.GetString(panel.Wires.AsSpan());
        Assert.StartsWith("chip ATmega2560 panel.hex\n", wires, StringComparison.Ordinal);
        Assert.Contains("contact.5", wires, StringComparison.Ordinal);
        Assert.Equal(1, wires.Split('\n').Count(line => line.StartsWith("chip ", StringComparison.Ordinal)));
        Assert.StartsWith(":", Encoding.ASCII.GetString(panel.Image.AsSpan()), StringComparison.Ordinal);
    }

    private static Findings.Checked<RollCalling?> Begin(string[] only) => CallRoll.Begin(null, [.. HeardOf.PlanFile], "pins.json", [.. only], [], string.Empty, cancellation: TestContext.Current.CancellationToken);

    private static ImmutableArray<string> Ids(RollCalling roll)
    {
        Connect(roll);
        using var document = JsonDocument.Parse(roll.File().AsMemory());
        return [.. document.RootElement.GetProperty("controls").EnumerateArray().Select(control => control.GetProperty("id").GetString()!)];
    }

    /// <summary>A panel with the right plan says hello and where everything stands.</summary>
    private static void Connect(RollCalling roll)
    {
        var panel = HeardOf.YardPanel();
        panel.Receive(roll.Opened(100).AsSpan());
        for (var bytes = panel.Take(); bytes.Length > 0; bytes = panel.Take())
        {
            panel.Receive(roll.Received(bytes, 100).AsSpan());
        }
    }
}
