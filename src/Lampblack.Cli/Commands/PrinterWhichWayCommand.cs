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

    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Option<string> paper = new("--paper") { Description = "The paper (usually what is usual in your region)", HelpName = "P" };
        Option<string> output = new("--output", "-o")
        {
            Description = "The folder that the three files go into",
            HelpName = "DIR",
            DefaultValueFactory = _ => UsualFolder,
        };
        Command command = new("which-way", "Make a sheet for plain paper that tells which edge and which face your printer takes.") { paper, output };
        HelpWithExamples.Add(command, "lampblack printer which-way", "lampblack printer which-way --paper Letter -o first-sheet");
        Call.Bind(command, call => Run(call, call.Parsed.GetValue(paper) ?? UsualPaper.Here(), call.Parsed.GetRequiredValue(output)));
        return command;
    }

    private static int Run(Call call, string paper, string folder)
    {
        Checked<ImmutableArray<OutputFile>> made = WhichWayJob.Run(paper);
        if (made.HasStop)
        {
            FindingLines.Print(call.Terminal, folder, made.Findings);
            return ExitCodes.Stopped;
        }

        // A folder's older files that are not made any more are removed: a desk's sheets must not be.
        if (File.Exists(Path.Combine(folder, "report.json")))
        {
            throw new FileProblemException($"'{folder}' holds the sheets of a desk; name another folder with -o.");
        }

        using OutputFolder place = OutputFolder.Open(folder, OutputFolder.UsualPatience, () => call.Terminal.Log($"waiting for {folder}"), call.Cancellation);
        OutputWriting writing = place.Write(made.Value, call.Cancellation);
        FindingLines.Print(call.Terminal, folder, writing.Findings);
        call.Terminal.Say($"The which-way sheet is in {ShownPath.Of(folder)}:");
        int width = made.Value.Max(file => file.Path.Length);
        foreach (OutputFile file in made.Value)
        {
            call.Terminal.Say($"  {file.Path.PadRight(width)}  {file.Purpose}");
        }

        call.Terminal.Say("Next: lay one plain sheet in as you always do, pencil a cross on the face that lies up and mark the edge that goes in first. Print front.pdf at actual size (100 %); the sheet tells the rest.");
        return ExitCodes.Fine;
    }
}
