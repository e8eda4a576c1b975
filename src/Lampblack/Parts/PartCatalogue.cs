using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Parts;

/// <summary>The parts a desk can name: the built-in ones and the maker's own. Never changes.</summary>
public sealed class PartCatalogue
{
    private const int MostSuggestions = 3;

    private readonly ImmutableDictionary<string, Part> _byId;

    private PartCatalogue(ImmutableArray<Part> all)
    {
        All = all;
        _byId = all.ToImmutableDictionary(part => part.Id, StringComparer.Ordinal);
    }

    /// <summary>The parts that come with the program.</summary>
    public static PartCatalogue BuiltIn { get; } = new(
    [
        .. Toggles.All, .. PushButtons.All, .. KeySwitches.All, .. Rotaries.All, .. Potentiometers.All, .. Encoders.All,
        .. Sliders.All, .. Lamps.All, .. Meters.All, .. Displays.All, .. Connectors.All, .. Fixings.All,
    ]);

    /// <summary>All parts: built-in ones by class, then the maker's own in the order they were given.</summary>
    public ImmutableArray<Part> All { get; }

    /// <summary>The part of that id, letter by letter; nothing where there is none.</summary>
    public Part? Find(string id)
    {
        ArgumentNullException.ThrowIfNull(id);
        return _byId.GetValueOrDefault(id);
    }

    /// <summary>The catalogue with the maker's own parts; one with the id of an earlier part takes its place.</summary>
    public PartCatalogue With(IEnumerable<Part> own)
    {
        ArgumentNullException.ThrowIfNull(own);
        var all = All.ToBuilder();
        var places = all.Select((part, index) => (part.Id, index)).ToDictionary(pair => pair.Id, pair => pair.index, StringComparer.Ordinal);
        foreach (var part in own)
        {
            if (places.TryGetValue(part.Id, out var place))
            {
                all[place] = part;
            }
            else
            {
                places[part.Id] = all.Count;
                all.Add(part);
            }
        }

        return new(all.ToImmutable());
    }

    /// <summary>
    /// Ids that may have been meant, best first, at most three: those that differ by few letters (a third of the id at most, two for
    /// short ones), then those that contain all of its words.
    /// </summary>
    public ImmutableArray<string> Near(string id)
    {
        ArgumentNullException.ThrowIfNull(id);
        var wanted = id.Trim().ToLowerInvariant().Replace('_', '-').Replace(' ', '-');
        var words = wanted.Split('-', StringSplitOptions.RemoveEmptyEntries);
        if (words.Length == 0)
        {
            return [];
        }

        var limit = Math.Max(2, wanted.Length / 3);
        return
        [
            .. All.Select(part => (part.Id, Distance: EditDistance(wanted, part.Id), Words: words.All(word => part.Id.Split('-').Contains(word, StringComparer.Ordinal))))
                .Where(entry => entry.Distance <= limit || entry.Words)
                .OrderBy(entry => entry.Distance)
                .ThenBy(entry => entry.Id, StringComparer.Ordinal)
                .Take(MostSuggestions)
                .Select(entry => entry.Id),
        ];
    }

    /// <summary>Fewest letters to add, drop, change or swap with a neighbour (optimal string alignment).</summary>
    private static int EditDistance(string first, string second)
    {
        var rows = new int[first.Length + 1, second.Length + 1];
        for (var row = 0; row <= first.Length; row++)
        {
            for (var column = 0; column <= second.Length; column++)
            {
                if (row == 0 || column == 0)
                {
                    rows[row, column] = row + column;
                    continue;
                }

                var change = first[row - 1] == second[column - 1] ? 0 : 1;
                var least = Math.Min(Math.Min(rows[row - 1, column], rows[row, column - 1]) + 1, rows[row - 1, column - 1] + change);
                if (row > 1 && column > 1 && first[row - 1] == second[column - 2] && first[row - 2] == second[column - 1])
                {
                    least = Math.Min(least, rows[row - 2, column - 2] + 1);
                }

                rows[row, column] = least;
            }
        }

        return rows[first.Length, second.Length];
    }
}
