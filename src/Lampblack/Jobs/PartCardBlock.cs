using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Parts;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>A part on the part card: its name, its views at true size and its figures, each with room for what a caliper says. Its top left corner is the origin, so y is 0 or less.</summary>
/// <param name="Shapes">All that is printed, in one ink; shapes may lie over each other.</param>
/// <param name="HeightMm">How much of the page's height it takes.</param>
internal sealed record PartCardBlock(ImmutableArray<Region<SheetSpace>> Shapes, double HeightMm)
{
    private const double HeadMm = 9;
    private const double TableMm = 74;
    private const double RowMm = 5.2;
    private const double GapMm = 7;
    private const double TextMm = 1.9;

    /// <summary>What the caliper's keys are called on the card, where a figure's own name would not tell.</summary>
    private static readonly Dictionary<string, string> KeyNames = new(StringComparer.Ordinal)
    {
        ["knob diameter"] = "knob",
        ["bushing length"] = "bushing",
        ["largest panel thickness"] = "panel-max",
    };

    /// <summary>Draws a part.</summary>
    public static PartCardBlock Of(Part part, int count, double widthMm, double mostHeightMm)
    {
        var shapes = new List<Region<SheetSpace>>
        {
            Region<SheetSpace>.Rectangle(new(0, 0, widthMm, 0.15)),
            TrialDrawing.Paragraph(part.Id, 3, 0, -2, widthMm).Shape,
        };
        var used = count == 1 ? "once" : string.Create(CultureInfo.InvariantCulture, $"{count} times");
        var left = SheetText.WidthMm(part.Id, 3) + 4;
        var about = $"{KindText(part.Class)}  ·  {TrialSheet.Short(part.Name)}  ·  used {used}";
        shapes.Add(TrialSheet.Fitted(
            about, TextMm, new(left + (Math.Min(SheetText.WidthMm(about, TextMm), widthMm - left) / 2), -3.7), widthMm - left));

        var views = PartCardViews.Of(part).ToList();
        var beside = views.All(view => view.Shape.Bounds.WidthMm <= widthMm - TableMm - GapMm);
        var (drawn, belowMm) = Views(views, beside ? widthMm - TableMm - GapMm : widthMm, mostHeightMm - HeadMm - RowMm);
        shapes.AddRange(drawn);
        var (table, tableBelowMm) = Table(part, beside ? widthMm - TableMm : 0, beside ? -HeadMm : belowMm - 2);
        shapes.AddRange(table);
        return new([.. shapes], -Math.Min(belowMm, tableBelowMm) + 4);
    }

    private static (List<Region<SheetSpace>> Shapes, double BelowMm) Views(List<PartView> views, double widthMm, double mostHeightMm)
    {
        var shapes = new List<Region<SheetSpace>>();
        var (x, top, row) = (0.0, -HeadMm, 0.0);
        foreach (var view in views)
        {
            var box = view.Shape.Bounds;
            var isTooLarge = box.WidthMm > widthMm || box.HeightMm > mostHeightMm;
            var caption = isTooLarge
                ? string.Create(CultureInfo.InvariantCulture, $"{view.Name}: {box.WidthMm:0.#} x {box.HeightMm:0.#} mm, larger than this card; go by the figures")
                : view.Name;
            var (wide, high) = isTooLarge ? (widthMm, 0) : (Math.Max(box.WidthMm, Math.Min(widthMm, 22)), box.HeightMm);
            if (x > 0 && x + wide > widthMm)
            {
                (x, top, row) = (0, top - row, 0);
            }

            var words = TrialDrawing.Paragraph(caption, 1.6, x, top, wide);
            shapes.Add(words.Shape);
            var drawnTop = words.BelowMm - 0.8;
            if (!isTooLarge)
            {
                shapes.Add(view.Shape.Map(Affine<ItemSpace, SheetSpace>.Shift(x - box.LeftMm, drawnTop - box.TopMm)));
            }

            row = Math.Max(row, top - drawnTop + high + 3);
            x += wide + GapMm;
        }

        return (shapes, top - row);
    }

    /// <summary>The figures in a column, each with a line to write on.</summary>
    private static (List<Region<SheetSpace>> Shapes, double BelowMm) Table(Part part, double leftMm, double topMm)
    {
        var shapes = new List<Region<SheetSpace>>();
        var top = topMm;
        foreach (var (what, figure) in part.Figures().Where(pair => IsMeasured(pair.What) && pair.Figure.Mm > 0))
        {
            shapes.Add(TrialDrawing.Paragraph(KeyNames.GetValueOrDefault(what, what), TextMm, leftMm, top - 1.6, 32).Shape);
            shapes.Add(TrialDrawing.Paragraph(string.Create(CultureInfo.InvariantCulture, $"{figure.Mm:0.##} mm"), TextMm, leftMm + 33, top - 1.6, 18).Shape);
            shapes.Add(Region<SheetSpace>.Rectangle(new(leftMm + 51, top - 4.4, 21, 0.15)));
            top -= RowMm;
        }

        return (shapes, top);
    }

    /// <summary>Whether a caliper can say anything of it in the desk file.</summary>
    private static bool IsMeasured(string what) =>
        !what.EndsWith("tolerance", StringComparison.Ordinal) && !what.StartsWith("lever", StringComparison.Ordinal) && what != "least pitch";

    private static string KindText(PartClass kind) => kind switch
    {
        PartClass.PushButton => "push-button",
        PartClass.KeySwitch => "key-switch",
        _ => kind.ToString().ToLowerInvariant(),
    };
}
