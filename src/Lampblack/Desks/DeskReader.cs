using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Parts;
using Lampblack.Quantities;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Reads a desk file. Never throws: whatever is wrong becomes a finding with its place, and the rest is still read.</summary>
public static class DeskReader
{
    private static readonly ImmutableArray<(string Word, WorkOrder Value)> Orders =
        [("A", WorkOrder.GlueThenDrill), ("B", WorkOrder.DrillThenGlue), ("C", WorkOrder.PrintBehind)];

    // White on black is read best a little bolder and smaller than one thinks; common practice, no source.
    private static readonly TextStyle UsualText = new("barlow-condensed-semibold", 3, 0.15, 1.6);

    /// <summary>Reads a desk file.</summary>
    /// <param name="fileName">Its name for findings.</param>
    /// <param name="bytes">Its bytes as they are on disk.</param>
    public static Checked<Desk> Read(string fileName, ReadOnlySpan<byte> bytes) => Read(fileName, TomlText.Read(fileName, bytes));

    /// <summary>Reads a desk whose tables are read already.</summary>
    internal static Checked<Desk> Read(string fileName, Checked<TableNode> text)
    {
        var reading = new DeskReading(fileName);
        reading.Findings.AddRange(text.Findings);
        var root = Migration.ToCurrent(text.Value, reading);
        var table = new TableReader(root.Table, "the desk file", reading.Findings);
        var desk = root.Readable ? ReadDesk(table, reading) : EmptyDesk(fileName, reading);
        return new(desk, [.. reading.Findings]);
    }

    private static Desk EmptyDesk(string title, DeskReading reading) =>
        new(title, WorkOrder.GlueThenDrill, Stack.Usual, EmitterColour.WarmWhite, reading.Inks, [], reading.Parts, []);

    private static Desk ReadDesk(TableReader table, DeskReading reading)
    {
        table.Whole("lampblack", 0, int.MaxValue);
        var title = table.Text("title") ?? "Untitled desk";
        var order = table.Choice("order", Orders) ?? WorkOrder.GlueThenDrill;
        var stack = ReadStack(table.Table("stack"));
        reading.Inks = ReadInks(table.Table("inks"), reading);
        var fonts = ReadFonts(table, reading);
        reading.Parts = reading.Parts.With(PartReader.Read(table, reading));
        var measured = CaliperReader.Apply(table, reading);
        var text = UsualText;
        if (table.Table("text") is { } textTable)
        {
            text = StyleReader.Text(textTable, UsualText);
            textTable.Finish();
        }

        var (light, depth, lighting) = LightingReader.Read(table.Table("lighting"), reading);
        var (use, bench) = (UseReader.Read(table), BenchReader.Read(table, reading));
        var (controller, book) = (ControllerReader.Read(table, reading), BookReader.Read(table, reading));
        var taken = new SortedSet<string>(StringComparer.Ordinal);
        var panels = reading.AtMost(DeskReading.MostPanels, "panels", table.Tables("panel")).Select((panel, index) => PanelReader.Read(panel, reading, text, taken, index + 1)).OfType<Panel>().ToImmutableArray();
        if (panels.IsEmpty && reading.Findings.All(finding => finding.Severity != Severity.Stop))
        {
            reading.Findings.Add(Finding.Stop(
                "panel-missing", "the desk has no panel", "add one: `[[panel]]` with `id = \"main\"` and `size = [180, 110]`", table.Span));
        }

        CaliperReader.ReportUnused(measured, panels, reading);
        var cutting = CuttingReader.Read(table, reading, panels);
        table.Finish("panel", PanelReader.Lists);
        return new(title, order, stack, light, reading.Inks, fonts, reading.Parts, panels) { Use = use, Bench = bench, DepthMm = depth, Lighting = lighting, Cutting = cutting, Controller = controller, Book = book };
    }

    private static Stack ReadStack(TableReader? table)
    {
        if (table is null)
        {
            return Stack.Usual;
        }

        var stack = new Stack(
            table.LengthMm("plate", 0.5, 20) ?? Stack.Usual.PlateMm,
            table.LengthMm("glue", 0, 2) ?? Stack.Usual.GlueMm,
            table.LengthMm("cover", 0, 10) ?? Stack.Usual.CoverMm,
            table.LengthMm("diffuser", 0, 10) ?? Stack.Usual.DiffuserMm);
        table.Finish();
        return stack;
    }

    private static NamedInks ReadInks(TableReader? table, DeskReading reading)
    {
        if (table is null)
        {
            return NamedInks.Usual;
        }

        var own = new List<KeyValuePair<string, Ink>>();
        if (table.Keys.Length > DeskReading.MostDefined)
        {
            reading.Findings.Add(Finding.Stop(
                "items-too-many", $"a desk may mix {DeskReading.MostDefined} inks; this one has {table.Keys.Length}", "delete those that are not used", table.Span));
        }

        foreach (var name in table.Keys)
        {
            if (name is NamedInks.FieldWord or "black")
            {
                reading.Findings.Add(Finding.Stop("ink-name-taken", $"`{name}` always means the field's own black", "choose another name", table.SpanOf(name)));
                _ = table.Raw(name);
                continue;
            }

            var amounts = table.Numbers(name, 4, 4, 0, 100);
            if (amounts is { } percent && own.Count < DeskReading.MostDefined)
            {
                own.Add(new(name, Ink.Cmyk(percent[0] / 100, percent[1] / 100, percent[2] / 100, percent[3] / 100)));
            }
        }

        table.Finish();
        return NamedInks.Usual.With(own);
    }

    private static ImmutableArray<DeskFont> ReadFonts(TableReader table, DeskReading reading)
    {
        var fonts = ImmutableArray.CreateBuilder<DeskFont>();
        foreach (var font in reading.AtMost(DeskReading.MostFonts, "fonts of its own", table.Tables("font")))
        {
            var name = font.RequiredText("name");
            var file = font.RequiredText("file");
            font.Finish();
            if (name is null || file is null)
            {
                continue;
            }

            if (!reading.OwnFonts.Add(name))
            {
                reading.Findings.Add(Finding.Stop(
                    "font-name-twice", $"two fonts are called {Shown.Code(name)}", "rename one of them", font.SpanOf("name")));
                continue;
            }

            fonts.Add(new(name, file, font.SpanOf("file")));
        }

        return fonts.ToImmutable();
    }
}
