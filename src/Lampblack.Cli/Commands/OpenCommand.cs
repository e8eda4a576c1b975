using System;
using System.CommandLine;
using System.IO;
using System.Linq;
using Lampblack.Host;
using Lampblack.Workshop;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack open DESK</c>: the workshop, in the maker's own browser.</summary>
internal static class OpenCommand
{
    private const int LastPort = 65535;

    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Argument<string> desk = DeskArgument.Create();
        Option<int> port = new("--port") { Description = "The port on this machine; a free one without it", HelpName = "N" };
        port.Validators.Add(result =>
        {
            if (result.Tokens.Count > 0 && int.TryParse(result.Tokens[0].Value, out int number) && number is < 1024 or > LastPort)
            {
                result.AddError("--port takes a number from 1024 to 65535.");
            }
        });
        Option<bool> noBrowser = new("--no-browser") { Description = "Only print the address" };
        Command command = new("open", "Open the workshop: see the panel by day and by night, shape it by hand, print it, learn the printer. A desk that is not there yet is started.") { desk, port, noBrowser };
        HelpWithExamples.Add(command, "lampblack open my-desk", "lampblack open my-desk --no-browser");
        Call.Bind(command, call => Run(call, call.Parsed.GetRequiredValue(desk), new(call.Parsed.GetValue(port), !call.Parsed.GetValue(noBrowser))));
        return command;
    }

    private static int Run(Call call, string desk, WorkshopOptions options)
    {
        if (IsToBeStarted(desk))
        {
            NewFolder.Write(desk, ExampleDesks.FilesOf(ExampleDesks.Plain).Select(file => (file.Path, (ReadOnlyMemory<byte>)file.Bytes)));
            call.Terminal.Say($"Started a desk in {ShownPath.Of(desk)}.");
        }

        WorkshopServer.Run(desk, options, call.Terminal.Say, call.Cancellation).GetAwaiter().GetResult();
        return ExitCodes.Fine;
    }

    /// <summary>A folder that is not there, or is empty: somebody's slip of the pen in a longer name is told of, not built upon.</summary>
    private static bool IsToBeStarted(string desk) => desk.Trim().Length > 0 && !File.Exists(desk) && !desk.EndsWith(".toml", StringComparison.OrdinalIgnoreCase)
        && (Directory.Exists(desk) ? !Directory.EnumerateFileSystemEntries(desk).Any() : Directory.Exists(Path.GetDirectoryName(Path.GetFullPath(desk))));
}
