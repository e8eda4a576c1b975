using System;
using System.Collections.Immutable;
using System.CommandLine;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack drilled DESK ID=dx,dy</c>: writes into the desk where holes were really drilled.</summary>
internal static class DrilledCommand
{
    private const string Schema = "lampblack-drilled/1";

    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Argument<string> desk = DeskArgument.Create();
        Argument<string[]> marks = new("ID=dx,dy")
        {
            Description = "A control (or panel/control), and how far its hole lies off, to the right and up in mm; without any the drilled ones are listed",
            Arity = ArgumentArity.ZeroOrMore,
        };
        Option<string[]> clear = new("--clear") { Description = "A control that is no longer to be held to its hole", HelpName = "ID", Arity = ArgumentArity.OneOrMore };
        Option<bool> json = new("--json") { Description = $"One JSON object for machines ({Schema})" };
        Command command = new("drilled", "Write into the desk where holes were really drilled: the next print fits the plate. Exit code 1 where a finding says 'stop'.")
        {
            desk, marks, clear, json,
        };
        HelpWithExamples.Add(command, "lampblack drilled my-desk shutter=0.3,-0.2 main/dew=-0.4,0", "lampblack drilled my-desk --clear shutter");
        Call.Bind(
            command,
            call => Run(call, call.Parsed.GetRequiredValue(desk), call.Parsed.GetValue(marks) ?? [], call.Parsed.GetValue(clear) ?? []),
            json,
            Schema);
        return command;
    }

    private static int Run(Call call, string desk, string[] marks, string[] clears)
    {
        call.Terminal.Log($"reading {desk}");
        OpenedDesk opened = call.Await(() => OpenedDesk.Open(desk));
        Checked<DrilledResult> result = call.Await(() => DrilledMarks.Mark(opened.Source, marks, clears));
        bool isWritten = result.Value.IsChanged && !result.HasStop;
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
        writer.WriteStartArray("drilled");
        foreach (DrilledLine line in result.Value.Drilled)
        {
            writer.WriteStartObject();
            writer.WriteString("item", line.Item);
            writer.WriteNumber("dxMm", line.DxMm);
            writer.WriteNumber("dyMm", line.DyMm);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
        JsonAnswer.WriteFindings(writer, result.Findings);
    });

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
        else if (drilled.IsEmpty)
        {
            terminal.Say(FormattableString.Invariant($"Measure a hole, then 'lampblack drilled {ShownPath.Of(desk)} ID=0.3,-0.2': mm to the right and up."));
        }
    }
}
