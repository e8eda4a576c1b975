using System.CommandLine;
using System.IO;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;
using Lampblack.Printers;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack printer new NAME</c>: starts a printer file.</summary>
internal static class PrinterNewCommand
{
    private const string Schema = "lampblack-printer-new/1";

    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Argument<string> name = PrinterCommand.NameArgument();
        PrinterAnswers answers = new();
        Option<bool> json = new("--json") { Description = $"One JSON object for machines ({Schema}); nothing is asked" };
        Command command = new("new", "Start a printer file for one way through a printer. At a terminal it asks for what no option says.") { name, json };
        answers.AddTo(command);
        HelpWithExamples.Add(command, "lampblack printer new study", "lampblack printer new attic --black-only --paper Letter --weight \"32 lb\" --slot manual");
        Call.Bind(command, call => Run(call, call.Parsed.GetRequiredValue(name), answers), json, Schema);
        return command;
    }

    private static int Run(Call call, string name, PrinterAnswers answers)
    {
        PrinterShelf shelf = PrinterShelf.Here();

        // A name that will not do, or that is taken, is said before nine questions are asked.
        string path = shelf.PathOf(name);
        if (Path.Exists(path))
        {
            throw new FileProblemException($"'{path}' is already there and is not overwritten; take another name, or 'lampblack printer forget' first.");
        }

        NewPrinter said;
        try
        {
            said = call.Await(() => answers.Of(call.Parsed, Path.GetFileNameWithoutExtension(path), Prompt.CanAsk && !call.IsJson ? Prompt.Here() : null));
        }
        catch (EndOfStreamException)
        {
            throw new FileProblemException("The answers ended before the last question. Nothing was written.");
        }

        Checked<PrinterFile> started = PrinterFiles.Start(said);
        if (started.HasStop)
        {
            return PrinterCommand.Refuse(call, new ShelvedPrinter(path, name, started), Schema);
        }

        ShelvedPrinter stored = shelf.Create(name, started.Value);
        if (stored.Reading.HasStop)
        {
            return PrinterCommand.Refuse(call, stored, Schema);
        }

        if (call.IsJson)
        {
            PrinterCommand.Answer(Schema, ExitCodes.Fine, stored, _ => { });
            return ExitCodes.Fine;
        }

        call.Terminal.Say($"Started the printer '{stored.Name}' in {ShownPath.Of(stored.FilePath)}. Nothing is known of it yet.");
        call.Terminal.Say($"Next: 'lampblack printer show {ShownPath.OfName(name)}' says what can be learned; 'lampblack build DESK --printer {ShownPath.OfName(name)}' uses it.");
        return ExitCodes.Fine;
    }
}
