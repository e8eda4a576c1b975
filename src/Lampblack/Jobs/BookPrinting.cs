using System.Linq;
using Lampblack.Books;
using Lampblack.Sheets;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Jobs;

/// <summary>What the printer's part of a job says, for the book: the words and pictures of the print card.</summary>
internal static class BookPrinting
{
    private const double PageMm = 60;
    private const double TickMm = 30;

    public static BookPrint Of(BookInput input)
    {
        var (request, setup) = (input.Request, input.Setup);
        var made = JobFiles.Of(request, input.Laid.Panels.Any(panel => !panel.Parts.IsEmpty));
        var mostDots = System.Math.Clamp(PassLimits.MostDots(setup.Spreads.SmallestMm), 0, 5);
        return new(
            PrintCardWords.Printer(request.Printer) + (request.Printer is null ? $" {InWorkshop.At("Printer", "or only the which-way sheet")}" : string.Empty),
            setup.Paper.Name,
            PrintCardWords.Weight(request.Printer?.Path),
            [.. input.Sheets.Select(sheet => Guide(sheet, input, made))],
            mostDots,
            request.Printer is { Turns.IsEmpty: false },
            JobFiles.LearnExample(request, input.Sheets[0]),
            Tick('A', "Right: the tick shows in box A."),
            [Tick('B', "Wrong: in box B. The other edge went in first."), Tick('F', "Wrong: printed on the front itself, in F. The wrong face was printed.")],
            BookHinges.Of(input))
        {
            HingeWord = PlacedPanel.HingeWord,
        };
    }

    private static BookPicture Tick(char box, string caption) => new(PrintCardPictures.Turn(box, TickMm, caption), caption, TickMm);

    private static BookSheet Guide(Sheet sheet, BookInput input, JobFiles made) => new(
        sheet.Id,
        sheet.PairCode,
        [.. sheet.Panels.Select(panel => panel.Panel.Id).Distinct()],
        new(PrintCardPictures.SmallPage(SheetPdf.FrontPage(sheet, input.Setup.Printer), PageMm, $"{sheet.Id} front"), input.Request.BracketStepMm is null ? $"{Code(PrintFiles.Path(sheet, "front"))} as it comes out" : $"{sheet.Id}: the front", PageMm),
        new(PrintCardPictures.SmallPage(SheetPdf.MaskPage(sheet, input.Setup.Printer), PageMm, $"{sheet.Id} mask"), input.Request.BracketStepMm is null ? $"{Code(PrintFiles.Path(sheet, "mask"))} as it comes out: mirrored, that is right" : $"{sheet.Id}: the mask, mirrored, that is right", PageMm),
        [.. PrintCardWords.Steps(input.Request.Printer, input.Setup.Paper, sheet, made)]);
}
