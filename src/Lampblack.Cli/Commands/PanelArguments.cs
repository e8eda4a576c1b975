using System;
using System.Collections.Immutable;
using System.CommandLine;
using System.IO;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Cli.Commands;

/// <summary>What the commands that talk with a panel take alike.</summary>
internal static class PanelArguments
{
    /// <summary>The port.</summary>
    internal static Argument<string?> Port() => new("PORT")
    {
        Description = "The panel's serial port (/dev/ttyACM0, COM3), or HOST:PORT of a simulated panel; the only one there is where none is named",
        Arity = ArgumentArity.ZeroOrOne,
    };

    /// <summary>A file of pins.</summary>
    internal static Option<string?> Plan() => new("--plan") { Description = "A pin plan (wiring/plan.json of a build), in place of the one of the desk's last build", HelpName = "FILE" };

    /// <summary>Whether a simulated panel takes the place of a real one.</summary>
    internal static Option<bool> Simulate() => new("--simulate")
    {
        Description = "No panel: simulate one with the desk's own firmware and wires (needs node). Lines typed in that begin with '!' move its controls: !close contact.0",
    };

    /// <summary>What is wrong with the simulated panel.</summary>
    internal static Option<string[]> Faults() => new("--fault")
    {
        Description = "With --simulate: something that is wrong with it, such as \"reverse contact.3.diode\" or \"cut PA3\"; docs/engine.md lists them",
        HelpName = "FAULT",
    };

    /// <summary>The simulated panel, running; null where none was asked for.</summary>
    /// <exception cref="FileProblemException">It can't be started.</exception>
    internal static Simulator? Simulated(Call call, bool isAsked, string[] faults, DeskSource? desk, ImmutableArray<byte> plan, string planName)
    {
        if (!isAsked)
        {
            return null;
        }

        Checked<SimulatedPanel?> panel = SimulatedPanel.Of(desk, plan, planName, Simulator.ImageName, call.Cancellation);
        return panel.Value is { } made
            ? Simulator.Start(made, [.. faults], call.Cancellation)
            : throw new FileProblemException($"This desk can't be simulated: {string.Join("; ", panel.Findings.Select(finding => finding.Message))}.");
    }

    /// <summary>Passes typed lines on: those that begin with '!' to the simulated panel.</summary>
    internal static void Type(PanelLine line, Simulator? simulator)
    {
        while (Console.In.ReadLine() is { } typed)
        {
            if (typed.StartsWith('!') && simulator is not null)
            {
                simulator.Do(typed[1..].Trim());
            }
            else
            {
                line.Post(typed);
            }
        }
    }

    /// <summary>Findings before anything runs.</summary>
    internal static void Complain(Call call, ImmutableArray<Finding> findings)
    {
        foreach (Finding finding in findings)
        {
            call.Terminal.Complain($"{call.Terminal.Word(finding.Severity)} {finding.Code}: {finding.Message}{(finding.Hint.Length > 0 ? $"; {finding.Hint}" : string.Empty)}");
        }
    }

    /// <summary>The port that was named, or the only one; empty for a simulated panel.</summary>
    /// <exception cref="FileProblemException">None was named, and there is not exactly one.</exception>
    internal static string PortOf(Call call, Argument<string?> port, bool isSimulated)
    {
        if (isSimulated)
        {
            return string.Empty;
        }

        if (call.Parsed.GetValue(port) is { Length: > 0 } named)
        {
            return named;
        }

        return OnlyPort();
    }

    /// <summary>The port and the desk. A lone first word that is a desk's folder or file, and no port, is the desk: the port may stay out where there is only one.</summary>
    /// <param name="call">The call.</param>
    /// <param name="port">The first word.</param>
    /// <param name="second">The second.</param>
    /// <param name="desk">The desk by option.</param>
    /// <param name="isPortNeeded">Whether there must be a port; without one the port is empty where none was named and there is not exactly one.</param>
    /// <exception cref="FileProblemException">No port was named, and there is not exactly one.</exception>
    internal static (string Port, string? Desk) PortAndDesk(Call call, Argument<string?> port, Argument<string?> second, Option<string?> desk, bool isPortNeeded)
    {
        string? first = call.Parsed.GetValue(port);
        string? named = call.Parsed.GetValue(desk) ?? call.Parsed.GetValue(second);
        bool isDesk = named is null && first is { Length: > 0 } && (Directory.Exists(first) || (first.EndsWith(".toml", StringComparison.OrdinalIgnoreCase) && File.Exists(first)));
        if (isDesk)
        {
            (first, named) = (null, first);
        }

        return (first is { Length: > 0 } ? first : isPortNeeded ? OnlyPort() : PanelPorts.Names() is [var only] ? only : string.Empty, named);
    }

    /// <summary>The desk and the file of pins, read.</summary>
    /// <exception cref="FileProblemException">One can't be read.</exception>
    internal static (DeskSource? Desk, ImmutableArray<byte> Plan) Read(Call call, string? desk, string? plan)
    {
        ImmutableArray<byte> bytes = plan is null ? [] : call.Await(() => OpenedArt.Open(plan, 10_000_000)).Bytes;
        if (desk is null && plan is not null)
        {
            return (null, bytes);
        }

        OpenedDesk opened = call.Await(() => OpenedDesk.Open(desk ?? "."));

        // What the panel was given is the plan of the last build; a desk that was never built is planned as a build would.
        return (opened.Source, plan is null ? OutputFolder.LastWiring(opened.UsualOutput) : bytes);
    }

    private static string OnlyPort()
    {
        string[] names = PanelPorts.Names();
        return names.Length == 1 ? names[0] : throw new FileProblemException(names.Length == 0
            ? "No panel is plugged in: there is no serial port. Name the port if you know better."
            : $"Which port is the panel's? There are {string.Join(", ", names)}.");
    }
}
