using System;
using System.CommandLine;
using System.IO;
using System.Linq;
using Lampblack.Host;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack new DIR</c>: starts a desk from an example.</summary>
internal static class NewCommand
{
    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Argument<string> folder = new("DIR") { Description = "The new desk's folder; files in it are never overwritten" };
        Option<string> like = new("--like")
        {
            Description = "The example to start from",
            HelpName = string.Join('|', ExampleDesks.Names),
            DefaultValueFactory = _ => ExampleDesks.Plain,
        };
        like.AcceptOnlyFromAmong([.. ExampleDesks.Names]);
        Command command = new("new", "Start a desk: a folder with a desk file that you then make your own.") { folder, like };
        HelpWithExamples.Add(command, ["lampblack new my-desk", .. ExampleDesks.Names.Take(1).Select(name => $"lampblack new my-desk --like {name}")]);
        Call.Bind(command, call => Run(call, call.Parsed.GetRequiredValue(folder), call.Parsed.GetRequiredValue(like)));
        return command;
    }

    private static int Run(Call call, string folder, string like)
    {
        if (folder.Trim().Length == 0)
        {
            throw new FileProblemException("The new desk's folder has no name.");
        }

        ExampleFile[] files = [.. ExampleDesks.FilesOf(like)];
        NewFolder.Write(folder, files.Select(file => (file.Path, (ReadOnlyMemory<byte>)file.Bytes)));
        call.Terminal.Say($"Started a desk like '{like}' in {ShownPath.Of(folder)}:");
        foreach (ExampleFile file in files)
        {
            call.Terminal.Say($"  {file.Path}");
        }

        call.Terminal.Say($"Next: open {ShownPath.Of(Path.Combine(folder, OpenedDesk.UsualName))} in a text editor, then 'lampblack build {ShownPath.Of(folder)}'.");
        return ExitCodes.Fine;
    }
}
