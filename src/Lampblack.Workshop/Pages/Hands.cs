using System;
using System.Collections.Generic;
using System.Collections.Immutable;

namespace Lampblack.Workshop.Pages;

/// <summary>The items that the maker has in hand on one page.</summary>
public sealed class Hands
{
    /// <summary>Their addresses; the one taken last is the last.</summary>
    public ImmutableArray<string> Held { get; private set; } = [];

    /// <summary>Takes these and nothing else.</summary>
    public void Take(IEnumerable<string> items)
    {
        ArgumentNullException.ThrowIfNull(items);
        Held = [.. items];
    }

    /// <summary>Lets go of everything.</summary>
    public void PutDown() => Held = [];
}
