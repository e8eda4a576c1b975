using System;
using System.Collections.Concurrent;
using System.Linq;
using System.Threading;
using Lampblack.Host;
using Lampblack.Jobs;
using Lampblack.Link;
using Lampblack.Tests.Link;
using Xunit;

namespace Lampblack.Tests.Jobs;

/// <summary>However a roll-call ends, the panel is left as it was found: lamps off, light as bright as before, no reports of bounce.</summary>
public sealed class RollCallEndingTests
{
    private readonly ScriptedPanel panel = HeardOf.YardPanel();
    private readonly RollCalling roll = CallRoll.Begin(null, [.. HeardOf.PlanFile], "pins.json", ["yard/call.lamp", "legends"], [], string.Empty).Value!;
    private long ms = 100;

    public RollCallEndingTests()
    {
        panel.Dimmers[0] = 20_000;
        panel.Receive(roll.Opened(ms).AsSpan());
    }

    [Fact]
    public void A_roll_that_is_through_leaves_the_panel_as_it_was()
    {
        Until(() => panel.Indicators[0] == 1);
        Say(string.Empty);
        Until(() => panel.Dimmers[0] == ushort.MaxValue);
        Say(string.Empty);
        UntilDone();
        ExpectAsFound();
        Assert.True(roll.IsGood);
    }

    [Fact]
    public void A_roll_that_is_stopped_leaves_the_panel_as_it_was()
    {
        Until(() => panel.Indicators[0] == 1);
        Say("q");
        UntilDone();
        ExpectAsFound();
        Assert.True(roll.IsStopped);
    }

    /// <summary>The answer to a gap tells the light as the roll-call itself set it.</summary>
    [Fact]
    public void Light_goes_back_to_where_it_was_although_a_frame_was_lost_meanwhile()
    {
        Until(() => panel.Indicators[0] == 1);
        Say(string.Empty);
        Until(() => panel.Dimmers[0] == ushort.MaxValue);
        panel.Lost = 1;
        panel.Alive(1);
        panel.Alive(2);
        for (var step = 0; step < 20; step++)
        {
            Pass();
        }

        Say("q");
        UntilDone();
        ExpectAsFound();
    }

    [Fact]
    public void A_panel_that_no_longer_answers_holds_up_no_end()
    {
        Until(() => panel.Indicators[0] == 1);
        panel.Deaf = int.MaxValue;
        Say("q");
        var stoppedMs = ms;
        UntilDone();
        Assert.InRange(ms - stoppedMs, 0, 1100);
    }

    [Fact]
    public void A_command_that_gets_lost_at_the_end_is_sent_again()
    {
        Until(() => panel.Indicators[0] == 1);
        panel.Deaf = 2;
        Say("q");
        UntilDone();
        ExpectAsFound();
    }

    /// <summary>Ctrl-C, and the workshop's stop.</summary>
    [Fact]
    public void A_line_that_is_stopped_leaves_the_panel_as_it_was()
    {
        ScriptedPanel own = HeardOf.YardPanel();
        own.Dimmers[0] = 20_000;
        MemoryPort port = new(own);
        using CancellationTokenSource stop = new();
        PanelLine line = new("memory", CallRoll.Begin(null, [.. HeardOf.PlanFile], "pins.json", ["legends"], [], string.Empty, cancellation: TestContext.Current.CancellationToken).Value!, (_, _) => port);
        Thread thread = new(() => line.Run(stop.Token)) { IsBackground = true };
        thread.Start();
        Assert.True(SpinWait.SpinUntil(() => port.Look(() => own.Dimmers[0] == ushort.MaxValue), 30_000));
        stop.Cancel();
        Assert.True(thread.Join(30_000));
        Assert.Equal([20_000], own.Dimmers);
        Assert.Equal(new ReportBounce(false), own.Commands.OfType<ReportBounce>().Last());
    }

    private void ExpectAsFound()
    {
        Assert.Equal([0], panel.Indicators);
        Assert.Equal([20_000], panel.Dimmers);
        Assert.Equal(new ReportBounce(false), panel.Commands.OfType<ReportBounce>().Last());
    }

    private void Say(string line) => panel.Receive(roll.Typed(line, ms).AsSpan());

    /// <summary>As the line does: what came, the time, and nothing more once all is done.</summary>
    private void Pass()
    {
        ms += 10;
        var bytes = panel.Take();
        panel.Receive((bytes.Length > 0 ? roll.Received(bytes, ms) : roll.Tick(ms)).AsSpan());
    }

    private void Until(Func<bool> come)
    {
        for (var step = 0; !come(); step++)
        {
            Assert.True(step < 1000, "it did not come");
            Pass();
        }
    }

    private void UntilDone() => Until(() => roll.IsDone);

    /// <summary>A port with a panel behind it.</summary>
    private sealed class MemoryPort(ScriptedPanel panel) : IPanelPort
    {
        private readonly Lock turn = new();
        private readonly BlockingCollection<byte[]> coming = [];

        public bool Look(Func<bool> look)
        {
            lock (turn)
            {
                return look();
            }
        }

        public int Read(byte[] buffer)
        {
            if (!coming.TryTake(out var bytes, 20))
            {
                return 0;
            }

            bytes.CopyTo(buffer, 0);
            return bytes.Length;
        }

        public void Write(ReadOnlySpan<byte> bytes)
        {
            lock (turn)
            {
                panel.Receive(bytes);
                coming.Add(panel.Take());
            }
        }

        public void Dispose() => coming.CompleteAdding();
    }
}
