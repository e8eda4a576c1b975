using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text;

namespace Lampblack.Printers;

/// <summary>Writes a printer file: the same record gives the same bytes, and reading them gives the same record.</summary>
public static class PrinterFileWriter
{
    private const string Head = """
        # A printer file of Lampblack: one path through one printer. docs/printer-file.md says what each key means.
        # The program writes this file anew whenever it learns something: comments and blank lines of yours are not kept.

        """;

    /// <summary>The file's bytes: UTF-8 without a byte-order mark, lines ended by a line feed alone.</summary>
    public static ImmutableArray<byte> Write(PrinterFile file)
    {
        ArgumentNullException.ThrowIfNull(file);
        var text = new StringBuilder(Head.ReplaceLineEndings("\n"));
        Line(text, PrinterFileMigration.Key, PrinterFile.Version.ToString(CultureInfo.InvariantCulture));
        Line(text, "name", Text(file.Name));
        Line(text, "forgotten", file.Forgotten == 0 ? null : file.Forgotten.ToString(CultureInfo.InvariantCulture));
        WritePath(text, file.Path);
        WriteCost(text, file.Cost);
        foreach (var turn in file.Turns)
        {
            text.Append("\n[[turn]]\n");
            Line(text, "tick", Word(PrinterWords.Ticks, turn.Tick));
            Line(text, "face", Word(PrinterWords.Faces, turn.Face));
            Date(text, turn);
        }

        foreach (var (entry, number) in file.Register.Zip(file.RegisterNumbers))
        {
            text.Append("\n[[register]]\n");
            Line(text, "number", number.ToString(CultureInfo.InvariantCulture));
            Line(text, "from", Text(entry.From));
            Line(text, "copy", entry.Copy?.ToString(CultureInfo.InvariantCulture));
            Sheet(text, entry.Sheet);
            Line(text, "rms", Number(entry.RmsMm));
            Date(text, entry);
            text.Append("readings = [\n");
            foreach (var reading in entry.Readings)
            {
                text.Append("  { ").AppendJoin(", ", Parts(reading)).Append(" },\n");
            }

            text.Append("]\n");
        }

        foreach (var bar in file.Bars)
        {
            text.Append("\n[[bars]]\n");
            Line(text, "front", Number(bar.FrontMm));
            Line(text, "back", Number(bar.BackMm));
            Line(text, "along", Number(bar.AlongMm));
            Line(text, "across", Number(bar.AcrossMm));
            Line(text, "number", bar.Number.ToString(CultureInfo.InvariantCulture));
            Date(text, bar);
        }

        foreach (var entry in file.Coverage)
        {
            text.Append("\n[[coverage]]\n");
            Line(text, "flaked", Percents(entry.Flaked));
            Line(text, "held", Percents(entry.Held));
            Date(text, entry);
        }

        foreach (var wedge in file.Wedges)
        {
            text.Append("\n[[wedge]]\n");
            Sheet(text, wedge.Sheet);
            Date(text, wedge);
            text.Append("patches = [\n");
            foreach (var patch in wedge.Patches)
            {
                text.Append("  { id = ").Append(Text(patch.Id)).Append(patch.IsLowerBound ? ", at-least = " : ", density = ").Append(Number(patch.Density))
                    .Append(patch.IsLowerBound ? string.Empty : $", sd = {Number(patch.UncertaintyDensity)}").Append(" },\n");
            }

            text.Append("]\n");
        }

        foreach (var gain in file.Gains)
        {
            text.Append("\n[[gain]]\n");
            Sheet(text, gain.Sheet);
            Line(text, "across", Number(gain.AcrossMm));
            Line(text, "along", Number(gain.AlongMm));
            Line(text, "sd", Number(gain.SdMm));
            Date(text, gain);
        }

        foreach (var planes in file.Planes)
        {
            text.Append("\n[[planes]]\n");
            Sheet(text, planes.Sheet);
            Date(text, planes);
            text.Append("readings = [\n");
            foreach (var reading in planes.Readings)
            {
                text.Append("  { ink = ").Append(Text($"{reading.Letter}")).Append(", ").AppendJoin(", ", Parts(new RegisterReading(reading.XMm, reading.YMm, reading.RightMm, reading.UpMm, reading.SdMm))).Append(" },\n");
            }

            text.Append("]\n");
        }

        return [.. Encoding.UTF8.GetBytes(text.ToString())];
    }

    private static void Date(StringBuilder text, PrinterEntry entry) => Line(text, "date", entry.Date is { } day ? Text(day.ToString(PrinterWords.DateForm, CultureInfo.InvariantCulture)) : null);

    private static void Sheet(StringBuilder text, int sheet) => Line(text, "sheet", sheet == 0 ? null : sheet.ToString(CultureInfo.InvariantCulture));

    private static void WritePath(StringBuilder text, PrinterPath path)
    {
        text.Append("\n[path]\n");
        Line(text, "colour", path.Colour ? "true" : "false");
        Line(text, "slot", path.Slot is { } slot ? Text(slot) : null);
        Line(text, "paper", Text(path.Paper));
        Line(text, "weight", Number(path.WeightGramsPerM2));
        Line(text, "edge", Word(PrinterWords.Edges, path.Edge));
        Line(text, "turning", Word(PrinterWords.Turnings, path.Turning));
        Line(text, "order", Word(PrinterWords.Orders, path.Order));
        Line(text, "heavy", path.HeavySetting is { } heavy ? Text(heavy) : null);
        Line(text, "margin", Number(path.MarginMm));
        Line(text, "leading-edge", Number(path.LeadingEdgeMm));
    }

    private static void WriteCost(StringBuilder text, PrintCost cost)
    {
        if (cost == PrintCost.Unknown)
        {
            return;
        }

        text.Append("\n[cost]\n");
        Line(text, "currency", cost.Currency is { } word ? Text(word) : null);
        Line(text, "sheet", Number(cost.SheetPrice));
        Line(text, "cartridge", Number(cost.CartridgePrice));
        Line(text, "pages", Number(cost.CartridgePages));
        Line(text, "colour-cartridge", Number(cost.ColourPrice));
        Line(text, "colour-pages", Number(cost.ColourPages));
    }

    private static IEnumerable<string> Parts(RegisterReading reading)
    {
        yield return $"at = [{Number(reading.XMm)}, {Number(reading.YMm)}]";
        if (reading.RightMm is not null)
        {
            yield return $"right = {Number(reading.RightMm)}";
        }

        if (reading.UpMm is not null)
        {
            yield return $"up = {Number(reading.UpMm)}";
        }

        yield return $"sd = {Number(reading.SdMm)}";
    }

    /// <summary>A line, unless nobody said anything.</summary>
    private static void Line(StringBuilder text, string key, string? value)
    {
        if (value is not null)
        {
            text.Append(key).Append(" = ").Append(value).Append('\n');
        }
    }

    private static string? Word<T>(ImmutableArray<(string Word, T Value)> words, T value)
        where T : struct, Enum => PrinterWords.Of(words, value) is { } word ? Text(word) : null;

    // The shortest digits that read back as the very same number.
    private static string? Number(double? value) => value?.ToString("R", CultureInfo.InvariantCulture);

    private static string? Percents(ImmutableArray<double> coverages) => coverages.IsEmpty
        ? null
        : "[" + string.Join(", ", coverages.Select(coverage => Number(Math.Round(coverage * 100, 6, MidpointRounding.AwayFromZero)))) + "]";

    /// <summary>A text between quotes, as TOML has it.</summary>
    internal static string Text(string value)
    {
        var quoted = new StringBuilder("\"");
        foreach (var unit in value)
        {
            quoted.Append(unit switch
            {
                '"' => "\\\"",
                '\\' => "\\\\",
                '\n' => "\\n",
                '\t' => "\\t",
                < ' ' or '\u007F' => "\\u" + ((int)unit).ToString("X4", CultureInfo.InvariantCulture),
                _ => unit.ToString(),
            });
        }

        return quoted.Append('"').ToString();
    }
}
