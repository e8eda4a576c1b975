using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
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
    // Beyond an emitter's round body.
    private const double BendMm = 3.2;
    private const double HeadMm = 7;
    private const double MostHighMm = 104;

    // Where a wire's number is tried, from its middle outwards.
    private static readonly ImmutableArray<double> Shares = [0.5, 0.4, 0.6, 0.45, 0.55, 0.35, 0.65, 0.3, 0.7, 0.25, 0.75, 0.2, 0.8, 0.15, 0.85, 0.1, 0.9];

    /// <summary>The drawing.</summary>
    public static BookPicture Of(LampBoard board, ImmutableArray<LampWire> wires, bool isLegged)
    {
        var face = new Face(board, isFromBehind: true);
        var (inside, scale, pen) = (board.Box.Inside, face.ScaleFactor, face.Pen);
        (double X, double Y) At(Point<PanelSpace> point) => face.At(point);
        void Area(Box<PanelSpace> box, string fill, bool isDashed = false) => face.Area(box, fill, 0.3, isDashed);

        pen.Words(2, 4.4, ActPen.Fitting($"BACK of the lamp board of {board.Box.Panel}, up is up", 176, 3), isBold: true, sizeMm: 3);
        Area(inside, ActPen.Wood);
        var words = new Taken();
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

        // Discs, then wires, then legs: each wire is seen to end at its own leg, and comes to it from above or below where it would pass over the other one.
        List<BookLamp> legged = [.. board.Lamps.Where(lamp => board.Channels.Any(channel => channel.IsSingles && channel.Pieces.Any(piece => piece.Contains(lamp))))];
        Point<PanelSpace> Bend(Point<PanelSpace> end, Point<PanelSpace> start)
        {
            var other = legged.SelectMany(lamp => new (Point<PanelSpace> Leg, Point<PanelSpace> Other)[] { (LampBoard.Plus(lamp), LampBoard.Minus(lamp)), (LampBoard.Minus(lamp), LampBoard.Plus(lamp)) })
                .Where(one => one.Leg == end).Select(one => (Point<PanelSpace>?)one.Other).FirstOrDefault();
            return other?.DistanceMm(start, end) < LampBoard.LegMm ? end with { YMm = end.YMm + (start.YMm < end.YMm ? -BendMm : BendMm) } : end;
        }

        foreach (var lamp in board.Lamps)
        {
            var (x, y) = At(new(lamp.XMm, lamp.YMm));
            pen.Circle(x, y, Math.Max(1.2, 2.5 * scale), ActPen.Lamp, 0.3);
            words.Take(x, y, Math.Max(2.4, 5.4 * scale) + 0.6, Math.Max(2.4, 5.4 * scale) + 0.6);
        }

        foreach (var wire in wires.Where(wire => wire.Way is not null))
        {
            var (start, end) = wire.Way!.Value;
            var (bend, last) = (Bend(start, end), Bend(end, start));
            foreach (var (one, next) in new[] { (start, bend), (bend, last), (last, end) }.Where(side => side.Item1 != side.Item2))
            {
                var (from, to) = (At(one), At(next));
                pen.Line(from.X, from.Y, to.X, to.Y, 0.5);
            }
        }

        var reach = LampBoard.LegMm * scale;
        foreach (var lamp in legged)
        {
            var (x, y) = At(new(lamp.XMm, lamp.YMm));
            pen.Circle(x - reach, y, 0.75, ActPen.Ink, 0.2).Circle(x + reach, y, 0.75, ActPen.Paper, 0.3);
        }

        foreach (var lamp in board.Lamps)
        {
            var (x, y) = At(new(lamp.XMm, lamp.YMm));
            var says = lamp.Number.ToString(CultureInfo.InvariantCulture);
            var (atX, atY) = words.Near(says, (0, -4), [(x, y - (2.5 * scale) - 1.4), (x, y + (2.5 * scale) + 1.4), (x - (2.5 * scale) - 1.6, y), (x + (2.5 * scale) + 1.6, y)]);
            pen.Words(atX, atY + 0.9, says, isBold: true, anchor: "middle", sizeMm: LetterMm);
        }

        if (!board.Channels.IsEmpty)
        {
            var (x, y) = At(board.Joints.Centre);
            pen.Words(x, y + 0.9, ActPen.Fitting("perforated board", Math.Max(12, board.Joints.WidthMm * scale), LetterMm), anchor: "middle", sizeMm: LetterMm);
            words.Take(x, y, 26, 3);
        }

        foreach (var wire in wires.Where(wire => wire.Way is not null))
        {
            var (from, to) = (At(wire.Way!.Value.From), At(wire.Way.Value.To));
            var (x, y) = words.Near(wire.Name, (0, 0), [.. Shares.Select(share => (from.X + (share * (to.X - from.X)), from.Y + (share * (to.Y - from.Y))))]);
            var wide = 1 + (wire.Name.Length * 1.5);
            pen.Box(x - (wide / 2), y - 1.5, wide, 3, ActPen.Paper, 0.15).Words(x, y + 0.9, wire.Name, anchor: "middle", sizeMm: LetterMm);
        }

        return pen.Picture(
            $"The lamp board of {board.Box.Panel} seen from behind: emitters {string.Join(", ", board.Lamps.Select(lamp => lamp.Number))} with their legs, wires {string.Join(", ", wires.Select(wire => wire.Name))}",
            $"{Text(board.Box.Panel)}, the lamp board SEEN FROM BEHIND: numbers are those of the emitters, L and a number those of the wires. The filled dot is an emitter’s {(isLegged ? "LONG leg" : "LONG wire")} (plus), at the left of every one; the open dot its {(isLegged ? "short leg" : "short wire")} (minus). Dashed and darker: the pieces of strip that carry the board, with nothing soldered within {LampRests.ClearMm:0} mm.{(board.Notch is null && board.Blocks.IsEmpty ? string.Empty : " White: what is cut off for blocks and loom.")}");
    }

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

        var (words, reach) = (new Taken(), LampBoard.LegMm * scale);
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

        foreach (var lamp in board.Lamps)
        {
            var (x, y) = face.At(new(lamp.XMm, lamp.YMm));
            var says = lamp.Number.ToString(CultureInfo.InvariantCulture);
            var (atX, atY) = words.Near(says, (0, -4), [(x, y - 3.1), (x, y + 3.1), (x - 4.2, y), (x + 4.2, y)]);
            pen.Words(atX, atY + 0.9, says, isBold: true, anchor: "middle", sizeMm: WireChains.LetterMm);
        }

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
            ScaleFactor = Math.Min(1.4, Math.Min((WireChains.WidthMm - 4) / _inside.WidthMm, (MostHighMm - HeadMm) / _inside.HeightMm));
            Pen = new(Math.Max(60, (_inside.WidthMm * ScaleFactor) + 4), HeadMm + (_inside.HeightMm * ScaleFactor) + 1);
        }

        public double ScaleFactor { get; }

        public ActPen Pen { get; }

        /// <summary>The one mirror of these drawings: what is at the right from the front is at the left from behind.</summary>
        public (double X, double Y) At(Point<PanelSpace> point) =>
            (2 + ((_isFromBehind ? _inside.RightMm - point.XMm : point.XMm - _inside.LeftMm) * ScaleFactor), HeadMm + ((_inside.TopMm - point.YMm) * ScaleFactor));

        public void Area(Box<PanelSpace> area, string fill, double lineMm, bool isDashed = false)
        {
            var (x, y) = At(new(_isFromBehind ? area.RightMm : area.LeftMm, area.TopMm));
            Pen.Box(x, y, area.WidthMm * ScaleFactor, area.HeightMm * ScaleFactor, fill, lineMm, isDashed: isDashed);
        }
    }

    /// <summary>Where words stand already.</summary>
    private sealed class Taken
    {
        private readonly List<(double X, double Y, double Wide, double High)> _all = [];

        public void Take(double xMm, double yMm, double wideMm, double highMm) => _all.Add((xMm, yMm, wideMm, highMm));

        /// <summary>The first of some places and those beside them that is free; else the one that covers least of what is there.</summary>
        public (double X, double Y) Near(string words, (double X, double Y) step, ImmutableArray<(double X, double Y)> places)
        {
            var (wide, high) = (1 + (words.Length * 1.5), 3.0);
            var place = places.Concat(places.SelectMany(one => new (double X, double Y)[] { (one.X, one.Y - 3.2), (one.X, one.Y + 3.2), (one.X + step.X, one.Y + step.Y) }))
                .MinBy(one => _all.Sum(other => Math.Max(0, ((other.Wide + wide) / 2) - Math.Abs(other.X - one.X)) * Math.Max(0, ((other.High + high) / 2) - Math.Abs(other.Y - one.Y))));
            _all.Add((place.X, place.Y, wide, high));
            return place;
        }
    }
}
