using System.Collections.Immutable;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;

namespace Lampblack.Jobs;

/// <summary>One plate and its cuts, as a page shows it.</summary>
/// <param name="Title">Which plate it is.</param>
/// <param name="Drawing">The plate: <c>left</c> over, <c>pieces</c>, <c>lines</c>, <c>discs</c>, <c>words</c>.</param>
/// <param name="Steps">The cuts in their order.</param>
public sealed record CutPlateView(string Title, DrawnView Drawing, ImmutableArray<string> Steps);

/// <summary>How the panels are cut from plates, as a page shows it.</summary>
/// <param name="Proof">How good the plan is, and how well that is known.</param>
/// <param name="Plates">The plates.</param>
/// <param name="Caution">What to mind.</param>
public sealed record CutView(string Proof, ImmutableArray<CutPlateView> Plates, string Caution)
{
    // Letters of a drawing: the plate's longer side divided by this, as in the drawing in true size.
    private const double LettersOnPlate = 46;

    /// <summary>The view of a plan.</summary>
    internal static CutView Of(CutSheetPlan sheet)
    {
        var plates = ImmutableArray.CreateBuilder<CutPlateView>();
        var first = 1;
        foreach (var (index, plate) in sheet.Plan.Plates.Index())
        {
            var (width, height) = (plate.Stock.WidthMm, plate.Stock.HeightMm);
            var textMm = System.Math.Max(width, height) / LettersOnPlate;
            var drawing = CutDrawing.Of(plate, first, sheet.Rules.KerfMm, new(textMm, textMm), 1, textMm);
            var (wholeWidth, wholeHeight) = (width + (2 * textMm), height + (2 * textMm));
            DrawnShape Shape(string what, Region<SheetSpace> region) => new(what, SvgPath.Of(region, wholeHeight));
            plates.Add(new(
                CutWords.Head(sheet, plate, index),
                new(0, 0, wholeWidth, wholeHeight, [Shape("left", drawing.Offcuts), Shape("pieces", drawing.Pieces), Shape("lines", drawing.Lines), Shape("discs", drawing.Discs), Shape("words", drawing.Words)]),
                [.. CutWords.Steps(sheet, plate, first)]));
            first += plate.Cuts.Length;
        }

        return new(CutWords.Proof(sheet.Plan), plates.ToImmutable(), CutWords.Caution(sheet.Way));
    }
}
