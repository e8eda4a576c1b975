using System.CommandLine;
using Lampblack.Host;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack printer export NAME FILE</c>: copies a printer file, to keep it or to take it along.</summary>
internal static class PrinterExportCommand
{
    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Argument<string> name = PrinterCommand.NameArgument();
        Argument<string> file = new("FILE") { Description = "The new file; one that is there is never overwritten" };
        Command command = new("export", "Copy a printer file, to keep it or to take it to another computer.") { name, file };
        HelpWithExamples.Add(command, "lampblack printer export study study-backup.toml");
        Call.Bind(command, call => Run(call, call.Parsed.GetRequiredValue(name), call.Parsed.GetRequiredValue(file)));
        return command;
    }

    private static int Run(Call call, string name, string file)
    {
        if (file.Trim().Length == 0)
        {
            throw new FileProblemException("The new file has no name.");
        }

        ShelvedPrinter printer = PrinterShelf.Here().Export(name, file);
        if (printer.Reading.HasStop)
        {
            return PrinterCommand.Refuse(call, printer);
        }

        PrinterCommand.PrintFindings(call.Terminal, printer);
        call.Terminal.Say($"Copied the printer '{printer.Name}' to {ShownPath.Of(file)}. 'lampblack printer import' takes it in elsewhere.");
        return ExitCodes.Fine;
    }
}
