using System;
using System.Collections.Immutable;
using Lampblack.Findings;
using Lampblack.Quantities;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Reads for whom the build book is written, and what things cost there.</summary>
internal static class BookReader
{
    private const double HighestPrice = 1_000_000;
    private const int LongestCurrency = 12;

    public static BookWish Read(TableReader root, DeskReading reading)
    {
        if (root.Table("book") is not { } table)
        {
            return BookWish.Usual;
        }

        var wish = new BookWish
        {
            IsLeftHanded = table.Choice("hand", [("right", false), ("left", true)]) ?? false,
            Unit = table.Choice("units", [("mm", LengthUnit.Millimetre), ("inch", LengthUnit.Inch)]) ?? LengthUnit.Millimetre,
            IsBrief = table.Choice("words", [("full", false), ("brief", true)]) ?? false,
            Currency = Currency(table, reading),
            Prices = Prices(table.Table("prices"), reading),
        };
        table.Finish();
        return wish;
    }

    private static string? Currency(TableReader table, DeskReading reading)
    {
        if (table.Text("currency") is not { } word)
        {
            return null;
        }

        if (word.Length <= LongestCurrency)
        {
            return word;
        }

        reading.Findings.Add(Finding.Stop("currency-form", $"`currency` takes at most {LongestCurrency} characters, found {word.Length}", "a short sign or code, such as \"EUR\"", table.SpanOf("currency")));
        return null;
    }

    private static ImmutableSortedDictionary<string, Price> Prices(TableReader? table, DeskReading reading)
    {
        var prices = ImmutableSortedDictionary.CreateBuilder<string, Price>(StringComparer.Ordinal);
        if (table is null)
        {
            return prices.ToImmutable();
        }

        if (table.Keys.Length > DeskReading.MostDefined)
        {
            reading.Findings.Add(Finding.Stop("items-too-many", $"a desk may have {DeskReading.MostDefined} prices; this one has {table.Keys.Length}", "delete those that are not used", table.Span));
        }

        foreach (var key in table.Keys)
        {
            if (table.Number(key, 0, HighestPrice) is { } amount && prices.Count < DeskReading.MostDefined)
            {
                prices[key] = new(amount, table.SpanOf(key));
            }
        }

        table.Finish();
        return prices.ToImmutable();
    }
}
