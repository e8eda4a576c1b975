using System;
using System.Collections.Immutable;
using System.CommandLine;
using System.Linq;
using Lampblack.Host;
using Lampblack.Jobs;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Cli.Commands;

/// <summary>What <c>build</c> takes besides the desk.</summary>
/// <param name="hasDesk">Whether there is a desk file, from which a book is written; else it is one picture.</param>
internal sealed class BuildOptions(bool hasDesk)
{
    private static readonly string[] Papers = ["A4", "Letter", "Legal", "A3", "Tabloid"];
    private static readonly string[] Blacks = ["full", "safe", "K", "gray", "rgb", "learned"];

    /// <summary>The output folder.</summary>
    internal Option<string> Output { get; } = new("--output", "-o") { Description = $"The output folder (usually 'out' beside the {(hasDesk ? "desk file" : "picture, 'out-NAME' where a desk lies there")})", HelpName = "DIR" };

    /// <summary>The paper.</summary>
    internal Option<string> Paper { get; } = new("--paper")
    {
        Description = $"The paper: {string.Join(", ", Papers)} (usually the printer's, else what is usual in your region)",
        HelpName = "P",
    };

    /// <summary>The printer.</summary>
    internal Option<string> Printer { get; } = new("--printer")
    {
        Description = "The printer: a name that 'printer list' shows, or a path to a printer file that ends in .toml",
        HelpName = "NAME",
    };

    /// <summary>The black.</summary>
    internal Option<string> Black { get; } = new("--black")
    {
        Description = "How the black field is printed: safe (240 % toner, the usual), full (400 %), K, gray, rgb, or learned (what the printer file knows to hold)",
        HelpName = "BLACK",
    };

    /// <summary>The spread.</summary>
    internal Option<string> Spread { get; } = new("--spread")
    {
        Description = "How much larger than the legend each opening in the mask is, such as \"0.5 mm\" or \"0.02 in\"",
        HelpName = "LENGTH",
    };

    /// <summary>How many sheets out of a hundred are to come out whole.</summary>
    internal Option<string> GoodSheets { get; } = new("--good-sheets")
    {
        Description = "With a printer that has learned its register: how many sheets out of 100 are to come out whole (95); the spread follows from it",
        HelpName = "PERCENT",
    };

    /// <summary>Whether spare copies fill the sheet.</summary>
    internal Option<bool> Fill { get; } = new("--fill") { Description = "Fill the rest of each sheet with spare copies of small panels" };

    /// <summary>A bracket for a copy shop, with its step.</summary>
    internal Option<string?> Bracket { get; } = new("--bracket")
    {
        Description = "One more file for a copy shop, job.pdf: nine copies of each sheet, the mask moved in steps (0.7 mm, or a step you give)",
        HelpName = "STEP",
        Arity = ArgumentArity.ZeroOrOne,
    };

    /// <summary>Sides that are printed twice.</summary>
    internal Option<string> SecondPass { get; } = new("--second-pass")
    {
        Description = "More files: the black of a side once more, for a black-only printer whose one pass leaks",
        HelpName = "front|mask|both",
    };

    /// <summary>The mask for a film.</summary>
    internal Option<bool> Film { get; } = new("--film") { Description = "One more file: the mask for a clear film that lies behind the front" };

    /// <summary>How far the mask is drawn off in the pictures.</summary>
    internal Option<string> Misregister { get; } = new("--misregister")
    {
        Description = "How far off the mask is drawn in the pictures, in mm to the right and up, such as 0.2,-0.1; nothing that is printed moves",
        HelpName = "RIGHT,UP",
    };

    /// <summary>The contrast wanted.</summary>
    internal Option<string> Contrast { get; } = new("--contrast")
    {
        Description = $"How many times as bright as the lit field the dimmest legend is to be (usually {BuildRequest.UsualContrastFactor}); the build tells what to print for it",
        HelpName = "N",
    };

    /// <summary>Part of the outputs.</summary>
    internal Option<string> Only { get; } = new("--only")
    {
        Description = $"Make only the sheets (print), only the pictures, {(hasDesk ? string.Empty : "or ")}only what the bench needs (bench): charts, templates, drawings for a cutter{(hasDesk ? "; or only the build book (book)" : string.Empty)}",
        HelpName = hasDesk ? "print|pictures|bench|book" : "print|pictures|bench",
    };

    /// <summary>A legend that is changed on a finished panel.</summary>
    internal Option<string> Legend { get; } = new("--legend") { Description = "One more file, legend.html: two pages for changing this one legend on the finished panel, by panel and item such as dome/shutter", HelpName = "ITEM" };

    /// <summary>An answer for machines.</summary>
    internal Option<bool> Json { get; } = new("--json") { Description = $"One JSON object for machines ({(hasDesk ? BuildCommand.Schema : SeparateCommand.Schema)})" };

    /// <summary>Adds the options to the command, with their checks.</summary>
    /// <param name="command">The command.</param>
    internal void AddTo(Command command)
    {
        Paper.AcceptOnlyFromAmong(StringComparer.OrdinalIgnoreCase, Papers);
        Black.CompletionSources.Add(Blacks);
        Only.AcceptOnlyFromAmong(hasDesk ? ["print", "pictures", "bench", "book"] : ["print", "pictures", "bench"]);
        Spread.Validators.Add(result =>
        {
            // Only the tokens are looked at: asking for the value of something that cannot be read would throw.
            string written = result.Tokens.LastOrDefault()?.Value ?? string.Empty;
            if (!LengthText.TryRead(written, out double mm, out string problem))
            {
                result.AddError($"--spread: '{written}' {problem}.");
            }
            else if (mm <= 0)
            {
                result.AddError($"--spread: '{written}' is not more than 0; 0.5 mm is usual.");
            }
        });
        GoodSheets.Validators.Add(result =>
        {
            string written = result.Tokens.LastOrDefault()?.Value ?? string.Empty;
            if (WrittenNumbers.One(written) is not (>= 1 and <= 99.9))
            {
                result.AddError($"--good-sheets: '{written}' is no number from 1 to 99.9; 95 is usual.");
            }
            else if (result.GetResult(Spread) is not null)
            {
                result.AddError("--good-sheets and --spread can't both be given: the spread follows from the share of good sheets.");
            }
        });
        SecondPass.AcceptOnlyFromAmong("front", "mask", "both");
        Bracket.Validators.Add(result =>
        {
            if (result.Tokens.LastOrDefault()?.Value is { } step && !LengthText.TryRead(step, out _, out string problem))
            {
                result.AddError($"--bracket: '{step}' {problem}. Without a step let it stand last.");
            }
        });
        Contrast.Validators.Add(result =>
        {
            if (result.Tokens.LastOrDefault()?.Value is { } written && WrittenNumbers.One(written) is null)
            {
                result.AddError($"--contrast: '{written}' is no number; {BuildRequest.UsualContrastFactor} is usual.");
            }
        });
        Misregister.Validators.Add(result =>
        {
            if (result.Tokens.LastOrDefault()?.Value is { } written && WrittenNumbers.Read(written, 2, 2) is null)
            {
                result.AddError($"--misregister: '{written}' is not two numbers in mm, to the right and up, such as 0.2,-0.1.");
            }
        });
        foreach (Option option in new Option[] { Output, Printer, Paper, Black, Spread, GoodSheets, Fill, Bracket, SecondPass, Film, Misregister, Contrast, Only, Json }.Concat(hasDesk ? [Legend] : []))
        {
            command.Options.Add(option);
        }
    }

    /// <summary>The request that was made.</summary>
    /// <param name="parsed">The arguments.</param>
    /// <param name="printer">The printer file that was named; null for none.</param>
    internal BuildRequest RequestOf(ParseResult parsed, PrinterFile? printer)
    {
        string? written = parsed.GetValue(Paper);
        string? paper = Papers.FirstOrDefault(name => string.Equals(name, written, StringComparison.OrdinalIgnoreCase));
        double? spreadMm = parsed.GetValue(Spread) is { } spread && LengthText.TryRead(spread, out double mm, out _) ? mm : null;
        BuildParts parts = parsed.GetValue(Only) switch
        {
            "print" => BuildParts.Print,
            "pictures" => BuildParts.Pictures,
            "bench" => BuildParts.Bench,
            "book" => BuildParts.Book,
            _ => BuildParts.All,
        };
        string from = paper is not null ? "option" : printer is not null ? "printer" : "region";
        string name = paper ?? (printer is null ? UsualPaper.Here() : PrinterFiles.PaperOf(printer));
        ImmutableArray<double> off = parsed.GetValue(Misregister) is { } moved ? WrittenNumbers.Read(moved, 2, 2)!.Value : [0, 0];
        return new(
            name, from, parsed.GetValue(Black), spreadMm, parsed.GetValue(Fill), parts, printer)
        {
            BracketStepMm = StepOf(parsed),
            GoodShare = WrittenNumbers.One(parsed.GetValue(GoodSheets)) / 100,
            SecondPass = parsed.GetValue(SecondPass) switch
            {
                "front" => Jobs.SecondPass.Front,
                "mask" => Jobs.SecondPass.Mask,
                "both" => Jobs.SecondPass.Front | Jobs.SecondPass.Mask,
                _ => Jobs.SecondPass.None,
            },
            Film = parsed.GetValue(Film),
            Legend = parsed.GetResult(Legend) is null ? null : parsed.GetValue(Legend),
            MisregisterRightMm = off[0],
            MisregisterUpMm = off[1],
            ContrastFactor = WrittenNumbers.One(parsed.GetValue(Contrast)) ?? BuildRequest.UsualContrastFactor,
        };
    }

    private double? StepOf(ParseResult parsed) => parsed.GetResult(Bracket) is null ? null
        : parsed.GetValue(Bracket) is { } step && LengthText.TryRead(step, out double mm, out _) ? mm
        : BuildRequest.UsualBracketStepMm;
}
