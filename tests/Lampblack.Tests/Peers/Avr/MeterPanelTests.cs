using System;
using System.Globalization;
using System.Linq;
using Lampblack.Link;
using Lampblack.Tests.Checks;
using Lampblack.Tests.Wiring;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Peers.Avr;

/// <summary>A meter of a desk file at a simulated panel: the share of time its pin is high is where its pointer goes, as its coil sees only the mean.</summary>
public sealed class MeterPanelTests
{
    private static readonly string Items = CheckedDesk.Control("meter-round-45", 100, 100, "id = \"heat\"") + CheckedDesk.Control("toggle-mini-on-on", 200, 100, "id = \"fan\"");

    /// <summary>It shows nothing that nobody told it: 0 at each start, also where levels were kept. Light keeps its own.</summary>
    [Theory]
    [InlineData("ATmega2560", false)]
    [InlineData("ATmega328P", false)]
    [InlineData("ATmega32U4", false)]
    [InlineData("ATmega2560", true)]
    [InlineData("ATmega328P", true)]
    [InlineData("ATmega32U4", true)]
    public void A_pointer_rests_at_0_and_goes_where_the_host_says(string chip, bool isSecond)
    {
        var pins = WiredDesk.Planned(WiredDesk.Toml(Items, chip), null, new DimmerNeed("board", 3906)).Plan;
        var plan = Assert.Single(pins.Controllers);
        LinkSession session = new(new(pins, []));
        byte sequence = 0;
        string Send(HostFrame frame) => $"send {Convert.ToHexStringLower(PacketReader.Pack(HostFrames.Write(frame, sequence++).AsSpan()).AsSpan())}\nrun 30000\n";
        string Set(string id, double level) => Send(session.SetOf(id, level)!);
        var script = "run 100000\nlamps\n" + string.Concat(new[] { 0.5, 0.25, 1, 0 }.Select(level => Set("p/heat", level) + "lamps\n"))
            + Set("board", 0.75) + Set("p/heat", 1) + Send(new KeepLevels()) + "run 400000\nrestart\nrun 150000\nlamps\n";
        var log = isSecond ? PanelBench.RunSecond(plan, script) : PanelBench.Run(plan, script);
        Assert.DoesNotContain(log.Faults, fault => !fault.StartsWith("frame", StringComparison.Ordinal)); // the count begins anew with the start
        Assert.Equal([0, 0.5, 0.25, 1, 0, 0], Shares(log, plan, "p/heat"), Close);
        Assert.Equal([0.25, 0.25, 0.25, 0.25, 0.25, 0.75], Shares(log, plan, "board"), Close);
    }

    /// <summary>A step of 250 either way.</summary>
    private static bool Close(double one, double other) => Math.Abs(one - other) <= 1 / 250.0 && (one is 0 or 1) == (other is 0 or 1);

    private static double[] Shares(BenchLog log, ControllerPlan plan, string channel)
    {
        var number = plan.Dimmers.Index().First(one => one.Item.Channel == channel).Index;
        return [.. log.Lines.Where(line => line[0] == "dimmer" && line[2] == FormattableString.Invariant($"dimmer.{number}")).Select(line => double.Parse(line[3], CultureInfo.InvariantCulture) / double.Parse(line[4], CultureInfo.InvariantCulture))];
    }
}
