using System;
using System.Collections.Generic;
using System.CommandLine;
using System.IO;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack printer forget NAME</c>: forgets what was learned; what was there is kept beside it.</summary>
internal static class PrinterForgetCommand
{
    private const string Schema = "lampblack-printer-forget/1";

    private static readonly Dictionary<string, PrinterLore> Lore = new()
    {
        ["turn"] = PrinterLore.Turn, ["register"] = PrinterLore.Register, ["bars"] = PrinterLore.Bars, ["coverage"] = PrinterLore.Coverage, ["wedge"] = PrinterLore.Wedge,
        ["gain"] = PrinterLore.Gain, ["planes"] = PrinterLore.Planes,
    };

    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Argument<string> name = PrinterCommand.NameArgument();
        Option<string> what = new("--what") { Description = "Forget only this", HelpName = string.Join('|', Lore.Keys) };
        what.AcceptOnlyFromAmong([.. Lore.Keys]);
        Option<bool> json = new("--json") { Description = $"One JSON object for machines ({Schema})" };
        Command command = new("forget", "Forget a printer, or one thing that was learned about it. What was there is kept beside it as NAME.toml.forgotten.") { name, what, json };
        HelpWithExamples.Add(command, "lampblack printer forget study --what register");
        Call.Bind(command, call => Run(call, call.Parsed.GetRequiredValue(name), call.Parsed.GetValue(what)), json, Schema);
        return command;
    }

    private static int Run(Call call, string name, string? what)
    {
        (string kept, ShelvedPrinter printer) = PrinterShelf.Here().Forget(name, what is null ? null : Lore[what]);
        if (what is not null && printer.Reading.HasStop)
        {
            return PrinterCommand.Refuse(call, printer, Schema);
        }

        if (call.IsJson)
        {
            PrinterCommand.Answer(Schema, ExitCodes.Fine, printer, writer =>
            {
                writer.WriteString("what", what);
                writer.WriteString("kept", kept);
            });
            return ExitCodes.Fine;
        }

        call.Terminal.Say(what is null
            ? $"Forgot the printer '{printer.Name}'."
            : $"Forgot the {what} of the printer '{printer.Name}'.");
        call.Terminal.Say($"What was there is kept as {ShownPath.Of(kept)}; renamed to {Path.GetFileName(printer.FilePath)} it is back.");
        if (what is not null && PrinterFiles.Tell(printer.Reading.Value) is { Forgotten: > 0 } account && printer.IsChanged)
        {
            call.Terminal.Say(FormattableString.Invariant(
                $"Sheets that say 'register {account.Forgotten}' or less were made with what is now forgotten, and are not learned from any more. New ones say 'register {account.Revision}'."));
        }

        return ExitCodes.Fine;
    }
}
