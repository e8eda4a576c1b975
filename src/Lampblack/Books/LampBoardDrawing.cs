using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Parts;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>A lamp board seen from behind, with its emitters' legs, their wires by number, the strip of perforated board, and the pieces of strip that carry it.</summary>
internal static class LampBoardDrawing
{
    private const double LetterMm = WireChains.SmallestMm;
    private const double HeadMm = 7;
    private const double MostHighMm = 104;

    /// <summary>How large a board is drawn: as large as a page allows.</summary>
    public static double Scale(LampBoard board) => Math.Min(1.4, Math.Min((WireChains.WidthMm - 4) / board.Box.Inside.WidthMm, (MostHighMm - HeadMm) / board.Box.Inside.HeightMm));

    /// <summary>The drawing; several where not all wires can be told apart in one.</summary>
    public static ImmutableArray<BookPicture> Of(LampBoard board, ImmutableArray<LampWire> wires, bool isLegged)
    {
        var shown = wires.GroupBy(wire => wire.Picture).OrderBy(group => group.Key).Select(group => group.ToImmutableArray()).DefaultIfEmpty([]).ToList();
        return [.. shown.Select((some, index) => Back(board, some, isLegged, shown.Count == 1 ? string.Empty : FormattableString.Invariant($", {index + 1} of {shown.Count}")))];
    }

    private static BookPicture Back(LampBoard board, ImmutableArray<LampWire> wires, bool isLegged, string part)
    {
        var face = new Face(board, isFromBehind: true);
        var (inside, scale, pen, words) = (board.Box.Inside, face.ScaleFactor, face.Pen, face.Words);
        (double X, double Y) At(Point<PanelSpace> point) => face.At(point);
        void Area(Box<PanelSpace> box, string fill, bool isDashed = false) => face.Area(box, fill, 0.3, isDashed);

        pen.Words(2, 4.4, ActPen.Fitting($"BACK of the lamp board of {board.Box.Panel}{part}, up is up", 176, 3), isBold: true, sizeMm: 3);
        Area(inside, ActPen.Wood);
        foreach (var rest in board.Rests)
        {
            Area(rest.Area, "#cdbb98", isDashed: true);
        }

        foreach (var block in board.Blocks)
        {
            Area(Inside(block.Grow(ScrewBlock.PastMm), inside), ActPen.Paper);
        }

        if (board.Notch is { } notch)
        {
            Area(notch.Area, ActPen.Paper);
            var (x, y) = At(notch.Area.Centre);
            pen.Words(x, y + 0.9, "loom", anchor: "middle", sizeMm: LetterMm);
            words.Take(x, y, 7, 3);
        }

        if (!board.Channels.IsEmpty)
        {
            Area(board.Joints, ActPen.Acrylic, board.Stand != JointsStand.Glued);
        }

        // Discs, then wires, then legs: each wire is seen to end at its own leg.
        foreach (var lamp in board.Lamps)
        {
            var (x, y) = At(new(lamp.XMm, lamp.YMm));
            pen.Circle(x, y, Math.Max(1.2, 2.5 * scale), ActPen.Lamp, 0.3);
            words.Take(x, y, Math.Max(4.6, 5.4 * scale) + 0.6, Math.Max(2.4, 5.4 * scale) + 0.6);
        }

        foreach (var wire in wires)
        {
            LampBoardWords.Wire(pen, [.. wire.Way.Select(At)], wire.Name, words);
        }

        foreach (var (plus, minus) in board.Ends)
        {
            var ((x, y), (minusX, minusY)) = (At(plus), At(minus));
            if (plus == minus)
            {
                pen.Box(x - 0.7, y - 0.7, 1.4, 1.4, ActPen.Paper, 0.3);
            }
            else
            {
                pen.Circle(x, y, 0.75, ActPen.Ink, 0.2).Circle(minusX, minusY, 0.75, ActPen.Paper, 0.3);
            }
        }

        LampBoardWords.Lamps(pen, [.. board.Lamps.Select(lamp => (lamp.Number, At(new(lamp.XMm, lamp.YMm)).X, At(new(lamp.XMm, lamp.YMm)).Y))], Math.Max(1.2, 2.5 * scale), words);

        if (!board.Channels.IsEmpty)
        {
            var (x, y) = At(board.Joints.Centre);
            pen.Words(x, y + 0.9, ActPen.Fitting("perforated board", Math.Max(12, board.Joints.WidthMm * scale), LetterMm), anchor: "middle", sizeMm: LetterMm);
            words.Take(x, y, 26, 3);
        }

        foreach (var wire in wires.OrderBy(wire => wire.Way.Zip(wire.Way.Skip(1)).Sum(side => side.First.DistanceMm(side.Second))))
        {
            LampBoardWords.Number(pen, [.. wire.Way.Select(At)], wire.Name, words);
        }

        var hasLegs = board.Channels.Any(channel => channel.IsSingles);
        return pen.Picture(
            $"The lamp board of {board.Box.Panel} seen from behind{part}: emitters {string.Join(", ", board.Lamps.Select(lamp => lamp.Number))} with their legs, wires {string.Join(", ", wires.Select(wire => wire.Name))}",
            $"{Text(board.Box.Panel)}, the lamp board SEEN FROM BEHIND{part}: dark numbers are those of the emitters, L and a number those of the wires. Wires that cross are not joined.{(hasLegs ? $" The filled dot is an emitter’s {(isLegged ? "LONG leg" : "LONG wire")} (plus), at the left of every one; the open dot its {(isLegged ? "short leg" : "short wire")} (minus)." : board.Channels.IsEmpty ? string.Empty : $" The filled dot is plus, the open one minus{(board.Channels.Any(channel => channel.Plan.Pixels is not null) ? ", the square is where data come in and go out" : string.Empty)}.")} Dashed and darker: the pieces of strip that carry the board, with nothing soldered within {LampRests.ClearMm:0} mm{Ways(wires)}.{(board.Notch is null && board.Blocks.IsEmpty ? string.Empty : " White: what is cut off for blocks and loom.")}");
    }

    /// <summary>What wires do at the pieces of strip; those that find no way round are named.</summary>
    private static string Ways(ImmutableArray<LampWire> wires) => wires.Where(wire => wire.IsAcross).Select(wire => wire.Name).ToList() switch
    {
        [] => ": wires go round them",
        [var one] => $": wires go round them, but for {one}, for which no way was found: it is drawn straight across what stands there, so lay it round that as you find room, and cut it longer",
        var some => $": wires go round them, but for {string.Join(", ", some)}, for which no way was found: they are drawn straight across what stands there, so lay them round that as you find room, and cut them longer",
    };

    /// <summary>The white face with crosses and numbers, where the legs go through, and the frames of cells.</summary>
    public static BookPicture Front(LampBoard board, BookFacts facts)
    {
        var face = new Face(board, isFromBehind: false);
        var (inside, scale, pen) = (board.Box.Inside, face.ScaleFactor, face.Pen);
        pen.Words(2, 4.4, ActPen.Fitting($"WHITE FACE of the lamp board of {board.Box.Panel}", 176, 3), isBold: true, sizeMm: 3);
        face.Area(inside, ActPen.Paper, 0.5);
        foreach (var rest in board.Rests)
        {
            face.Area(rest.Area, "none", 0.25, isDashed: true);
        }

        foreach (var cut in board.Blocks.Select(block => Inside(block.Grow(ScrewBlock.PastMm), inside)).Concat(board.Notch is { } notch ? [notch.Area] : []))
        {
            face.Area(cut, ActPen.Wood, 0.3);
        }

        foreach (var cell in facts.Cells.Where(cell => cell.Panel == board.Box.Id))
        {
            face.Area(cell.Inside, "none", 0.9);
        }

        var (words, reach) = (face.Words, LampBoard.LegMm * scale);
        foreach (var lamp in board.Lamps)
        {
            var (x, y) = face.At(new(lamp.XMm, lamp.YMm));
            words.Take(x, y, 4, 3);
            pen.Cross(x, y, 2);
            if (facts.LampType is { Form: EmitterForm.Single })
            {
                pen.Circle(x + reach, y, 0.75, ActPen.Ink, 0.2).Circle(x - reach, y, 0.75, ActPen.Paper, 0.3);
            }
        }

        LampBoardWords.Lamps(pen, [.. board.Lamps.Select(lamp => (lamp.Number, face.At(new(lamp.XMm, lamp.YMm)).X, face.At(new(lamp.XMm, lamp.YMm)).Y))], 1.5, words);

        return pen.Picture(
            $"{board.Box.Panel}: where the emitters stand, seen from the front",
            $"{Text(board.Box.Panel)}: the emitters with their numbers, seen from the front.{(facts.LampType is { Form: EmitterForm.Single } type ? $" The filled dot is the place of each one’s {(type.HasLegs ? "LONG leg" : "LONG wire")} (plus), at the right." : string.Empty)} Dashed: the pieces of strip below. Filled: what is cut off for blocks and loom.{(facts.Cells.Any(cell => cell.Panel == board.Box.Id) ? " Thick frames: cells." : string.Empty)}");
    }

    private static Box<PanelSpace> Inside(Box<PanelSpace> area, Box<PanelSpace> inside) =>
        Box<PanelSpace>.Between(new(Math.Max(area.LeftMm, inside.LeftMm), Math.Max(area.BottomMm, inside.BottomMm)), new(Math.Min(area.RightMm, inside.RightMm), Math.Min(area.TopMm, inside.TopMm)));

    /// <summary>A face of a board as it is drawn: as large as a page allows.</summary>
    private sealed class Face
    {
        private readonly Box<PanelSpace> _inside;
        private readonly bool _isFromBehind;

        public Face(LampBoard board, bool isFromBehind)
        {
            (_inside, _isFromBehind) = (board.Box.Inside, isFromBehind);
            ScaleFactor = Scale(board);
            Pen = new(Math.Max(60, (_inside.WidthMm * ScaleFactor) + 4), HeadMm + (_inside.HeightMm * ScaleFactor) + 1);
        }

        public double ScaleFactor { get; }

        public ActPen Pen { get; }

        /// <summary>Room for words: on the board, whose edges they keep off.</summary>
        public WordRoom Words => field ??= new(2.5, HeadMm + 0.5, 1.5 + (_inside.WidthMm * ScaleFactor), HeadMm + (_inside.HeightMm * ScaleFactor) - 0.5);

        /// <summary>The one mirror of these drawings: what is at the right from the front is at the left from behind.</summary>
        public (double X, double Y) At(Point<PanelSpace> point) =>
            (2 + ((_isFromBehind ? _inside.RightMm - point.XMm : point.XMm - _inside.LeftMm) * ScaleFactor), HeadMm + ((_inside.TopMm - point.YMm) * ScaleFactor));

        public void Area(Box<PanelSpace> area, string fill, double lineMm, bool isDashed = false)
        {
            var (x, y) = At(new(_isFromBehind ? area.RightMm : area.LeftMm, area.TopMm));
            var (wide, high) = (area.WidthMm * ScaleFactor, area.HeightMm * ScaleFactor);
            Pen.Box(x, y, wide, high, fill, lineMm, isDashed: isDashed);
            Words.Frame(x, y, wide, high);
        }
    }
}
