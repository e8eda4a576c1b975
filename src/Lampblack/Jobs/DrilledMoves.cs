using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Layout;

namespace Lampblack.Jobs;

/// <summary>What moves on the next print, now that holes are known.</summary>
internal static class DrilledMoves
{
    // The grid of all coordinates is 0.1 µm; less than this nobody sees.
    private const double LeastMm = 0.005;

    /// <summary>A sentence for each control whose legends move, those that move farthest first.</summary>
    public static ImmutableArray<string> Of(LaidDesk before, DrilledResult marked, DeskSource source, string panelId)
    {
        var now = DeskReader.Read(source.Name, marked.Bytes.AsSpan()).Value.Panels.First(panel => panel.Id == panelId);
        var laid = before.Panels.First(panel => panel.Panel.Id == panelId);
        return
        [
            .. laid.Panel.Items.OfType<Control>().Zip(now.Items.OfType<Control>())
                .Select(pair => (pair.First, Dx: (pair.Second.Drilled?.DxMm ?? 0) - (pair.First.Drilled?.DxMm ?? 0), Dy: (pair.Second.Drilled?.DyMm ?? 0) - (pair.First.Drilled?.DyMm ?? 0)))
                .Where(move => Math.Max(Math.Abs(move.Dx), Math.Abs(move.Dy)) >= LeastMm)
                .OrderByDescending(move => Math.Sqrt((move.Dx * move.Dx) + (move.Dy * move.Dy)))
                .Select(move => Sentence(laid, move.First, move.Dx, move.Dy)),
        ];
    }

    private static string Sentence(LaidPanel laid, Control control, double dx, double dy)
    {
        var item = $"{laid.Panel.Id}/{control.Id}";
        List<string> what = [.. laid.Texts.Where(text => text.Origin.Item == item).Select(text => Shown.Quoted(text.Words)).Distinct()];
        if (laid.Dials.Any(dial => dial.Origin.Item == item))
        {
            what.Add("its dial");
        }

        var moved = string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(dx):0.00} mm {(dx < 0 ? "left" : "right")} and {Math.Abs(dy):0.00} mm {(dy < 0 ? "down" : "up")}");
        return what.Count == 0 ? $"{item}: its crosshair moves {moved}" : $"{item}: {Shown.List(what)} {(what.Count == 1 ? "moves" : "move")} {moved}";
    }
}
