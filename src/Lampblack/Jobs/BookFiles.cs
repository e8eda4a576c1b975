using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Security.Cryptography;
using System.Text;
using System.Threading;
using System.Threading.Tasks;
using Lampblack.Books;
using Lampblack.Cutting;
using Lampblack.Desks;
using Lampblack.Fabrication;
using Lampblack.Findings;
using Lampblack.Formats;
using Lampblack.Layout;
using Lampblack.Printers;
using Lampblack.Separations;

namespace Lampblack.Jobs;

/// <summary>What a build hands on to its book.</summary>
/// <param name="Laid">The desk in its places.</param>
/// <param name="Panels">The panels.</param>
/// <param name="Sheets">The sheets' pages.</param>
/// <param name="Charts">The hole charts.</param>
/// <param name="Cut">The cut plan.</param>
/// <param name="Light">The light.</param>
/// <param name="Wiring">The wiring; null for none.</param>
/// <param name="Wish">What pictures are to show.</param>
/// <param name="Setup">Printer, paper and black.</param>
/// <param name="Request">What the maker asked for.</param>
internal sealed record BookInput(
    LaidDesk Laid,
    ImmutableArray<PrintedPanel> Panels,
    ImmutableArray<SheetPages> Sheets,
    ImmutableArray<HoleChart> Charts,
    CutSheetPlan Cut,
    DeskLight Light,
    DeskWiring? Wiring,
    PictureWish Wish,
    PrintSetup Setup,
    BuildRequest Request);

/// <summary>A book and its files.</summary>
/// <param name="Book">The book.</param>
/// <param name="Bill">Its bill.</param>
/// <param name="Files">The files.</param>
public sealed record MadeBook(Book Book, Bill Bill, ImmutableArray<OutputFile> Files)
{
    /// <summary>What it was written from.</summary>
    public required BookFacts Facts { get; init; }

    /// <summary>How long it takes and what it costs, in a sentence.</summary>
    public string Sentence
    {
        get
        {
            var steps = Book.Steps.ToList();
            return string.Create(CultureInfo.InvariantCulture, $"{steps.Count} steps, about {BuildBook.Duration(Book.Chapters.Sum(chapter => chapter.Minutes))} of work and {BuildBook.Duration(Book.Chapters.Sum(chapter => chapter.WaitMinutes))} of waiting; about {Bill.Total:0} {Bill.Currency}, {Bill.Guessed:0} of it guessed.");
        }
    }

    /// <summary>The book as a station shows it.</summary>
    internal BookView View(LaidDesk laid, ImmutableArray<Finding> findings) => new(
        Sentence,
        [
            .. Book.Chapters.Select(chapter => new ChapterView(chapter.Id, chapter.Title, chapter.Steps.Length, chapter.Steps.IsEmpty ? string.Empty : BuildBook.Duration(chapter.Minutes), BookHtml.Part(chapter))),
        ],
        [
            .. laid.Panels.SelectMany(panel => panel.Texts.Select(text => text.Origin.Item).Distinct()).Select(item => LegendPatch.Of(laid, item)).OfType<LegendPatch>().Select(patch => new LegendChoice(patch.Item, patch.Words)),
        ],
        Files,
        findings);
}

/// <summary>The build book, its bill, and the pages for changing one legend.</summary>
internal static class BookFiles
{
    public const string Path = "book.html";
    public const string BillPath = "bill.csv";
    public const string LegendPath = "legend.html";

    /// <summary>The files.</summary>
    /// <param name="input">What the build found out.</param>
    /// <param name="patch">The legend that is changed; null for the whole book.</param>
    /// <param name="findings">Takes what is found.</param>
    /// <param name="cancellation">Stops the work between two pictures.</param>
    public static MadeBook Of(BookInput input, LegendPatch? patch, List<Finding> findings, CancellationToken cancellation)
    {
        var (facts, faces) = Facts(input, cancellation);
        var bill = Bill.Of(facts);
        findings.AddRange(bill.UnusedPrices.Select(price => Finding.Note(
            "price-unused", $"no line of the bill is called {Shown.Code(price.Key)}", $"`{BillPath}` has the names in its first column", price.Price.Span)));
        var plain = BuildBook.Of(facts, bill, string.Empty);
        var body = BookHtml.Body(plain);
        var book = plain with { Code = Code(plain.Title, body) };
        var pages = ImmutableArray.CreateBuilder<OutputFile>();
        pages.Add(new(Path, "the build book: every step from blank paper to the proven panel, to print or to keep open at the bench", BookHtml.Write(book, body)));
        pages.Add(new(BillPath, "what to buy, with prices as far as they are known", bill.Csv()));
        if (patch is not null)
        {
            pages.Add(new(LegendPath, "two pages for changing one legend of the finished panel", LegendBook.Write(facts, patch, faces[$"{patch.Panel.Panel.Id}/day"], PictureLayers.BorderMm)));
        }

        return new(book, bill, pages.ToImmutable()) { Facts = facts };
    }

    /// <summary>What the book needs of sheets and panels, worked out before it is known what shines and how it is wired; no file comes of it.</summary>
    /// <param name="panels">The panels.</param>
    /// <param name="sheets">The sheets' pages.</param>
    /// <param name="cancellation">Stops the work between two of them.</param>
    public static ImmutableArray<OutputFile> Prepare(ImmutableArray<PrintedPanel> panels, ImmutableArray<SheetPages> sheets, CancellationToken cancellation)
    {
        panels.Select(panel => new Action(() => _ = panel.Finished.Value)).Concat(sheets.SelectMany(sheet => sheet.Both).Select(page => new Action(() => _ = page.Toner)))
            .AsParallel().WithCancellation(cancellation).ForAll(prepare => prepare());
        return [];
    }

    /// <summary>The maker, as desk, printer and request tell.</summary>
    public static BookMaker Maker(Desk desk, CutSheetPlan cut, PrintSetup setup, BuildRequest request) => new(
        desk.Order,
        request.BracketStepMm is not null ? PrintWay.CopyShop : request.Printer?.Path.Turning switch { null => PrintWay.Untold, Turning.Automatic => PrintWay.TurnsItself, _ => PrintWay.ByHand },
        request.Printer?.Path.Colour == false || setup.Black.Ink.Space == Quantities.InkSpace.Gray,
        desk.Book.IsLeftHanded,
        desk.Book.Unit,
        cut.Way ?? DeskCut.UsualWay(desk.Stack.PlateMm),
        desk.Book.IsBrief);

    private static (BookFacts Facts, ImmutableDictionary<string, ImmutableArray<byte>> Faces) Facts(BookInput input, CancellationToken cancellation)
    {
        var maker = Maker(input.Laid.Desk, input.Cut, input.Setup, input.Request);
        var lit = input.Light.Panels.Where(panel => panel.HasGeneral || !panel.Emitters.IsEmpty || !panel.Cells.IsEmpty).ToImmutableArray();

        // None of these waits for another.
        var facesMade = Task.Run(() => BookPictures.Faces(input, cancellation), cancellation);
        var costMade = Task.Run(() => Cost(input, cancellation), cancellation);
        var printMade = Task.Run(() => BookPrinting.Of(input), cancellation);
        var drawings = BookPictures.Drawings(input, cancellation);
        var (faces, cost) = (facesMade.GetAwaiter().GetResult(), costMade.GetAwaiter().GetResult());
        var print = printMade.GetAwaiter().GetResult();
        var facts = new BookFacts
        {
            Maker = maker,
            Laid = input.Laid,
            Charts = input.Charts,
            Print = print,
            Plates = [.. CutWords.Numbered(input.Cut.Plan).Select(plate => Plate(plate.Plate, plate.Index, plate.First, input, maker, print.Hinges))],
            TrimMm = input.Cut.TrimMm,
            Lamps = [.. lit.SelectMany(panel => EmitterDrawing.Numbered(panel).Select(one => new BookLamp(panel.Laid.Panel.Id, one.Number, one.Emitter.At.XMm, one.Emitter.At.YMm, one.Channel)))],
            Cells = [.. lit.SelectMany(panel => panel.Cells.Select(cell => new BookCell(panel.Laid.Panel.Id, cell.Words, cell.Inside, cell.Emitters.Length)))],
            LampType = lit.IsEmpty ? null : lit[0].Type,
            Boxes = [.. lit.Select(panel => new BookBox(panel.Laid.Panel.Id, panel.Laid.Panel.Title, panel.Light.Box.Inside) { Blocks = panel.Blocks })],
            BoxDepthMm = lit.IsEmpty ? 0 : lit.Max(panel => CellWalls.FloorMm(input.Laid.Desk, panel)),
            EvennessFactor = lit.IsEmpty ? 0 : lit.Max(panel => panel.EvennessFactor),
            Shadows = BookShadows.Of(lit, cancellation),
            Circuit = input.Light.Circuit,
            Wiring = input.Wiring is { HasWires: true } wiring ? new(wiring.Needs, wiring.Pins, wiring.Wires) : null,
            Pictures = drawings.AddRange(BookPictures.OfFaces(input, faces)),
            TonerSentence = cost.Sentence(),
            BlackCartridgeShare = cost.BlackShare,
            ColourCartridgeShare = cost.ColourShare,
            TonerPrice = cost.TonerPrice,
            SheetPrice = input.Request.Printer?.Cost.SheetPrice,
            PrinterCurrency = input.Request.Printer?.Cost.Currency,
        };
        return (facts, faces);
    }

    private static BookPlate Plate(CutPlate plate, int index, int first, BookInput input, BookMaker maker, ImmutableArray<BookHinge> hinges) => new(
        index + 1,
        $"Plate {index + 1}: {plate.Stock.Id}",
        plate.Stock.Id,
        plate.Stock.WidthMm,
        plate.Stock.HeightMm,
        (double)plate.Stock.Price,
        [.. CutWords.Cuts(input.Cut, plate, first, maker.Unit)],
        BookPictures.Plate(plate, index, first, input.Cut),
        BookPictures.Hinged(plate, index, first, input, hinges));

    /// <summary>Front and mask of every sheet: what one set takes.</summary>
    private static SheetCost Cost(BookInput input, CancellationToken cancellation) => new(
        [.. input.Sheets.SelectMany(sheet => sheet.Both).AsParallel().AsOrdered().WithCancellation(cancellation).Select(page => page.Toner)],
        input.Sheets.Length,
        input.Request.Printer?.Cost ?? PrintCost.Unknown);

    /// <summary>Of all that stands in it: the same book has the same code, however its desk is written down.</summary>
    private static string Code(string title, string body) => ShortCode.Of(SHA256.HashData(Encoding.UTF8.GetBytes($"{title}\n{body}")));
}
