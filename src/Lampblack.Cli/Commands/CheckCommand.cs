using System.Collections.Generic;
using System.CommandLine;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack check DESK</c>: says what is wrong with a desk, and writes nothing.</summary>
internal static class CheckCommand
{
    private const string Schema = "lampblack-check/1";

    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Argument<string> desk = DeskArgument.Create();
        Option<bool> json = new("--json") { Description = $"One JSON object for machines ({Schema})" };
        Command command = new("check", "Check a desk and write nothing. Exit code 1 where a finding says 'stop'.") { desk, json };
        HelpWithExamples.Add(command, "lampblack check my-desk");
        Call.Bind(command, call => Run(call, call.Parsed.GetRequiredValue(desk)), json, Schema);
        return command;
    }

    private static int Run(Call call, string desk)
    {
        call.Terminal.Log($"reading {desk}");
        OpenedDesk opened = call.Await(() => OpenedDesk.Open(desk));
        BuildRequest request = new(UsualPaper.Here(), "region", Parts: BuildParts.None) { LastReport = OutputFolder.LastReport(opened.UsualOutput), LastWiring = OutputFolder.LastWiring(opened.UsualOutput) };
        BuildResult result;
        using (ProgressLine progress = new(call.Terminal))
        {
            result = call.Await(() => Build.Run(opened.Source, request, progress, call.Cancellation));
        }

        bool hasStop = result.Findings.Any(finding => finding.Severity == Severity.Stop);
        int exit = hasStop ? ExitCodes.Stopped : ExitCodes.Fine;
        call.Terminal.Log("done");
        if (call.IsJson)
        {
            JsonAnswer.Print(Schema, exit, writer =>
            {
                writer.WriteString("desk", opened.FilePath);
                writer.WriteString("title", result.Title);
                JsonAnswer.WriteFindings(writer, result.Findings);
            });
            return exit;
        }

        FindingLines.Print(call.Terminal, opened.FolderPath, call.Parsed.GetValue(GlobalOptions.Verbose) ? result.Findings : result.Findings.Where(finding => !IsUsual(finding)));
        TellUsual(call, result.Findings);
        string count = $"{ShownPath.Of(opened.FilePath)}: {FindingLines.Count(result.Findings)}.";
        call.Terminal.Say(hasStop
            ? $"{count} Nothing can be built before each 'stop' is dealt with."
            : $"{count} Next: 'lampblack build {ShownPath.Of(desk)}'.");
        return exit;
    }

    /// <summary>
    /// Whether it only says that what nobody said is as usual: the same at every run. What is taken of one file (<c>art-profile-assumed</c>) is told with the file's name,
    /// and is none of these.
    /// </summary>
    private static bool IsUsual(Finding finding) => finding.Severity == Severity.Note && finding.Accepted is null
        && finding.Code is "black-default" or "spread-default" or "cut-stock-assumed" or "emitter-assumed";

    private static void TellUsual(Call call, IEnumerable<Finding> findings)
    {
        string[] usual = [.. findings.Where(IsUsual).Select(finding => finding.Code).Distinct()];
        if (usual.Length > 0 && !call.Parsed.GetValue(GlobalOptions.Verbose))
        {
            call.Terminal.Say($"Where nothing was said, what is usual stands in: {string.Join(", ", usual)}; --verbose tells each.");
        }
    }
}
