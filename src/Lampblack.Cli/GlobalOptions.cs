using System.CommandLine;

namespace Lampblack.Cli;

/// <summary>The options that every command takes.</summary>
internal static class GlobalOptions
{
    /// <summary>Only what must be dealt with.</summary>
    internal static Option<bool> Quiet { get; } = new("--quiet", "-q") { Description = "Show only what must be dealt with", Recursive = true };

    /// <summary>Every step, with its time.</summary>
    internal static Option<bool> Verbose { get; } = new("--verbose", "-v") { Description = "Tell every note, those about what is usual too, and log every step to the error output, with its time", Recursive = true };

    /// <summary>No colour.</summary>
    internal static Option<bool> NoColour { get; } =
        new("--no-color", "--no-colour") { Description = "No colour (as with the environment variable NO_COLOR)", Recursive = true };
}
