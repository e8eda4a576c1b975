using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Quantities;
using Lampblack.SourceText;

namespace Lampblack.Printers;

/// <summary>Reads a printer file. Never throws: whatever is wrong becomes a finding with its place, and the rest is still read.</summary>
public static class PrinterFileReader
{
    /// <summary>The largest printer file that is read: 1 MB, some thousand sheets.</summary>
    public const long LimitBytes = 1_000_000;

    /// <summary>The widest unprintable border that is believed, and the deepest strip at the leading edge.</summary>
    internal const double LargestMarginMm = 40;

    internal const double LightestGramsPerM2 = 40;

    internal const double HeaviestGramsPerM2 = 400;

    /// <summary>What is read where nobody said anything: a colour printer on the most usual paper, with the margins of a printer that nobody has measured.</summary>
    internal static PrinterPath UsualPath { get; } = new(
        true, null, PaperSize.All[0].Name, null, FirstEdge.Unknown, Turning.ByHand, SideOrder.FrontFirst, null,
        PrinterProperties.Unmeasured.MarginMm, PrinterProperties.Unmeasured.LeadingEdgeMm);

    /// <summary>Reads a printer file.</summary>
    /// <param name="fileName">Its name for findings.</param>
    /// <param name="bytes">Its bytes as they are on disk.</param>
    public static Checked<PrinterFile> Read(string fileName, ReadOnlySpan<byte> bytes)
    {
        var text = TomlText.Read(fileName, bytes);
        var findings = text.Findings.ToList();
        if (PrinterFileMigration.ToCurrent(fileName, text.Value, findings) is not { } root)
        {
            return new(PrinterFile.New("unreadable", UsualPath), [.. findings]);
        }

        var table = new TableReader(root, "the printer file", findings);
        table.Whole(PrinterFileMigration.Key, 0, int.MaxValue);
        var name = table.RequiredText("name", "\"study\"") ?? "printer";
        var forgotten = table.Whole("forgotten", 0, PrinterEntryReader.MostLessons) ?? 0;
        var path = ReadPath(table, findings);
        var entries = new PrinterEntryReader(findings);
        var file = new PrinterFile(
            name, path, entries.Turns(table.Tables("turn", "turn")), entries.Register(table.Tables("register", "register entry")), [], entries.Coverage(table.Tables("coverage", "coverage entry")))
        {
            Forgotten = forgotten,
            Cost = PrintCostReader.Read(table),
            Wedges = entries.Wedges(table.Tables("wedge", "wedge entry")),
            Gains = entries.Gains(table.Tables("gain", "gain entry")),
            Planes = entries.Planes(table.Tables("planes", "planes entry")),
        };
        file = file with { Bars = entries.Bars(table.Tables("bars", "bars entry"), file.Revision + 1) };
        table.Finish();
        return new(file, [.. findings]);
    }

    private static PrinterPath ReadPath(TableReader root, List<Finding> findings)
    {
        if (!root.Has("path"))
        {
            findings.Add(Finding.Stop(
                "key-missing", "`path` is missing in the printer file", "add `[path]` and below it `colour = true` and `paper = \"A4\"`", root.Span));
        }

        if (root.Table("path", "the path") is not { } table)
        {
            return UsualPath;
        }

        if (!table.Has("colour"))
        {
            findings.Add(Finding.Stop("key-missing", "`colour` is missing in the path", "add `colour = true`, or `colour = false` for a printer with black only", table.Span));
        }

        var path = new PrinterPath(
            table.Flag("colour") ?? UsualPath.Colour,
            table.Text("slot"),
            ReadPaper(table, findings),
            ReadWeight(table, findings),
            table.Choice("edge", PrinterWords.Edges) ?? UsualPath.Edge,
            table.Choice("turning", PrinterWords.Turnings) ?? UsualPath.Turning,
            table.Choice("order", PrinterWords.Orders) ?? UsualPath.Order,
            table.Text("heavy"),
            table.LengthMm("margin", 0, LargestMarginMm) ?? UsualPath.MarginMm,
            table.LengthMm("leading-edge", 0, LargestMarginMm) ?? UsualPath.LeadingEdgeMm);
        table.Finish();
        return path;
    }

    private static string ReadPaper(TableReader table, List<Finding> findings)
    {
        if (table.RequiredText("paper", "\"A4\"") is not { } written)
        {
            return UsualPath.Paper;
        }

        if (PaperSize.Find(written) is { } paper)
        {
            return paper.Name;
        }

        findings.Add(Finding.Stop(
            "paper-unknown",
            $"there is no paper {Shown.Code(written)}",
            "known are " + string.Join(", ", PaperSize.All.Select(size => size.Name)),
            table.SpanOf("paper")));
        return UsualPath.Paper;
    }

    private static double? ReadWeight(TableReader table, List<Finding> findings)
    {
        if (table.Raw("weight") is not TextNode text)
        {
            return table.Number("weight", LightestGramsPerM2, HeaviestGramsPerM2);
        }

        if (!PaperWeight.TryRead(text.Value, out var weight, out var problem))
        {
            findings.Add(Finding.Stop(
                "weight-unreadable", $"`weight` = {Shown.Quoted(text.Value)} {problem}", "a number without quotes is in g/m2", text.Span));
            return null;
        }

        if (weight is >= LightestGramsPerM2 and <= HeaviestGramsPerM2)
        {
            return weight;
        }

        findings.Add(Finding.Stop(
            "value-range",
            string.Create(CultureInfo.InvariantCulture, $"`weight` must be between {LightestGramsPerM2} and {HeaviestGramsPerM2} g/m2, found {Shown.Quoted(text.Value)} ({weight:0.#} g/m2)"),
            "pounds differ by the kind of paper: \"32 lb\" is bond, \"80 lb cover\" is much heavier",
            text.Span));
        return null;
    }
}
