using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;

namespace Lampblack.Books;

/// <summary>What things cost: as the maker wrote, as the printer file and the list of plates say, else a guess.</summary>
internal sealed class BookPrices(BookWish wish, BookFacts facts)
{
    /// <summary>Guesses are in this currency; where the maker counts in another none is made.</summary>
    private const string GuessCurrency = "EUR";

    /// <summary>Rough prices of a mail-order shop for hobby electronics and a stationer's, from memory, no source.</summary>
    private static readonly ImmutableSortedDictionary<string, double> Guesses = ImmutableSortedDictionary.CreateRange(StringComparer.Ordinal, new KeyValuePair<string, double>[]
    {
        new("part-toggle", 2.5), new("part-push-button", 2.5), new("part-key-switch", 6), new("part-rotary", 4), new("part-potentiometer", 2.5), new("part-encoder", 3), new("part-slider", 4), new("part-lamp", 1.5),
        new("part-meter", 12), new("part-display", 10), new("part-connector", 3), new("part-screw", 0.2), new("part-plain", 0.3), new("knob", 1), new("solder", 6), new("sleeves", 3), new("white-paint", 4), new("wood-glue", 3), new("wood-screws", 0.03), new("box-strip", 1.5), new("box-blocks", 0.1), new("black-paint", 3), new("black-tape", 2.5), new("card", 0.1), new("trial-acrylic", 1), new("waste-paper", 0), new("trial-board", 1), new("cable-ties", 0.02), new("register-socket", 0.3), new("register-board", 2), new("joint-board", 1.5), new("cells-aa", 3), new(BillGoods.BlackToner, 80), new(BillGoods.ColourToner, 80), new(BillGoods.HeavyPaper, 0.08),
        new(BillGoods.PlainPaper, 0.015), new("plate", 6), new("spray-glue", 12), new("clear-coat", 12), new("black-marker", 2), new("tape", 2), new("box-board", 25), new("card-light-tight", 2), new("controller", 20),
        new("diode-1n4148", 0.03), new("resistor", 0.05), new("capacitor-100n", 0.1), new("capacitor-electrolytic", 0.6), new("register", 0.6), new("wire", 0.25), new("wire-pair", 0.6), new("bare-wire", 0.5), new("plug-pair", 2),
        new("supply", 15), new("fuse", 1.5), new("transistor", 0.8), new("lamp-diode", 0.15), new("strip", 0.5), new("pixel", 0.3), new("level-shifter", 0.6), new("usb-cable", 4), new("serial-adapter", 6), new("joint-strip", 2), new("spacers", 1), new("panel-nut", 0.1), new("glue-stick", 1.5), new("foam-tape", 2), new("adapter-socket", 0.5), new("fuse-holder", 1.5),
    });

    /// <summary>What all prices are in.</summary>
    public string Currency => wish.Currency ?? facts.PrinterCurrency ?? GuessCurrency;

    /// <summary>A line with its price.</summary>
    public BillLine Priced(BillLine line)
    {
        if (Told(line) is { } told)
        {
            return line with { EachPrice = told };
        }

        return Currency == GuessCurrency && Guess(line) is { } guess ? line with { EachPrice = guess, IsGuess = true } : line;
    }

    private double? Told(BillLine line)
    {
        if (wish.Prices.TryGetValue(line.Key, out var own))
        {
            return own.Amount;
        }

        // A printer file in another currency says nothing that can be added up.
        var isSame = facts.PrinterCurrency is not { } other || other == Currency;
        return line.Key switch
        {
            BillGoods.BlackToner when isSame && facts.TonerPrice is { } price && line.Amount > 0 => price / line.Amount,
            BillGoods.ColourToner when isSame && facts.TonerPrice is not null => 0,
            BillGoods.HeavyPaper when isSame => facts.SheetPrice,
            _ when facts.Plates.FirstOrDefault(plate => BillGoods.PlateKey(plate) == line.Key) is { Price: > 0 } plate => plate.Price,
            _ => null,
        };
    }

    private static double? Guess(BillLine line) => Guesses.TryGetValue(line.Kind, out var each) ? each : null;
}
