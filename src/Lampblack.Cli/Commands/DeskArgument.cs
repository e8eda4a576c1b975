using System.CommandLine;
using Lampblack.Host;

namespace Lampblack.Cli.Commands;

/// <summary>The argument that names a desk.</summary>
internal static class DeskArgument
{
    /// <summary>A new argument for a command.</summary>
    internal static Argument<string> Create() => new("DESK") { Description = $"A .toml file, or a folder that holds {OpenedDesk.UsualName}" };
}
