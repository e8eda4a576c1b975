using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;

namespace Lampblack.Layout;

/// <summary>One copy of an item in its place: all that it brings to its panel.</summary>
internal sealed record LaidItem
{
    /// <summary>Filled areas.</summary>
    public required ImmutableArray<PlacedArea> Areas { get; init; }

    /// <summary>Rules.</summary>
    public required ImmutableArray<PlacedRule> Rules { get; init; }

    /// <summary>Dials.</summary>
    public required ImmutableArray<PlacedDial> Dials { get; init; }

    /// <summary>Lettering.</summary>
    public required ImmutableArray<PlacedText> Texts { get; init; }

    /// <summary>Lines from positions to their words.</summary>
    public required ImmutableArray<PlacedLeader> Leaders { get; init; }

    /// <summary>Parts.</summary>
    public required ImmutableArray<PlacedPart> Parts { get; init; }

    /// <summary>Artwork.</summary>
    public required ImmutableArray<PlacedArt> Arts { get; init; }

    /// <summary>What was found while it was placed.</summary>
    public required ImmutableArray<Finding> Findings { get; init; }

    /// <summary>Gathers a copy.</summary>
    /// <param name="from">What was placed.</param>
    /// <param name="findings">What was found.</param>
    public static LaidItem Of(PanelBuilder from, IEnumerable<Finding> findings) => new()
    {
        Areas = from.Areas.ToImmutable(),
        Rules = from.Rules.ToImmutable(),
        Dials = from.Dials.ToImmutable(),
        Texts = from.Texts.ToImmutable(),
        Leaders = from.Leaders.ToImmutable(),
        Parts = from.Parts.ToImmutable(),
        Arts = from.Arts.ToImmutable(),
        Findings = [.. findings],
    };

    /// <summary>The same copy of a desk that was read again: every shape is as it was, and what points into the desk points into the new one. Null where it has to be placed anew.</summary>
    /// <param name="item">The item, written as before.</param>
    /// <param name="origin">Where it is written now.</param>
    public LaidItem? Again(PanelItem item, Origin origin)
    {
        if (!Findings.IsEmpty || item is ArtItem)
        {
            // What was found names places of the old text; artwork depends on a file of its own.
            return null;
        }

        return this with
        {
            Areas = [.. Areas.Select(area => area with { Origin = origin })],
            Rules = [.. Rules.Select(rule => rule with { Origin = origin, Rule = (Rule)item })],
            Dials = [.. Dials.Select(dial => dial with { Origin = origin })],
            Texts = [.. Texts.Select(text => text with { Origin = origin })],
            Leaders = [.. Leaders.Select(leader => leader with { Origin = origin })],
            Parts = [.. Parts.Select(part => part with { Origin = origin, Part = ((Control)item).Part })],
        };
    }

    /// <summary>Puts it on its panel.</summary>
    public void AddTo(PanelBuilder panel, List<Finding> findings)
    {
        ArgumentNullException.ThrowIfNull(panel);
        panel.Areas.AddRange(Areas);
        panel.Rules.AddRange(Rules);
        panel.Dials.AddRange(Dials);
        panel.Texts.AddRange(Texts);
        panel.Leaders.AddRange(Leaders);
        panel.Parts.AddRange(Parts);
        panel.Arts.AddRange(Arts);
        findings.AddRange(Findings);
    }
}
