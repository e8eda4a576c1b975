using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Sheets;

/// <summary>The pages of a bracket.</summary>
public static class BracketPages
{
    private const double HeadMm = 7;
    private const double LargestTextMm = 4.4;
    private const double SmallMm = 3;
    private const double PaddingMm = 8;
    private const double FrameMm = 0.5;

    /// <summary>The two pages of each copy of a sheet. All copies share what is alike: one drawing of the front and one of the mask.</summary>
    /// <param name="plan">The sheet with the places of its numbers.</param>
    /// <param name="front">Its front page, packed.</param>
    /// <param name="mask">Its mask page, packed.</param>
    /// <param name="printer">What is known of the printer.</param>
    /// <param name="stepMm">The step.</param>
    /// <param name="mark">The ink of marks.</param>
    public static IEnumerable<PackedPage> Of(
        BracketSheet plan, PackedPage front, PackedPage mask, PrinterProperties printer, double stepMm, Ink mark)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(front);
        ArgumentNullException.ThrowIfNull(mask);
        var frontMap = PageMapping.Front(printer);
        var maskMap = PageMapping.Back(printer, plan.Sheet.Paper);
        foreach (var copy in Bracket.Copies(stepMm))
        {
            yield return front.With(default, [new(plan.Label(copy, onMask: false).Map(frontMap), mark)]);

            // The move is one in front view; on the page it goes where the mirror, a half-turn and the printer's own turn send it.
            var move = Affine<SheetSpace, SheetSpace>.Shift(copy.RightMm, copy.UpMm).Then(maskMap);
            var here = new Point<SheetSpace>(0, 0);
            yield return mask.With(move.Apply(here) - maskMap.Apply(here), [new(plan.Label(copy, onMask: true).Map(move), mark)]);
        }
    }

    /// <summary>The page for whoever prints the job, in the upper half of a page, and its blank back.</summary>
    /// <param name="title">The desk's title.</param>
    /// <param name="paper">The paper.</param>
    /// <param name="sheets">How many sheets follow.</param>
    /// <param name="weight">Which paper, in words.</param>
    /// <param name="ink">The ink of the page.</param>
    /// <param name="marginMm">The unprintable border.</param>
    public static ImmutableArray<PdfPage> Cover(string title, PaperSize paper, int sheets, string weight, Ink ink, double marginMm)
    {
        ArgumentNullException.ThrowIfNull(paper);
        var whole = new Box<PageSpace>(0, 0, paper.WidthMm, paper.HeightMm);
        var lines = Lines(sheets, paper, weight, ink.Space == InkSpace.Gray);
        var left = marginMm + 2 + PaddingMm;
        var top = paper.HeightMm - marginMm - 2 - PaddingMm;
        var box = new Box<SheetSpace>(marginMm + 2, paper.HeightMm / 2, paper.WidthMm - (2 * marginMm) - 4, (paper.HeightMm / 2) - marginMm - 2);
        var roomMm = box.WidthMm - (2 * PaddingMm);
        var textMm = Math.Min(LargestTextMm, roomMm / lines.Max(line => SheetText.WidthMm(line, 1)));
        var regions = new List<Region<SheetSpace>> { Region<SheetSpace>.Rectangle(box).Except(Region<SheetSpace>.Rectangle(box.Grow(-FrameMm))) };
        Add("TO WHOEVER PRINTS THIS", HeadMm, textMm * 1.4);
        foreach (var line in lines)
        {
            Add(line, textMm, textMm * 1.15);
        }

        Add($"Job: {SheetText.Fitting(title, SmallMm, roomMm - 12)}", SmallMm, 0);
        return
        [
            new(paper.WidthMm, paper.HeightMm, whole, whole, [new(Region<SheetSpace>.Union(regions).Map(Affine<SheetSpace, PageSpace>.Identity), ink)]),
            new(paper.WidthMm, paper.HeightMm, whole, whole, []),
        ];

        void Add(string text, double heightMm, double gapMm)
        {
            top -= heightMm;
            regions.Add(SheetText.Starting(text, heightMm, new(left, top, box.WidthMm, heightMm), Side.Front));
            top -= gapMm;
        }
    }

    private static ImmutableArray<string> Lines(int sheets, PaperSize paper, string weight, bool blackOnly) =>
    [
        "Please print this whole file like this:",
        "1.  ACTUAL SIZE, 100 %. Never \"fit\", \"shrink\" or \"scale\".",
        $"2.  Paper: {paper.Name}, {weight}.",
        "3.  TWO-SIDED, turned on the LONG edge, like a book.",
        blackOnly ? "4.  Black only, best quality, toner saving off." : "4.  Colour, best quality, toner saving off.",
        "5.  Do not staple, punch or fold. Keep the order.",
        string.Create(System.Globalization.CultureInfo.InvariantCulture, $"6.  {sheets} sheets follow this one, {sheets + 1} in all. They differ on purpose: print every one."),
        "To check: the line near the foot of every sheet is 100 mm long on both sides.",
        "Thank you. Ask me before you change any of these.",
    ];
}
