using System;
using System.Collections.Immutable;
using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using System.IO;
using System.Threading;
using System.Threading.Tasks;
using Lampblack.Jobs;

namespace Lampblack.Host;

/// <summary>A simulated panel as a program beside this one (node, firmware/simulator/panel.mjs), reached by TCP on this machine only.</summary>
public sealed class Simulator : IDisposable
{
    /// <summary>The image's name, for <see cref="SimulatedPanel.Of"/>.</summary>
    public const string ImageName = "panel.hex";

    /// <summary>Names the simulator's script where it does not lie where it is looked for.</summary>
    public const string Variable = "LAMPBLACK_SIMULATOR";

    /// <summary>Starting takes half a second; a slow machine that is busy itself gets much more (own measure, no source).</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    private const string Script = "firmware/simulator/panel.mjs";

    private readonly Process process;
    private readonly string folder;

    private Simulator(Process process, string folder, string port) => (this.process, this.folder, Port) = (process, folder, port);

    /// <summary>Where it is reached: HOST:PORT.</summary>
    public string Port { get; }

    /// <summary>Starts it and waits until it can be reached.</summary>
    /// <param name="panel">The panel.</param>
    /// <param name="faults">Lines for the simulator's "fault" command, such as "reverse contact.3.diode".</param>
    /// <param name="stop">Stops the waiting.</param>
    /// <exception cref="FileProblemException">It can't be started, or does not say in time that it can be reached; the message says what to do.</exception>
    /// <exception cref="OperationCanceledException">It was stopped; nothing of it is left.</exception>
    public static Simulator Start(SimulatedPanel panel, ImmutableArray<string> faults, CancellationToken stop = default) => Start(
        panel,
        faults,
        Find() ?? throw new FileProblemException($"The simulator was not found: it lies in {Script} of the sources; {Variable} may name it."),
        Patience,
        stop);

    /// <summary>The same with another script, or another patience.</summary>
    internal static Simulator Start(SimulatedPanel panel, ImmutableArray<string> faults, string script, TimeSpan patience, CancellationToken stop)
    {
        ArgumentNullException.ThrowIfNull(panel);
        string folder = Directory.CreateTempSubdirectory("lampblack").FullName;
        string wires = Path.Combine(folder, "panel.wires");
        File.WriteAllBytes(wires, panel.Wires.AsSpan());
        File.WriteAllBytes(Path.Combine(folder, ImageName), panel.Image.AsSpan());
        ProcessStartInfo start = new("node")
        {
            ArgumentList = { script, "--listen", "0", "--wires", wires, Path.Combine(folder, ImageName) },
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
        };
        Process process;
        try
        {
            process = Process.Start(start)!;
        }
        catch (Win32Exception problem)
        {
            Directory.Delete(folder, recursive: true);
            throw new FileProblemException("The simulator needs Node.js 20 or newer; 'node' was not found.", problem);
        }

        string? first = FirstLine(process, patience, stop);
        if (first is null)
        {
            new Simulator(process, folder, string.Empty).Dispose();
            stop.ThrowIfCancellationRequested();
            throw new FileProblemException(
                FormattableString.Invariant($"The simulator did not start within {patience.TotalSeconds:0.#} seconds. Is `node` version 20 or newer (`node --version`), and was `npm ci` run in firmware/simulator? Then try again when this machine has less to do."));
        }

        if (first.Split(' ') is not ["listening", var port] || !int.TryParse(port, NumberStyles.None, CultureInfo.InvariantCulture, out _))
        {
            using Simulator failed = new(process, folder, string.Empty);
            throw new FileProblemException($"The simulator did not start: {(first.Length > 0 ? first : "it said nothing")}.");
        }

        // What it says of lamps is nobody's business here; unread it would stop when its pipe is full.
        _ = Task.Run(() => process.StandardOutput.BaseStream.CopyTo(Stream.Null));
        Simulator simulator = new(process, folder, $"127.0.0.1:{port}");
        foreach (string fault in faults)
        {
            simulator.Do($"fault {fault}");
        }

        return simulator;
    }

    /// <summary>Hands it a command: "close contact.3", "turn encoder.0 8 100", "fault cut PA3".</summary>
    /// <param name="command">The command, one line.</param>
    public void Do(string command)
    {
        try
        {
            process.StandardInput.WriteLine(command);
            process.StandardInput.Flush();
        }
        catch (Exception problem) when (problem is IOException or InvalidOperationException)
        {
            // It is gone, or put away; the line notices.
        }
    }

    /// <inheritdoc />
    public void Dispose()
    {
        try
        {
            // The end of its input ends it.
            process.StandardInput.Close();
            if (!process.WaitForExit(Port.Length > 0 ? 2000 : 200))
            {
                process.Kill();
                process.WaitForExit();
            }
        }
        catch (Exception problem) when (problem is IOException or InvalidOperationException)
        {
            // It is gone already.
        }

        process.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    /// <summary>What it says first; null where it said nothing in time, or the waiting was stopped.</summary>
    private static string? FirstLine(Process process, TimeSpan patience, CancellationToken stop)
    {
        using CancellationTokenSource late = CancellationTokenSource.CreateLinkedTokenSource(stop);
        late.CancelAfter(patience);
        try
        {
            return process.StandardOutput.ReadLineAsync(late.Token).AsTask().GetAwaiter().GetResult() ?? string.Empty;
        }
        catch (OperationCanceledException)
        {
            return null;
        }
    }

    private static string? Find()
    {
        if (Environment.GetEnvironmentVariable(Variable) is { Length: > 0 } named)
        {
            return File.Exists(named) ? named : null;
        }

        for (DirectoryInfo? at = new(AppContext.BaseDirectory); at is not null; at = at.Parent)
        {
            string script = Path.Combine([at.FullName, .. Script.Split('/')]);
            if (File.Exists(script))
            {
                return script;
            }
        }

        return null;
    }
}
