using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Cutting;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Jobs;

/// <summary>Reads a file of loose pieces: <c>[[stock]]</c> and <c>[[piece]]</c>. What can't be used gets a finding, and the rest is still planned.</summary>
internal static class LooseCut
{
    private const double LargestMm = 10_000;
    private const double SmallestMm = 0.01;
    private const int MostCount = 100_000;
    private const int MostTables = 1000;

    // Beyond these, drawing and telling the plan takes minutes, and nobody cuts so many by hand. Ours.
    private const int MostPieces = 2000;
    private const int MostPlatesOfMany = 50;
    private const double GreatestValue = 1e9;

    /// <summary>The task.</summary>
    public static (string Title, CutTask Task) Read(TableNode root, ICollection<Finding> findings)
    {
        var table = new TableReader(root, "the file", findings);
        table.Whole("lampblack", 1, 1);
        var title = table.Text("title") ?? "Cut plan";
        var rules = new CutRules(
            table.LengthMm("kerf", 0, 100) ?? 0,
            table.LengthMm("narrowest", 0, 1000) ?? 0,
            table.Flag("rotate") ?? true);
        var plates = table.Whole("plates", 1, MostCount);
        var stocks = Tables(table, "stock", "size = [300, 400]", findings).Select((stock, index) => Stock(stock, index, findings)).OfType<CutStock>().ToList();
        var pieces = Tables(table, "piece", "size = [80, 50]", findings).Select((piece, index) => Piece(piece, index, findings)).OfType<CutPiece>().ToList();
        table.Finish();
        if (plates is null or > MostPlatesOfMany)
        {
            pieces = AtMost(pieces, findings);
        }

        return (title, new([.. Own(pieces, piece => piece.Id, findings)], [.. Own(stocks, stock => stock.Id, findings)], rules, plates));
    }

    private static ImmutableArray<TableReader> Tables(TableReader table, string key, string example, ICollection<Finding> findings)
    {
        var tables = table.Tables(key);
        if (tables.IsEmpty)
        {
            findings.Add(Finding.Stop("cut-nothing", $"there is no [[{key}]]", $"add one: `[[{key}]]` and below it `{example}`", table.Span));
        }

        if (tables.Length > MostTables)
        {
            findings.Add(Finding.Stop("items-too-many", FormattableString.Invariant($"{MostTables} [[{key}]] are read; this file has {tables.Length}"), "put pieces of one size together with `count`", tables[MostTables].Span));
            tables = tables[..MostTables];
        }

        return tables;
    }

    private static CutStock? Stock(TableReader table, int index, ICollection<Finding> findings)
    {
        var id = table.Text("id") ?? Numbered("stock", index);
        var size = Size(table, findings);
        var count = table.Whole("count", 0, MostCount);
        var price = table.Number("price", 0, GreatestValue);
        var hasGrain = table.Flag("grain") ?? false;
        table.Finish();
        return size is { } mm ? new(id, mm[0], mm[1]) { Count = count, Price = (decimal)(price ?? 0), HasGrain = hasGrain } : null;
    }

    private static CutPiece? Piece(TableReader table, int index, ICollection<Finding> findings)
    {
        var id = table.Text("id") ?? Numbered("piece", index);
        var size = Size(table, findings);
        var count = table.Whole("count", 0, MostCount);
        var value = table.Number("value", 0, GreatestValue);
        table.Finish();
        return size is { } mm ? new(id, mm[0], mm[1], count ?? 1) { Value = (decimal?)value } : null;
    }

    private static ImmutableArray<double>? Size(TableReader table, ICollection<Finding> findings)
    {
        if (!table.Has("size"))
        {
            findings.Add(Finding.Stop("key-missing", $"{table.What} has no `size`", "such as `size = [80, 50]`, width and height in mm", table.Span));
        }

        return table.LengthsMm("size", 2, 2, SmallestMm, LargestMm);
    }

    private static List<T> Own<T>(List<T> all, Func<T, string> idOf, ICollection<Finding> findings)
    {
        foreach (var twice in all.GroupBy(idOf, StringComparer.Ordinal).Where(group => group.Count() > 1))
        {
            findings.Add(Finding.Stop("cut-id-twice", $"{Shown.Code(twice.Key)} stands twice", "give each an `id` of its own, or one `count`"));
        }

        return [.. all.DistinctBy(idOf, StringComparer.Ordinal)];
    }

    /// <summary>As many as can be planned in good time, in the order of the file; a few plates never hold too many, and are not asked about.</summary>
    private static List<CutPiece> AtMost(List<CutPiece> pieces, ICollection<Finding> findings)
    {
        var all = pieces.Sum(piece => (long)piece.Count);
        if (all <= MostPieces)
        {
            return pieces;
        }

        findings.Add(Finding.Warn(
            "items-too-many",
            FormattableString.Invariant($"{MostPieces} pieces are planned at once; this file wants {all}, and those beyond are left out"),
            FormattableString.Invariant($"split it into several files, or give `plates`, {MostPlatesOfMany} at most")));
        var left = MostPieces;
        return
        [
            .. pieces.Select(piece =>
            {
                var count = Math.Min(piece.Count, left);
                left -= count;
                return piece with { Count = count };
            }).Where(piece => piece.Count > 0),
        ];
    }

    private static string Numbered(string kind, int index) => string.Create(CultureInfo.InvariantCulture, $"{kind}-{index + 1}");
}
