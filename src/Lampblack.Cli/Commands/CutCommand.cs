using System;
using System.CommandLine;
using System.Linq;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack cut FILE</c>: plans how plates are cut, for a desk's panels or for loose pieces.</summary>
internal static class CutCommand
{
    private const string Schema = "lampblack-cut/1";

    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Argument<string> file = new("FILE") { Description = "A desk (its panels are cut), or a .toml file with [[stock]] and [[piece]]" };
        Option<string> output = new("--output", "-o") { Description = "Write the drawings into this folder: each plate in true size, and pages for the bench" };
        Option<string?> seconds = new("--seconds") { Description = "How long to look for a better plan; without it as long as is of use, some 20 seconds at most" };
        seconds.Validators.Add(result =>
        {
            if (result.Tokens.Count == 1 && WrittenNumbers.One(result.Tokens[0].Value) is not (> 0 and <= 1_000_000))
            {
                result.AddError($"--seconds must be a number above 0, found '{result.Tokens[0].Value}'.");
            }
        });
        Option<bool> json = new("--json") { Description = $"One JSON object for machines ({Schema})" };
        Command command = new("cut", "Plan the cuts: every cut from edge to edge, in the order they are made; the fewest plates, then the cheapest. Ctrl-C gives the best plan so far.") { file, output, seconds, json };
        HelpWithExamples.Add(command, "lampblack cut my-desk", "lampblack cut pieces.toml -o cuts", "lampblack cut pieces.toml --json --seconds 60");
        Call.Bind(command, call => Run(call, call.Parsed.GetRequiredValue(file), call.Parsed.GetValue(output), WrittenNumbers.One(call.Parsed.GetValue(seconds))), json, Schema);
        return command;
    }

    private static int Run(Call call, string file, string? folder, double? seconds)
    {
        OpenedDesk opened = call.Await(() => OpenedDesk.Open(file));
        CutRequest request = new(UsualPaper.Here(), seconds is null ? CutRequest.UsualSteps : CutRequest.Endless);
        CutResult result;
        using (CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(call.Cancellation))
        using (ProgressLine progress = new(call.Terminal))
        {
            if (seconds is { } limit)
            {
                stop.CancelAfter(TimeSpan.FromSeconds(limit));
            }

            // Not left alone when it is stopped: it ends by itself and gives what it found.
            result = Cut.Run(opened.Source, request, progress, stop.Token);
        }

        bool isInterrupted = call.Cancellation.IsCancellationRequested;
        OutputWriting? writing = folder is { Length: > 0 } && !isInterrupted && !result.Files.IsEmpty ? SheetFolder.Write(call, folder, result.Files) : null;
        bool hasStop = result.Findings.Any(finding => finding.Severity == Severity.Stop);
        int exit = isInterrupted ? ExitCodes.Interrupted : hasStop ? ExitCodes.Stopped : ExitCodes.Fine;
        if (call.IsJson)
        {
            JsonAnswer.Print(Schema, exit, writer =>
            {
                writer.WriteString("file", opened.FilePath);
                writer.WriteString("title", result.Title);
                result.WriteTo(writer);
                writer.WriteBoolean("stopped", result.IsStopped);
                writer.WriteString("folder", writing is null ? null : folder);
                JsonAnswer.WriteFiles(writer, writing is null ? [] : result.Files, writing);
                JsonAnswer.WriteFindings(writer, result.Findings);
            });
            return exit;
        }

        FindingLines.Print(call.Terminal, opened.FolderPath, result.Findings);
        if (isInterrupted)
        {
            call.Terminal.Complain(result.HasPlates ? "Stopped; this is the best plan so far." : "Stopped before a plan was found.");
        }

        call.Terminal.Say(result.Title);
        foreach (string line in result.Lines)
        {
            call.Terminal.Say($"  {line}");
        }

        if (writing is not null)
        {
            call.Terminal.Say($"{result.Files.Length} files in {ShownPath.Of(folder!)}.");
        }

        return exit;
    }
}
