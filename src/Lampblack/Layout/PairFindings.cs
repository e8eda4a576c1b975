using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;

namespace Lampblack.Layout;

/// <summary>Gathers findings about two items: what two items have against each other many times over, copies included, is told once with its count.</summary>
internal sealed class PairFindings
{
    private readonly Dictionary<(SourceSpan First, SourceSpan Second, string Why), int> _places = [];
    private readonly List<(Finding Finding, bool Same, int Count)> _told = [];

    /// <summary>All of them, in the order in which each pair first came up.</summary>
    public IEnumerable<Finding> All => _told.Select(told => told.Count == 1 ? told.Finding : told.Finding with
    {
        Message = told.Finding.Message + string.Create(CultureInfo.InvariantCulture, $" ({told.Count} times {(told.Same ? "in this item or its copies" : "between these two items")})"),
    });

    /// <summary>Adds one; its message stands if it is the first of its pair.</summary>
    /// <param name="one">An item.</param>
    /// <param name="other">The item that it has to do with, in either order.</param>
    /// <param name="finding">What is to be told.</param>
    /// <param name="why">What sets it apart from others of the same pair.</param>
    public void Add(Origin one, Origin other, Finding finding, string why = "")
    {
        var (first, second) = one.Span.Offset <= other.Span.Offset ? (one.Span, other.Span) : (other.Span, one.Span);
        if (_places.TryGetValue((first, second, why), out var place))
        {
            _told[place] = _told[place] with { Count = _told[place].Count + 1 };
            return;
        }

        _places.Add((first, second, why), _told.Count);
        _told.Add((finding, first == second, 1));
    }
}
