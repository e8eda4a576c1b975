using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text;
using Lampblack.Findings;
using Lampblack.Printers;

namespace Lampblack.Jobs;

/// <summary>What can be forgotten of a printer, one thing at a time.</summary>
public enum PrinterLore
{
    /// <summary>How the sheet is turned.</summary>
    Turn,

    /// <summary>Where side 2 lands.</summary>
    Register,

    /// <summary>The measured bars.</summary>
    Bars,

    /// <summary>What flaked and what held.</summary>
    Coverage,

    /// <summary>How dark each black is.</summary>
    Wedge,

    /// <summary>How much toner grows.</summary>
    Gain,

    /// <summary>Where the colours lie.</summary>
    Planes,
}

/// <summary>What a maker says of a new printer path, in the words of the printer file; null where nothing was said.</summary>
/// <param name="Name">The printer's name as the maker calls it.</param>
/// <param name="IsBlackOnly">Whether it prints black only.</param>
/// <param name="Slot">The slot or tray.</param>
/// <param name="Paper">The paper's size.</param>
/// <param name="Weight">The paper's weight, such as <c>120 g/m2</c> or <c>32 lb</c>.</param>
/// <param name="Edge">The edge that goes in first: <c>short</c> or <c>long</c>.</param>
/// <param name="Turning">Who turns the sheet: <c>by-hand</c> or <c>automatic</c>.</param>
/// <param name="Order">The order of sides: <c>front-first</c> or <c>mask-first</c>.</param>
/// <param name="Heavy">The driver's setting for heavy paper.</param>
/// <param name="Margin">The unprintable border, a length.</param>
/// <param name="LeadingEdge">The strip at the leading edge, a length.</param>
public sealed record NewPrinter(
    string Name,
    bool IsBlackOnly,
    string? Slot,
    string Paper,
    string? Weight,
    string? Edge,
    string? Turning,
    string? Order,
    string? Heavy,
    string? Margin,
    string? LeadingEdge);

/// <summary>The door to printer files: read, write, start, tell, forget. Bytes in, bytes out.</summary>
public static class PrinterFiles
{
    /// <summary>The largest printer file that is read.</summary>
    public const long LimitBytes = PrinterFileReader.LimitBytes;

    /// <summary>Reads a printer file.</summary>
    /// <param name="fileName">Its name for findings.</param>
    /// <param name="bytes">Its bytes.</param>
    public static Checked<PrinterFile> Read(string fileName, ImmutableArray<byte> bytes) => PrinterFileReader.Read(fileName, bytes.AsSpan());

    /// <summary>Writes a printer file; the same record gives the same bytes.</summary>
    public static ImmutableArray<byte> Write(PrinterFile file) => PrinterFileWriter.Write(file);

    /// <summary>The name of the paper of a printer file's path.</summary>
    public static string PaperOf(PrinterFile file)
    {
        ArgumentNullException.ThrowIfNull(file);
        return file.Path.Paper;
    }

    /// <summary>Whether a printer file is of a printer that prints colours.</summary>
    public static bool HasColours(PrinterFile file)
    {
        ArgumentNullException.ThrowIfNull(file);
        return file.Path.Colour;
    }

    /// <summary>Whether a printer file's path is one on which the printer turns the sheet itself.</summary>
    public static bool TurnsItself(PrinterFile file)
    {
        ArgumentNullException.ThrowIfNull(file);
        return file.Path.Turning == Turning.Automatic;
    }

    /// <summary>A printer file of which nothing has been learned yet, from a maker's answers. They are read as the file itself is, with the same findings.</summary>
    public static Checked<PrinterFile> Start(NewPrinter answers)
    {
        ArgumentNullException.ThrowIfNull(answers);
        var text = new StringBuilder()
            .Append(PrinterFileMigration.Key).Append(" = 1\nname = ").Append(PrinterFileWriter.Text(answers.Name))
            .Append("\n[path]\ncolour = ").Append(answers.IsBlackOnly ? "false" : "true").Append('\n');
        foreach (var (key, answer) in new (string Key, string? Answer)[]
        {
            ("slot", answers.Slot), ("paper", answers.Paper), ("weight", answers.Weight), ("edge", answers.Edge), ("turning", answers.Turning),
            ("order", answers.Order), ("heavy", answers.Heavy), ("margin", answers.Margin), ("leading-edge", answers.LeadingEdge),
        })
        {
            if (!string.IsNullOrWhiteSpace(answer))
            {
                text.Append(key).Append(" = ").Append(PrinterFileWriter.Text(answer.Trim())).Append('\n');
            }
        }

        var read = PrinterFileReader.Read("answers", Encoding.UTF8.GetBytes(text.ToString()));

        // The maker never saw this text, so that its lines are no places.
        return read with { Findings = [.. read.Findings.Select(finding => finding with { Span = null })] };
    }

    /// <summary>A printer file without something that was learned.</summary>
    public static PrinterFile Forget(PrinterFile file, PrinterLore lore)
    {
        ArgumentNullException.ThrowIfNull(file);
        return lore switch
        {
            PrinterLore.Turn => file with { Turns = [] },

            // What sheets up to now were made with is known no more, and the next ones are made with something else.
            PrinterLore.Register => file.Register.IsEmpty ? file : file with { Register = [], Forgotten = file.Revision },
            PrinterLore.Bars => file.Bars.IsEmpty ? file : file with { Bars = [], Register = Numbered(file), Forgotten = file.Revision },
            PrinterLore.Wedge => file with { Wedges = [] },
            PrinterLore.Gain => file with { Gains = [] },
            PrinterLore.Planes => file with { Planes = [] },
            _ => file with { Coverage = [] },
        };
    }

    /// <summary>Each entry with the number that it has now.</summary>
    private static ImmutableArray<RegisterEntry> Numbered(PrinterFile file) => [.. file.Register.Zip(file.RegisterNumbers, (entry, number) => entry with { Number = number })];

    /// <summary>What was learned of a printer, one lesson a line: what kind it was, in the order in which each kind was stored.</summary>
    /// <param name="file">The printer file.</param>
    public static ImmutableArray<string> Lessons(PrinterFile file)
    {
        ArgumentNullException.ThrowIfNull(file);
        return
        [
            .. file.Turns.Select(turn => On(turn, turn.Tick == Tick.Front ? "which-way sheet: the tick was on the face itself" : $"which-way sheet: the tick was in box {turn.Tick}")),
            .. file.Register.Select(entry => On(entry, FormattableString.Invariant($"register, from {entry.From}: {entry.Readings.Length} {(entry.Readings.Length == 1 ? "reading" : "readings")}{(entry.Number == 0 ? string.Empty : FormattableString.Invariant($", sheet of register {entry.Number}"))}{(entry.RmsMm is { } rms ? FormattableString.Invariant($", {rms:0.000} mm off their fit") : string.Empty)}"))),
            .. file.Bars.Select(bar => On(bar, FormattableString.Invariant($"bars: front {bar.FrontMm:0.##} mm, back {bar.BackMm:0.##} mm"))),
            .. file.Coverage.Select(row => On(row, FormattableString.Invariant($"toner: {row.Held.Length} patches held, {row.Flaked.Length} flaked"))),
            .. file.Wedges.Select(wedge => On(wedge, FormattableString.Invariant($"blacks: {wedge.Patches.Length} patches measured"))),
        ];
    }

    private static string On(PrinterEntry entry, string lesson) => entry.Date is { } day ? $"{day.ToString(PrinterWords.DateForm, CultureInfo.InvariantCulture)}, {lesson}" : lesson;

    /// <summary>What is known of a printer, in plain words and in numbers.</summary>
    public static PrinterAccount Tell(PrinterFile file) => PrinterAccount.Of(file);

    /// <summary>What to print after a build, in a sentence or two: by what is known of the printer, or both ways where nothing is. What only some builds make is told too.</summary>
    /// <param name="printer">The printer file; null where none was named.</param>
    /// <param name="sheet">The folder of a sheet, as it is shown.</param>
    /// <param name="made">The names of the files that this sheet has, without their folder, and of those that lie beside the sheets.</param>
    public static ImmutableArray<string> NextSteps(PrinterFile? printer, string sheet, ImmutableArray<string> made)
    {
        var lines = ImmutableArray.CreateBuilder<string>();
        if (made.Contains(BracketFile.Path))
        {
            lines.Add($"At a copy shop: {BracketFile.Path} alone; its first page tells the operator how. Keep the copy on which the fewest dots shine.");
        }

        var (first, second) = JobFiles.Sides(printer);
        var turned = JobFiles.IsTurnedAbout(printer) ? "turned as on the which-way sheet" : "same edge first";
        var here = made.Contains(BracketFile.Path) ? "Or at your own printer: print" : "Print";
        lines.Add(printer?.Path.Turning == Turning.Automatic
            ? $"{here} duplex.pdf of {sheet}, two-sided, long edge."
            : $"{here} {first}.pdf of {sheet}, turn the sheet by hand ({turned}, white side to be printed), print {second}.pdf."
                + (printer is null ? " A printer that turns the sheet itself takes duplex.pdf instead (long edge)." : string.Empty));
        var again = new[] { first, second }.Select(side => $"{side}-again.pdf").Where(name => made.Contains(name)).ToList();
        if (again.Count > 0)
        {
            lines.Add($"Then the second pass, other edge first: {string.Join(", then ", again)}.");
        }

        if (made.Contains("mask-film.pdf"))
        {
            lines.Add("For a mask on film: mask-film.pdf on one clear film, one-sided.");
        }

        return lines.ToImmutable();
    }
}
