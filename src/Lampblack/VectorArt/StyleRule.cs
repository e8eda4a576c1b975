using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.VectorArt;

/// <summary>One declaration of a style sheet or of an attribute style.</summary>
internal readonly record struct Declaration(string Name, string Value, bool IsImportant);

/// <summary>What must hold of one element.</summary>
/// <param name="Element">Its name; null for any.</param>
/// <param name="Id">Its id; null for any.</param>
/// <param name="Classes">Classes it must have.</param>
/// <param name="Attributes">Attributes it must have; with a value, that one.</param>
/// <param name="IsChild">Whether the one before it in the selector is its parent, and not only somewhere above.</param>
internal sealed record Compound(string? Element, string? Id, List<string> Classes, List<(string Name, string? Value)> Attributes, bool IsChild)
{
    public bool Holds(SvgElement element) =>
        (Element is null || Element == element.Name)
        && (Id is null || Id == element.Id)
        && Classes.TrueForAll(name => element.Classes.Contains(name, StringComparer.Ordinal))
        && Attributes.TrueForAll(wanted => element[wanted.Name] is { } value && (wanted.Value is null || wanted.Value == value));
}

/// <summary>A selector with what it says; one for each of a rule's selectors.</summary>
/// <param name="Compounds">From the outermost to the element itself.</param>
/// <param name="Declarations">What it says.</param>
/// <param name="Order">Its place among all rules: of equal weight, later ones win.</param>
internal sealed record StyleRule(List<Compound> Compounds, List<Declaration> Declarations, int Order)
{
    /// <summary>Ids, then classes and attributes, then elements (CSS 2.1, 6.4.3).</summary>
    public int Weight => Compounds.Sum(part => (part.Id is null ? 0 : 1_000_000) + (1000 * (part.Classes.Count + part.Attributes.Count)) + (part.Element is null ? 0 : 1));

    public bool Matches(SvgElement element)
    {
        if (!Compounds[^1].Holds(element))
        {
            return false;
        }

        var at = element;
        for (var index = Compounds.Count - 2; index >= 0; index--)
        {
            // The nearest that fits is taken: it fails only for mixtures of both kinds that nobody writes for drawings.
            at = at.Parent;
            while (at is not null && !Compounds[index].Holds(at))
            {
                at = Compounds[index + 1].IsChild ? null : at.Parent;
            }

            if (at is null)
            {
                return false;
            }
        }

        return true;
    }
}
