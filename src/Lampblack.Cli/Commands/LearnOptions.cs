using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.CommandLine;
using System.CommandLine.Parsing;
using System.Linq;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Cli.Commands;

/// <summary>The options of <c>printer learn</c>.</summary>
internal sealed class LearnOptions
{
    private readonly Option<string[]> dots = Many("--dots", "Dots that shine in each row, after the place beside the block; of a bracket's sheet after its number, as in 5@6-21:N=1", "6-21:N=2,E=0,S=0,W=1");

    private readonly Option<string[]> readings = Many("--reading", "Where the back's line stands at a scale, right and up of the middle, in mm or in marks (+2c)", "NE:x=+0.3,y=-0.1");

    private readonly Option<string[]> verniers = Many("--vernier", "What the verniers of a calibration sheet read; 5.0 is in register", "1x=5.3,1y=4.8");

    private readonly Option<string> tick = new("--tick") { Description = "Where the tick of a which-way sheet is", HelpName = "A|B|front|none" };

    private readonly Option<string> cross = new("--cross") { Description = "On which side of the which-way sheet your pencil cross is", HelpName = "front|back" };

    private readonly Option<string[]> bars = Many("--bar", "How long the bars of 100 mm are by a ruler; on a calibration sheet the bars along (250 mm) and across (180 mm)", "front=99.8,back=99.7");

    private readonly Option<string[]> flaked = Many("--flaked", "Patches that flaked when rubbed, folded or taped", "C300,C320");

    private readonly Option<string[]> held = Many("--held", "Patches that held", "C240");

    private readonly Option<string> register = new("--register") { Description = "The number behind 'register' on that sheet; the newest if not told", HelpName = "N" };

    private readonly Option<string> step = new("--step") { Description = "The bracket's step; 0.7 mm if not told", HelpName = "MM" };

    private readonly Option<string> date = new("--date") { Description = "The day on which this is learned; today if not told", HelpName = "YYYY-MM-DD" };

    private readonly Option<string> sheets = new("--sheets") { Description = "The output folder of the build whose sheet you read: a place where it has no rows is then told", HelpName = "DIR" };

    private IEnumerable<Option> All => [dots, readings, verniers, tick, cross, bars, flaked, held, register, step, date, sheets];

    /// <summary>Adds the options to the command.</summary>
    /// <param name="command">The command.</param>
    internal void AddTo(Command command)
    {
        foreach (Option option in All)
        {
            command.Options.Add(option);
        }
    }

    /// <summary>Whether any of the options was used that say what was seen.</summary>
    /// <param name="result">The parsed command.</param>
    internal bool AnyIn(CommandResult result) => All.Where(option => option != sheets && option != date).Any(option => result.GetResult(option) is { Implicit: false });

    /// <summary>What was typed.</summary>
    /// <param name="parsed">The arguments.</param>
    internal LearnAnswers Of(ParseResult parsed) => new(
        Joined(parsed.GetValue(dots)),
        Joined(parsed.GetValue(readings)),
        parsed.GetValue(tick),
        parsed.GetValue(cross),
        parsed.GetValue(bars) is { Length: > 0 } lengths ? [string.Join(' ', lengths)] : [],
        [.. parsed.GetValue(flaked) ?? []],
        [.. parsed.GetValue(held) ?? []],
        parsed.GetValue(register),
        parsed.GetValue(step))
    {
        Verniers = parsed.GetValue(verniers) is { Length: > 0 } read ? [string.Join(' ', read)] : [],
        Date = parsed.GetValue(date) ?? Today.Text,
        Report = ReportOf(parsed.GetValue(sheets)),
    };

    private static ImmutableArray<byte> ReportOf(string? folder) => folder is null ? []
        : OutputFolder.LastReport(folder) is { IsEmpty: false } report ? report
        : throw new FileProblemException($"'{folder}' holds no sheets of a build: there is no report.json that can be read. It is the folder that 'lampblack build' wrote into, usually 'out' beside the desk.");

    private static Option<string[]> Many(string name, string description, string form) =>
        new(name) { Description = description, HelpName = form, AllowMultipleArgumentsPerToken = true };

    /// <summary>A text with blanks comes in pieces: one without a colon goes on with the one before.</summary>
    private static ImmutableArray<string> Joined(string[]? pieces)
    {
        List<string> texts = [];
        foreach (string piece in pieces ?? [])
        {
            if (texts.Count > 0 && !piece.Contains(':', StringComparison.Ordinal))
            {
                texts[^1] += $" {piece}";
            }
            else
            {
                texts.Add(piece);
            }
        }

        return [.. texts];
    }
}
