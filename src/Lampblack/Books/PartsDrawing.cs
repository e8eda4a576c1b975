using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Parts;

namespace Lampblack.Books;

/// <summary>This desk's parts as they lie on the bench, and what a caliper measures of one.</summary>
internal static class PartsDrawing
{
    private const int MostKinds = 12;
    private const int InRow = 4;
    private const double CellMm = 44;
    private const double RowMm = 43;
    private const double LargestMm = 26;

    /// <summary>All kinds of parts from the side, in one scale, with how many there are.</summary>
    public static BookPicture All(BookFacts facts)
    {
        ImmutableArray<IGrouping<string, Part>> kinds = [.. facts.Laid.Panels.SelectMany(panel => panel.Parts).Select(part => part.Part).GroupBy(part => part.Id).OrderBy(kind => kind.Key, StringComparer.Ordinal)];
        ImmutableArray<IGrouping<string, Part>> shown = [.. kinds.Take(MostKinds)];
        if (shown.IsEmpty)
        {
            return Plates(facts);
        }

        var scale = Math.Min(1, LargestMm / shown.Max(kind => PartSide.Of(kind.First()).LargestMm));
        var pen = new ActPen(InRow * CellMm, RowMm * ((shown.Length + InRow - 1) / InRow));
        foreach (var (index, kind) in shown.Index())
        {
            var (x, y, side) = (((index % InRow) + 0.5) * CellMm, index / InRow * RowMm, PartSide.Of(kind.First()));
            side.Draw(pen, x, y + 4 + (side.AboveMm * scale), scale);
            pen.Words(x, y + 35.5, string.Create(CultureInfo.InvariantCulture, $"{kind.Count()} x"), isBold: true, anchor: "middle")
                .Words(x, y + 39.5, ActPen.Fitting(kind.Key, CellMm, 3), anchor: "middle", sizeMm: 3);
        }

        var more = kinds.Length - shown.Length;
        return pen.Picture(
            $"The parts from the side: {string.Join(", ", shown.Select(kind => $"{kind.Count()} {kind.First().Name}"))}",
            $"The parts from the side, all in one scale{(scale < 1 ? string.Create(CultureInfo.InvariantCulture, $" (1 : {1 / scale:0.#})") : string.Empty)}: the front is up. Yours may look different where no figure is told{(more > 0 ? string.Create(CultureInfo.InvariantCulture, $"; {more} more kinds stand in the list alone") : string.Empty)}.");
    }

    /// <summary>Where the caliper goes, and a barrel that passes its hole beside one that does not.</summary>
    public static BookPicture Caliper(BookFacts facts)
    {
        var part = facts.Laid.Panels.SelectMany(panel => panel.Parts).Select(one => one.Part).OrderByDescending(one => one.BushingLength is not null).ThenByDescending(one => one.Body is not null).ThenBy(one => one.Id, StringComparer.Ordinal).First();
        var side = PartSide.Of(part);
        var scale = 24 / side.LargestMm;
        var pen = new ActPen(118, 70);
        var (x, faceMm) = (24.0, 8 + (side.AboveMm * scale));
        side.Draw(pen, x, faceMm, scale);
        var (half, nut, barrel, low) = (side.BodyWidthMm * scale / 2, side.HeadWidthMm * scale / 2, side.HoleMm * scale / 2, faceMm + (side.BelowMm * scale));
        var words = new List<string> { $"1 barrel: {facts.Exact(side.HoleMm)} hole" };
        Jaws(pen, x - barrel, x + barrel, faceMm + (Math.Min(side.ThreadMm ?? side.BelowMm, side.BelowMm) * scale / 2));
        var jawsMm = faceMm + (Math.Min(side.ThreadMm ?? side.BelowMm, side.BelowMm) * scale / 2);
        pen.Words(x + barrel + 9.5, jawsMm + 1.2, "1", isBold: true).Line(x + barrel + 4.4, jawsMm, x + barrel + 9, jawsMm, 0.25);
        words.Add(part.Bezel is null ? "2 nut: covers its hole" : $"2 nut or bezel: {facts.Exact(side.HeadWidthMm)}");
        pen.Measure(x - nut, 4, x + nut, 4).Line(x - nut, 2.5, x - nut, faceMm, 0.2).Line(x + nut, 2.5, x + nut, faceMm, 0.2).Words(x + nut + 1.5, 5.2, "2", isBold: true);
        if (side.ThreadMm is { } thread)
        {
            words.Add($"3 thread: {facts.Exact(thread)} long");
            pen.Measure(3, faceMm, 3, faceMm + (thread * scale)).Line(1.5, faceMm, x - barrel, faceMm, 0.2).Line(1.5, faceMm + (thread * scale), x - half, faceMm + (thread * scale), 0.2).Words(4.5, faceMm + (thread * scale / 2) + 1.2, "3", isBold: true);
        }

        if (part.Body is not null)
        {
            words.Add($"4 body: {facts.Exact(side.BodyWidthMm)} wide");
            pen.Words(x + half + 4.6, low - 1, "4", isBold: true);
        }

        Caliper(pen, x - (part.Body is null ? barrel : half), x + (part.Body is null ? barrel : half), low);
        foreach (var (index, line) in words.Index())
        {
            pen.Words(2, 50.5 + (index * 4.6), line);
        }

        Hole(pen, 78, 14, 8.5, 8).Right(64, 29.5, "it slips in by hand");
        Hole(pen, 78, 49, 8, 8.7).Wrong(64, 64.5, "it has to be forced");
        return pen.Picture($"{part.Name} from the side with a caliper that holds it; beside it a barrel that passes its hole, and one that is too wide", $"A caliper at one part of this desk ({Formats.HtmlMarkup.Text(part.Name)}), and the trial in its hole seen from the front.");
    }

    /// <summary>A hole, and the barrel as it meets it.</summary>
    private static ActPen Hole(ActPen pen, double xMm, double yMm, double holeMm, double barrelMm)
    {
        pen.Box(xMm - 14, yMm - 10.5, 28, 21, ActPen.Acrylic).Circle(xMm, yMm, holeMm, ActPen.Paper, 0.6);
        return pen.Circle(xMm, yMm, barrelMm, barrelMm > holeMm ? "none" : ActPen.Metal, 0.4, isDashed: barrelMm > holeMm).Words(xMm + 16, yMm + 1.2, barrelMm > holeMm ? "dashed: barrel" : "gray: barrel", sizeMm: 3);
    }

    /// <summary>A caliper whose jaws hold something from below, its bar with marks to the right.</summary>
    private static void Caliper(ActPen pen, double leftMm, double rightMm, double lowMm)
    {
        var barMm = lowMm + 3;
        pen.Box(leftMm - 3, barMm, rightMm - leftMm + 26, 4, ActPen.Metal, 0.3)
            .Trace($"M{leftMm:0.##} {lowMm - 4:0.##}v{barMm + 4 - lowMm + 4:0.##}h-3v{lowMm - barMm - 4:0.##}z", ActPen.Metal, 0.3)
            .Trace($"M{rightMm:0.##} {lowMm - 4:0.##}v{barMm + 5.5 - lowMm + 4:0.##}h9v-5.5h-6v{lowMm - barMm:0.##}z", ActPen.Metal, 0.3);
        foreach (var mark in Enumerable.Range(0, 6))
        {
            pen.Line(rightMm + 11 + (mark * 2), barMm, rightMm + 11 + (mark * 2), barMm + (mark % 5 == 0 ? 2.4 : 1.4), 0.2);
        }
    }

    /// <summary>The jaws of a caliper from below.</summary>
    private static void Jaws(ActPen pen, double leftMm, double rightMm, double yMm) =>
        pen.Trace($"M{leftMm:0.##} {yMm:0.##}l-1.2 -1v-1.6h-3v3.2h3v0.4z", ActPen.Metal, 0.3).Trace($"M{rightMm:0.##} {yMm:0.##}l1.2 -1v-1.6h3v3.2h-3v0.4z", ActPen.Metal, 0.3);

    /// <summary>A desk without parts is bought as plate and paper.</summary>
    private static BookPicture Plates(BookFacts facts)
    {
        var pen = new ActPen(112, 34);
        pen.Box(4, 6, 44, 22, ActPen.Acrylic).Words(26, 18, "acrylic", anchor: "middle").Box(60, 6, 16, 22, ActPen.Paper).Words(79, 18, "paper");
        return pen.Picture("A plate of acrylic and sheets of paper", $"Acrylic of {facts.Exact(facts.Laid.Desk.Stack.PlateMm)} and paper: this desk has no parts.");
    }
}
