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
            [.. input.Sheets.Select(page => Guide(page, input, made))],
            mostDots,
            request.Printer is { Turns.IsEmpty: false },
            JobFiles.LearnExample(request, input.Sheets[0].Sheet),
            Tick('A', "Right: the tick shows in box A."),
            [Tick('B', "Wrong: in box B. The other edge went in first."), Tick('F', "Wrong: printed on the front itself, in F. The wrong face was printed.")],
            BookHinges.Of(input))
        {
            HingeWord = PlacedPanel.HingeWord,
        };
    }

    private static BookPicture Tick(char box, string caption) => new(PrintCardPictures.Turn(box, TickMm, caption), caption, TickMm);

    private static BookSheet Guide(SheetPages pages, BookInput input, JobFiles made) => new(
        pages.Sheet.Id,
        pages.Sheet.PairCode,
        [.. pages.Sheet.Panels.Select(panel => panel.Panel.Id).Distinct()],
        new(PrintCardPictures.SmallPage(pages.Front.Page.Value, PageMm, $"{pages.Sheet.Id} front"), input.Request.BracketStepMm is null ? $"{Code(pages.Front.Path)} as it comes out" : $"{pages.Sheet.Id}: the front", PageMm),
        new(PrintCardPictures.SmallPage(pages.Mask.Page.Value, PageMm, $"{pages.Sheet.Id} mask"), input.Request.BracketStepMm is null ? $"{Code(pages.Mask.Path)} as it comes out: mirrored, that is right" : $"{pages.Sheet.Id}: the mask, mirrored, that is right", PageMm),
        [.. PrintCardWords.Steps(input.Request.Printer, input.Setup.Paper, pages.Sheet, made)]);
}
