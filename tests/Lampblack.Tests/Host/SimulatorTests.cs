using System;
using System.Diagnostics;
using System.Globalization;
using System.IO;
using System.Threading;
using Lampblack.Host;
using Lampblack.Jobs;
using Lampblack.Tests.Link;
using Xunit;

namespace Lampblack.Tests.Host;

public sealed class SimulatorTests : IDisposable
{
    private readonly WorkFolder folder = new();
    private readonly SimulatedPanel panel = SimulatedPanel.Of(null, [.. HeardOf.PlanFile], "pins.json", Simulator.ImageName).Value!;

    public void Dispose() => folder.Dispose();

    [Fact]
    public void A_simulator_that_says_nothing_is_not_waited_for_without_end_and_not_left_running()
    {
        var script = Dumb();
        var spent = Stopwatch.StartNew();
        var problem = Assert.Throws<FileProblemException>(() => Simulator.Start(panel, [], script, TimeSpan.FromSeconds(3), CancellationToken.None));
        Assert.InRange(spent.Elapsed.TotalSeconds, 2.5, 30);
        Assert.Contains("did not start within 3 seconds", problem.Message, StringComparison.Ordinal);
        Assert.Contains("npm ci", problem.Message, StringComparison.Ordinal);
        Assert.False(IsRunning(), "it still runs");
    }

    [Fact]
    public void A_simulator_that_says_nothing_is_stopped_by_its_maker()
    {
        var script = Dumb();
        using CancellationTokenSource stop = new();
        Timer when = new(_ => stop.Cancel(), null, 2000, Timeout.Infinite);
        Assert.ThrowsAny<OperationCanceledException>(() => Simulator.Start(panel, [], script, TimeSpan.FromMinutes(5), stop.Token));
        when.Dispose();
        Assert.False(IsRunning(), "it still runs");
    }

    /// <summary>A script that writes down its process and then is silent.</summary>
    private string Dumb()
    {
        Assert.SkipUnless(File.Exists("/usr/bin/node") || File.Exists("/usr/local/bin/node"), "node is missing: the simulator runs in it");
        var script = Path.Combine(folder.Full, "dumb.mjs");
        File.WriteAllText(script, $"import {{ writeFileSync }} from 'node:fs'; writeFileSync({System.Text.Json.JsonSerializer.Serialize(Path.Combine(folder.Full, "process"))}, String(process.pid)); setInterval(() => {{}}, 1000);");
        return script;
    }

    private bool IsRunning() => Directory.Exists("/proc/" + int.Parse(File.ReadAllText(Path.Combine(folder.Full, "process")), CultureInfo.InvariantCulture).ToString(CultureInfo.InvariantCulture));
}
