using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Layout;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>One sheet as the workshop guides through its printing. All texts are markup that is safe in a page: what was the maker's is escaped.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Paper">The paper's name.</param>
/// <param name="WidthMm">Width of the paper.</param>
/// <param name="HeightMm">Height of the paper.</param>
/// <param name="PairCode">Printed on both sides.</param>
/// <param name="Panels">The panels on it, for people.</param>
/// <param name="FrontDrawing">The front's page as it comes out, a drawing.</param>
/// <param name="MaskDrawing">The mask's page as it comes out.</param>
/// <param name="Steps">What to do at the printer, in order.</param>
public sealed record SheetGuide(
    string Id, string Paper, double WidthMm, double HeightMm, string PairCode, string Panels, string FrontDrawing, string MaskDrawing, ImmutableArray<string> Steps);

/// <summary>What a printer, a build and its sheets ask of the maker, and what is to be seen.</summary>
/// <param name="Printer">For which printer it is.</param>
/// <param name="Sheets">The sheets.</param>
/// <param name="Gates">What must pass before anything is glued.</param>
/// <param name="Cautions">Cautions.</param>
/// <param name="IsMaskFirst">Whether the mask is printed before the front.</param>
/// <param name="TurnsItself">Whether the printer turns the sheet.</param>
/// <param name="LongEdgeFirst">Whether the long edge goes in first.</param>
/// <param name="IsTurnedAbout">Whether the sheet goes in turned about the second time.</param>
/// <param name="TickRight">How the tick looks that is right, a drawing.</param>
/// <param name="TickOtherEdge">How it looks when the other edge went in first.</param>
/// <param name="TickWrongFace">How it looks on the wrong face.</param>
public sealed record PrintGuide(
    string Printer,
    ImmutableArray<SheetGuide> Sheets,
    ImmutableArray<string> Gates,
    string Cautions,
    bool IsMaskFirst,
    bool TurnsItself,
    bool LongEdgeFirst,
    bool IsTurnedAbout,
    string TickRight,
    string TickOtherEdge,
    string TickWrongFace)
{
    private const double PageMm = 60;
    private const double TickMm = 30;

    internal static PrintGuide Of(LaidDesk laid, ImmutableArray<Sheet> sheets, PrintSetup setup, BuildRequest request)
    {
        var made = JobFiles.Of(request, laid.Panels.Any(panel => !panel.Parts.IsEmpty));
        var path = request.Printer?.Path;
        return new(
            PrintCardWords.Printer(request.Printer),
            [.. sheets.AsParallel().AsOrdered().Select(sheet => Guide(sheet, setup, request, made))],
            [.. PrintCardWords.Gates(laid.Desk.Order, System.Math.Clamp(PassLimits.MostDots(setup.Spreads.SmallestMm), 0, 5))],
            PrintCardWords.Cautions(),
            JobFiles.Sides(request.Printer).First == "mask",
            path?.Turning == Printers.Turning.Automatic,
            path?.Edge == Printers.FirstEdge.Long,
            JobFiles.IsTurnedAbout(request.Printer),
            PrintCardPictures.Turn('A', TickMm, "the tick in box A"),
            PrintCardPictures.Turn('B', TickMm, "the tick in box B"),
            PrintCardPictures.Turn('F', TickMm, "the tick in the box of this face"));
    }

    private static SheetGuide Guide(Sheet sheet, PrintSetup setup, BuildRequest request, JobFiles made) => new(
        sheet.Id,
        setup.Paper.Name,
        setup.Paper.WidthMm,
        setup.Paper.HeightMm,
        sheet.PairCode,
        string.Join(", ", sheet.Panels.GroupBy(panel => panel.Panel.Title).Select(group => group.Count() == 1 ? group.Key : string.Create(CultureInfo.InvariantCulture, $"{group.Key} x {group.Count()}"))),
        PrintCardPictures.Page(SheetPdf.FrontPage(sheet, setup.Printer), PageMm, $"{sheet.Id} front"),
        PrintCardPictures.Page(SheetPdf.MaskPage(sheet, setup.Printer), PageMm, $"{sheet.Id} mask"),
        [.. PrintCardWords.Steps(request.Printer, setup.Paper, sheet, made)]);
}
