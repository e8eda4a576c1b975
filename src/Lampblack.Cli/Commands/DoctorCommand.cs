using System;
using System.Collections.Immutable;
using System.CommandLine;
using System.Linq;
using Lampblack.Host;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack doctor</c>: says whether this machine has what Lampblack stands on.</summary>
internal static class DoctorCommand
{
    private const string Schema = "lampblack-doctor/1";

    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Option<bool> json = new("--json") { Description = $"One JSON object for machines ({Schema})" };
        Command command = new("doctor", "Look whether everything that Lampblack needs is here. Exit code 1 where something is missing.") { json };
        HelpWithExamples.Add(command, "lampblack doctor");
        Call.Bind(command, Run, json, Schema);
        return command;
    }

    private static int Run(Call call)
    {
        ImmutableArray<DiagnosisLine> lines = Diagnosis.Run(Program.Version, UserFolder.Locate(Environment.GetEnvironmentVariable));
        int exit = lines.Any(line => line.Condition == Condition.Bad) ? ExitCodes.Stopped : ExitCodes.Fine;
        if (call.IsJson)
        {
            JsonAnswer.Print(Schema, exit, writer =>
            {
                writer.WriteStartArray("looked");
                foreach (DiagnosisLine line in lines)
                {
                    writer.WriteStartObject();
                    writer.WriteString("name", line.Name);
                    writer.WriteString("condition", Word(line.Condition));
                    writer.WriteString("text", line.Text);
                    writer.WriteEndObject();
                }

                writer.WriteEndArray();
                writer.WriteStartArray("findings");
                writer.WriteEndArray();
            });
            return exit;
        }

        foreach (DiagnosisLine line in lines.Where(line => !call.Terminal.IsQuiet || line.Condition == Condition.Bad))
        {
            call.Terminal.Insist($"{Word(line.Condition),-8} {line.Name,-12} {line.Text}");
        }

        call.Terminal.Say(exit == ExitCodes.Fine ? "Everything that a build needs is here." : "Something that a build needs is missing: see the lines that say 'missing'.");
        return exit;
    }

    private static string Word(Condition condition) => condition switch
    {
        Condition.Fine => "fine",
        Condition.Optional => "optional",
        _ => "missing",
    };
}
