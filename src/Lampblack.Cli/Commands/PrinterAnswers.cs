using System;
using System.Collections.Generic;
using System.CommandLine;
using System.Linq;
using Lampblack.Host;
using Lampblack.Jobs;
using Lampblack.Quantities;

namespace Lampblack.Cli.Commands;

/// <summary>What <c>printer new</c> takes: each as an option, or asked at a terminal.</summary>
internal sealed class PrinterAnswers
{
    private static readonly TwoWords Inks = new("colour", ["y", "yes", "color", "colours", "colors"], "black", ["n", "no", "none", "black-only", "mono", "bw", "b/w"]);

    private static readonly TwoWords Edges = new("short", ["short-edge"], "long", ["long-edge"]);

    private static readonly TwoWords Turnings = new("by-hand", ["hand", "manual", "manually", "me", "myself", "i", "i-do"], "automatic", ["automatically", "printer", "the-printer", "duplex", "itself"]);

    private static readonly TwoWords Orders = new("front-first", [], "mask-first", ["back", "back-first"]);

    private readonly Option<bool> blackOnly = new("--black-only") { Description = "The printer has black only" };

    private readonly List<Question> questions;

    /// <summary>The questions in their order.</summary>
    internal PrinterAnswers() => questions =
    [
        new("--paper", "The paper's size", "Which paper", PaperProblem, () => UsualPaper.Here()),
        new("--weight", "The paper's weight, such as \"120 g/m2\" or \"32 lb\"", "How heavy is it (g/m2, or lb; empty if you don't know)", WeightProblem),
        new("--slot", "The slot or tray, as you call it", "Which slot or tray (empty if there is only one)", _ => null),
        new("--edge", "The edge that goes into the printer first: short or long", "Which edge goes in first (short or long; empty if you don't know)", Edges),
        new("--turning", "Who turns the sheet: by-hand or automatic", "Who turns the sheet (by-hand or automatic)", Turnings, () => "by-hand"),
        new("--order", "Which side is printed first: front-first or mask-first", "Which side is printed first (front-first or mask-first)", Orders, () => "front-first"),
        new("--heavy", "The driver's setting for heavy paper, as it is called there", "Which setting for heavy paper (as the driver calls it; empty for none)", _ => null),
        new("--margin", "The border that the printer can't print, a length", "How wide is the border that it can't print", LengthProblem, () => "5 mm"),
        new("--leading-edge", "The strip at the leading edge that stays free of heavy toner, a length", "How deep a strip at the leading edge stays free of heavy toner", LengthProblem, () => "10 mm"),
    ];

    /// <summary>Adds the options to the command, with their checks.</summary>
    /// <param name="command">The command.</param>
    internal void AddTo(Command command)
    {
        command.Options.Add(blackOnly);
        foreach (Question question in questions)
        {
            question.Option.Validators.Add(result =>
            {
                string written = result.Tokens.LastOrDefault()?.Value ?? string.Empty;
                if (question.Problem(written) is { } problem)
                {
                    result.AddError($"{question.Option.Name}: {problem}");
                }
            });
            command.Options.Add(question.Option);
        }
    }

    /// <summary>The answers: given as options, else asked, else usual.</summary>
    /// <param name="parsed">The arguments.</param>
    /// <param name="name">The printer's name.</param>
    /// <param name="prompt">Whom to ask; null where nobody can be asked.</param>
    internal NewPrinter Of(ParseResult parsed, string name, Prompt? prompt) => Of(
        name, parsed.GetResult(blackOnly) is null or { Implicit: true } ? null : parsed.GetValue(blackOnly), option => parsed.GetValue(option), prompt);

    /// <summary>The answers for a command that has none of these options but paper and black: asked, else usual.</summary>
    /// <param name="name">The printer's name.</param>
    /// <param name="paperSaid">The paper, where it was said.</param>
    /// <param name="isBlackOnlySaid">Whether it was said that the printer has black only.</param>
    /// <param name="prompt">Whom to ask; null where nobody can be asked.</param>
    internal NewPrinter Of(string name, string? paperSaid, bool isBlackOnlySaid, Prompt? prompt) => Of(
        name, isBlackOnlySaid ? true : null, option => option.Name == "--paper" ? paperSaid : null, prompt);

    private NewPrinter Of(string name, bool? isBlackOnlySaid, Func<Option<string>, string?> given, Prompt? prompt)
    {
        bool isBlackOnly = isBlackOnlySaid
            ?? (prompt is not null && Inks.Meant(prompt.Ask("Does it print colours, or black only (colour or black)", "colour", Inks.Problem)) == "black");
        Dictionary<string, string?> said = questions.ToDictionary(
            question => question.Option.Name,
            question => question.Meant(given(question.Option) ?? prompt?.Ask(question.Text, question.Usual?.Invoke() ?? string.Empty, question.Problem) ?? question.Usual?.Invoke()),
            StringComparer.Ordinal);
        return new(
            name, isBlackOnly, said["--slot"], said["--paper"] ?? UsualPaper.Here(), said["--weight"], said["--edge"], said["--turning"], said["--order"], said["--heavy"], said["--margin"], said["--leading-edge"]);
    }

    private static string? PaperProblem(string text) => PaperSize.Find(text) is null
        ? $"'{text}' is no paper that is known: {string.Join(", ", PaperSize.All.Select(size => size.Name))}."
        : null;

    private static string? WeightProblem(string text) => text.Length == 0 || PaperWeight.TryRead(text, out _, out string problem) ? null : $"'{text}' {problem}.";

    private static string? LengthProblem(string text) =>
        !LengthText.TryRead(text, out double mm, out string problem) ? $"'{text}' {problem}." : mm is < 0 or > 40 ? $"'{text}' is not from 0 to 40 mm." : null;

    private sealed class Question(string option, string description, string text, Func<string, string?> problem, Func<string>? usual = null)
    {
        private readonly TwoWords? words;

        public Question(string option, string description, string text, TwoWords words, Func<string>? usual = null)
            : this(option, description, text, words.Problem, usual) => this.words = words;

        public string? Meant(string? answer) => answer is null || words is null ? answer : words.Meant(answer);

        public Option<string> Option { get; } = new(option) { Description = description, HelpName = option[2..].ToUpperInvariant() };

        public string Text { get; } = text;

        public Func<string, string?> Problem { get; } = problem;

        public Func<string>? Usual { get; } = usual;
    }
}
