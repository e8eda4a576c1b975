using System;
using System.Collections.Generic;
using System.Diagnostics;
using System.Globalization;
using System.IO;
using System.Threading;
using System.Threading.Tasks;
using Lampblack.Host;
using Xunit;

namespace Lampblack.Shells.Tests;

/// <summary>Ctrl-C, and two builds at once. A build that waits for another one is a build that can be met in the middle.</summary>
public sealed class InterruptionTests
{
    [Theory]
    [InlineData("INT")]
    [InlineData("TERM")]
    public void Stopping_is_exit_code_130_and_leaves_nothing(string signal)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "there are no signals to send here");
        using WorkFolder work = new();
        ProgramRun.Of(work.Full, "new", "desk");
        using (OutputFolder.Open(work.Below("desk/out"), TimeSpan.Zero, () => { }, CancellationToken.None))
        {
            using Process process = ProgramRun.Start(work.Full, new Dictionary<string, string>(), "build", "desk", "--verbose");
            WaitForLine(process, "waiting for another build");
            using Process kill = Process.Start("kill", ["-" + signal, process.Id.ToString(CultureInfo.InvariantCulture)]);
            kill.WaitForExit();
            ProgramRun run = ProgramRun.Finish(process);
            Assert.Equal(130, run.Exit);
            Assert.Contains("Stopped", run.Error, StringComparison.Ordinal);
        }

        Assert.Equal(["desk/desk.toml"], work.Files());
    }

    [Fact]
    public void A_second_build_waits_and_then_goes_on()
    {
        using WorkFolder work = new();
        ProgramRun.Of(work.Full, "new", "desk");
        Process process;
        using (OutputFolder.Open(work.Below("desk/out"), TimeSpan.Zero, () => { }, CancellationToken.None))
        {
            process = ProgramRun.Start(work.Full, new Dictionary<string, string>(), "build", "desk", "--verbose");
            WaitForLine(process, "waiting for another build");
            Assert.False(process.HasExited);
        }

        Assert.Equal(0, ProgramRun.Finish(process).Exit);
        Assert.DoesNotContain(work.Files(), name => Path.GetFileName(name).StartsWith(".lampblack", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Builds_at_once_into_one_folder_all_succeed()
    {
        using WorkFolder work = new();
        ProgramRun.Of(work.Full, "new", "desk");
        ProgramRun[] runs = await Task.WhenAll(
            Task.Run(() => ProgramRun.Of(work.Full, "build", "desk"), TestContext.Current.CancellationToken),
            Task.Run(() => ProgramRun.Of(work.Full, "build", "desk"), TestContext.Current.CancellationToken),
            Task.Run(() => ProgramRun.Of(work.Full, "build", "desk"), TestContext.Current.CancellationToken));
        Assert.All(runs, run => Assert.Equal((0, string.Empty), (run.Exit, run.Error)));
        Assert.DoesNotContain(work.Files(), name => Path.GetFileName(name).StartsWith(".lampblack", StringComparison.Ordinal));
    }

    private static void WaitForLine(Process process, string words)
    {
        while (process.StandardError.ReadLine() is { } line)
        {
            if (line.Contains(words, StringComparison.Ordinal))
            {
                return;
            }
        }

        Assert.Fail($"The program ended without saying '{words}'.");
    }
}
