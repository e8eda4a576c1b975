using System;
using System.Collections.Immutable;
using System.CommandLine;
using System.Linq;
using System.Text.Json;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack drilled DESK ID=dx,dy</c>: writes into the desk where holes were really drilled.</summary>
internal static class DrilledCommand
{
    private const string Schema = "lampblack-drilled/1";

    private static readonly string[] Endings = [".jpg", ".jpeg", ".png"];

    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Argument<string> desk = DeskArgument.Create();
        Argument<string[]> marks = new("PHOTO|ID=dx,dy")
        {
            Description = "Photos of the drilled plate on its page of drilled.pdf; or a control (or panel/control), and how far its hole lies off, to the right and up in mm; without any the drilled ones are listed",
            Arity = ArgumentArity.ZeroOrMore,
        };
        Option<string[]> clear = new("--clear") { Description = "A control that is no longer to be held to its hole", HelpName = "ID", Arity = ArgumentArity.OneOrMore };
        Option<string> panel = new("--panel") { Description = "The panel that the photos are to show; whichever they do without it", HelpName = "ID" };
        Option<bool> dryRun = new("--dry-run") { Description = "Tell what would be written, and write nothing" };
        Option<bool> json = new("--json") { Description = $"One JSON object for machines ({Schema})" };
        Command command = new("drilled", "Write into the desk where holes were really drilled: the next print fits the plate. Exit code 1 where a finding says 'stop'.")
        {
            desk, marks, clear, panel, dryRun, json,
        };
        command.Validators.Add(result =>
        {
            string[] told = result.GetValue(marks) ?? [];
            bool hasPhotos = told.Any(IsPhoto);
            if (hasPhotos && (told.Any(word => !IsPhoto(word)) || result.GetResult(clear) is { Implicit: false }))
            {
                result.AddError("Photos and holes told by hand were given together: one at a time.");
            }
            else if (!hasPhotos && result.GetResult(panel) is { Implicit: false })
            {
                result.AddError("'--panel' says which panel a photo shows, and no photo was given.");
            }
        });
        HelpWithExamples.Add(command, "lampblack drilled my-desk photo.jpg --dry-run", "lampblack drilled my-desk shutter=0.3,-0.2 main/dew=-0.4,0", "lampblack drilled my-desk --clear shutter");
        Call.Bind(
            command,
            call =>
            {
                string[] told = call.Parsed.GetValue(marks) ?? [];
                return told.Any(IsPhoto)
                    ? DrilledPhotosRun.Run(call, call.Parsed.GetRequiredValue(desk), told, call.Parsed.GetValue(panel), call.Parsed.GetValue(dryRun), Schema)
                    : Run(call, call.Parsed.GetRequiredValue(desk), told, call.Parsed.GetValue(clear) ?? [], call.Parsed.GetValue(dryRun));
            },
            json,
            Schema);
        return command;
    }

    private static bool IsPhoto(string word) =>
        !word.Contains('=', StringComparison.Ordinal) && Endings.Any(ending => word.EndsWith(ending, StringComparison.OrdinalIgnoreCase));

    private static int Run(Call call, string desk, string[] marks, string[] clears, bool isDry)
    {
        call.Terminal.Log($"reading {desk}");
        OpenedDesk opened = call.Await(() => OpenedDesk.Open(desk));
        Checked<DrilledResult> result = call.Await(() => DrilledMarks.Mark(opened.Source, marks, clears));
        bool isWritten = result.Value.IsChanged && !result.HasStop && !isDry;
        if (isWritten)
        {
            call.Terminal.Log($"writing {opened.FilePath}");
            DeskWriting.Write(opened, result.Value.Bytes);
        }

        int exit = result.HasStop ? ExitCodes.Stopped : ExitCodes.Fine;
        if (call.IsJson)
        {
            Answer(exit, opened, isWritten, result);
        }
        else
        {
            FindingLines.Print(call.Terminal, opened.FolderPath, result.Findings);
            Tell(call.Terminal, desk, opened, isWritten, result);
        }

        return exit;
    }

    private static void Answer(int exit, OpenedDesk opened, bool isWritten, Checked<DrilledResult> result) => JsonAnswer.Print(Schema, exit, writer =>
    {
        writer.WriteString("desk", opened.FilePath);
        writer.WriteBoolean("changed", isWritten);
        WriteDrilled(writer, result.Value.Drilled);
        JsonAnswer.WriteFindings(writer, result.Findings);
    });

    /// <summary>Every control that is marked.</summary>
    /// <param name="writer">Where to.</param>
    /// <param name="drilled">The controls.</param>
    internal static void WriteDrilled(Utf8JsonWriter writer, ImmutableArray<DrilledLine> drilled)
    {
        writer.WriteStartArray("drilled");
        foreach (DrilledLine line in drilled)
        {
            writer.WriteStartObject();
            writer.WriteString("item", line.Item);
            writer.WriteNumber("dxMm", line.DxMm);
            writer.WriteNumber("dyMm", line.DyMm);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
    }

    private static void Tell(Terminal terminal, string desk, OpenedDesk opened, bool isWritten, Checked<DrilledResult> result)
    {
        string file = ShownPath.Of(opened.FilePath);
        if (result.HasStop)
        {
            terminal.Say($"Nothing was written: {file} is as it was.");
            return;
        }

        ImmutableArray<DrilledLine> drilled = result.Value.Drilled;
        terminal.Say(drilled.IsEmpty ? $"No control of {file} is marked as drilled." : $"Drilled, as {file} has it{(isWritten ? " now" : string.Empty)}:");
        foreach (DrilledLine line in drilled)
        {
            terminal.Say($"  {line.Item}: {line.Words}");
        }

        if (isWritten)
        {
            terminal.Say($"Next: 'lampblack build {ShownPath.Of(desk)}'. The print then fits the holes.");
        }
        else if (result.Value.IsChanged)
        {
            terminal.Say($"That is how it would be: nothing was written (--dry-run).");
        }
        else if (drilled.IsEmpty)
        {
            terminal.Say(FormattableString.Invariant($"Measure a hole, then 'lampblack drilled {ShownPath.Of(desk)} ID=0.3,-0.2': mm to the right and up."));
        }
    }
}
