using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Layout;

namespace Lampblack.Jobs;

/// <summary>Where a control is, as a small map of its panel in letters, seen from the front.</summary>
internal static class RollCallPlace
{
    private const int MostColumns = 48;

    // A letter on a terminal is about twice as high as wide.
    private const double HeightFactor = 0.5;

    /// <summary>The map, line by line: X is the control, dots are the others; empty where the desk does not place it.</summary>
    /// <param name="desk">The desk.</param>
    /// <param name="id">The control: "dome/shutter"; what is behind a dot ("dome/focus.push") is where its control is.</param>
    public static ImmutableArray<string> Of(LaidDesk? desk, string id)
    {
        var item = id.Split('.')[0];
        var panel = desk?.Panels.FirstOrDefault(one => one.Parts.Any(part => part.Origin.Item == item));
        if (panel is null)
        {
            return [];
        }

        var bounds = panel.Outline.Bounds;
        var columns = MostColumns;
        var rows = Math.Clamp((int)Math.Round(columns * HeightFactor * bounds.HeightMm / bounds.WidthMm, MidpointRounding.AwayFromZero), 3, 24);
        var letters = Enumerable.Range(0, rows).Select(_ => Enumerable.Repeat(' ', columns).ToArray()).ToArray();
        foreach (var part in panel.Parts.OrderBy(part => part.Origin.Item == item))
        {
            var column = Math.Clamp((int)((part.Centre.XMm - bounds.LeftMm) / bounds.WidthMm * columns), 0, columns - 1);
            var row = Math.Clamp((int)((bounds.BottomMm + bounds.HeightMm - part.Centre.YMm) / bounds.HeightMm * rows), 0, rows - 1);
            letters[row][column] = part.Origin.Item == item ? 'X' : '.';
        }

        var edge = $"+{new string('-', columns)}+";
        return [edge, .. letters.Select(line => $"|{new string(line)}|"), $"{edge} {panel.Panel.Id}, from the front"];
    }
}
