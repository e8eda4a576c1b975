using System;
using System.CommandLine;
using System.Globalization;
using System.IO;
using System.Text.Json;
using Lampblack.Host;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack printer</c>: what is known of a printer, in a file of its own.</summary>
internal static class PrinterCommand
{
    /// <summary>The command with its subcommands.</summary>
    internal static Command Create()
    {
        Command command = new("printer", "Keep what is learned about a printer: one file for each way through it (slot, paper, turning, setting).");
        command.Subcommands.Add(PrinterNewCommand.Create());
        command.Subcommands.Add(PrinterShowCommand.Create());
        command.Subcommands.Add(PrinterListCommand.Create());
        command.Subcommands.Add(PrinterExportCommand.Create());
        command.Subcommands.Add(PrinterImportCommand.Create());
        command.Subcommands.Add(PrinterWhichWayCommand.Create());
        command.Subcommands.Add(PrinterSheetCommand.Create());
        command.Subcommands.Add(PrinterLearnCommand.Create());
        command.Subcommands.Add(PrinterForgetCommand.Create());
        HelpWithExamples.Add(command, "lampblack printer new study", "lampblack printer show study");
        return command;
    }

    /// <summary>The argument that names a printer.</summary>
    internal static Argument<string> NameArgument() => new("NAME") { Description = "The printer's name, or a path to a printer file that ends in .toml" };

    /// <summary>Prints findings about a printer file, each with the file's path.</summary>
    /// <param name="terminal">Where to print.</param>
    /// <param name="printer">The printer file.</param>
    internal static void PrintFindings(Terminal terminal, ShelvedPrinter printer) =>
        FindingLines.Print(terminal, Path.GetDirectoryName(printer.FilePath) ?? string.Empty, printer.Reading.Findings);

    /// <summary>Says that nothing was done because of <c>stop</c> findings, and gives the exit code.</summary>
    /// <param name="call">The call.</param>
    /// <param name="printer">The printer file.</param>
    /// <param name="schema">The schema of a machine's answer.</param>
    internal static int Refuse(Call call, ShelvedPrinter printer, string schema = "")
    {
        if (call.IsJson)
        {
            Answer(schema, ExitCodes.Stopped, printer, _ => { });
            return ExitCodes.Stopped;
        }

        PrintFindings(call.Terminal, printer);
        call.Terminal.Say("Nothing was changed: deal with each 'stop' first.");
        return ExitCodes.Stopped;
    }

    /// <summary>One JSON object on a printer, as all commands give it: its name and file, then what the command adds, then the findings.</summary>
    /// <param name="schema">Its schema.</param>
    /// <param name="exit">The exit code.</param>
    /// <param name="printer">The printer.</param>
    /// <param name="more">Writes what the command adds.</param>
    internal static void Answer(string schema, int exit, ShelvedPrinter printer, Action<Utf8JsonWriter> more) => JsonAnswer.Print(schema, exit, writer =>
    {
        writer.WriteString("name", printer.Name);
        writer.WriteString("file", printer.FilePath);
        more(writer);
        JsonAnswer.WriteFindings(writer, printer.Reading.Findings);
    });

    /// <summary>A number of sheets in words.</summary>
    /// <param name="count">How many.</param>
    internal static string Sheets(int count) => count == 1 ? "1 sheet" : count.ToString(CultureInfo.InvariantCulture) + " sheets";
}
