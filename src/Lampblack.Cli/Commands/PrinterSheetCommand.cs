using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.CommandLine;
using System.IO;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;
using Lampblack.Printers;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack printer sheet</c>: makes the calibration sheet, and starts a printer file where there is none.</summary>
internal static class PrinterSheetCommand
{
    private const string UsualFolder = "calibration";
    private const string Schema = "lampblack-printer-sheet/1";

    private static readonly Option<string> Paper = new("--paper") { Description = "The paper (usually the printer's, else what is usual in your region)", HelpName = "P" };

    private static readonly Option<string> Printer = new("--printer")
    {
        Description = "The printer: a name that 'printer list' shows, or a path to a printer file that ends in .toml. One that is not there yet is started",
        HelpName = "NAME",
        Required = true,
    };

    private static readonly Option<int> Copies = new("--copies") { Description = "How many copies, each with its own number on both sides (1 to 255)", HelpName = "N", DefaultValueFactory = _ => 1 };

    private static readonly Option<bool> BlackOnly = new("--black-only") { Description = "A printer that is started has black only" };

    private static readonly Option<string> Output = new("--output", "-o") { Description = "The folder that the files go into", HelpName = "DIR", DefaultValueFactory = _ => UsualFolder };

    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Option<bool> json = new("--json") { Description = $"One JSON object for machines ({Schema})" };
        Command command = new("sheet", "Make a calibration sheet: printed on both sides of your panels' paper, it tells where side 2 lands and how dark each black is.")
        {
            Printer, Paper, Copies, BlackOnly, Output, json,
        };
        HelpWithExamples.Add(
            command, "lampblack printer sheet --printer study", "lampblack printer sheet --printer study --paper A4 --copies 3 -o study-sheets", "lampblack printer sheet --printer attic --black-only");
        Call.Bind(command, Run, json, Schema);
        return command;
    }

    private static int Run(Call call)
    {
        string name = call.Parsed.GetRequiredValue(Printer);
        string folder = call.Parsed.GetRequiredValue(Output);
        int copies = call.Parsed.GetRequiredValue(Copies);
        string? asked = call.Parsed.GetValue(Paper);
        PrinterShelf shelf = PrinterShelf.Here();
        bool isNew = !Path.Exists(shelf.PathOf(name));
        ShelvedPrinter printer = isNew ? Started(call, shelf, name, asked, mayAsk: !call.IsJson) : shelf.Read(name);
        PrinterFile file = printer.Reading.Value;
        string from = asked is not null ? "option" : isNew ? "region" : "printer";
        string paper = asked ?? PrinterFiles.PaperOf(file);
        Checked<ImmutableArray<OutputFile>> made = printer.Reading.HasStop ? new([], printer.Reading.Findings) : CalibrationSheetJob.Run(paper, file, name, copies);
        if (isNew && !made.HasStop)
        {
            // Only now: a sheet that can't be made leaves no printer file behind.
            printer = shelf.Create(name, file);
            made = printer.Reading.HasStop ? new([], printer.Reading.Findings) : made;
        }

        OutputWriting? writing = made.HasStop ? null : SheetFolder.Write(call, folder, made.Value);
        IEnumerable<Finding> findings = made.Findings.Concat(writing?.Findings ?? []);
        int exit = made.HasStop ? ExitCodes.Stopped : ExitCodes.Fine;
        if (call.IsJson)
        {
            JsonAnswer.Print(Schema, exit, writer =>
            {
                writer.WriteString("paper", paper);
                writer.WriteString("paperFrom", from);
                writer.WriteString("printer", printer.Name);
                writer.WriteBoolean("printerStarted", isNew && !made.HasStop);
                writer.WriteNumber("copies", copies);
                writer.WriteString("folder", folder);
                JsonAnswer.WriteFiles(writer, writing is null ? [] : made.Value, writing);
                JsonAnswer.WriteFindings(writer, findings);
            });
            return exit;
        }

        FindingLines.Print(call.Terminal, printer.Reading.HasStop ? Path.GetDirectoryName(printer.FilePath) ?? string.Empty : folder, findings);
        if (writing is not null)
        {
            Tell(call.Terminal, folder, made.Value, printer, name, copies, isNew);
        }

        return exit;
    }

    /// <summary>A printer file that is not stored yet, from what is said at the terminal, or usual where nobody can be asked.</summary>
    private static ShelvedPrinter Started(Call call, PrinterShelf shelf, string name, string? paper, bool mayAsk)
    {
        string path = shelf.PathOf(name);
        Prompt? prompt = mayAsk && Prompt.CanAsk ? Prompt.Here() : null;
        if (prompt is not null)
        {
            call.Terminal.Say($"There is no printer file '{name}' yet. It is started now:");
        }

        try
        {
            string own = Path.GetFileNameWithoutExtension(path);
            NewPrinter said = call.Await(() => new PrinterAnswers().Of(own, paper, call.Parsed.GetValue(BlackOnly), prompt));
            return new(path, own, PrinterFiles.Start(said));
        }
        catch (EndOfStreamException)
        {
            throw new FileProblemException("The answers ended before the last question. Nothing was written.");
        }
    }

    private static void Tell(Terminal terminal, string folder, ImmutableArray<OutputFile> files, ShelvedPrinter printer, string name, int copies, bool isNew)
    {
        if (isNew)
        {
            terminal.Say($"Started the printer '{printer.Name}' in {ShownPath.Of(printer.FilePath)}. Nothing is known of it yet.");
        }

        terminal.Say($"The calibration sheet is in {ShownPath.Of(folder)}{(copies == 1 ? string.Empty : FormattableString.Invariant($", in {copies} copies"))}:");
        int width = files.Max(made => made.Path.Length);
        foreach (OutputFile made in files)
        {
            terminal.Say($"  {made.Path.PadRight(width)}  {made.Purpose}");
        }

        terminal.Say("Next:");
        foreach (string line in CalibrationSheetJob.NextSteps(printer.Reading.Value, name, copies))
        {
            terminal.Say($"  {line}");
        }
    }
}
