using System.CommandLine;
using System.Text.Json;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack printer show NAME</c>: what is known of a printer, how well, and what is still unknown.</summary>
internal static class PrinterShowCommand
{
    private const string Schema = "lampblack-printer-show/1";

    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Argument<string> name = PrinterCommand.NameArgument();
        Option<bool> json = new("--json") { Description = $"One JSON object for machines ({Schema})" };
        Command command = new("show", "Say what is known of a printer, how well, from how many sheets, and how to learn the rest.") { name, json };
        HelpWithExamples.Add(command, "lampblack printer show study");
        Call.Bind(command, call => Run(call, call.Parsed.GetRequiredValue(name)), json, Schema);
        return command;
    }

    private static int Run(Call call, string name)
    {
        ShelvedPrinter printer = PrinterShelf.Here().Read(name);
        int exit = printer.Reading.HasStop ? ExitCodes.Stopped : ExitCodes.Fine;
        PrinterAccount account = PrinterFiles.Tell(printer.Reading.Value);
        if (call.IsJson)
        {
            JsonAnswer.Print(Schema, exit, writer => Answer(writer, printer, account));
            return exit;
        }

        PrinterCommand.PrintFindings(call.Terminal, printer);
        if (printer.Reading.HasStop)
        {
            call.Terminal.Say("The file cannot be used before each 'stop' is dealt with.");
            return exit;
        }

        call.Terminal.Insist($"Printer '{account.Name}', {ShownPath.Of(printer.FilePath)}");
        foreach (PrinterTrait trait in account.Path)
        {
            call.Terminal.Insist($"  {trait.Title,-14} {trait.Text}");
        }

        call.Terminal.Insist($"Learned so far (sheets made with it say 'register {account.Revision}'; behind ± stands one standard deviation):");
        foreach (PrinterFact fact in account.Facts)
        {
            call.Terminal.Insist($"  {fact.Title,-14} {fact.Text}{(fact.IsKnown ? $" (from {PrinterCommand.Sheets(fact.Sheets)})" : string.Empty)}");
            if (fact.Next.Length > 0)
            {
                call.Terminal.Say($"  {string.Empty,-14}   {(fact.IsKnown ? "better" : "to learn it")}: {fact.Next}");
            }
        }

        return exit;
    }

    private static void Answer(Utf8JsonWriter writer, ShelvedPrinter printer, PrinterAccount account)
    {
        writer.WriteString("printer", printer.FilePath);
        writer.WriteString("name", account.Name);
        writer.WriteNumber("register", account.Revision);
        writer.WriteStartObject("path");
        foreach (PrinterTrait trait in account.Path)
        {
            writer.WriteString(trait.Key, trait.Text);
        }

        writer.WriteEndObject();
        writer.WriteStartArray("learned");
        foreach (PrinterFact fact in account.Facts)
        {
            writer.WriteStartObject();
            writer.WriteString("what", fact.Key);
            writer.WriteBoolean("known", fact.IsKnown);
            writer.WriteNumber("sheets", fact.Sheets);
            writer.WriteString("text", fact.Text);
            writer.WriteString("next", fact.Next);
            writer.WriteStartArray("figures");
            foreach (PrinterFigure figure in fact.Figures)
            {
                writer.WriteStartObject();
                writer.WriteString("name", figure.Key);
                writer.WriteNumber("value", figure.Value);
                WriteSd(writer, figure.Sd);
                writer.WriteEndObject();
            }

            writer.WriteEndArray();
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
        JsonAnswer.WriteFindings(writer, printer.Reading.Findings);
    }

    private static void WriteSd(Utf8JsonWriter writer, double? sd)
    {
        if (sd is { } known)
        {
            writer.WriteNumber("sd", known);
        }
        else
        {
            writer.WriteNull("sd");
        }
    }
}
