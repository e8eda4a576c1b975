using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Cutting;
using Lampblack.Desks;
using Lampblack.Quantities;

namespace Lampblack.Jobs;

/// <summary>A cut plan in words that can be followed at the bench. Left, right, lower and upper are as in the drawing; cuts are numbered through all plates.</summary>
internal static class CutWords
{
    private const string SnapCaution =
        "Take care: eye protection, gloves for snapping. Clamp the plate on a board, score away from yourself, and snap over the table's edge with a covered hand. Edges and chips are sharp.";

    private const string SawCaution =
        "Take care: eye protection, no gloves near a saw that runs. Clamp the plate on a board, keep hands away from the blade, saw slowly: acrylic grabs, melts and cracks. Edges are sharp.";

    /// <summary>Said once with every plan.</summary>
    public static string Caution(CuttingWay? way) => way == CuttingWay.Saw ? SawCaution : SnapCaution;

    /// <summary>All of it.</summary>
    public static ImmutableArray<string> Lines(CutSheetPlan sheet)
    {
        var plan = sheet.Plan;
        var lines = ImmutableArray.CreateBuilder<string>();
        lines.Add(Proof(plan));
        foreach (var (plate, index, first) in Numbered(plan))
        {
            lines.Add(Head(sheet, plate, index));
            lines.AddRange(Steps(sheet, plate, first));
        }

        if (!plan.Plates.IsEmpty)
        {
            lines.Add(Caution(sheet.Way));
        }

        return lines.ToImmutable();
    }

    /// <summary>Plates with their places and the numbers of their first cuts: cuts are numbered through all plates.</summary>
    public static IEnumerable<(CutPlate Plate, int Index, int First)> Numbered(CutPlan plan)
    {
        var first = 1;
        foreach (var (index, plate) in plan.Plates.Index())
        {
            yield return (plate, index, first);
            first += plate.Cuts.Length;
        }
    }

    /// <summary>How good the plan is, and how well that is known.</summary>
    public static string Proof(CutPlan plan)
    {
        var plates = plan.Plates.Length;
        var price = plan.Plates.Sum(plate => plate.Stock.Price);
        var cost = price > 0 ? string.Create(CultureInfo.InvariantCulture, $", price {price:0.##}") : string.Empty;
        var pieces = plan.Plates.Sum(plate => plate.Pieces.Length);
        var what = string.Create(CultureInfo.InvariantCulture, $"{Count(pieces, "piece")} from {Count(plates, "plate")}{cost}");
        if (plates == 0)
        {
            return "Nothing can be cut.";
        }

        if (plan.IsProven)
        {
            return plan.Left.IsEmpty
                ? $"{what}: proven, no plan takes fewer plates or cheaper ones."
                : string.Create(CultureInfo.InvariantCulture, $"{what}, value {plan.Value:0.####}: proven, no plan is worth more.");
        }

        return plan.Left.IsEmpty
            ? string.Create(CultureInfo.InvariantCulture, $"{what}: a good plan, not proven; at least {Count(plan.PlatesBound, "plate")} would be needed in any.")
            : string.Create(CultureInfo.InvariantCulture, $"{what}, value {plan.Value:0.####}: a good plan, not proven; none is worth more than {plan.Bound:0.####}.");
    }

    /// <summary>A plate's title.</summary>
    public static string Head(CutSheetPlan sheet, CutPlate plate, int index) => string.Create(
        CultureInfo.InvariantCulture,
        $"Plate {index + 1}: {plate.Stock.Id}, {Size(plate.Stock.WidthMm, plate.Stock.HeightMm)}{(sheet.IsAssumed ? " (assumed: the desk lists no [[stock]])" : string.Empty)}");

    /// <summary>A plate's cuts, numbered from <paramref name="first"/>.</summary>
    public static IEnumerable<string> Steps(CutSheetPlan sheet, CutPlate plate, int first) => [.. Cuts(sheet, plate, first, LengthUnit.Millimetre, id => $"\"{id}\"").Select(cut => cut.Number > 0 ? string.Create(CultureInfo.InvariantCulture, $"{cut.Number}. {cut.Sentence}") : cut.Sentence)];

    /// <summary>The same with the numbers apart, 0 for what is no cut, lengths in a unit, and pieces as <paramref name="named"/> calls them.</summary>
    public static IEnumerable<(int Number, string Sentence)> Cuts(CutSheetPlan sheet, CutPlate plate, int first, LengthUnit unit, Func<string, string> named)
    {
        if (plate.Cuts.IsEmpty)
        {
            yield return (0, $"The whole plate is {named(plate.Pieces[0].Id)}; nothing to cut.");
        }

        foreach (var (cut, index) in plate.Cuts.Select((cut, index) => (cut, index)))
        {
            var (verb, box) = (Verb(sheet.Way), cut.InHand);
            var what = index == 0 ? $"the plate, {Size(box.WidthMm, box.HeightMm, unit)}," : $"the rest of {Size(box.WidthMm, box.HeightMm, unit)}";
            var where = cut.IsUpright ? $"upright, {In(cut.AtMm, unit)} from its left edge" : $"across, {In(cut.AtMm, unit)} from its lower edge";
            var (near, far) = Parts(cut, sheet.Rules.KerfMm);
            string[] parts = [.. new[] { (Side: cut.IsUpright ? "left" : "lower", Box: near), (Side: cut.IsUpright ? "right" : "upper", Box: far) }
                .Select(part => (part.Side, Is: Is(plate, part.Box, named)))
                .Where(part => part.Is is not null)
                .Select(part => $"the {part.Side} part is {part.Is}")];
            yield return (first + index, $"{verb} {what} {where}{(parts.Length > 0 ? ": " + string.Join(", ", parts) : string.Empty)}.");
        }

        if (sheet.TrimMm > 0)
        {
            yield return (0, $"Each panel is cut {In(sheet.TrimMm, unit)} larger on every side: file it down to its line.");
        }
    }

    /// <summary>The two parts of what was in hand.</summary>
    public static (CutBox Near, CutBox Far) Parts(EdgeCut cut, double kerfMm)
    {
        var box = cut.InHand;
        var from = cut.AtMm + kerfMm;
        return cut.IsUpright
            ? (box with { WidthMm = cut.AtMm }, box with { XMm = box.XMm + from, WidthMm = box.WidthMm - from })
            : (box with { HeightMm = cut.AtMm }, box with { YMm = box.YMm + from, HeightMm = box.HeightMm - from });
    }

    /// <summary>A size in words.</summary>
    public static string Size(double widthMm, double heightMm) => string.Create(CultureInfo.InvariantCulture, $"{widthMm:0.##} x {heightMm:0.##} mm");

    private static string? Is(CutPlate plate, CutBox box, Func<string, string> named) =>
        plate.Pieces.FirstOrDefault(piece => Same(piece.Box, box)) is { } piece ? named(piece.Id)
        : plate.Offcuts.Any(offcut => Same(offcut, box)) ? "left over" : null;

    private static bool Same(CutBox first, CutBox second) => Math.Abs(first.XMm - second.XMm) < 0.001 && Math.Abs(first.YMm - second.YMm) < 0.001
        && Math.Abs(first.WidthMm - second.WidthMm) < 0.001 && Math.Abs(first.HeightMm - second.HeightMm) < 0.001;

    private static string Verb(CuttingWay? way) => way switch
    {
        CuttingWay.Snap => "Score and snap",
        CuttingWay.Saw => "Saw",
        _ => "Cut",
    };

    /// <summary>The same in a unit.</summary>
    public static string Size(double widthMm, double heightMm, LengthUnit unit) =>
        unit == LengthUnit.Millimetre ? Size(widthMm, heightMm) : $"{In(widthMm, unit)[..^" in".Length]} x {In(heightMm, unit)}";

    private static string In(double mm, LengthUnit unit) => unit == LengthUnit.Millimetre ? string.Create(CultureInfo.InvariantCulture, $"{mm:0.##} mm") : LengthWords.ForRuler(mm, unit);

    private static string Count(int count, string thing) => string.Create(CultureInfo.InvariantCulture, $"{count} {thing}{(count == 1 ? string.Empty : "s")}");
}
