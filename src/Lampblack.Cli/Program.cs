using System;
using System.CommandLine;
using System.CommandLine.Invocation;
using System.CommandLine.Parsing;
using System.Linq;
using System.Reflection;
using System.Text;

namespace Lampblack.Cli;

/// <summary>The program <c>lampblack</c>.</summary>
internal static class Program
{
    /// <summary>A desk may be called "@home": nothing on the command line is taken for a file of more arguments.</summary>
    private static readonly ParserConfiguration AsTyped = new() { ResponseFileTokenReplacer = null };

    /// <summary>The program's version.</summary>
    internal static string Version { get; } =
        typeof(Program).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "unknown";

    private static int Main(string[] arguments)
    {
        if (OperatingSystem.IsWindows())
        {
            // The console's own code page cannot show every legend.
            Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
        }

        RootCommand root = RootOfCommands.Create();

        ParseResult parsed = root.Parse(arguments, AsTyped);
        if (parsed.Action is ParseErrorAction)
        {
            return Complain(parsed);
        }

        if (MistakenOption(parsed) is { } option)
        {
            Console.Error.WriteLine($"There is no option '{option}' here. A file or name that begins with '--' is written after a '--' of its own, or as './{option}'.");
            return Point(parsed);
        }

        return parsed.Invoke(new InvocationConfiguration { EnableDefaultExceptionHandler = false, ProcessTerminationTimeout = null });
    }

    /// <summary>A word that was meant for an option and would be taken for a file or a name: one of none is written as soon as the option is unknown.</summary>
    private static string? MistakenOption(ParseResult parsed) => parsed.Tokens.Any(token => token.Type == TokenType.DoubleDash)
        ? null
        : parsed.Tokens.FirstOrDefault(token => token.Type == TokenType.Argument && token.Value.Length > 2 && token.Value.StartsWith("--", StringComparison.Ordinal))?.Value;

    private static int Complain(ParseResult parsed)
    {
        if (parsed.Tokens.Count == 0)
        {
            // Somebody who types only the name wants to know what it can do.
            parsed.RootCommandResult.Command.Parse(["--help"]).Invoke(new InvocationConfiguration { Output = Console.Error });
            return ExitCodes.WrongUse;
        }

        if (parsed.CommandResult.Command is RootCommand && parsed.UnmatchedTokens is [_, _, ..] unmatched)
        {
            // What stands behind a command that nobody knows says nothing by itself.
            return Complain(parsed.RootCommandResult.Command.Parse([unmatched[0]], AsTyped));
        }

        ((ParseErrorAction)parsed.Action!).ShowHelp = false;
        parsed.Invoke(new InvocationConfiguration { Output = Console.Error, Error = Console.Error });
        return Point(parsed);
    }

    /// <summary>Says where the help is.</summary>
    private static int Point(ParseResult parsed)
    {
        string command = string.Empty;
        for (SymbolResult? at = parsed.CommandResult; at is CommandResult { Command: not RootCommand } one; at = one.Parent)
        {
            command = $" {one.Command.Name}{command}";
        }

        Console.Error.WriteLine($"'lampblack{command} --help' shows what it takes.");
        return ExitCodes.WrongUse;
    }
}
