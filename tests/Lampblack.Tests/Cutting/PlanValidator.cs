using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Cutting;

namespace Lampblack.Tests.Cutting;

/// <summary>
/// Cuts the plates as the plan says and looks whether the pieces come out. Knows nothing of how plans are found: it starts with whole plates, makes each cut in turn on a
/// rectangle that must be in hand, and in the end compares what lies there with what was promised.
/// </summary>
internal static class PlanValidator
{
    private const double Slack = 1e-6;

    /// <summary>All that is wrong; empty for a plan that works.</summary>
    public static List<string> Faults(CutTask task, CutPlan plan)
    {
        var faults = new List<string>();
        foreach (var plate in plan.Plates)
        {
            PlateFaults(task, plate, faults);
        }

        Counts(task, plan, faults);
        return faults;
    }

    private static void PlateFaults(CutTask task, CutPlate plate, List<string> faults)
    {
        if (!task.Stocks.Contains(plate.Stock))
        {
            faults.Add("the plate is none of the task's");
        }

        var hand = new List<CutBox> { new(0, 0, plate.Stock.WidthMm, plate.Stock.HeightMm) };
        foreach (var cut in plate.Cuts)
        {
            var at = hand.FindIndex(box => Same(box, cut.InHand));
            if (at < 0)
            {
                faults.Add("what is cut is not in hand");
                continue;
            }

            var length = cut.IsUpright ? cut.InHand.WidthMm : cut.InHand.HeightMm;
            if (cut.AtMm <= Slack || cut.AtMm >= length - Slack)
            {
                faults.Add("the cut parts nothing");
            }

            hand.RemoveAt(at);
            var rest = length - cut.AtMm - task.Rules.KerfMm;
            if (task.Rules.NarrowestMm > 0 && Math.Min(cut.AtMm, rest) < task.Rules.NarrowestMm - Slack)
            {
                faults.Add("a strip is too narrow");
            }

            var (near, far) = cut.IsUpright
                ? (cut.InHand with { WidthMm = cut.AtMm }, cut.InHand with { XMm = cut.InHand.XMm + cut.AtMm + task.Rules.KerfMm, WidthMm = rest })
                : (cut.InHand with { HeightMm = cut.AtMm }, cut.InHand with { YMm = cut.InHand.YMm + cut.AtMm + task.Rules.KerfMm, HeightMm = rest });
            hand.Add(near);
            if (rest > Slack)
            {
                hand.Add(far);
            }
        }

        foreach (var piece in plate.Pieces)
        {
            var at = hand.FindIndex(box => Same(box, piece.Box));
            if (at < 0)
            {
                faults.Add("a piece does not come off");
            }
            else
            {
                hand.RemoveAt(at);
            }

            PieceFaults(task, plate, piece, faults);
        }

        if (hand.Count != plate.Offcuts.Length || !hand.TrueForAll(box => plate.Offcuts.Any(offcut => Same(box, offcut))))
        {
            faults.Add("what is left over is not what is said");
        }

        // Said twice, by another way: no two pieces share any area, and none hangs over the edge.
        var boxes = plate.Pieces.Select(piece => piece.Box).ToList();
        for (var first = 0; first < boxes.Count; first++)
        {
            for (var second = first + 1; second < boxes.Count; second++)
            {
                if (Overlap(boxes[first].XMm, boxes[first].WidthMm, boxes[second].XMm, boxes[second].WidthMm)
                    && Overlap(boxes[first].YMm, boxes[first].HeightMm, boxes[second].YMm, boxes[second].HeightMm))
                {
                    faults.Add("two pieces overlap");
                }
            }
        }
    }

    private static void PieceFaults(CutTask task, CutPlate plate, PlacedPiece piece, List<string> faults)
    {
        var (box, wanted) = (piece.Box, task.Pieces.FirstOrDefault(wanted => wanted.Id == piece.Id));
        if (box.XMm < -Slack || box.YMm < -Slack || box.XMm + box.WidthMm > plate.Stock.WidthMm + Slack || box.YMm + box.HeightMm > plate.Stock.HeightMm + Slack)
        {
            faults.Add("a piece hangs over the edge");
        }

        if (wanted is null)
        {
            faults.Add("nobody wants this piece");
            return;
        }

        var (width, height) = piece.IsTurned ? (wanted.HeightMm, wanted.WidthMm) : (wanted.WidthMm, wanted.HeightMm);
        if (Math.Abs(box.WidthMm - width) > Slack || Math.Abs(box.HeightMm - height) > Slack)
        {
            faults.Add("a piece has another size");
        }

        if (piece.IsTurned && (!task.Rules.Rotate || plate.Stock.HasGrain))
        {
            faults.Add("a piece must not be turned");
        }
    }

    private static void Counts(CutTask task, CutPlan plan, List<string> faults)
    {
        var placed = plan.Plates.SelectMany(plate => plate.Pieces).ToList();
        decimal value = 0;
        foreach (var piece in task.Pieces)
        {
            var count = placed.Count(one => one.Id == piece.Id);
            value += count * (piece.Value ?? ((decimal)piece.WidthMm * (decimal)piece.HeightMm));
            var left = plan.Left.Where(rest => rest.Id == piece.Id).Sum(rest => rest.Count);
            if (count > piece.Count || count + left != piece.Count)
            {
                faults.Add("the pieces are not as many as wanted");
            }
        }

        if (value != plan.Value || plan.Bound < plan.Value)
        {
            faults.Add("the value is not that of the pieces");
        }

        if (task.Stocks.Any(stock => plan.Plates.Count(plate => plate.Stock == stock) > (stock.Count ?? int.MaxValue)) || plan.Plates.Length > (task.MostPlates ?? int.MaxValue))
        {
            faults.Add("there are not so many plates");
        }
    }

    private static bool Overlap(double first, double firstLength, double second, double secondLength) =>
        first + firstLength > second + Slack && second + secondLength > first + Slack;

    private static bool Same(CutBox first, CutBox second) => Math.Abs(first.XMm - second.XMm) < Slack && Math.Abs(first.YMm - second.YMm) < Slack
        && Math.Abs(first.WidthMm - second.WidthMm) < Slack && Math.Abs(first.HeightMm - second.HeightMm) < Slack;
}
