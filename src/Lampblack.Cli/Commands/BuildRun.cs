using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.IO;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Cli.Commands;

/// <summary>One build, from the printer's file to what is said at the end: the same for every command that makes sheets.</summary>
internal static class BuildRun
{
    /// <summary>Builds a desk.</summary>
    /// <param name="call">The call.</param>
    /// <param name="options">What was asked for besides the desk.</param>
    /// <param name="schema">The schema of a machine's answer.</param>
    /// <param name="open">Finds the desk.</param>
    internal static int Run(Call call, BuildOptions options, string schema, Func<OpenedDesk> open)
    {
        ShelvedPrinter? printer = call.Parsed.GetValue(options.Printer) is { } name ? call.Await(() => PrinterShelf.Here().Read(name)) : null;
        if (!call.IsJson && printer is not null)
        {
            PrinterCommand.PrintFindings(call.Terminal, printer);
        }

        BuildRequest request = options.RequestOf(call.Parsed, printer?.Reading.Value) with { PrinterWord = printer is null ? null : call.Parsed.GetValue(options.Printer) };
        string? output = call.Parsed.GetValue(options.Output);
        OpenedDesk opened = call.Await(open);
        call.Terminal.Log($"read {opened.FilePath}");
        string folder = output is { Length: > 0 } ? output : opened.UsualOutput;
        BuildResult result;
        OutputWriting? writing = null;
        Finding? replaced = null;
        using (ProgressLine progress = new(call.Terminal))
        {
            // The folder is taken before the work begins: one that cannot be written is said at once, and two builds do not do the work twice.
            progress.Report($"opening {folder}");
            using OutputFolder place = OutputFolder.Open(
                folder, OutputFolder.UsualPatience, () => progress.Report($"waiting for another build that writes into {folder}"), call.Cancellation);
            BuildRequest again = request with { LastReport = OutputFolder.LastReport(folder), LastWiring = OutputFolder.LastWiring(folder) };
            result = printer is { Reading.HasStop: true }
                ? new BuildResult([], printer.Reading.Findings, string.Empty, [])
                : call.Await(() => Build.Run(opened.Source, again, progress, call.Cancellation));
            if (!HasStop(result) && result.Files.Length > 0)
            {
                progress.Report($"writing into {folder}");
                writing = place.Write(result.Files, call.Cancellation);
                replaced = schema == SeparateCommand.Schema ? ReplacedDesk.Of(again.LastReport, folder) : null;
            }
        }

        call.Terminal.Log("done");
        int exit = HasStop(result) ? ExitCodes.Stopped : ExitCodes.Fine;
        ImmutableArray<Finding> ofPrinter = printer?.Reading.Findings ?? [];
        ImmutableArray<Finding> findings = [.. result.Findings.Except(ofPrinter), .. writing?.Findings ?? [], .. new[] { replaced }.OfType<Finding>()];
        if (call.IsJson)
        {
            Answer(schema, exit, opened, folder, request, result, writing, ofPrinter.Concat(findings));
        }
        else
        {
            FindingLines.Print(call.Terminal, opened.FolderPath, findings);
            Tell(call.Terminal, folder, request, result, writing);
        }

        return exit;
    }

    private static bool HasStop(BuildResult result) => result.Findings.Any(finding => finding.Severity == Severity.Stop);

    private static void Answer(
        string schema, int exit, OpenedDesk opened, string folder, BuildRequest request, BuildResult result, OutputWriting? writing, IEnumerable<Finding> findings) =>
        JsonAnswer.Print(schema, exit, writer =>
        {
            writer.WriteString("desk", opened.FilePath);
            writer.WriteString("title", result.Title);
            writer.WriteString("paper", request.Paper);
            writer.WriteString("paperFrom", request.PaperFrom);
            writer.WriteString("printer", request.Printer?.Name);
            writer.WriteString("folder", folder);
            JsonAnswer.WriteFiles(writer, writing is null ? [] : result.Files, writing);
            JsonAnswer.WriteTexts(writer, "summary", result.Summary);
            ChangeLines.Write(writer, result.Changes);
            JsonAnswer.WriteFindings(writer, findings);
        });

    private static void Tell(Terminal terminal, string folder, BuildRequest request, BuildResult result, OutputWriting? writing)
    {
        if (writing is null)
        {
            string older = Directory.Exists(folder) ? $" Files in {ShownPath.Of(folder)} are from an earlier build." : string.Empty;
            terminal.Say(HasStop(result)
                ? $"Nothing was written: deal with each 'stop' first.{older}"
                : $"There was nothing to make.{older}");
            return;
        }

        terminal.Say(result.Title);
        foreach (string line in result.Summary)
        {
            terminal.Say($"  {line}");
        }

        ChangeLines.Say(terminal, result.Changes);
        string nothingNew = writing.Written.IsEmpty ? " (all as they were)" : string.Empty;
        terminal.Say(FormattableString.Invariant($"{result.Files.Length} files in {ShownPath.Of(folder)}{nothingNew}:"));
        int width = result.Files.Max(file => file.Path.Length);
        foreach (OutputFile file in result.Files)
        {
            terminal.Say($"  {file.Path.PadRight(width)}  {file.Purpose}");
        }

        foreach (string path in writing.Removed)
        {
            terminal.Say($"Removed {path}: an earlier build made it, this one does not.");
        }

        if (result.Files.FirstOrDefault(file => file.Path.EndsWith("/front.pdf", StringComparison.Ordinal)) is { } front)
        {
            string sheet = Path.GetDirectoryName(front.Path) ?? string.Empty;
            ImmutableArray<string> made =
            [
                .. result.Files.Where(file => !file.Path.Contains('/', StringComparison.Ordinal) || Path.GetDirectoryName(file.Path) == sheet).Select(file => Path.GetFileName(file.Path)),
            ];
            terminal.Say("Next, at actual size (100 %), never 'fit to page', as print.html says step by step:");
            foreach (string line in PrinterFiles.NextSteps(request.Printer, ShownPath.Of(Path.Combine(folder, sheet)), made))
            {
                terminal.Say($"  {line}");
            }

            terminal.Say("Then hold the sheet to a lamp: the tick must show in box A.");
        }
    }
}
