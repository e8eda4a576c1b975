using System.Collections.Generic;
using System.Collections.Immutable;
using System.CommandLine;
using System.IO;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack printer which-way</c>: makes the sheet that tells how paper goes through a printer.</summary>
internal static class PrinterWhichWayCommand
{
    private const string UsualFolder = "which-way";
    private const string Schema = "lampblack-printer-which-way/1";

    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Option<string> paper = new("--paper") { Description = "The paper (usually the printer's, else what is usual in your region)", HelpName = "P" };
        Option<string> printer = new("--printer")
        {
            Description = "The printer: a name that 'printer list' shows, or a path to a printer file that ends in .toml. Its paper, margins and black are used",
            HelpName = "NAME",
        };
        Option<string> output = new("--output", "-o")
        {
            Description = "The folder that the three files go into",
            HelpName = "DIR",
            DefaultValueFactory = _ => UsualFolder,
        };
        Option<bool> json = new("--json") { Description = $"One JSON object for machines ({Schema})" };
        Command command = new("which-way", "Make a sheet for plain paper that tells which edge and which face your printer takes.") { paper, printer, output, json };
        HelpWithExamples.Add(command, "lampblack printer which-way", "lampblack printer which-way --printer study", "lampblack printer which-way --paper Letter -o first-sheet");
        Call.Bind(command, call => Run(call, call.Parsed.GetValue(paper), call.Parsed.GetValue(printer), call.Parsed.GetRequiredValue(output)), json, Schema);
        return command;
    }

    private static int Run(Call call, string? asked, string? name, string folder)
    {
        ShelvedPrinter? printer = name is null ? null : PrinterShelf.Here().Read(name);
        string from = asked is not null ? "option" : printer is not null ? "printer" : "region";
        string paper = asked ?? (printer is null ? UsualPaper.Here() : PrinterFiles.PaperOf(printer.Reading.Value));
        Checked<ImmutableArray<OutputFile>> made = printer is { Reading.HasStop: true }
            ? new([], printer.Reading.Findings)
            : WhichWayJob.Run(paper, printer?.Reading.Value, name);
        OutputWriting? writing = made.HasStop ? null : SheetFolder.Write(call, folder, made.Value);
        IEnumerable<Finding> findings = made.Findings.Concat(writing?.Findings ?? []);
        int exit = made.HasStop ? ExitCodes.Stopped : ExitCodes.Fine;
        if (call.IsJson)
        {
            Answer(exit, paper, from, printer?.Name, folder, made.Value, writing, findings);
            return exit;
        }

        string place = printer is { Reading.HasStop: true } ? Path.GetDirectoryName(printer.FilePath) ?? string.Empty : folder;
        FindingLines.Print(call.Terminal, place, findings);
        if (writing is not null)
        {
            Tell(call.Terminal, folder, made.Value, printer);
        }

        return exit;
    }

    private static void Answer(
        int exit, string paper, string from, string? printer, string folder, ImmutableArray<OutputFile> files, OutputWriting? writing, IEnumerable<Finding> findings) =>
        JsonAnswer.Print(Schema, exit, writer =>
        {
            writer.WriteString("paper", paper);
            writer.WriteString("paperFrom", from);
            writer.WriteString("printer", printer);
            writer.WriteString("folder", folder);
            JsonAnswer.WriteFiles(writer, writing is null ? [] : files, writing);
            JsonAnswer.WriteFindings(writer, findings);
        });

    private static void Tell(Terminal terminal, string folder, ImmutableArray<OutputFile> files, ShelvedPrinter? printer)
    {
        terminal.Say($"The which-way sheet is in {ShownPath.Of(folder)}:");
        int width = files.Max(file => file.Path.Length);
        foreach (OutputFile file in files)
        {
            terminal.Say($"  {file.Path.PadRight(width)}  {file.Purpose}");
        }

        bool turnsItself = printer is not null && PrinterFiles.TurnsItself(printer.Reading.Value);
        terminal.Say($"Next: lay one plain sheet in as you always do, pencil a cross on the face that lies up and mark the edge that goes in first. Print {(turnsItself ? "duplex.pdf, two-sided, long edge," : "front.pdf")} at actual size (100 %); the sheet tells the rest.");
    }
}
