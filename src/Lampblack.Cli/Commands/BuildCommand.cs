using System.CommandLine;
using Lampblack.Host;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack build DESK</c>: makes the sheets and the pictures.</summary>
internal static class BuildCommand
{
    /// <summary>The schema of its answer for machines.</summary>
    internal const string Schema = "lampblack-build/1";

    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Argument<string> desk = DeskArgument.Create();
        BuildOptions options = new(hasDesk: true);
        Command command = new("build", "Make the sheets to print and the pictures of the panels. Exit code 1 where a finding says 'stop'.") { desk };
        options.AddTo(command);
        HelpWithExamples.Add(command, "lampblack build my-desk", "lampblack build my-desk --printer study", "lampblack build my-desk --paper Letter --spread \"0.4 mm\" -o sheets");
        Call.Bind(
            command,
            call => BuildRun.Run(call, options, Schema, () => OpenedDesk.Open(call.Parsed.GetRequiredValue(desk))),
            options.Json,
            Schema);
        return command;
    }
}
