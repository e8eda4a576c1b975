using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Layout;

namespace Lampblack.Checks;

/// <summary>
/// Gathers what the rules find on one panel: of each rule the worst first, each item told of once with the count of what else it has against others, of what is only worth knowing the worst alone,
/// of what holds for a part each part once, and what the maker lets stand set apart with the reason.
/// </summary>
internal sealed class RuleFindings
{
    /// <summary>Most warnings of one rule on one panel; what is beyond is counted.</summary>
    private const int MostOfOneRule = 12;

    private readonly ImmutableArray<Acceptance> _ofPanel;
    private readonly Dictionary<SourceSpan, ImmutableArray<Acceptance>> _ofItems = [];
    private readonly List<Entry> _entries = [];
    private readonly HashSet<Acceptance> _used = [];

    public RuleFindings(Panel panel)
    {
        _ofPanel = panel.Accepts;
        foreach (var item in panel.Items.Where(item => !item.Accepts.IsEmpty))
        {
            _ofItems[item.Span] = item.Accepts;
        }
    }

    /// <summary>What the maker wrote and nothing was found for.</summary>
    public IEnumerable<Acceptance> Idle => _ofPanel.Concat(_ofItems.Values.SelectMany(accepts => accepts)).Where(accept => !_used.Contains(accept));

    /// <summary>Adds one.</summary>
    /// <param name="finding">What is to be told.</param>
    /// <param name="roomLeft">How near it comes to what is allowed; the smallest is told first.</param>
    /// <param name="one">The item that it is about.</param>
    /// <param name="other">The other item that it is about, if any.</param>
    public void Add(Finding finding, double roomLeft, Origin one, Origin? other = null) => Add(finding.Code, finding.Severity, () => finding, roomLeft, one, other);

    /// <summary>Adds one of those that may be many: its words are made only if it is told.</summary>
    /// <param name="code">The finding's code.</param>
    /// <param name="severity">The finding's severity.</param>
    /// <param name="finding">What is to be told.</param>
    /// <param name="roomLeft">How near it comes to what is allowed; the smallest is told first.</param>
    /// <param name="one">The item that it is about.</param>
    /// <param name="other">The other item that it is about, if any.</param>
    /// <param name="partId">The part that it is about, where all controls with that part have the same to hear: it is told once, and they are counted.</param>
    public void Add(string code, Severity severity, Func<Finding> finding, double roomLeft, Origin one, Origin? other = null, string? partId = null)
    {
        var accept = Acceptance(code, one) ?? (other is null ? null : Acceptance(code, other)) ?? _ofPanel.FirstOrDefault(accept => accept.Code == code);
        if (accept is not null)
        {
            _used.Add(accept);
        }

        _entries.Add(new(code, severity, finding, roomLeft, one.Span, (other ?? one).Span, accept, partId));
    }

    /// <summary>Adds one that is about the whole panel.</summary>
    public void AddForPanel(Finding finding, Panel panel) => Add(finding, 0, new Origin(panel.Id, panel.Span));

    /// <summary>All that there is to tell.</summary>
    public IEnumerable<Finding> All() => _entries
        .GroupBy(entry => (entry.Code, entry.Severity, entry.Accept))
        .SelectMany(group => Told(group, group.Key.Accept, IsToldOnce(group.Key.Severity, group.Key.Accept, group.First()) ? 1 : MostOfOneRule));

    private static bool IsToldOnce(Severity severity, Acceptance? accept, Entry first) => accept is not null || (severity == Severity.Note && first.PartId is null);

    private static IEnumerable<Finding> Told(IEnumerable<Entry> entries, Acceptance? accept, int most)
    {
        var told = new List<(Finding Finding, string? PartId, int More)>();
        var places = new Dictionary<SourceSpan, int>();
        var parts = new Dictionary<string, int>(StringComparer.Ordinal);
        var beyond = 0;
        foreach (var entry in entries.OrderBy(entry => entry.RoomLeft).ThenBy(entry => entry.One.Offset).ThenBy(entry => entry.Other.Offset))
        {
            if (entry.PartId is { } id ? parts.TryGetValue(id, out var place) : places.TryGetValue(entry.One, out place) && places.ContainsKey(entry.Other))
            {
                told[place] = told[place] with { More = told[place].More + 1 };
            }
            else if (told.Count < most)
            {
                _ = places.TryAdd(entry.One, told.Count);
                _ = places.TryAdd(entry.Other, told.Count);
                _ = entry.PartId is not null && parts.TryAdd(entry.PartId, told.Count);
                told.Add((entry.Finding(), entry.PartId, 0));
            }
            else
            {
                beyond++;
            }
        }

        for (var index = 0; index < told.Count; index++)
        {
            var (finding, partId, more) = told[index];
            var like = partId is null ? "like it at this item or its copies" : "with this part on this panel";
            var also = more > 0 ? string.Create(CultureInfo.InvariantCulture, $" ({more} more {like})") : string.Empty;
            var rest = beyond > 0 && index == told.Count - 1 ? string.Create(CultureInfo.InvariantCulture, $" (and {beyond} more on this panel)") : string.Empty;
            var whole = finding with { Message = finding.Message + also + rest };
            yield return accept is null ? whole : whole with { Severity = Severity.Note, Accepted = accept.Because };
        }
    }

    private Acceptance? Acceptance(string code, Origin origin) =>
        _ofItems.TryGetValue(origin.Span, out var accepts) ? accepts.FirstOrDefault(accept => accept.Code == code) : null;

    private sealed record Entry(string Code, Severity Severity, Func<Finding> Finding, double RoomLeft, SourceSpan One, SourceSpan Other, Acceptance? Accept, string? PartId);
}
