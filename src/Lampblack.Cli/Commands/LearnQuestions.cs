using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Jobs;
using Lampblack.Printers;

namespace Lampblack.Cli.Commands;

/// <summary>Asks at the terminal what was seen on a sheet, one thing after the other; an empty answer skips.</summary>
internal static class LearnQuestions
{
    private static readonly (string Name, string Corner)[] Scales = [("NE", "top right"), ("NW", "top left"), ("SE", "bottom right"), ("SW", "bottom left")];

    /// <summary>The answers to all questions.</summary>
    /// <param name="prompt">Whom to ask.</param>
    /// <param name="file">What is known so far.</param>
    internal static LearnAnswers Ask(Prompt prompt, PrinterFile file)
    {
        LearnAnswers nothing = LearnAnswers.Nothing;
        LearnAnswers said = nothing with
        {
            Tick = One(prompt, file, "Which-way sheet: where is the tick (A, B, front or none; Enter to skip)?", text => nothing with { Tick = text }),
        };
        if (said.Tick is not null)
        {
            said = said with
            {
                Cross = One(prompt, file, "  On which side is your pencil cross (front or back; Enter to skip)?", text => nothing with { Tick = "A", Cross = text }),
            };
        }

        List<string> readings = [];
        foreach ((string name, string corner) in Scales)
        {
            if (One(prompt, file, $"Scale {name}, {corner}: where does the back's line stand (such as x=+0.3,y=-0.1; Enter to skip)?", text => nothing with { Readings = [Placed(name, text)] }) is { } text)
            {
                readings.Add(Placed(name, text));
            }
        }

        said = said with { Readings = [.. readings], Dots = Dots(prompt, file) };
        if (said.Dots.Any(text => text.Split(':')[0] is { } head && (head.Contains('@', StringComparison.Ordinal) || head.Trim().Length == 1)))
        {
            said = said with { Step = One(prompt, file, "  The bracket's step (Enter for 0.7 mm)?", text => nothing with { Dots = ["5:N=0,E=0,S=0,W=0"], Step = text }) };
        }

        if (file.Revision > 0 && (said.Readings.Length > 0 || said.Dots.Length > 0))
        {
            string newest = file.Revision.ToString(CultureInfo.InvariantCulture);
            said = said with { Register = One(prompt, file, $"  The number behind 'register' on that sheet (Enter for {newest})?", text => nothing with { Readings = ["NE:x=0"], Register = text }) };
        }

        said = said with { Bars = List(One(prompt, file, "How long are the bars of 100 mm (such as front=99.8,back=99.7; Enter to skip)?", text => nothing with { Bars = [text] })) };
        said = said with { Flaked = List(One(prompt, file, "Which patches flaked (such as C300,C320; Enter to skip)?", text => nothing with { Flaked = [text] })) };
        return said with { Held = List(One(prompt, file, "Which patches held (such as C240; Enter to skip)?", text => nothing with { Flaked = said.Flaked, Held = [text] })) };
    }

    private static ImmutableArray<string> Dots(Prompt prompt, PrinterFile file)
    {
        List<string> dots = [];
        string question = "Dots of one block, after the place beside it (such as 6-21:N=2,E=0,S=0,W=1; Enter to skip)?";
        while (One(prompt, file, question, text => LearnAnswers.Nothing with { Dots = [text] }) is { } text)
        {
            dots.Add(text);
            question = "  Another block of the same sheet or bracket (Enter for no more)?";
        }

        return [.. dots];
    }

    private static string? One(Prompt prompt, PrinterFile file, string question, Func<string, LearnAnswers> alone)
    {
        string answer = prompt.Ask(question, string.Empty, text => text.Length == 0 ? null : Learn.Problem(file, alone(text)));
        return answer.Length == 0 ? null : answer;
    }

    private static string Placed(string name, string text) => text.Contains(':', StringComparison.Ordinal) ? text : $"{name}:{text}";

    private static ImmutableArray<string> List(string? text) => text is null ? [] : [text];
}
