using System;
using System.Collections.Immutable;
using System.CommandLine;
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
    internal static Option<string?> Plan() => new("--plan") { Description = "A file of pins (lampblack-pins/1), in place of the desk's own plan", HelpName = "FILE" };

    /// <summary>The port that was named, or the only one.</summary>
    /// <exception cref="FileProblemException">None was named, and there is not exactly one.</exception>
    internal static string PortOf(Call call, Argument<string?> port)
    {
        if (call.Parsed.GetValue(port) is { Length: > 0 } named)
        {
            return named;
        }

        string[] names = PanelPorts.Names();
        return names.Length == 1 ? names[0] : throw new FileProblemException(names.Length == 0
            ? "No panel is plugged in: there is no serial port. Name the port if you know better."
            : $"Which port is the panel's? There are {string.Join(", ", names)}.");
    }

    /// <summary>The desk and the file of pins, read.</summary>
    /// <exception cref="FileProblemException">One can't be read.</exception>
    internal static (DeskSource? Desk, ImmutableArray<byte> Plan, string Folder) Read(Call call, string? desk, string? plan)
    {
        ImmutableArray<byte> bytes = plan is null ? [] : call.Await(() => OpenedArt.Open(plan, 10_000_000)).Bytes;
        if (desk is null && plan is not null)
        {
            return (null, bytes, Environment.CurrentDirectory);
        }

        OpenedDesk opened = call.Await(() => OpenedDesk.Open(desk ?? "."));
        return (opened.Source, bytes, opened.FolderPath);
    }
}
