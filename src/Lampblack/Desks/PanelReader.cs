using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using Lampblack.Findings;
using Lampblack.Parts;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Reads one panel.</summary>
internal static class PanelReader
{
    private static readonly MarkStyle UsualMark = new(LightRole.Lit, Quantities.Ink.None, Backed: false);
    private static readonly MarkStyle UsualArea = new(LightRole.Unlit, Quantities.Ink.None, Backed: false);

    /// <summary>The lists of tables in a panel.</summary>
    public static ImmutableArray<string> Lists { get; } = ["control", "legend", "dial", "area", "rule", "art", "emitter"];

    public static Panel? Read(TableReader table, DeskReading reading, TextStyle deskText, SortedSet<string> taken, int number)
    {
        var id = reading.Id(table, "panel", number, taken);
        var title = table.Text("title") ?? id.ToUpperInvariant();
        var size = table.LengthsMm("size", 2, 2, 10, 2000);
        if (!table.Has("size"))
        {
            reading.Findings.Add(Finding.Stop("key-missing", $"panel `{id}` has no `size`", "such as `size = [180, 110]`: width and height in mm", table.Span, id));
        }

        var (width, height) = size is { } given ? (given[0], given[1]) : (100, 100);
        var corner = table.LengthMm("corner", 0, Math.Min(width, height) / 2) ?? 0;
        reading.FieldIsBlack = true;
        var (_, field) = StyleReader.Ink(table, reading, "field");
        reading.FieldIsBlack = field is null;
        var text = deskText;
        if (table.Table("text") is { } textTable)
        {
            text = StyleReader.Text(textTable, deskText);
            textTable.Finish();
        }

        var accepted = AcceptReader.Read(table);
        var fixings = table.Table("fixings") is { } fixingsTable ? ReadFixings(fixingsTable, reading, width, height) : null;
        var ids = new SortedSet<string>(StringComparer.Ordinal);
        var items = ImmutableArray.CreateBuilder<PanelItem>();
        Add("art", (item, itemId) => ArtReader.Read(item, reading, itemId, UsualMark));
        Add("area", (item, itemId) => AreaReader.Read(item, reading, itemId, UsualArea));
        Add("rule", (item, itemId) => RuleReader.Read(item, reading, itemId, UsualMark, text));
        Add("dial", (item, itemId) => DialReader.ReadFree(item, reading, itemId, UsualMark, text));
        Add("control", (item, itemId) => ControlReader.Read(item, reading, itemId, UsualMark, text));
        Add("legend", (item, itemId) => LegendReader.Read(item, reading, itemId, UsualMark, text));
        var emitters = LightingReader.Emitters(table, reading);
        table.Finish();
        return size is null ? null : new(id, title, table.Span, width, height, corner, field, items.ToImmutable(), fixings) { Accepts = accepted, Emitters = emitters };

        void Add(string kind, Func<TableReader, string, PanelItem?> read)
        {
            var count = 0;
            foreach (var item in table.Tables(kind))
            {
                var itemId = reading.Id(item, kind, ++count, ids);
                var accepts = AcceptReader.Read(item);
                var lamp = LightingReader.Lamp(item);
                if (read(item, itemId) is { } done && reading.CountMarks(MarkCount.Of(done), item.Span))
                {
                    items.Add(done with { Accepts = accepts, Lamp = lamp });
                }

                item.Finish();
            }
        }
    }

    private static Fixings? ReadFixings(TableReader table, DeskReading reading, double widthMm, double heightMm)
    {
        KeyUnused.Report(table, reading, table.Has("hole") ? ["part"] : [], "`hole` already gives the size");
        KeyUnused.Report(table, reading, table.Has("at") ? ["inset"] : [], "`at` already gives the places");
        var part = ReadScrew(table, reading);
        var places = table.PlacesMm("at", 1, 200, -DeskReading.FarthestMm, DeskReading.FarthestMm);
        var inset = table.LengthMm("inset", 1, Math.Min(widthMm, heightMm) / 2);
        table.Finish();
        if (places.IsDefaultOrEmpty && inset is { } i)
        {
            places = [(i, i), (widthMm - i, i), (i, heightMm - i), (widthMm - i, heightMm - i)];
        }

        if (places.IsDefaultOrEmpty)
        {
            reading.Findings.Add(Finding.Stop(
                "fixings-place-missing", "`fixings` does not say where the holes are", "give `inset = 6` for the four corners, or `at = [[x, y], ...]`", table.Span));
            return null;
        }

        return part is null ? null : new(part, places, table.Span);
    }

    private static Part? ReadScrew(TableReader table, DeskReading reading)
    {
        var hole = table.LengthMm("hole", 1, 20);
        if (hole is { } diameter)
        {
            return PartReader.PlainHole(string.Create(CultureInfo.InvariantCulture, $"fixing-{diameter}"), diameter);
        }

        var word = table.Text("part") ?? "screw-m3";
        return PartReader.Find(word, table, "part", reading);
    }
}
