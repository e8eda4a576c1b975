using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Jobs;

namespace Lampblack.Workshop.Pages;

/// <summary>Finds room on a panel for something new.</summary>
internal static class FreePlace
{
    private const double StepMm = 5;
    private const double EdgeMm = 15;

    /// <summary>The place whose surroundings are the emptiest, on a grid of 5 mm; the nearest to the middle among equals.</summary>
    public static (double XMm, double YMm) On(PanelView panel)
    {
        ArgumentNullException.ThrowIfNull(panel);
        (double XMm, double YMm) best = (panel.WidthMm / 2, panel.HeightMm / 2);
        double bestScore = double.NegativeInfinity;
        foreach ((double x, double y) in Places(panel))
        {
            // Room beyond 25 mm is no better.
            double room = panel.Items.Where(item => !Frames(item, x, y)).Select(item => Distance(item.Box, x, y)).Append(25).Min();
            double score = room - (0.05 * (Math.Abs(x - (panel.WidthMm / 2)) + Math.Abs(y - (panel.HeightMm / 2))));
            if (score > bestScore)
            {
                (best, bestScore) = ((x, y), score);
            }
        }

        return best;
    }

    private static IEnumerable<(double XMm, double YMm)> Places(PanelView panel)
    {
        for (double x = EdgeMm; x <= panel.WidthMm - EdgeMm; x += StepMm)
        {
            for (double y = EdgeMm; y <= panel.HeightMm - EdgeMm; y += StepMm)
            {
                yield return (x, y);
            }
        }
    }

    /// <summary>A box drawn around other things is no obstacle inside.</summary>
    private static bool Frames(ItemView item, double x, double y) =>
        item.Kind is ItemKind.Rule or ItemKind.Area && item.Box.WidthMm > 30 && item.Box.HeightMm > 20 && item.Box.Grow(-8).Contains(new Point<PanelSpace>(x, y));

    private static double Distance(Box<PanelSpace> box, double x, double y) =>
        Math.Sqrt(Math.Pow(Math.Max(0, Math.Max(box.LeftMm - x, x - box.RightMm)), 2) + Math.Pow(Math.Max(0, Math.Max(box.BottomMm - y, y - box.TopMm)), 2));
}
