using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Parts;
using Lampblack.Quantities;

namespace Lampblack.Books;

/// <summary>Paper, toner, plates, glue, paint, and what the box is made of.</summary>
internal static class BillGoods
{
    public const string BlackToner = "toner-black";
    public const string ColourToner = "toner-colour";
    public const string HeavyPaper = "paper-heavy";
    public const string PlainPaper = "paper-plain";

    // One to spoil while register and toner are looked at, one to keep.
    private const int SheetsOfEach = 3;

    // A strip that is scored, drilled and coated once.
    private const double TrialMm = 100;
    private const double TrialHighMm = 40;
    private const int TiesOfPanel = 6;

    /// <summary>What a plate is called among the prices.</summary>
    public static string PlateKey(BookPlate plate) => "plate-" + plate.StockId;

    public static IEnumerable<BillLine> Of(BookFacts facts)
    {
        var (maker, sheets) = (facts.Maker, facts.Print.Sheets.Length);
        var isShop = maker.Print == PrintWay.CopyShop;
        var heavy = SheetsOfEach * sheets;
        if (!isShop)
        {
            yield return new(HeavyPaper, $"paper, {facts.Print.Paper}, {facts.Print.Weight}", heavy, "sheets", $"{SheetsOfEach} of each sheet: one to glue, one to spoil, one to keep", "any that your printer's maker allows");
            yield return Share(BlackToner, "black toner", facts.BlackCartridgeShare, $"one set of sheets; {facts.TonerSentence}");
            if (facts.ColourCartridgeShare > 0)
            {
                yield return Share(ColourToner, "cyan, magenta and yellow toner, of one cartridge", facts.ColourCartridgeShare, "one set of sheets");
            }
        }
        else
        {
            yield return new("copy-shop", $"the job at a copy shop: nine copies of {(sheets == 1 ? "the sheet" : "each sheet")}, heavy paper, {facts.Print.Weight}", 1, string.Empty, "front and mask", "ask for the price first");
        }

        yield return new(PlainPaper, $"plain paper, {facts.Print.Paper}", 4 + sheets + (2 * facts.Laid.Panels.Length), "sheets", "trial, parts, templates, lists", string.Empty);
        var thickness = facts.Exact(facts.Laid.Desk.Stack.PlateMm);
        foreach (var stock in facts.Plates.GroupBy(PlateKey))
        {
            var plate = stock.First();
            yield return new(stock.Key, $"clear acrylic, {thickness} thick, {facts.Size(plate.WidthMm, plate.HeightMm)}", stock.Count(), string.Empty, "cut by the plan", "any that the cut plan was made for again") { Kind = "plate" };
        }

        if (maker.Order != WorkOrder.PrintBehind)
        {
            yield return new("spray-glue", "spray glue for paper and plastics", 1, string.Empty, "print on plate", "clear sheet adhesive");
            if (facts.Laid.Desk.Stack.CoverMm <= 0)
            {
                yield return new("clear-coat", "clear matt varnish in a can", 1, string.Empty, "over the print", "clear matt book film");
            }
        }

        yield return new("black-marker", "black felt pen", 1, string.Empty, "cut edges of the paper, walls of holes", string.Empty);
        yield return new("black-paint", "matt black paint", 1, string.Empty, "cut edges of the plate, walls of holes", string.Empty);
        yield return new("tape", "tape that comes off again", 1, string.Empty, "hinge, trials", string.Empty);
        yield return new("black-tape", "black tape that lets no light through", 1, string.Empty, "gaps of box or frame, the notch of the loom", string.Empty);
        if (maker.Order != WorkOrder.GlueThenDrill || !facts.Cells.IsEmpty)
        {
            yield return new("glue-stick", "glue stick", 1, string.Empty, "paper drawings on plate and card", string.Empty);
        }

        yield return new("card", "card or cardboard", 2, "sheets", "under clamps and rule, under the trial sheet", "the back of a writing pad");
        if (maker.Order != WorkOrder.PrintBehind)
        {
            yield return new("trial-acrylic", $"strip of the same acrylic, {facts.Size(TrialMm, TrialHighMm)} or more", 1, string.Empty, "the trial of glue, drill and coat; ask for an offcut with the plate", "a strip off a part of the plate where no panel comes to lie");
            yield return new("waste-paper", "waste paper", 4, "sheets", "under the print as it is sprayed", "newspaper");
        }

        if (facts.Laid.Panels.SelectMany(panel => panel.Parts).Any(part => part.Part.Mounting == Mounting.BySheet))
        {
            yield return new("foam-tape", "foam tape, sticky on both sides", 1, string.Empty, "behind modules that bring nothing to fix them with", "the brackets or screws that came with them");
        }

        if (facts.Charts.Any(chart => !chart.Holes.IsEmpty))
        {
            yield return new("trial-board", $"piece of board to drill on, as large as the largest panel", 1, string.Empty, "below the plate: the drill goes through into it", "chipboard, hardboard");
        }

        if (facts.Wiring is not null || facts.Circuit is not null)
        {
            yield return new("solder", "solder for electronics", 1, string.Empty, "all joints", string.Empty);
            yield return new("sleeves", "sleeves that shrink, thin ones", 1, string.Empty, "over bare legs and joints", string.Empty);
        }

        if (facts.Wiring is { } wiring)
        {
            yield return new("joint-strip", "pin row or screw terminals that plug into the board", wiring.Pins.Controllers.Length, string.Empty, "ends of the cables at the controller", string.Empty);
            yield return new("spacers", "spacers and screws for a board", wiring.Pins.Controllers.Length, "sets", "controller on the floor", string.Empty);
            yield return new("cable-ties", "cable ties, small", TiesOfPanel * (1 + facts.Laid.Panels.Length), string.Empty, $"looms, and each cable beside its {(facts.Lamps.IsEmpty ? "way out" : "slot")}", "waxed thread");
        }

        foreach (var nuts in facts.Laid.Panels.Where(_ => !facts.Lamps.IsEmpty).SelectMany(panel => panel.Parts.Where(part => part.Part.Class == PartClass.Screw || part.Part == panel.Panel.Fixings?.Part)).GroupBy(part => Thread(part.Part)).OrderBy(same => same.Key, StringComparer.Ordinal))
        {
            yield return new(Key(nuts.Key), $"nut {nuts.Key}, or threaded insert {nuts.Key} for wood", nuts.Count(), string.Empty, "in the corner blocks, for the panels' screws", string.Empty) { Kind = "panel-nut" };
        }

        if (facts.Lamps.IsEmpty)
        {
            yield break;
        }

        var boardM2 = Math.Ceiling(BoxPieces.BoardSquareMetres(facts) * 100) / 100;
        yield return new("box-board", string.Create(CultureInfo.InvariantCulture, $"board {facts.Exact(BoxPieces.WallMm(facts))} thick for the box, {facts.Exact(BoxPieces.LampBoardMm)} for the lamp boards"), boardM2, "m²", $"walls, floors and lamp boards, by the cut list of the step “{BoxStep.Title(facts)}”, cuts included", "hardboard, plywood") { Count = FormattableString.Invariant($"{boardM2:0.##} m²") };
        yield return new("box-strip", $"strip of wood, {facts.Size(LampRests.StripMm, LampRests.StripMm)}", Math.Ceiling(BoxPieces.StripMm(facts) / 100) / 10, "m", "what the lamp boards lie on", string.Empty) { Count = LengthWords.Long(BoxPieces.StripMm(facts), facts.Maker.Unit) };
        yield return new("box-blocks", "blocks of wood, by the cut list", facts.LampBoards.Sum(board => board.Blocks.Length + 4), string.Empty, "corners of the box, above and below", string.Empty);
        yield return new("wood-glue", "wood glue", 1, string.Empty, "the box", string.Empty);
        yield return new("white-paint", "matt white paint", 1, string.Empty, "inside of the box, white face of the lamp board", string.Empty);
        yield return new("wood-screws", "small wood screws, 3 x 10 mm for the lamp boards, 3 x 16 mm for the floors", BoxPieces.WoodScrews(facts), string.Empty, $"{facts.LampBoards.Sum(board => board.Rests.Count(board.TakesScrew))} short, the others long", string.Empty);
        if (facts.Circuit is { HasGates: true })
        {
            yield return new("cells-aa", "three AA cells in a holder", 1, string.Empty, "to try the lamps by themselves", string.Empty);
        }

        if (!facts.Cells.IsEmpty)
        {
            yield return new("card-light-tight", "card, black outside and white inside", 1, string.Empty, string.Create(CultureInfo.InvariantCulture, $"walls of {facts.Cells.Length} {(facts.Cells.Length == 1 ? "cell" : "cells")}"), "black card painted white inside");
        }
    }

    /// <summary>"M3" of a screw that the catalogue knows; of another what its hole tells.</summary>
    private static string Thread(Part part) => part.Class == PartClass.Screw && part.Name.Split(' ') is { Length: > 1 } words && words[1].StartsWith('M') && words[1].Length > 1 && char.IsAsciiDigit(words[1][1])
        ? words[1]
        : "to fit the panel's screws";

    private static string Key(string thread) => thread.Contains(' ', StringComparison.Ordinal) ? "panel-nut" : $"panel-nut-{thread.ToLowerInvariant().Replace('.', '-')}";

    private static BillLine Share(string key, string what, double share, string usedFor) =>
        new(key, what, Math.Round(share, 4, MidpointRounding.AwayFromZero), "cartridges", usedFor, string.Empty) { Count = string.Create(CultureInfo.InvariantCulture, $"{share * 100:0.#} % of a cartridge") };
}
