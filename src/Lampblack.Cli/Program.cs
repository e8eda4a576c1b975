using System;
using System.CommandLine;
using System.CommandLine.Invocation;
using System.CommandLine.Parsing;
using System.Reflection;
using System.Text;

namespace Lampblack.Cli;

/// <summary>The program <c>lampblack</c>.</summary>
internal static class Program
{
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

        // A desk may be called "@home": nothing on the command line is taken for a file of more arguments.
        ParseResult parsed = root.Parse(arguments, new ParserConfiguration { ResponseFileTokenReplacer = null });
        if (parsed.Action is ParseErrorAction)
        {
            return Complain(parsed);
        }

        return parsed.Invoke(new InvocationConfiguration { EnableDefaultExceptionHandler = false, ProcessTerminationTimeout = null });
    }

    private static int Complain(ParseResult parsed)
    {
        if (parsed.Tokens.Count == 0)
        {
            // Somebody who types only the name wants to know what it can do.
            parsed.RootCommandResult.Command.Parse(["--help"]).Invoke(new InvocationConfiguration { Output = Console.Error });
            return ExitCodes.WrongUse;
        }

        string command = string.Empty;
        for (SymbolResult? at = parsed.CommandResult; at is CommandResult { Command: not RootCommand } one; at = one.Parent)
        {
            command = $" {one.Command.Name}{command}";
        }

        ((ParseErrorAction)parsed.Action!).ShowHelp = false;
        parsed.Invoke(new InvocationConfiguration { Output = Console.Error, Error = Console.Error });
        Console.Error.WriteLine($"'lampblack{command} --help' shows what it takes.");
        return ExitCodes.WrongUse;
    }
}
