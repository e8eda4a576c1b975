using System.Collections.Generic;
using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using System.Linq;

namespace Lampblack.Cli;

/// <summary>The usual help, and below it lines that can be typed as they stand.</summary>
/// <param name="usual">Writes the usual help.</param>
internal sealed class HelpWithExamples(HelpAction usual) : SynchronousCommandLineAction
{
    private static readonly Dictionary<Command, string[]> Examples = [];

    /// <inheritdoc />
    public override bool ClearsParseErrors => true;

    /// <summary>Gives a command its examples.</summary>
    /// <param name="command">The command.</param>
    /// <param name="lines">Lines to type.</param>
    internal static void Add(Command command, params string[] lines) => Examples[command] = lines;

    /// <summary>The examples of a command.</summary>
    /// <param name="command">The command.</param>
    internal static IReadOnlyList<string> Of(Command command) => Examples.GetValueOrDefault(command, []);

    /// <inheritdoc />
    public override int Invoke(ParseResult parseResult)
    {
        int exit = usual.Invoke(parseResult);
        string[] lines = [.. Of(parseResult.CommandResult.Command)];
        if (lines.Length > 0)
        {
            System.IO.TextWriter output = parseResult.InvocationConfiguration.Output;
            output.WriteLine(lines.Length == 1 ? "Example:" : "Examples:");
            lines.ToList().ForEach(line => output.WriteLine($"  {line}"));
        }

        return exit;
    }
}
