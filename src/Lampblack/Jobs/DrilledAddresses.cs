using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Jobs;

/// <summary>Finds controls by what a maker types: <c>panel/control</c>, or <c>control</c> where there is only one.</summary>
internal sealed class DrilledAddresses(Desk desk)
{
    private readonly ImmutableArray<(string Panel, Control Control)> _all =
        [.. desk.Panels.SelectMany(panel => panel.Items.OfType<Control>().Select(control => (panel.Id, control)))];

    public (string Panel, Control Control)? Find(string address, List<Finding> findings)
    {
        if (Copy(address.Trim()) is var (panel, row, number))
        {
            findings.Add(DrilledCopies.Finding($"{panel}/{row.Id}", row, number));
            return null;
        }

        var parts = address.Trim().Split('/', 2);
        var found = _all.Where(item => item.Control.Id == parts[^1] && (parts.Length == 1 || item.Panel == parts[0])).ToList();
        if (found.Count == 1)
        {
            return found[0];
        }

        if (found.Count > 1)
        {
            findings.Add(Finding.Stop(
                "drilled-unknown",
                $"{Shown.Code(address)} stands on {found.Count} panels",
                $"say which: {Shown.List(found.Select(item => Shown.Code(Full(item))))}"));
            return null;
        }

        // Near names are looked for with panel and without, as typed.
        var nearest = Nearest.To(address, _all.Select(item => parts.Length == 1 ? item.Control.Id : Full(item)));
        findings.Add(Finding.Stop(
            "drilled-unknown",
            $"there is no control {Shown.Code(address)}",
            nearest is not null ? $"did you mean {Shown.Code(nearest)}?"
                : _all.IsEmpty ? "the desk has no control that could be read"
                : $"its controls are {Shown.List(_all.Select(item => Shown.Code(Full(item))))}"));
        return null;
    }

    /// <summary>A copy of a row or grid, as findings and makers call it: <c>point.2</c>, <c>point/2</c>, <c>yard/point/2</c>; null where it is none.</summary>
    private (string Panel, Control Control, int Number)? Copy(string address)
    {
        var at = address.LastIndexOfAny(['.', '/']);
        if (at <= 0 || !int.TryParse(address[(at + 1)..], NumberStyles.None, CultureInfo.InvariantCulture, out var number))
        {
            return null;
        }

        var row = address[..at].Split('/', 2);
        var found = _all.Where(item => item.Control.Copies.Count > 1 && item.Control.Id == row[^1] && (row.Length == 1 || item.Panel == row[0])).ToList();
        return found.Count == 1 ? (found[0].Panel, found[0].Control, number) : null;
    }

    private static string Full((string Panel, Control Control) item) => $"{item.Panel}/{item.Control.Id}";
}
