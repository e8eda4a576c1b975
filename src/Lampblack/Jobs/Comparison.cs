using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;

namespace Lampblack.Jobs;

/// <summary>What has changed since the last build, a sentence for each panel and sheet.</summary>
internal static class Comparison
{
    /// <summary>Compares two reports; empty where either is missing.</summary>
    public static ImmutableArray<BuildChange> Of(ComparisonReport? before, ComparisonReport? now)
    {
        if (before is null || now is null)
        {
            return [];
        }

        var panels = Panels(before, now).ToList();
        var sheets = Sheets(before, now).ToList();
        var isSame = panels.All(change => change.Kind == "same") && sheets.All(change => change.Kind == "same") && before.Paper == now.Paper;
        if (isSame)
        {
            return [new(string.Empty, "same", HasSides(before) && HasSides(now) ? "nothing changed" : "plates and holes are as they were; front and mask are not compared with a build for the bench alone")];
        }

        if (before.Paper != now.Paper)
        {
            panels.Add(new(string.Empty, "changed", $"the paper changed from {before.Paper} to {now.Paper}"));
        }

        return [.. panels, .. sheets];
    }

    private static IEnumerable<BuildChange> Panels(ComparisonReport before, ComparisonReport now)
    {
        var gone = before.Panels.Where(panel => now.Panels.All(other => other.Id != panel.Id)).ToList();
        foreach (var panel in now.Panels)
        {
            if (before.Panels.FirstOrDefault(other => other.Id == panel.Id) is { } same)
            {
                var sentence = ComparisonSentences.Of(before, same, now, panel);
                yield return new(panel.Id, sentence is null ? "same" : "changed", $"panel {panel.Id}: {sentence ?? (same.Sides is null || panel.Sides is null ? "plate and holes are as they were" : "nothing changed")}");
            }
            else if (gone.FirstOrDefault(other => IsSamePanel(other, panel)) is { } renamed)
            {
                gone.Remove(renamed);
                yield return new(panel.Id, "renamed", $"panel {panel.Id}: it was called {renamed.Id}; {ComparisonSentences.Of(before, renamed, now, panel) ?? "nothing on it changed"}");
            }
            else
            {
                yield return new(panel.Id, "new", string.Create(
                    CultureInfo.InvariantCulture, $"panel {panel.Id}: new panel, {panel.HoleCount} {(panel.HoleCount == 1 ? "hole" : "holes")}"));
            }
        }

        foreach (var panel in gone)
        {
            yield return new(panel.Id, "gone", $"panel {panel.Id}: panel gone");
        }
    }

    private static bool IsSamePanel(ReportedPanel before, ReportedPanel now) =>
        before.PlateMm == now.PlateMm && (before.Sides is null || now.Sides is null || before.Sides.ArtworkHash == now.Sides.ArtworkHash) && before.HolesHash == now.HolesHash;

    private static bool HasSides(ComparisonReport report) => report.Panels.All(panel => panel.Sides is not null);

    /// <summary>Sheets are compared with sheets: a build that was not asked for any takes none away from anybody's table.</summary>
    private static IEnumerable<BuildChange> Sheets(ComparisonReport before, ComparisonReport now)
    {
        if (before.Sheets.IsEmpty || now.Sheets.IsEmpty)
        {
            yield break;
        }

        foreach (var sheet in now.Sheets)
        {
            var earlier = before.Sheets.FirstOrDefault(other => other.Id == sheet.Id);
            yield return earlier is null ? new(sheet.Id, "sheet", $"{sheet.Id} is new (pair {sheet.PairCode})")
                : earlier.PairCode == sheet.PairCode ? new(sheet.Id, "same", $"{sheet.Id} has the pair code it had ({sheet.PairCode}): what you printed of it is still good")
                : new(sheet.Id, "sheet", $"{sheet.Id} has a new pair code ({sheet.PairCode}, it was {earlier.PairCode}): print both sides anew");
        }

        foreach (var sheet in before.Sheets.Where(sheet => now.Sheets.All(other => other.Id != sheet.Id)))
        {
            yield return new(sheet.Id, "sheet", $"{sheet.Id} (pair {sheet.PairCode}) is no longer made");
        }
    }
}
