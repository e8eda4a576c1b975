using System;
using System.Collections.Immutable;
using System.Linq;
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

        var room = new WordRoom(xMm - (CellMm / 2) + 7, yMm - 18, xMm + (CellMm / 2), yMm + 15);
        room.Frame(xMm - (wide / 2), yMm - (high / 2), wide, high);
        foreach (var tag in tags)
        {
            room.Take(xMm - (tag.XMm * scale), yMm - (tag.YMm * scale), 2.2 * DotMm, 2.2 * DotMm);
        }

        foreach (var tag in tags)
        {
            // The one mirror of this drawing: what is at the right from the front is at the left from behind.
            var (dx, dy) = (-tag.XMm * scale, -tag.YMm * scale);
            var far = Math.Sqrt((dx * dx) + (dy * dy));
            pen.Circle(xMm + dx, yMm + dy, DotMm, ActPen.Metal, 0.3);
            if (part.Class == PartClass.Rotary && far > 1)
            {
                // On a ring the names stand inwards.
                var share = (far - 3) / far;
                pen.Words(xMm + (dx * share), yMm + (dy * share) + 0.9, tag.Name, isBold: true, anchor: "middle", sizeMm: WireChains.LetterMm);
            }
            else
            {
                var half = WordRoom.WideMm(tag.Name, WireChains.LetterMm) / 2;
                var (x, y) = room.Place(tag.Name, WordRoom.Round(xMm + dx, yMm + dy, DotMm, tag.Name, WireChains.LetterMm).Prepend((xMm + dx + DotMm + half, yMm + dy)), letterMm: WireChains.LetterMm);
                pen.Words(x, y + 0.9, tag.Name, isBold: true, anchor: "middle", sizeMm: WireChains.LetterMm);
            }
        }

        pen.Words(xMm, yMm + 18, ActPen.Fitting(part.Id, CellMm - 1, WireChains.LetterMm), anchor: "middle", sizeMm: WireChains.LetterMm)
            .Arrow(xMm - 18, yMm + 4, xMm - 18, yMm - 4, 0.4).Words(xMm - 18, yMm + 8, "up", anchor: "middle", sizeMm: WireChains.LetterMm);
    }
}
