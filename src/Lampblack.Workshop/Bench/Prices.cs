using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Edits;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Workshop.Bench;

/// <summary>What edits would cost at the maker's bench, said before they are made.</summary>
internal static class Prices
{
    /// <summary>How many of an item's choices are tried to tell what another one would cost.</summary>
    private const int MostTried = 8;

    /// <summary>What an edit would cost; empty where it would be refused, or change nothing.</summary>
    public static string Of(DeskBench bench, DeskEdit edit) => Edit.Price(bench.View.Source, edit, OutputFolder.LastWiring(bench.OutputPath));

    /// <summary>What a fact's other choices would cost.</summary>
    public static string OfChoices(DeskBench bench, string table, ItemFact fact)
    {
        List<string> others = [.. fact.Choices.Where(choice => choice != fact.Value)];
        int step = Math.Max(1, others.Count / MostTried);
        string[] prices = [.. others.Where((_, index) => index % step == 0).Select(choice => Of(bench, FactEdits.Of(table, fact, choice))).Where(price => price.Length > 0).Distinct()];
        return prices.Length < 2 ? prices.FirstOrDefault(string.Empty) : $"at most {prices.MaxBy(price => price.Length)}";
    }

    /// <summary>What it costs to move items, to take them off, or to make a copy of them, in a sentence.</summary>
    public static string OfItems(DeskBench bench, string[] tables)
    {
        (string Act, string Price)[] acts =
        [
            ("moved", Of(bench, new MoveItems([.. tables.Select(table => new ItemMove(table, 1, 0))]))),
            ("copied", Of(bench, new CopyItems([.. tables], 1, 0))),
            ("taken off", Of(bench, new RemoveItems([.. tables]))),
        ];
        return string.Join(" · ", acts.Where(act => act.Price.Length > 0).GroupBy(act => act.Price, act => act.Act).Select(group => $"{Listed([.. group])}: {group.Key}"));
    }

    private static string Listed(string[] acts) => acts.Length < 2 ? acts[0] : $"{string.Join(", ", acts[..^1])} or {acts[^1]}";
}
