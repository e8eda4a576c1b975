using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Printers;

/// <summary>Reads what was learned: the entries of a printer file.</summary>
/// <param name="findings">Where findings go.</param>
internal sealed partial class PrinterEntryReader(List<Finding> findings)
{
    // Half of the largest sheet is 216 mm; a place beyond this is no place of a sheet.
    private const double FarthestMm = 300;

    private const double LargestShiftMm = 20;

    // Nobody makes so dark a print, and no camera would see it.
    private const double LargestDensity = 8;

    /// <summary>The largest number of a lesson: more than anybody learns, and one can still be added.</summary>
    public const int MostLessons = 1_000_000;

    private static readonly ImmutableArray<(string Word, int Value)> Sources = [.. PrinterWords.Sources.Select((word, index) => (word, index))];

    /// <summary>What is said of a date that is none.</summary>
    /// <param name="text">As it was written.</param>
    public static Finding BadDate(string text) => Finding.Stop("date-form", $"{Shown.Quoted(text)} is no date", "write the year, the month and the day, such as \"2026-03-09\"");

    public ImmutableArray<TurnEntry> Turns(ImmutableArray<TableReader> tables)
    {
        var turns = ImmutableArray.CreateBuilder<TurnEntry>();
        foreach (var table in tables)
        {
            Require(table, "tick", "\"A\"");
            var tick = table.Choice("tick", PrinterWords.Ticks);
            var face = table.Choice("face", PrinterWords.Faces) ?? PrintedFace.Unknown;
            var date = Date(table);
            table.Finish();
            if (tick is { } known)
            {
                turns.Add(new(known, face) { Date = date });
            }
        }

        return turns.ToImmutable();
    }

    public ImmutableArray<RegisterEntry> Register(ImmutableArray<TableReader> tables)
    {
        var entries = ImmutableArray.CreateBuilder<RegisterEntry>();
        foreach (var table in tables)
        {
            Require(table, "from", "\"readings\"");
            var from = table.Choice("from", Sources);
            var readings = table.Tables("readings", "reading").Select(ReadReading).OfType<RegisterReading>().ToImmutableArray();
            if (readings.IsEmpty)
            {
                Empty(table, "a register entry has no reading", "it holds at least one, such as `readings = [ { at = [80, 115], right = 0.3, sd = 0.1 } ]`");
            }

            var number = table.Whole("number", 1, MostLessons) ?? 0;
            var copy = table.Whole("copy", 1, MostLessons);
            var sheet = Sheet(table);
            var rms = table.LengthMm("rms", 0, 10);
            var date = Date(table);
            table.Finish();
            if (from is { } source && !readings.IsEmpty)
            {
                entries.Add(new(PrinterWords.Sources[source], readings, number) { Copy = copy, Sheet = sheet, RmsMm = rms, Date = date });

                // A back that is wider or taller than any printer makes it was fitted to other paper: learning refuses it, and so must a file that comes from elsewhere.
                if (ScaleCause.Scaled(entries[^1]) is { } scaled)
                {
                    findings.Add(scaled with { Span = table.Span });
                }
            }
        }

        return entries.ToImmutable();
    }

    /// <param name="tables">The tables.</param>
    /// <param name="next">The number of bars that have none: they are told now.</param>
    public ImmutableArray<BarEntry> Bars(ImmutableArray<TableReader> tables, int next)
    {
        var bars = ImmutableArray.CreateBuilder<BarEntry>();
        foreach (var table in tables)
        {
            // As it was written before lessons had numbers: how many register entries there were.
            var earlier = table.Whole("revision", 0, MostLessons - 1) + 1;
            var bar = new BarEntry(
                table.LengthMm("front", BarLimits.ShortestMm, BarLimits.LongestMm), table.LengthMm("back", BarLimits.ShortestMm, BarLimits.LongestMm), table.Whole("number", 1, MostLessons) ?? earlier ?? next)
            {
                AlongMm = table.LengthMm("along", BarLimits.AlongMm / 2, BarLimits.AlongMm * 1.5),
                AcrossMm = table.LengthMm("across", BarLimits.AcrossMm / 2, BarLimits.AcrossMm * 1.5),
                Date = Date(table),
            };
            if (BarLimits.Scaled(bar.FrontMm, bar.BackMm, string.Empty) is { } scaled)
            {
                findings.Add(scaled with { Span = table.SpanOf(Math.Abs((bar.FrontMm ?? BarLimits.BarMm) - BarLimits.BarMm) > BarLimits.LargestErrorMm ? "front" : "back") });
            }

            if (BarLimits.ScaledSheet(bar.AlongMm, bar.AcrossMm, string.Empty) is { } sheet)
            {
                findings.Add(sheet with { Span = table.SpanOf(BarLimits.ScaledSheet(bar.AlongMm, null, string.Empty) is null ? "across" : "along") });
            }

            if (!table.Has("front") && !table.Has("back") && !table.Has("along") && !table.Has("across"))
            {
                Empty(table, "a bars entry has neither `front` nor `back`, `along` nor `across`", "write at least one of them, in mm");
            }

            table.Finish();
            bars.Add(bar);
        }

        return bars.ToImmutable();
    }

    public ImmutableArray<CoverageEntry> Coverage(ImmutableArray<TableReader> tables)
    {
        var entries = ImmutableArray.CreateBuilder<CoverageEntry>();
        foreach (var table in tables)
        {
            entries.Add(new(Coverages(table, "flaked"), Coverages(table, "held")) { Date = Date(table) });
            if (!table.Has("flaked") && !table.Has("held"))
            {
                Empty(table, "a coverage entry has neither `flaked` nor `held`", "write at least one of them, such as `held = [240]`");
            }

            table.Finish();
        }

        return entries.ToImmutable();
    }

    public ImmutableArray<WedgeEntry> Wedges(ImmutableArray<TableReader> tables)
    {
        var entries = ImmutableArray.CreateBuilder<WedgeEntry>();
        foreach (var table in tables)
        {
            var patches = table.Tables("patches", "patch").Select(ReadPatch).OfType<PatchDensity>().ToImmutableArray();
            if (patches.IsEmpty)
            {
                Empty(table, "a wedge entry has no patch", "it holds at least one, such as `patches = [ { id = \"front-K-vector\", density = 1.4, sd = 0.02 } ]`");
            }

            var sheet = Sheet(table);
            var date = Date(table);
            table.Finish();
            if (!patches.IsEmpty)
            {
                entries.Add(new(patches) { Sheet = sheet, Date = date });
            }
        }

        return entries.ToImmutable();
    }

    private DateOnly? Date(TableReader table)
    {
        var text = table.Text("date");
        var day = text is null ? null : PrinterWords.Date(text);
        if (text is not null && day is null)
        {
            findings.Add(BadDate(text) with { Span = table.SpanOf("date") });
        }

        return day;
    }

    private static int Sheet(TableReader table) => table.Whole("sheet", 1, MostLessons) ?? 0;

    private PatchDensity? ReadPatch(TableReader table)
    {
        var id = table.RequiredText("id", "\"front-K-vector\"");
        var density = table.Number("density", -1, LargestDensity);
        var sd = table.Number("sd", 0.001, LargestDensity);
        var atLeast = table.Number("at-least", -1, LargestDensity);
        if (table.Has("density") == table.Has("at-least") || table.Has("density") != table.Has("sd"))
        {
            Empty(table, "a patch has neither `density` with `sd` nor `at-least`, or both", "write `density` and `sd`, or `at-least` alone");
        }

        table.Finish();
        return id is null ? null : density is { } read && sd is { } known ? new(id, read, known, false) : atLeast is { } bound ? new(id, bound, 0, true) : null;
    }

    private static ImmutableArray<double> Coverages(TableReader table, string key) =>
        table.Numbers(key, 1, 100, 100, 400, "[240]") is { } percent ? [.. percent.Select(value => value / 100)] : [];

    private RegisterReading? ReadReading(TableReader table)
    {
        Require(table, "at", "[80, 115]");
        var at = table.PlaceMm("at", -FarthestMm, FarthestMm);
        var right = table.LengthMm("right", -LargestShiftMm, LargestShiftMm);
        var up = table.LengthMm("up", -LargestShiftMm, LargestShiftMm);
        var sd = table.RequiredLengthMm("sd", 0.001, 10, "0.1");
        if (!table.Has("right") && !table.Has("up"))
        {
            Empty(table, "a reading has neither `right` nor `up`", "write at least one of them, in mm");
        }

        table.Finish();
        return at is { } place && sd is { } known && (right ?? up) is not null ? new(place.XMm, place.YMm, right, up, known) : null;
    }

    private void Require(TableReader table, string key, string example)
    {
        if (!table.Has(key))
        {
            findings.Add(Finding.Stop("key-missing", $"`{key}` is missing in {table.What}", $"Add it, for example `{key} = {example}`.", table.Span));
        }
    }

    private void Empty(TableReader table, string message, string hint) => findings.Add(Finding.Stop("printer-entry-empty", message, hint, table.Span));
}
