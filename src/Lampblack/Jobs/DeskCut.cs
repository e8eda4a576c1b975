using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Threading;
using Lampblack.Cutting;
using Lampblack.Desks;
using Lampblack.Findings;

namespace Lampblack.Jobs;

/// <summary>The panels of a desk, and its spares, cut from plates. Round corners are filed, not cut.</summary>
internal static class DeskCut
{
    /// <summary>What a build may take, some seconds: plans of a few panels take a hundredth of it.</summary>
    private const long StepsInBuild = 60_000_000;

    /// <summary>The narrowest strip that hands snap well (common practice, no source).</summary>
    private const double NarrowestSnapMm = 25;

    /// <summary>With pliers or a channel, narrower ones: so many times the thickness (common practice, no source).</summary>
    private const double NarrowestThicknesses = 4;

    /// <summary>Makers of extruded sheet give 3 mm as the most that snaps, others 3/16 inch.</summary>
    private const double EasySnapMm = 3;
    private const double ThickestSnapMm = 4.8;

    /// <summary>What a saw for plastics eats, the upper end (common practice, no source).</summary>
    private const double SawKerfMm = 3;

    private const double SameThicknessMm = 0.05;

    /// <summary>Sizes of frames, whose glazing is cheap clear acrylic (from memory).</summary>
    private static readonly ImmutableArray<(double WidthMm, double HeightMm)> UsualPlatesMm = [(300, 400), (400, 500), (500, 700)];

    /// <summary>The plan as a build makes it: a desk that says nothing about cutting hears nothing about it.</summary>
    public static CutSheetPlan InBuild(Desk desk, List<Finding> findings, IProgress<string> progress, CancellationToken cancellation)
    {
        progress.Report("planning the cuts");
        var found = new List<Finding>();
        var plan = Plan(desk, new(StepsInBuild, cancellation, progress), found);
        findings.AddRange(desk.Cutting.Span is null ? [] : found);
        return plan;
    }

    /// <summary>The plan.</summary>
    public static CutSheetPlan Plan(Desk desk, CutEffort effort, List<Finding> findings)
    {
        var (wish, thicknessMm) = (desk.Cutting, desk.Stack.PlateMm);
        var way = WayOf(wish, thicknessMm, findings);
        var pieces = PiecesOf(desk);
        var (stocks, isAssumed) = StocksOf(wish, thicknessMm, pieces, findings);
        var kerfMm = wish.KerfMm ?? UsualKerfMm(way);
        var usualMm = way == CuttingWay.Snap ? NarrowestSnapMm : 0;
        var task = new CutTask(pieces, stocks, new(kerfMm, wish.NarrowestMm ?? usualMm, true));
        var narrowMm = NarrowestThicknesses * thicknessMm;
        if (wish.NarrowestMm is null && narrowMm < usualMm && !CutSearch.TooLarge(task).IsEmpty)
        {
            var narrow = task with { Rules = task.Rules with { NarrowestMm = narrowMm } };
            if (CutSearch.TooLarge(narrow).Length < CutSearch.TooLarge(task).Length)
            {
                task = narrow;
                findings.Add(Finding.Warn(
                    "cut-strip-narrow",
                    string.Create(CultureInfo.InvariantCulture, $"strips down to {narrowMm:0.##} mm have to be snapped ({NarrowestThicknesses:0} times the thickness); with {usualMm:0} mm, which hands snap well, a panel would not come out of any plate"),
                    "snap narrow strips with wide pliers or in a channel, or list other plates under `[[stock]]`",
                    wish.Span));
            }
        }

        var plan = CutSearch.Run(task, effort);
        Tell(desk, task, plan, findings);
        return new(plan, way, isAssumed, wish.TrimMm, task.Rules);
    }

    /// <summary>The panels of a desk with what is to be filed off, and their spares.</summary>
    public static ImmutableArray<CutPiece> PiecesOf(Desk desk)
    {
        var wish = desk.Cutting;
        return
        [
            .. desk.Panels.Select(panel => new CutPiece(
                panel.Id, panel.WidthMm + (2 * wish.TrimMm), panel.HeightMm + (2 * wish.TrimMm), 1 + wish.SparesOf.GetValueOrDefault(panel.Id, wish.Spares))),
        ];
    }

    /// <summary>The smallest common plate that every piece fits.</summary>
    public static (double WidthMm, double HeightMm) UsualPlateMm(ImmutableArray<CutPiece> pieces) => UsualPlatesMm.FirstOrDefault(
        size => pieces.All(piece => Math.Min(piece.WidthMm, piece.HeightMm) <= size.WidthMm && Math.Max(piece.WidthMm, piece.HeightMm) <= size.HeightMm), UsualPlatesMm[^1]);

    /// <summary>How plates are cut where the desk doesn't say.</summary>
    public static CuttingWay UsualWay(double thicknessMm) => thicknessMm > ThickestSnapMm ? CuttingWay.Saw : CuttingWay.Snap;

    /// <summary>What a cut eats where the desk doesn't say, in mm.</summary>
    public static double UsualKerfMm(CuttingWay way) => way == CuttingWay.Saw ? SawKerfMm : 0;

    private static CuttingWay WayOf(CuttingWish wish, double thicknessMm, List<Finding> findings)
    {
        if ((wish.Way ?? CuttingWay.Snap) == CuttingWay.Snap && thicknessMm > EasySnapMm)
        {
            var thick = string.Create(CultureInfo.InvariantCulture, $"{thicknessMm:0.##} mm");
            if (thicknessMm <= ThickestSnapMm)
            {
                findings.Add(Finding.Warn("cut-snap-thick", $"a plate of {thick} is hard to snap: up to {EasySnapMm:0} mm goes well", "score it deeper, on both sides, try a scrap first; or write `way = \"saw\"` under `[cutting]`", wish.WaySpan));
            }
            else if (wish.Way == CuttingWay.Snap)
            {
                findings.Add(Finding.Stop("cut-snap-thick", $"a plate of {thick} can't be snapped: at most {ThickestSnapMm:0.#} mm", "write `way = \"saw\"` under `[cutting]`, or take a thinner plate", wish.WaySpan));
            }
        }

        return wish.Way ?? UsualWay(thicknessMm);
    }

    private static (ImmutableArray<CutStock> Stocks, bool IsAssumed) StocksOf(CuttingWish wish, double thicknessMm, ImmutableArray<CutPiece> pieces, List<Finding> findings)
    {
        if (wish.Stocks.IsEmpty)
        {
            var (width, height) = UsualPlateMm(pieces);
            var id = string.Create(CultureInfo.InvariantCulture, $"plate-{width:0}x{height:0}");
            findings.Add(Finding.Note(
                "cut-stock-assumed",
                $"the desk lists no plates; {CutWords.Size(width, height)} is assumed, a common size of frames",
                "list what you have or can buy: `[[stock]]` with `size = [300, 400]`"));
            return ([new(id, width, height)], true);
        }

        foreach (var other in wish.Stocks.Where(stock => !IsThick(stock, thicknessMm)))
        {
            findings.Add(Finding.Note(
                "cut-stock-thickness",
                string.Create(CultureInfo.InvariantCulture, $"the plates {Shown.Code(other.Id)} are {other.ThicknessMm:0.##} mm thick, the desk's plate is {thicknessMm:0.##} mm: they are not used"),
                "nothing to do; or set `plate` under `[stack]`",
                other.Span));
        }

        return ([.. wish.Stocks.Where(stock => IsThick(stock, thicknessMm)).Select(stock => new CutStock(stock.Id, stock.WidthMm, stock.HeightMm)
        {
            Count = stock.Count,
            Price = stock.Price,
            HasGrain = stock.HasGrain,
        })], false);
    }

    private static bool IsThick(PlateStock stock, double thicknessMm) => Math.Abs((stock.ThicknessMm ?? thicknessMm) - thicknessMm) <= SameThicknessMm;

    private static void Tell(Desk desk, CutTask task, CutPlan plan, List<Finding> findings) =>
        CutFindings.Tell(task, plan, findings, id => desk.Panels.FirstOrDefault(panel => panel.Id == id)?.Span, true);
}
