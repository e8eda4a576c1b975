using System;
using System.Collections.Generic;
using System.Diagnostics;
using System.Threading;
using Lampblack.Tests.Peers.Avr;
using Lampblack.Wiring;

namespace Lampblack.Tests.Peers.Kernel;

/// <summary>A simulated panel that is asked and moved while it runs.</summary>
internal sealed class LivePanel : IDisposable
{
    private readonly Lock gate = new();
    private readonly ScratchFolder folder = new();
    private readonly Process process;

    /// <summary>Gives it power.</summary>
    /// <param name="plan">Its plan.</param>
    /// <param name="first">What happens before that, as lines of a script.</param>
    /// <param name="engine">Another engine than the one in the program, for checks of the checks.</param>
    public LivePanel(ControllerPlan plan, string first = "", string? engine = null)
    {
        var start = new ProcessStartInfo(PanelBench.Simulator) { RedirectStandardInput = true, RedirectStandardOutput = true, UseShellExecute = false };
        process = Process.Start(start) ?? throw new InvalidOperationException("the simulator did not start");
        Do(PanelBench.Wired(folder, plan, engine) + first + "run 100000");
    }

    /// <summary>Runs lines of a script, and gives what was told meanwhile.</summary>
    public List<string> Do(string script)
    {
        lock (gate)
        {
            process.StandardInput.Write(script + "\necho done\n");
            process.StandardInput.Flush();
            List<string> told = [];
            for (var line = process.StandardOutput.ReadLine(); line != "echo done"; line = process.StandardOutput.ReadLine())
            {
                told.Add(line ?? throw new InvalidOperationException("the simulator ended: " + string.Join('\n', told)));
            }

            return told;
        }
    }

    public void Dispose()
    {
        process.StandardInput.Close();
        if (!process.WaitForExit(5000))
        {
            process.Kill();
        }

        process.Dispose();
        folder.Dispose();
    }
}
