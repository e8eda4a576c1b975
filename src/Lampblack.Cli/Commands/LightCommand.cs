using System.Collections.Immutable;
using System.CommandLine;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;
using Lampblack.Quantities;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack light DESK</c>: plans the emitters behind the panels and the circuit that feeds them, or judges emitters that were chosen.</summary>
internal static class LightCommand
{
    private const string Schema = "lampblack-light/1";

    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Argument<string> desk = DeskArgument.Create();
        Option<string> output = new("--output", "-o") { Description = "Write drawings and lists into this folder: where emitters stand, how even the light is, cells, the circuit and its parts" };
        Option<string> emitters = new("--emitters") { Description = "Judge the emitters of this .toml file ([[emitter]] at, lumen, halfAngle; [box] size, depth, wall, floor, mask, diffuser) in place of a plan" };
        Option<string> grid = new("--grid") { Description = "With --json: from one place to the next where the light is told (5mm)" };
        Option<string> panel = new("--panel") { Description = "One panel only" };
        Option<string> photo = new("--photo") { Description = "A photo of the lit panel (JPEG or PNG, taken in a dark room) to hold against the plan: what walls and emitters really do" };
        Option<string> corners = new("--corners") { Description = "With --photo: the panel's corners in its pixels, \"x,y x,y x,y x,y\": upper left, upper right, lower right, lower left; found without it", HelpName = "PLACES" };
        Option<string> seed = new("--seed") { Description = "Another whole number looks for places elsewhere (1)" };
        seed.Validators.Add(result =>
        {
            if (result.Tokens.Count == 1 && WrittenNumbers.One(result.Tokens[0].Value) is not (>= 0 and <= 1e15))
            {
                result.AddError($"--seed must be a whole number from 0, found '{result.Tokens[0].Value}'.");
            }
        });
        Option<string> printer = new("--printer") { Description = "The printer: a name that 'printer list' shows, or a path to a printer file that ends in .toml" };
        Option<bool> json = new("--json") { Description = $"One JSON object for machines ({Schema})" };
        Command command = new("light", "Plan the light: the fewest emitters that light all legends evenly, a cell for what has a light of its own, and the circuit. Ctrl-C gives the best plan so far.") { desk, output, emitters, grid, panel, photo, corners, seed, printer, json };
        command.Validators.Add(result =>
        {
            if (result.GetResult(corners) is { Implicit: false } && result.GetResult(photo) is not { Implicit: false })
            {
                result.AddError("'--corners' says where the panel is in a photo, and no photo was given.");
            }
        });
        HelpWithExamples.Add(command, "lampblack light my-desk", "lampblack light my-desk -o light", "lampblack light my-desk --grid 5mm --json", "lampblack light my-desk --emitters mine.toml", "lampblack light my-desk --photo lit.jpg");
        Call.Bind(
            command,
            call => Run(
                call,
                new(
                    call.Parsed.GetRequiredValue(desk),
                    call.Parsed.GetValue(output),
                    call.Parsed.GetValue(emitters),
                    call.Parsed.GetValue(grid),
                    call.Parsed.GetValue(panel),
                    (ulong)(WrittenNumbers.One(call.Parsed.GetValue(seed)) ?? 1),
                    call.Parsed.GetValue(printer),
                    call.Parsed.GetValue(photo),
                    call.Parsed.GetValue(corners))),
            json,
            Schema);
        return command;
    }

    private static int Run(Call call, Asked asked)
    {
        ShelvedPrinter? printer = asked.Printer is { } name ? call.Await(() => PrinterShelf.Here().Read(name)) : null;
        OpenedDesk opened = call.Await(() => OpenedDesk.Open(asked.Desk));
        ImmutableArray<byte> emitters = asked.Emitters is { } file ? call.Await(() => OpenedDesk.ReadBeside(file, "emitters")) : [];
        string paper = printer?.Reading.Value is { } learned ? PrinterFiles.PaperOf(learned) : UsualPaper.Here();
        LightRequest request = new(paper, printer is null ? "region" : "printer")
        {
            Printer = printer?.Reading.Value,
            Emitters = emitters,
            EmittersName = asked.Emitters ?? string.Empty,
            Seed = asked.Seed,
            Panel = asked.Panel,
            Corners = asked.Corners,
        };
        if (asked.Photo is { } taken)
        {
            OpenedArt art = call.Await(() => OpenedArt.Open(taken, PhotosOfSheets.LimitBytes));
            request = request with { Photo = art.Bytes, PhotoName = art.Name };
        }

        if (asked.Grid is { } step)
        {
            request = request with { GridMm = LengthText.TryRead(step, out double mm, out _) ? mm : double.NaN };
        }

        LightResult result;
        using (ProgressLine progress = new(call.Terminal))
        {
            // Not left alone when it is stopped: it ends by itself and gives what it found.
            result = Light.Run(opened.Source, request, progress, call.Cancellation);
        }

        bool isInterrupted = call.Cancellation.IsCancellationRequested;
        bool hasStop = result.Findings.Any(finding => finding.Severity == Severity.Stop);
        OutputWriting? writing = asked.Output is { Length: > 0 } folder && !isInterrupted && !hasStop && !result.Files.IsEmpty ? SheetFolder.Write(call, folder, result.Files) : null;
        int exit = isInterrupted ? ExitCodes.Interrupted : hasStop ? ExitCodes.Stopped : ExitCodes.Fine;
        if (call.IsJson)
        {
            JsonAnswer.Print(Schema, exit, writer =>
            {
                writer.WriteString("desk", opened.FilePath);
                writer.WriteString("title", result.Title);
                if (!hasStop)
                {
                    result.WriteTo(writer);
                }

                writer.WriteBoolean("stopped", result.IsStopped);
                writer.WriteString("folder", writing is null ? null : asked.Output);
                JsonAnswer.WriteFiles(writer, writing is null ? [] : result.Files, writing);
                JsonAnswer.WriteFindings(writer, result.Findings);
            });
            return exit;
        }

        FindingLines.Print(call.Terminal, opened.FolderPath, result.Findings, asked.Emitters);
        if (isInterrupted)
        {
            call.Terminal.Complain("Stopped; this is the best plan so far.");
        }

        call.Terminal.Say(result.Title);
        foreach (string line in result.Lines)
        {
            call.Terminal.Say($"  {line}");
        }

        if (writing is not null)
        {
            call.Terminal.Say($"{result.Files.Length} files in {ShownPath.Of(asked.Output!)}.");
        }

        return exit;
    }

    private sealed record Asked(string Desk, string? Output, string? Emitters, string? Grid, string? Panel, ulong Seed, string? Printer, string? Photo, string? Corners);
}
