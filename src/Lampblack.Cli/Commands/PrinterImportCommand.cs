using System.CommandLine;
using Lampblack.Host;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack printer import FILE</c>: takes in a printer file from elsewhere.</summary>
internal static class PrinterImportCommand
{
    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Argument<string> file = new("FILE") { Description = "A printer file" };
        Option<string> name = new("--as") { Description = "The name it shall have here (usually the file's own)", HelpName = "NAME" };
        Command command = new("import", "Take in a printer file from elsewhere. A printer that is there is never overwritten.") { file, name };
        HelpWithExamples.Add(command, "lampblack printer import study-backup.toml --as study");
        Call.Bind(command, call => Run(call, call.Parsed.GetRequiredValue(file), call.Parsed.GetValue(name)));
        return command;
    }

    private static int Run(Call call, string file, string? name)
    {
        ShelvedPrinter printer = PrinterShelf.Here().Import(file, name);
        if (printer.Reading.HasStop)
        {
            return PrinterCommand.Refuse(call, printer);
        }

        PrinterCommand.PrintFindings(call.Terminal, printer);
        call.Terminal.Say($"Took in the printer '{printer.Name}'. Next: 'lampblack printer show {printer.Name}'.");
        return ExitCodes.Fine;
    }
}
