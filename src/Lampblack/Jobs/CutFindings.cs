using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Cutting;
using Lampblack.Findings;

namespace Lampblack.Jobs;

/// <summary>What a plan leaves undone.</summary>
internal static class CutFindings
{
    /// <summary>Tells of pieces that fit no plate, of pieces without a plate, and of a plan that is not proven.</summary>
    /// <param name="task">The task.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="findings">Where to tell.</param>
    /// <param name="placeOf">Where a piece stands in the file.</param>
    /// <param name="isAllWanted">Whether all pieces are needed; else each is wanted at most so many times.</param>
    public static void Tell(CutTask task, CutPlan plan, List<Finding> findings, Func<string, SourceSpan?> placeOf, bool isAllWanted)
    {
        var large = CutSearch.TooLarge(task).Select(piece => piece.Id).ToHashSet(StringComparer.Ordinal);
        foreach (var piece in task.Pieces.Where(piece => large.Contains(piece.Id)))
        {
            findings.Add(Finding.Warn(
                "cut-piece-too-large",
                $"{Shown.Code(piece.Id)}, {CutWords.Size(piece.WidthMm, piece.HeightMm)}, can't be cut from any of the plates{Strip(task)}",
                task.Stocks.IsEmpty ? "list plates under `[[stock]]`" : $"list a larger plate under `[[stock]]`; the largest is {CutWords.Size(task.Stocks.MaxBy(Area)!.WidthMm, task.Stocks.MaxBy(Area)!.HeightMm)}",
                placeOf(piece.Id),
                piece.Id));
        }

        var left = plan.Left.Where(left => !large.Contains(left.Id)).ToList();
        if (left.Count > 0 && !plan.IsStopped)
        {
            var message = $"the plates are not enough: left out {(left.Count == 1 ? "is" : "are")} {Shown.List(left.Select(piece => FormattableString.Invariant($"{piece.Count} of {Shown.Short(piece.Id)}")))}";
            const string hint = "list more plates under `[[stock]]`, or leave `count` away where more can be bought";
            findings.Add(isAllWanted ? Finding.Warn("cut-plates-short", message, hint, placeOf(left[0].Id)) : Finding.Note("cut-plates-short", message, hint));
        }

        if (!plan.IsProven)
        {
            findings.Add(Finding.Note("cut-not-proven", CutWords.Proof(plan), "`lampblack cut` with more `--seconds` looks longer"));
        }
    }

    private static double Area(CutStock stock) => stock.WidthMm * stock.HeightMm;

    private static string Strip(CutTask task) => task.Rules.NarrowestMm > 0 && !task.Stocks.IsEmpty
        ? FormattableString.Invariant($" in strips of {task.Rules.NarrowestMm:0.##} mm or more")
        : string.Empty;
}
