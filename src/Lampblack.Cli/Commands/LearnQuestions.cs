using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Printers;

namespace Lampblack.Cli.Commands;

/// <summary>Asks at the terminal what was seen on a sheet, one thing after the other; an empty answer skips.</summary>
internal sealed class LearnQuestions
{
    private static readonly (string Name, string Corner)[] Scales = [("NE", "top right"), ("NW", "top left"), ("SE", "bottom right"), ("SW", "bottom left")];

    private readonly Prompt prompt;
    private readonly PrinterFile file;
    private readonly LearnAnswers nothing;
    private string? register;

    private LearnQuestions(Prompt prompt, PrinterFile file, ImmutableArray<byte> report)
    {
        this.prompt = prompt;
        this.file = file;
        nothing = LearnAnswers.Nothing with { Report = report };
    }

    /// <summary>The answers to all questions.</summary>
    /// <param name="prompt">Whom to ask.</param>
    /// <param name="file">What is known so far.</param>
    /// <param name="report"><c>report.json</c> of the build whose sheet was read; empty where nobody named one.</param>
    internal static LearnAnswers Ask(Prompt prompt, PrinterFile file, ImmutableArray<byte> report) => new LearnQuestions(prompt, file, report).All();

    private LearnAnswers All()
    {
        string? tick = One("Which-way sheet: where is the tick (A, B, front or none; Enter to skip)?", text => nothing with { Tick = text });
        string? cross = tick is null ? null : One("  On which side is your pencil cross (front or back; Enter to skip)?", text => nothing with { Tick = "A", Cross = text });

        // Before all readings: each of them means something else on a sheet of another number.
        if (file.Revision > 0)
        {
            string newest = file.Revision.ToString(CultureInfo.InvariantCulture);
            register = One($"Sheet with scales and dots: which number stands behind 'register' on it (0 for none; Enter for {newest})?", WithRegister);
        }

        LearnAnswers said = nothing with { Tick = tick, Cross = cross, Readings = [.. Scales.Select(Scale).OfType<string>()], Dots = Dots() };
        if (said.Dots.Any(text => text.Split(':')[0] is { } head && (head.Contains('@', StringComparison.Ordinal) || head.Trim().Length == 1)))
        {
            said = said with { Step = One("  The bracket's step (Enter for 0.7 mm)?", text => nothing with { Dots = ["5:N=0,E=0,S=0,W=0"], Step = text }) };
        }

        said = said with { Bars = List(One("How long are the bars of 100 mm (such as front=99.8,back=99.7; Enter to skip)?", text => nothing with { Bars = [text], Register = register })) };
        said = said with { Flaked = List(One("Which patches flaked (such as C300,C320; Enter to skip)?", text => nothing with { Flaked = [text] })) };
        said = said with { Held = List(One("Which patches held (such as C240; Enter to skip)?", text => nothing with { Flaked = said.Flaked, Held = [text] })) };

        // A number alone is nothing that could be learned from.
        return said with { Register = said.Readings.IsEmpty && said.Dots.IsEmpty && said.Bars.IsEmpty ? null : register };
    }

    /// <summary>One scale: right, then up. Both can be told at the first question, as behind <c>--reading</c>.</summary>
    private string? Scale((string Name, string Corner) scale)
    {
        string? right = Reading(
            $"Scale {scale.Name}, {scale.Corner}: how far right of the middle does the back's line stand, in mm (left is minus, such as 0.3 or -0.1; Enter to skip the scale)?",
            text => Placed(scale.Name, text.Contains('=', StringComparison.Ordinal) ? text : $"x={text}"));
        if (right is null || right.Contains('=', StringComparison.Ordinal))
        {
            return right is null ? null : Placed(scale.Name, right);
        }

        string? up = Reading("  and how far up (down is minus; Enter if you did not look)?", text => Placed(scale.Name, $"y={text}"));
        return Placed(scale.Name, up is null ? $"x={right}" : $"x={right},y={up}");
    }

    private ImmutableArray<string> Dots()
    {
        List<string> dots = [];
        string question = "Dots of one block, after the place below it (such as 6-21:N=2,E=0,S=0,W=1; Enter to skip)?";
        while (Sure(question, text => nothing with { Dots = [text], Register = register }) is { } text)
        {
            dots.Add(text);
            question = "  Another block of the same sheet or bracket (Enter for no more)?";
        }

        return [.. dots];
    }

    private string? Reading(string question, Func<string, string> typed) => Sure(question, text => nothing with { Readings = [typed(text)], Register = register });

    /// <summary>An answer that is asked for again where it lies far from all earlier sheets, until it is typed twice; where it would fit another register number, that is asked.</summary>
    private string? Sure(string question, Func<string, LearnAnswers> alone)
    {
        string? doubted = null;
        string answer = prompt.Ask(question, string.Empty, text => text.Length == 0 ? null : Learn.Problem(file, alone(text)) ?? Doubtful(text));
        if (answer.Length == 0)
        {
            return null;
        }

        if (Learn.Doubt(file, alone(answer)) is { Severity: Severity.Stop } apart)
        {
            prompt.Tell($"{apart.Message}.");
            register = prompt.Ask("  Which number stands behind 'register' on that sheet (0 for none)?", string.Empty, text => text.Length == 0 ? "Look at the sheet's top line; 0 if there is no such word." : Learn.Problem(file, WithRegister(text)));
        }

        return answer;

        string? Doubtful(string text)
        {
            if (text == doubted || Learn.Doubt(file, alone(text)) is not { Severity: Severity.Warn } apart)
            {
                return null;
            }

            doubted = text;
            return $"{apart.Message.Split(';')[0]}. Look again; type the same once more to keep it.";
        }
    }

    private LearnAnswers WithRegister(string text) => nothing with { Bars = ["front=100"], Register = text };

    private string? One(string question, Func<string, LearnAnswers> alone)
    {
        string answer = prompt.Ask(question, string.Empty, text => text.Length == 0 ? null : Learn.Problem(file, alone(text)));
        return answer.Length == 0 ? null : answer;
    }

    private static string Placed(string name, string text) => text.Contains(':', StringComparison.Ordinal) ? text : $"{name}:{text}";

    private static ImmutableArray<string> List(string? text) => text is null ? [] : [text];
}
