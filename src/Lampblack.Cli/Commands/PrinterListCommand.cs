using System;
using System.Collections.Immutable;
using System.CommandLine;
using System.Linq;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack printer list</c>: the printers that can be asked for by name.</summary>
internal static class PrinterListCommand
{
    private const string Schema = "lampblack-printer-list/1";

    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Option<bool> json = new("--json") { Description = $"One JSON object for machines ({Schema})" };
        Command command = new("list", "List the printers that were started here.") { json };
        HelpWithExamples.Add(command, "lampblack printer list");
        Call.Bind(command, Run, json, Schema);
        return command;
    }

    private static int Run(Call call)
    {
        ImmutableArray<(ShelvedPrinter Printer, PrinterAccount Account)> printers =
            [.. PrinterShelf.Here().All().Select(printer => (printer, PrinterFiles.Tell(printer.Reading.Value)))];
        if (call.IsJson)
        {
            JsonAnswer.Print(Schema, ExitCodes.Fine, writer =>
            {
                writer.WriteStartArray("printers");
                foreach ((ShelvedPrinter printer, PrinterAccount account) in printers)
                {
                    writer.WriteStartObject();
                    writer.WriteString("name", printer.Name);
                    writer.WriteString("file", printer.FilePath);
                    writer.WriteBoolean("usable", !printer.Reading.HasStop);
                    writer.WriteNumber("register", account.Revision);
                    JsonAnswer.WriteTexts(writer, "known", account.Facts.Where(fact => fact.IsKnown).Select(fact => fact.Key));
                    writer.WriteEndObject();
                }

                writer.WriteEndArray();
                JsonAnswer.WriteFindings(writer, printers.SelectMany(pair => pair.Printer.Reading.Findings));
            });
            return ExitCodes.Fine;
        }

        if (printers.IsEmpty)
        {
            call.Terminal.Say("There is no printer yet: 'lampblack printer new NAME' starts one.");
            return ExitCodes.Fine;
        }

        int width = Math.Max(4, printers.Max(pair => pair.Printer.Name.Length));
        call.Terminal.Say($"{"name".PadRight(width)}  {"inks",-10}  {"paper",-20}  {"turned",-14}  learned");
        foreach ((ShelvedPrinter printer, PrinterAccount account) in printers)
        {
            string[] known = [.. account.Facts.Where(fact => fact.IsKnown).Select(fact => $"{fact.Title} ({fact.Sheets})")];
            string Trait(string key) => account.Path.First(trait => trait.Key == key).Text;
            call.Terminal.Insist(printer.Reading.HasStop
                ? $"{printer.Name.PadRight(width)}  cannot be used: 'lampblack printer show {printer.Name}' says why"
                : $"{printer.Name.PadRight(width)}  {Trait("colour"),-10}  {Trait("paper"),-20}  {Trait("turning"),-14}  {(known.Length == 0 ? "nothing yet" : string.Join(", ", known))}");
        }

        return ExitCodes.Fine;
    }
}
