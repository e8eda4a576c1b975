using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Formats;

namespace Lampblack.Books;

/// <summary>A line of the bill of materials.</summary>
/// <param name="Key">What it is called under <c>[book.prices]</c>.</param>
/// <param name="What">What it is, in plain words.</param>
/// <param name="Amount">How much of it.</param>
/// <param name="Unit">Of what: empty for pieces, else "m", "sheets".</param>
/// <param name="UsedFor">Where it goes.</param>
/// <param name="Others">What fits in its place.</param>
public sealed record BillLine(string Key, string What, double Amount, string Unit, string UsedFor, string Others)
{
    /// <summary>How its amount is told.</summary>
    public string Count { get; init; } = Amount.ToString("0.###", CultureInfo.InvariantCulture);

    /// <summary>The kind of thing by which a price is guessed.</summary>
    public string Kind { get; init; } = Key;

    /// <summary>What one of it costs; null where nobody knows.</summary>
    public double? EachPrice { get; init; }

    /// <summary>Whether the price is a guess from memory.</summary>
    public bool IsGuess { get; init; }

    /// <summary>What all of it costs.</summary>
    public double? Price => EachPrice * Amount;
}

/// <summary>All that has to be bought or found for a desk, with what it costs as far as that is known.</summary>
/// <param name="Lines">Its lines, as one shops.</param>
/// <param name="Currency">What prices are in.</param>
/// <param name="UnusedPrices">Prices that the maker wrote and no line takes.</param>
public sealed record Bill(ImmutableArray<BillLine> Lines, string Currency, ImmutableArray<(string Key, Price Price)> UnusedPrices)
{
    private static readonly ImmutableArray<string> Head = ["key", "what", "amount", "unit", "used_for", "others_that_fit", "price_each", "price", "currency", "price_is"];

    /// <summary>The sum of all prices that are known or guessed.</summary>
    public double Total => Lines.Sum(line => line.Price ?? 0);

    /// <summary>How much of it is guessed.</summary>
    public double Guessed => Lines.Where(line => line.IsGuess).Sum(line => line.Price ?? 0);

    /// <summary>Lines that nobody knows a price of.</summary>
    public ImmutableArray<BillLine> Unpriced => [.. Lines.Where(line => line.Price is null)];

    /// <summary>The bill of a desk.</summary>
    /// <param name="facts">The desk.</param>
    public static Bill Of(BookFacts facts)
    {
        ArgumentNullException.ThrowIfNull(facts);
        var wish = facts.Laid.Desk.Book;
        ImmutableArray<BillLine> lines = [.. BillParts.Of(facts), .. BillParts.Knobs(facts), .. BillGoods.Of(facts), .. BillWiring.Of(facts)];
        var prices = new BookPrices(wish, facts);
        return new(
            [.. lines.Select(prices.Priced)],
            prices.Currency,
            [.. wish.Prices.Where(price => !lines.Any(line => line.Key == price.Key)).Select(price => (price.Key, price.Value))]);
    }

    /// <summary>The bill as a table for other programs.</summary>
    public ImmutableArray<byte> Csv() => CsvFile.Write(Head, Lines.Select(line => new[]
    {
        line.Key, line.What, line.Amount.ToString("0.###", CultureInfo.InvariantCulture), line.Unit, line.UsedFor, line.Others,
        Money(line.EachPrice), Money(line.Price), line.Price is null ? string.Empty : Currency, line.Price is null ? string.Empty : line.IsGuess ? "guessed" : "told",
    }));

    /// <summary>A price as people write it; empty for none.</summary>
    /// <param name="price">The price.</param>
    public static string Money(double? price) => price?.ToString("0.00", CultureInfo.InvariantCulture) ?? string.Empty;
}
