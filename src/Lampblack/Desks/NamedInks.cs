using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using Lampblack.Quantities;

namespace Lampblack.Desks;

/// <summary>Inks by name, as a desk file calls them.</summary>
public sealed class NamedInks
{
    /// <summary>The word for the field's own black.</summary>
    public const string FieldWord = "field";

    private readonly ImmutableSortedDictionary<string, Ink> _inks;

    private NamedInks(ImmutableSortedDictionary<string, Ink> inks) => _inks = inks;

    /// <summary>
    /// The names every desk can use. The mixtures are ours, chosen to be told apart on toner white; what a printer makes of them differs.
    /// <c>white</c> is bare paper.
    /// </summary>
    public static NamedInks Usual { get; } = new(ImmutableSortedDictionary.CreateRange<string, Ink>(
        StringComparer.Ordinal,
        [
            new("white", Ink.None),
            new("amber", Ink.Cmyk(0, 0.38, 1, 0)),
            new("yellow", Ink.Cmyk(0, 0.05, 1, 0)),
            new("orange", Ink.Cmyk(0, 0.6, 1, 0)),
            new("red", Ink.Cmyk(0, 1, 1, 0)),
            new("green", Ink.Cmyk(0.85, 0, 1, 0)),
            new("blue", Ink.Cmyk(1, 0.55, 0, 0)),
            new("cyan", Ink.Cmyk(1, 0, 0, 0)),
            new("gray", Ink.Cmyk(0, 0, 0, 0.45)),
        ]));

    /// <summary>All names, sorted.</summary>
    public IEnumerable<string> Names => _inks.Keys;

    /// <summary>The ink of that name, if there is one.</summary>
    public Ink? Find(string name) => _inks.GetValueOrDefault(name);

    /// <summary>These inks and the desk's own, which win.</summary>
    public NamedInks With(IEnumerable<KeyValuePair<string, Ink>> own) => new(_inks.SetItems(own));
}
