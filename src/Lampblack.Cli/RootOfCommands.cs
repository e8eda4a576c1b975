using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using System.Linq;
using Lampblack.Cli.Commands;

namespace Lampblack.Cli;

/// <summary>The program's commands, put together.</summary>
internal static class RootOfCommands
{
    /// <summary>All commands.</summary>
    internal static RootCommand Create()
    {
        RootCommand root = new("Print-ready sheets for backlit panels: a front in dense black and a light mask for the back, in register, from one text file.")
        {
            HelpName = "lampblack",
        };
        HelpOption help = new("--help", "-h") { Description = "Show what a command does and takes", Recursive = true };
        help.Action = new HelpWithExamples((HelpAction)help.Action!);
        Replace(root, help);
        VersionOption version = new("--version") { Description = "Show the version" };
        version.Action = new VersionLine();
        Replace(root, version);

        root.Options.Add(GlobalOptions.Quiet);
        root.Options.Add(GlobalOptions.Verbose);
        root.Options.Add(GlobalOptions.NoColour);
        root.Subcommands.Add(NewCommand.Create());
        root.Subcommands.Add(OpenCommand.Create());
        root.Subcommands.Add(CheckCommand.Create());
        root.Subcommands.Add(BuildCommand.Create());
        root.Subcommands.Add(SeparateCommand.Create());
        root.Subcommands.Add(DrilledCommand.Create());
        root.Subcommands.Add(CutCommand.Create());
        root.Subcommands.Add(LightCommand.Create());
        root.Subcommands.Add(FlashCommand.Create());
        root.Subcommands.Add(RollCallCommand.Create());
        root.Subcommands.Add(ListenCommand.Create());
        root.Subcommands.Add(PrinterCommand.Create());
        root.Subcommands.Add(DoctorCommand.Create());
        root.Subcommands.Add(CompletionCommand.Create());
        HelpWithExamples.Add(root, "lampblack new my-desk", "lampblack build my-desk");
        return root;
    }

    private static void Replace(RootCommand root, Option option)
    {
        Option? usual = root.Options.FirstOrDefault(existing => existing.GetType() == option.GetType());
        if (usual is not null)
        {
            root.Options.Remove(usual);
        }

        root.Options.Add(option);
    }

    private sealed class VersionLine : SynchronousCommandLineAction
    {
        public override int Invoke(ParseResult parseResult)
        {
            parseResult.InvocationConfiguration.Output.WriteLine($"lampblack {Program.Version}");
            return ExitCodes.Fine;
        }
    }
}
