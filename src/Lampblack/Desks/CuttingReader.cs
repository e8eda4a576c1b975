using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Reads <c>[cutting]</c> and <c>[[stock]]</c>.</summary>
internal static class CuttingReader
{
    private const int MostPlates = 1000;
    private const int MostSpares = 50;
    private const decimal DearestPrice = 1_000_000;

    private static readonly ImmutableArray<(string Word, CuttingWay Value)> Ways = [("snap", CuttingWay.Snap), ("saw", CuttingWay.Saw)];

    /// <summary>Reads both.</summary>
    public static CuttingWish Read(TableReader root, DeskReading reading, ImmutableArray<Panel> panels)
    {
        var stocks = Stocks(root, reading);
        if (root.Table("cutting") is not { } table)
        {
            return stocks.IsEmpty ? CuttingWish.Unsaid : new() { Span = stocks[0].Span, Stocks = stocks };
        }

        var way = table.Choice("way", Ways);
        var (spares, sparesOf) = Spares(table, reading, panels);
        var wish = new CuttingWish
        {
            Span = table.Span,
            Way = way,
            WaySpan = table.SpanOf("way"),
            KerfMm = table.LengthMm("kerf", 0, 20),
            TrimMm = table.LengthMm("trim", 0, 20) ?? 0,
            NarrowestMm = table.LengthMm("narrowest", 0, 200),
            Spares = spares,
            SparesOf = sparesOf,
            Stocks = stocks,
        };
        table.Finish();
        return wish;
    }

    private static ImmutableArray<PlateStock> Stocks(TableReader root, DeskReading reading)
    {
        var taken = new HashSet<string>(StringComparer.Ordinal);
        var stocks = ImmutableArray.CreateBuilder<PlateStock>();
        foreach (var (table, index) in reading.AtMost(DeskReading.MostDefined, "kinds of plates", root.Tables("stock")).Select((table, index) => (table, index)))
        {
            var id = table.Text("id") ?? string.Create(CultureInfo.InvariantCulture, $"plate-{index + 1}");
            if (!table.Has("size"))
            {
                reading.Findings.Add(Finding.Stop("key-missing", $"{table.What} has no `size`", "such as `size = [300, 400]`, the width and height of a plate in mm", table.Span));
            }

            var size = table.LengthsMm("size", 2, 2, 10, DeskReading.FarthestMm);
            var thickness = table.LengthMm("thickness", 0.5, 20);
            var count = table.Whole("count", 0, MostPlates);
            var price = table.Number("price", 0, (double)DearestPrice);
            var hasGrain = table.Flag("grain") ?? false;
            table.Finish();
            if (!taken.Add(id))
            {
                reading.Findings.Add(Finding.Stop("cut-id-twice", $"two kinds of plates are called {Shown.Code(id)}", "give each an `id` of its own", table.SpanOf("id")));
            }
            else if (size is { } mm)
            {
                stocks.Add(new(id, mm[0], mm[1], table.Span) { ThicknessMm = thickness, Count = count, Price = (decimal)(price ?? 0), HasGrain = hasGrain });
            }
        }

        return stocks.ToImmutable();
    }

    private static (int All, ImmutableSortedDictionary<string, int> Of) Spares(TableReader table, DeskReading reading, ImmutableArray<Panel> panels)
    {
        var of = ImmutableSortedDictionary.CreateBuilder<string, int>(StringComparer.Ordinal);
        if (table.Raw("spares") is not TableNode)
        {
            return (table.Whole("spares", 0, MostSpares) ?? 0, of.ToImmutable());
        }

        var spares = table.Table("spares")!;
        foreach (var id in spares.Keys)
        {
            var count = spares.Whole(id, 0, MostSpares);
            if (panels.All(panel => panel.Id != id))
            {
                reading.Findings.Add(Finding.Stop(
                    "cut-spares-unknown",
                    $"there is no panel {Shown.Code(id)}",
                    Nearest.To(id, panels.Select(panel => panel.Id)) is { } near ? $"did you mean {Shown.Code(near)}?" : "name a panel by its `id`",
                    spares.SpanOf(id)));
            }
            else if (count is { } many)
            {
                of[id] = many;
            }
        }

        spares.Finish();
        return (0, of.ToImmutable());
    }
}
