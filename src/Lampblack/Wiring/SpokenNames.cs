using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Parts;

namespace Lampblack.Wiring;

/// <summary>Controls and their positions as one says them at the bench: "point 1, lever up" for a switch <c>point-1</c> whose legend is a bare "1".</summary>
public static class SpokenNames
{
    /// <summary>A name for each control, by its id; no two alike.</summary>
    /// <param name="needs">The controls.</param>
    public static ImmutableDictionary<string, string> Of(ImmutableArray<WiredNeed> needs)
    {
        var names = needs.Select(need => (need.Id, Name: Alone(need.Id, need.Name))).ToList();
        var twice = names.CountBy(one => one.Name, StringComparer.OrdinalIgnoreCase).Where(count => count.Value > 1).Select(count => count.Key).ToHashSet(StringComparer.OrdinalIgnoreCase);

        // Nor is any called as another one is in the lists: the lever marked 2 is no "point 2" where another's id is point.2.
        var listed = names.GroupBy(one => Words(one.Id), StringComparer.OrdinalIgnoreCase).ToDictionary(same => same.Key, same => same.First().Id, StringComparer.OrdinalIgnoreCase);
        twice.UnionWith(names.Where(one => listed.TryGetValue(one.Name, out var id) && id != one.Id).Select(one => one.Name));
        return names.ToImmutableDictionary(one => one.Id, one => twice.Contains(one.Name) ? $"{one.Name} ({Item(one.Id)})" : one.Name, StringComparer.Ordinal);
    }

    /// <summary>Where a control stands.</summary>
    /// <param name="need">The control.</param>
    /// <param name="position">Its position's name.</param>
    public static string Standing(WiredNeed need, string position)
    {
        ArgumentNullException.ThrowIfNull(need);
        return (need.Part?.Part.Class, position) switch
        {
            (PartClass.Toggle, "up" or "middle" or "down") => $"lever {position}",
            (not null, "in") => "pressed",
            (not null, "out") => "let go",
            _ => $"at {position}",
        };
    }

    private static string Alone(string id, string name)
    {
        var words = Words(id);
        if (name == id)
        {
            return words;
        }

        // A bare number or sign says nothing by itself: what kind of thing it is stands in the item's id.
        var isBare = !name.Split(',')[0].Any(char.IsLetter);
        var kind = words.TrimEnd([.. " 0123456789"]);
        return isBare && kind.Length > 0 ? $"{(kind.EndsWith(" push", StringComparison.Ordinal) || kind.EndsWith(" lamp", StringComparison.Ordinal) ? kind[..^5].TrimEnd([.. " 0123456789"]) : kind)} {name}" : name;
    }

    private static string Words(string id) => Item(id).Replace('-', ' ').Replace('.', ' ');

    private static string Item(string id) => id[(id.IndexOf('/', StringComparison.Ordinal) + 1)..];
}
