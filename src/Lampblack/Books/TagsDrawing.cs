using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Parts;
using Lampblack.Wiring;

namespace Lampblack.Books;

/// <summary>Which tag of a part is which: every kind of part that is wired on a panel, from behind, so large that its tags' names can be read.</summary>
internal static class TagsDrawing
{
    private const int InRow = 4;
    private const double CellMm = 45;
    private const double RowMm = 43;
    private const double LargestMm = 26;
    private const double MostScale = 2.4;
    private const double DotMm = 0.9;
    private const double AirMm = 0.5;

    // Capitals of these letters are about so high. From memory.
    private const double NameMm = 2;

    // A name belongs to the tag that it is nearest to; so much nearer that nobody doubts it.
    private const double NearerFactor = 2;

    // All names of a part stand at the same side of their tags: at the right, else at the left, above or below.
    private static readonly ImmutableArray<(double Dx, double Dy)> Sides = [(1, 0), (-1, 0), (0, -1), (0, 1)];

    /// <summary>The drawing; null where nothing on the panel is wired.</summary>
    /// <param name="panel">The panel's wires.</param>
    public static BookPicture? Of(PanelWires panel)
    {
        var wired = panel.Wires.SelectMany(wire => new[] { wire.From.Item, wire.To.Item }).ToHashSet();
        ImmutableArray<PlacedPart> kinds = [.. panel.Laid.Parts.Where(part => wired.Contains(part.Origin.Item) && part.Part.Body is not null).DistinctBy(part => part.Part.Id).OrderBy(part => part.Part.Id, StringComparer.Ordinal)];
        if (kinds.IsEmpty)
        {
            return null;
        }

        var pen = new ActPen(InRow * CellMm, RowMm * ((kinds.Length + InRow - 1) / InRow));
        foreach (var (index, kind) in kinds.Index())
        {
            Draw(pen, kind.Part, ((index % InRow) + 0.5) * CellMm, (index / InRow * RowMm) + 18);
        }

        var isTurned = panel.Laid.Parts.Any(part => wired.Contains(part.Origin.Item) && part.TurnDegrees != 0);
        return pen.Picture(
            $"The tags of the parts on {panel.Laid.Panel.Title}, seen from behind",
            $"Tags of {Formats.HtmlMarkup.Text(panel.Laid.Panel.Title)} SEEN FROM BEHIND, up is up: names and places as on usual parts, from memory; where yours differ, the meter tells.{(isTurned ? " A part that is turned in the panel has its tags turned with it." : string.Empty)}");
    }

    private static void Draw(ActPen pen, Part part, double xMm, double yMm)
    {
        var (body, tags) = (part.Body!, PartTerminals.Of(part).Terminals);
        var scale = Math.Min(MostScale, LargestMm / Math.Max(body.Width.Mm, body.Height.Mm));
        var (wide, high) = (body.Width.Mm * scale, body.Height.Mm * scale);
        if (body.IsRound)
        {
            pen.Circle(xMm, yMm, wide / 2, ActPen.Wood);
        }
        else
        {
            pen.Box(xMm - (wide / 2), yMm - (high / 2), wide, high, ActPen.Wood);
        }

        // The one mirror of this drawing: what is at the right from the front is at the left from behind.
        var dots = tags.Select(tag => (tag.Name, X: -tag.XMm * scale, Y: -tag.YMm * scale)).ToList();
        var side = Sides.MinBy(one => Unclear(dots, one, part.Class == PartClass.Rotary, wide, high));
        foreach (var dot in dots)
        {
            var name = Name(dot, side, part.Class == PartClass.Rotary);
            if (name.RightMm > wide / 2 && name.LeftMm < wide / 2 && !body.IsRound)
            {
                // The body's edge breaks off behind a name that has no room within it.
                pen.Line(xMm + (wide / 2), yMm + name.BottomMm - 0.4, xMm + (wide / 2), yMm + name.TopMm + 0.4, 0.8, ink: ActPen.Wood);
            }

            pen.Circle(xMm + dot.X, yMm + dot.Y, DotMm, ActPen.Metal, 0.3)
                .Words(xMm + name.Centre.XMm, yMm + name.Centre.YMm + 0.9, dot.Name, isBold: true, anchor: "middle", sizeMm: WireChains.LetterMm);
        }

        pen.Words(xMm, yMm + 18, ActPen.Fitting(part.Id, CellMm - 1, WireChains.LetterMm), anchor: "middle", sizeMm: WireChains.LetterMm)
            .Arrow(xMm - 18, yMm + 4, xMm - 18, yMm - 4, 0.4).Words(xMm - 18, yMm + 8, "up", anchor: "middle", sizeMm: WireChains.LetterMm);
    }

    /// <summary>Where a name stands: right beside its tag; on a ring of tags inwards.</summary>
    private static Box<PageSpace> Name((string Name, double X, double Y) dot, (double Dx, double Dy) side, bool isRing)
    {
        var (wide, far) = (WordRoom.WideMm(dot.Name, WireChains.LetterMm) - 1, Math.Sqrt((dot.X * dot.X) + (dot.Y * dot.Y)));
        var (dx, dy) = isRing && far > 1 ? (-dot.X / far, -dot.Y / far) : side;
        var off = DotMm + AirMm;
        return Box<PageSpace>.Around(new(dot.X + (dx * (off + (wide / 2))), dot.Y + (dy * (off + (NameMm / 2)))), wide, NameMm);
    }

    /// <summary>How badly names can be told apart at a side: those that lie on a tag, on each other or on the body's edge, and those that have another tag half as near again.</summary>
    private static int Unclear(List<(string Name, double X, double Y)> dots, (double Dx, double Dy) side, bool isRing, double wideMm, double highMm)
    {
        var names = dots.ConvertAll(dot => Name(dot, side, isRing));
        var body = Box<PageSpace>.Around(new(0, 0), wideMm, highMm);
        return names.Index().Sum(name =>
        {
            var (own, others) = (Far(name.Item, dots[name.Index]), dots.Where((_, index) => index != name.Index).Select(dot => Far(name.Item, dot)).DefaultIfEmpty(double.PositiveInfinity).Min());
            return (others < NearerFactor * own ? 4 : 0) + names.Where((_, index) => index > name.Index).Count(other => other.Overlaps(name.Item)) * 4
                + (name.Item.Overlaps(body) && !body.Contains(name.Item) ? 1 : 0);
        });

        static double Far(Box<PageSpace> name, (string Name, double X, double Y) dot) =>
            new Point<PageSpace>(dot.X, dot.Y).DistanceMm(new(Math.Clamp(dot.X, name.LeftMm, name.RightMm), Math.Clamp(dot.Y, name.BottomMm, name.TopMm)));
    }
}
