using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Circuits;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>The strip of perforated board on the back of a lamp board: plus rail above, 0 V rail below, between them each string's resistor and each channel's transistor with its two.</summary>
internal static class LampJointsDrawing
{
    private const double LetterMm = WireChains.SmallestMm;
    private const double RowMm = 50;
    private const double StringMm = 20;
    private const double SwitchMm = 50;
    private const double FirstMm = 12;
    private const int RowsOfPicture = 2;

    /// <summary>Which end is which: an emitter's legs, a transistor's letters, a pixel's ends, a resistor that has no wrong way.</summary>
    public static BookPicture Legs(bool isSingle, bool isLegged, bool isRound, bool hasGates, bool hasPixels)
    {
        var pixelMm = hasGates ? 122 : 46;
        var pen = new ActPen(hasGates && hasPixels ? 166 : 118, 44);
        pen.Words(4, 5, isSingle ? "emitter" : "piece of strip", isBold: true, sizeMm: 3);
        if (!isSingle)
        {
            pen.Box(4, 14, 30, 8, ActPen.Paper).Words(6, 19.2, "+").Words(29, 19.2, "−").Box(13, 16, 4, 4, ActPen.Lamp).Box(20, 16, 4, 4, ActPen.Lamp).Words(4, 30, "signs are printed on it", sizeMm: 3);
        }
        else if (isLegged)
        {
            pen.Path(isRound ? "M11 18v-6a5 5 0 0 1 10 0v6z" : "M11 18v-10h10v10z", ActPen.Lamp).Box(10, 18, 11, 1.6, ActPen.Lamp).Line(13.5, 19.6, 13.5, 36, 0.6).Line(18.5, 19.6, 18.5, 31, 0.6)
                .Words(12, 41, "long", anchor: "end", sizeMm: 3).Words(4, 30, "+", isBold: true).Words(20.5, 41, "short", sizeMm: 3).Words(24, 30, "−", isBold: true).Line(21, 18.8, 25, 15, 0.25).Words(25.5, 15, "flat", sizeMm: 3);
        }
        else
        {
            pen.Box(10, 12, 12, 7, ActPen.Lamp).Box(10, 12, 2.4, 7, ActPen.Metal).Box(19.6, 12, 2.4, 7, ActPen.Metal).Line(20, 12, 22, 14, 0.5).Line(11, 19, 11, 36, 0.6).Line(21, 19, 21, 31, 0.6)
                .Words(10, 41, "long", anchor: "end", sizeMm: 3).Words(3, 30, "+", isBold: true).Words(22, 41, "short", sizeMm: 3).Words(24, 30, "−", isBold: true).Words(24, 12, "mark at minus", sizeMm: 3);
        }

        if (hasGates)
        {
            pen.Words(46, 5, "transistor", isBold: true, sizeMm: 3).Box(50, 9, 16, 12, ActPen.Metal).Words(52.2, 18, "G", isBold: true, sizeMm: 3).Words(56.8, 18, "D", isBold: true, sizeMm: 3).Words(61.6, 18, "S", isBold: true, sizeMm: 3)
                .Line(53.3, 21, 53.3, 32, 0.6).Line(58, 21, 58, 32, 0.6).Line(62.7, 21, 62.7, 32, 0.6).Words(46, 37, "its sheet says which leg", sizeMm: 3).Words(46, 41, "is G, D, S: trust no order", sizeMm: 3);
        }
        if (hasPixels)
        {
            pen.Words(pixelMm, 5, "pixel", isBold: true, sizeMm: 3).Box(pixelMm, 9, 30, 12, ActPen.Paper).Box(pixelMm + 12.5, 12.5, 5, 5, ActPen.Lamp)
                .Words(pixelMm + 1.5, 16.2, "DI", isBold: true, sizeMm: 3).Words(pixelMm + 23, 16.2, "DO", isBold: true, sizeMm: 3)
                .Arrow(pixelMm, 25.5, pixelMm + 30, 25.5).Words(pixelMm, 33, "data go in at DI, out at DO,", sizeMm: 3).Words(pixelMm, 37, "the way of its arrow", sizeMm: 3);
        }

        pen.Words(88, 5, "resistor", isBold: true, sizeMm: 3).Line(84, 15, 90, 15, 0.6).Box(90, 12.6, 14, 4.8, ActPen.Wood).Line(104, 15, 110, 15, 0.6).Words(84, 25, "either way", sizeMm: 3).Words(84, 29, "round", sizeMm: 3);
        return pen.Picture(
            $"Which end is which: the {(isSingle ? isLegged ? "long leg of an emitter is plus, its flat side minus" : "long wire of an emitter is plus, its mark minus" : "signs on the strip")}; {(hasGates ? "a transistor's gate, drain and source by its sheet; " : string.Empty)}{(hasPixels ? "data go into a pixel at DI and out at DO; " : string.Empty)}a resistor goes either way round",
            $"Which end is which.{(hasGates ? " G is the gate, D the drain, S the source. A leg that is soldered to the wrong letter: the channel stays dark, or is never dark." : string.Empty)}{(hasPixels ? " Data go through a pixel one way only: the other way round it and all after it stay dark." : string.Empty)}");
    }

    /// <summary>The strip of one board, in drawings that fit a page.</summary>
    public static ImmutableArray<BookPicture> Of(LampBoard board, ImmutableArray<LampWire> wires, ImmutableArray<LampWire> away)
    {
        ImmutableArray<BoardChannel> channels = [.. board.Channels.Where(channel => channel.Plan.Pixels is null)];
        var cells = channels.SelectMany(Cells).ToList();
        var rows = new List<List<Cell>>();
        var room = 0.0;
        foreach (var cell in cells)
        {
            // A channel that fits a row is not torn.
            var whole = cell.IsFirst ? cells.Where(other => other.Channel == cell.Channel).Sum(other => other.WideMm) : cell.WideMm;
            if (rows.Count == 0 || room < (whole <= WireChains.WidthMm - FirstMm - 2 ? whole : cell.WideMm))
            {
                rows.Add([]);
                room = WireChains.WidthMm - FirstMm - 2;
            }

            rows[^1].Add(cell);
            room -= cell.WideMm;
        }

        return [.. rows.Chunk(RowsOfPicture).Select((some, page) => Drawn(board, [.. some], wires, away, (rows.Count + RowsOfPicture - 1) / RowsOfPicture, page))];
    }

    private static BookPicture Drawn(LampBoard board, ImmutableArray<List<Cell>> rows, ImmutableArray<LampWire> wires, ImmutableArray<LampWire> away, int pages, int page)
    {
        var pen = new ActPen(WireChains.WidthMm, RowMm * rows.Length);
        foreach (var (index, row) in rows.Index())
        {
            var (top, x) = (index * RowMm, FirstMm);
            var end = FirstMm + row.Sum(cell => cell.WideMm);
            pen.Words(1, top + 4.4, "plus", isBold: true, sizeMm: LetterMm).Line(9, top + 5, end, top + 5, 1).Words(1, top + 45.4, "0 V", isBold: true, sizeMm: LetterMm).Line(9, top + 46, end, top + 46, 1);
            foreach (var cell in row)
            {
                if (cell.Piece is { } piece)
                {
                    String(pen, cell.Channel, piece, wires, x, top, cell.IsLast);
                }
                else
                {
                    Switch(pen, cell.Channel, away, x, top);
                }

                if (IsTorn(row, cell))
                {
                    pen.Words(x + 1, top + (cell.Piece is null ? 24 : 38.4), $"D line, {cell.Channel.Labels.Switch}", sizeMm: LetterMm);
                }

                x += cell.WideMm;
            }
        }

        var names = string.Join(", ", rows.SelectMany(row => row).Select(cell => cell.Channel.Name).Distinct());
        return pen.Picture(
            $"The perforated board of {board.Box.Panel}: plus rail, 0 V rail, and between them the resistors and transistors of {names}",
            $"The perforated board on the back of {Text(board.Box.Panel)}{(pages > 1 ? FormattableString.Invariant($", part {page + 1} of {pages}") : string.Empty)}: {Text(names)}. Thick lines are bare wire; a ring is a place where the wire of that number ends; all plus lines are one, and all 0 V lines are one{(rows.Any(row => IsTorn(row, row[0])) ? "; a D line goes on from row to row" : string.Empty)}.");
    }

    /// <summary>Whether a row begins amid a channel, whose D line comes from the row before.</summary>
    private static bool IsTorn(List<Cell> row, Cell cell) => cell == row[0] && !cell.IsFirst && cell.Channel.Plan.Switch is not null;

    private static IEnumerable<Cell> Cells(BoardChannel channel)
    {
        var pieces = channel.IsSingles ? channel.Pieces.Length : 1;
        foreach (var piece in Enumerable.Range(0, pieces))
        {
            yield return new(channel, piece, StringMm, piece == pieces - 1);
        }

        if (channel.Plan.Switch is not null)
        {
            yield return new(channel, null, SwitchMm, true);
        }
    }

    /// <summary>A string: its resistor on plus, the place its wire starts from, and the place where it comes back.</summary>
    private static void String(ActPen pen, BoardChannel channel, int piece, ImmutableArray<LampWire> wires, double leftMm, double topMm, bool isLast)
    {
        var at = leftMm + 5;
        var name = channel.Resistor(piece);
        var mine = wires.Where(wire => wire.Net == channel.Name).ToList();
        var (first, last) = channel.IsSingles
            ? (mine.Find(wire => wire.Start is { Place: LampPlace.Resistor } start && start.Piece == piece), mine.Find(wire => wire.End is { Place: LampPlace.Drain or LampPlace.Zero } end && end.Piece == piece))
            : (mine.Find(wire => wire.Start.Place == LampPlace.Plus), mine.Find(wire => wire.Start.Place is LampPlace.Drain or LampPlace.Zero));
        if (channel.IsSingles)
        {
            pen.Line(at, topMm + 5, at, topMm + 24, 0.5).Box(at - 1.8, topMm + 9, 3.6, 10, ActPen.Wood).Words(at + 2.6, topMm + 13, name, isBold: true, sizeMm: LetterMm).Words(at + 2.6, topMm + 16.4, CircuitWords.Ohms(channel.ResistorOhms(piece)), sizeMm: LetterMm);
        }
        else
        {
            pen.Line(at, topMm + 5, at, topMm + 24, 0.5);
        }

        Ring(pen, at, topMm + 24, first);
        pen.Line(leftMm + 1, topMm + 34, leftMm + StringMm + (isLast ? 4 : 1), topMm + 34, 0.8);
        Ring(pen, at, topMm + 34, last);
        if (piece == 0)
        {
            pen.Words(leftMm + 1, topMm + 38.4, channel.Plan.Switch is null ? "D line" : $"D line, {channel.Labels.Switch}", sizeMm: LetterMm);
        }

        if (channel.Plan.Switch is null)
        {
            pen.Line(at + 10, topMm + 34, at + 10, topMm + 46, 0.5);
        }
    }

    private static void Switch(ActPen pen, BoardChannel channel, ImmutableArray<LampWire> away, double leftMm, double topMm)
    {
        var (one, labels) = (channel.Plan.Switch!, channel.Labels);
        var gate = away.FirstOrDefault(wire => wire.Start.Place == LampPlace.First && wire.Net == channel.Name);
        var node = leftMm + 24;
        pen.Line(leftMm, topMm + 34, leftMm + 5, topMm + 34, 0.8).Box(leftMm + 5, topMm + 29, 12, 10, ActPen.Metal)
            .Words(leftMm + 6.2, topMm + 35, "D", isBold: true, sizeMm: 2.8).Words(leftMm + 14, topMm + 35, "G", isBold: true, sizeMm: 2.8).Words(leftMm + 10, topMm + 38.4, "S", isBold: true, sizeMm: 2.8)
            .Words(leftMm + 5, topMm + 27.6, labels.Switch, isBold: true, sizeMm: LetterMm).Line(leftMm + 11, topMm + 39, leftMm + 11, topMm + 46, 0.5)
            .Line(leftMm + 17, topMm + 34, node, topMm + 34, 0.5).Circle(node, topMm + 34, 0.7, ActPen.Ink)
            .Line(node, topMm + 10, node, topMm + 46, 0.5).Box(node - 1.8, topMm + 17, 3.6, 10, ActPen.Wood).Box(node - 1.8, topMm + 35.6, 3.6, 8, ActPen.Wood)
            .Words(node + 2.6, topMm + 21, labels.Gate, isBold: true, sizeMm: LetterMm).Words(node + 2.6, topMm + 24.4, CircuitWords.Ohms(one.GateOhms), sizeMm: LetterMm)
            .Words(node + 2.6, topMm + 38.8, labels.PullDown, isBold: true, sizeMm: LetterMm).Words(node + 2.6, topMm + 42.2, CircuitWords.Ohms(one.PullDownOhms), sizeMm: LetterMm)
            .Words(leftMm + 1, topMm + 10, ActPen.Fitting(channel.Name, 20, LetterMm), isBold: true, sizeMm: LetterMm);
        Ring(pen, node, topMm + 10, gate);
        pen.Words(node + 9, topMm + 10.9, "from its pin", sizeMm: LetterMm);
    }

    private static void Ring(ActPen pen, double xMm, double yMm, LampWire? wire)
    {
        pen.Circle(xMm, yMm, 1.1, ActPen.Paper, 0.4);
        if (wire is not null)
        {
            pen.Words(xMm + 2, yMm - 0.8, wire.Name, isBold: true, sizeMm: LetterMm);
        }
    }

    /// <summary>A string, or what switches a channel, in a row of the strip.</summary>
    private sealed record Cell(BoardChannel Channel, int? Piece, double WideMm, bool IsLast)
    {
        public bool IsFirst => Piece == 0;
    }
}
