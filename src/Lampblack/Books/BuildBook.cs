using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>The build book of a desk: from blank paper to a panel whose every control answered, for exactly this desk and maker.</summary>
public static class BuildBook
{
    /// <summary>Writes it.</summary>
    /// <param name="facts">The desk.</param>
    /// <param name="bill">Its bill of materials.</param>
    /// <param name="code">Made from what the book is of.</param>
    public static Book Of(BookFacts facts, Bill bill, string code)
    {
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentNullException.ThrowIfNull(bill);
        ImmutableArray<BookChapter> work = [.. Chapters(facts, bill).OfType<BookChapter>().Select((chapter, index) => (facts.Maker.IsBrief ? Brief(chapter) : chapter) with { Number = index + 1 })];
        return new(
            facts.Laid.Desk.Title,
            code,
            facts.Maker,
            [
                new("opening", "What it will be", null, [.. Opening(facts, bill, work)], []),
                new("cautions", "Take care", null, [new Paragraph("Everything that can hurt, gathered; each stands again at its step. Local codes and licensed people come first, and what your tools and materials say of themselves."), new CautionList(Caution.Gathered(work.SelectMany(chapter => chapter.Steps)))], []),
                .. work,
            ]);
    }

    private static IEnumerable<BookChapter?> Chapters(BookFacts facts, Bill bill)
    {
        yield return GatheringChapter.Of(facts, bill);
        yield return PrintingChapter.Trying(facts);
        if (facts.Maker.Order == WorkOrder.GlueThenDrill)
        {
            yield return PrintingChapter.Printing(facts);
            yield return PlateChapters.Gluing(facts);
            yield return PlateChapters.Cutting(facts);
            yield return HolesChapter.Of(facts);
        }
        else
        {
            yield return PlateChapters.Cutting(facts);
            yield return HolesChapter.Of(facts);
            yield return PrintingChapter.Printing(facts);
            yield return PlateChapters.Gluing(facts);
        }

        yield return PlateChapters.Finishing(facts);
        yield return FittingChapter.Of(facts);
        yield return LampsChapter.Of(facts);
        if (facts.Wiring is { } wiring)
        {
            yield return WiringChapter.Of(wiring, facts);
            if (wiring.IsCalled)
            {
                yield return ProvingChapters.Flashing(wiring);
                yield return ProvingChapters.Calling(wiring, facts);
            }
        }

        yield return ProvingChapters.Ending(facts);
        yield return ProvingChapters.Keeping(facts);
    }

    private static BookChapter Brief(BookChapter chapter) =>
        chapter with { Steps = [.. chapter.Steps.Select(step => step with { Blocks = [.. step.Blocks.Where(block => !block.IsExplanation)] })] };

    private static IEnumerable<BookBlock> Opening(BookFacts facts, Bill bill, ImmutableArray<BookChapter> chapters)
    {
        foreach (var panel in facts.Laid.Panels.Select(panel => panel.Panel.Id))
        {
            if (facts.Picture($"{panel}/day", $"{panel}/lit") is { } faces)
            {
                yield return faces;
            }
        }

        foreach (var block in LampsChapter.Shadows(facts, most: 10))
        {
            yield return block;
        }

        if (UnwiredParts.Told(facts) is { } unwired)
        {
            yield return unwired;
        }

        yield return new Paragraph($"Work from the first step to the last, and tick each off. Every step ends with a test: go on only when it has passed. Every file named here lies in the folder {Code("out")} beside the desk file; {Code("lampblack build DESK")} makes them all, and DESK is the folder of the desk. PORT is what your board is called on this computer, such as {Code("COM3")} or {Code("/dev/ttyUSB0")}.");
        yield return new Paragraph($"Words that begin with {Code("lampblack")} are typed into a terminal window, in the folder where the program lies ({Code("./lampblack")} on Linux and on a Mac), and sent off with Enter. Who types nothing else types {InWorkshop.Open}: that opens the workshop in the browser, and beside each command stands where the same is done there. All files at once are saved there, too {InWorkshop.At("Print", "Take all of it home")}.");
        yield return new Paragraph($"This book is for order of work <b>{Order(facts.Maker.Order)}</b>, {Print(facts.Maker)}, {(facts.Maker.Cutting == CuttingWay.Saw ? "sawing" : "scoring and snapping")}, the {facts.Maker.Hand} hand, lengths in {(facts.Maker.Unit == Quantities.LengthUnit.Inch ? "inches" : "mm")}. The desk file says so; change it there ({Code("[book]")}, {Code("order")}, {Code("[cutting]")}) and build again.");
        yield return new BookTable(
            "Words of this book",
            ["Word", "What it means"],
            [.. BookWords.Of(facts).Select(one => new BookRow(string.Empty, string.Empty, [Text(one.Word), Text(one.Meaning)]))],
            IsTicked: false) { IsExplanation = true };
        yield return new BookTable(
            "Time, for an unhurried maker who has done it once; from memory, yours will differ",
            ["Chapter", "At work", "Waiting"],
            [
                .. chapters.Select(chapter => new BookRow(string.Empty, string.Empty, [$"<a href=\"#{chapter.Id}\">{Text(chapter.Title)}</a>", Duration(chapter.Minutes), Duration(chapter.WaitMinutes)])),
                new(string.Empty, string.Empty, ["<b>Together</b>", $"<b>{Duration(chapters.Sum(chapter => chapter.Minutes))}</b>", Duration(chapters.Sum(chapter => chapter.WaitMinutes))]),
            ],
            IsTicked: false);
        yield return new ToolList("Tools, all together, with the steps that use them", [.. Tools(chapters)]);
        yield return Cost(bill);
        yield return new Paragraph(string.Create(CultureInfo.InvariantCulture, $"{Text(bill.Currency)} {bill.Total:0.00} in all: {bill.Total - bill.Guessed:0.00} by your own prices, {bill.Guessed:0.00} by rough guesses{(bill.Unpriced.IsEmpty ? "." : $"; not counted, as their prices are not known: {Text(string.Join("; ", bill.Unpriced.Select(line => line.What)))}.")} Write your own under {Code("[book.prices]")}. {Code("bill.csv")} has every line."));
    }

    /// <summary>Every tool of every step, once.</summary>
    private static IEnumerable<ToolUse> Tools(ImmutableArray<BookChapter> chapters)
    {
        var steps = chapters.SelectMany(chapter => chapter.Steps.Index().Select(step => (Number: string.Create(CultureInfo.InvariantCulture, $"{chapter.Number}.{step.Index + 1}"), Step: step.Item))).ToList();
        return BookTool.Gathered(steps.SelectMany(step => step.Step.AllTools))
            .Select(tool => new ToolUse(tool, [.. steps.Where(step => step.Step.AllTools.Any(one => one.Name == tool.Name)).Select(step => step.Number)]));
    }

    private static BookTable Cost(Bill bill) => new(
        $"Cost in {Text(bill.Currency)}, by what it is for",
        ["What", "All of it", "Of that, prices we guessed"],
        [
            .. bill.Lines.Where(line => line.Price is not null).GroupBy(line => Group(line.Kind)).Select(group => new BookRow(
                string.Empty, string.Empty, [Text(group.Key), $"{Bill.Money(group.Sum(line => line.Price))}", Bill.Money(group.Where(line => line.IsGuess).Sum(line => line.Price ?? 0))])),
            new(string.Empty, string.Empty, ["<b>Together</b>", $"<b>{Bill.Money(bill.Total)}</b>", Bill.Money(bill.Guessed)]),
        ],
        IsTicked: false);

    private static string Group(string kind) => kind switch
    {
        _ when kind == "knob" || kind.StartsWith("part-", StringComparison.Ordinal) => "Controls, lamps and screws",
        "paper-heavy" or "paper-plain" or "toner-black" or "toner-colour" or "copy-shop" => "Print",
        "plate" or "trial-acrylic" => "Acrylic",
        "controller" or "serial-adapter" or "adapter-socket" or "usb-cable" => "Controller",
        "wire" or "plug-pair" or "diode-1n4148" or "resistor" or "register" or "register-socket" or "register-board" or "cable-ties" or "capacitor-100n" or "solder" or "sleeves" or "joint-strip" or "spacers" => "Wires, plugs and what hangs on them",
        "spray-glue" or "clear-coat" or "black-marker" or "black-paint" or "tape" or "black-tape" or "card" or "waste-paper" or "trial-board" or "glue-stick" or "foam-tape" => "Glue, paint, tape and trials",
        _ => "Lamps, box and supply",
    };

    /// <summary>Minutes as people tell them: up to the next five; from an hour on in hours and minutes.</summary>
    /// <param name="minutes">The time.</param>
    public static string Duration(double minutes)
    {
        var rounded = Rounded(minutes);
        var (hours, left) = ((int)rounded / 60, (int)rounded % 60);
        return (hours, left) switch
        {
            (0, 0) => "none",
            (0, _) => string.Create(CultureInfo.InvariantCulture, $"{left} min"),
            (_, 0) => string.Create(CultureInfo.InvariantCulture, $"{hours} h"),
            _ => string.Create(CultureInfo.InvariantCulture, $"{hours} h {left:00} min"),
        };
    }

    /// <summary>Up to the next five minutes: a sum is that of the figures above it.</summary>
    internal static double Rounded(double minutes) => Math.Max(0, Math.Ceiling((minutes / 5) - 1e-9) * 5);

    private static string Order(WorkOrder order) => order switch
    {
        WorkOrder.GlueThenDrill => "A (glue, cut, drill through)",
        WorkOrder.DrillThenGlue => "B (drill, glue, open the holes from behind)",
        _ => "C (the print lies behind the plate)",
    };

    private static string Print(BookMaker maker) => maker switch
    {
        { Print: PrintWay.CopyShop } => "a copy shop",
        _ => $"a printer{(maker.IsBlackOnly ? " with black alone," : string.Empty)} that {maker.Print switch { PrintWay.TurnsItself => "turns the sheet itself", PrintWay.ByHand => "is fed by hand", _ => "no printer file describes" }}",
    };
}
