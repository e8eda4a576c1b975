using System.Linq;
using Lampblack.Parts;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>The lamp board in its box, the cells on it, and the electronics below it.</summary>
internal static class LampDrawings
{
    // A controller with its pin rows, plugs and their wires is about 30 mm high; joints alone need a finger's breadth. From memory.
    private const double ElectronicsMm = 40;
    private const double JointsMm = 15;

    // Lamps with a round top are made for half angles of 8 to 30 degrees, with a flat top for 50 and more. From memory.
    private const double LensDegrees = 40;

    /// <summary>How far the walls go on below the lamp board.</summary>
    public static double RoomMm(BookFacts facts) => facts.Wiring is null && facts.Circuit is null ? JointsMm : ElectronicsMm;

    /// <summary>The lamp board on its strips, the loom through its notch; and glued down before it was soldered.</summary>
    public static BookPicture LayIn(BookFacts facts)
    {
        var pen = new ActPen(118, 56);
        foreach (var left in new[] { 2.0, 62.0 })
        {
            var isRight = left < 60;
            Walls(pen, left, 6, 38);
            pen.Box(left + 4.4, 24.4, 3, 3, ActPen.Wood).Box(left + 46.6, 24.4, 3, 3, ActPen.Wood);
            if (isRight)
            {
                Board(pen, left + 4.4, 22, 41, facts.LampType);
                pen.Trace($"M{left + 48:0.##} 8c-2 6 0 10 -0.6 14s-2 8 -6 10", "none", 1).Words(left + 43, 14, "loom", anchor: "end", sizeMm: 3).Line(left + 43.4, 13.2, left + 47.4, 12, 0.2)
                    .Line(left + 6, 20.6, left + 6, 26.6, 0.8).Line(left + 44, 20.6, left + 44, 26.6, 0.8)
                    .Words(left + 25, 35, "joints below", anchor: "middle", sizeMm: 3);
            }
            else
            {
                Board(pen, left + 4.4, 39.6, 45, facts.LampType);
                pen.Words(left + 27, 30, "no way to the joints", anchor: "middle", sizeMm: 3);
            }
        }

        return pen.Right(2, 52.5, "on its strips, screwed").Wrong(62, 52.5, "glued on the floor")
            .Picture("The box from the side: right, the lamp board lies on strips of wood, the loom goes down through its notch, the joints lie free below; wrong, it is glued on the floor", $"The box of {Text(facts.Boxes[0].Panel)} from the side, before the panel is laid on.");
    }

    /// <summary>A cell that just touches the panel, and one that leaves a gap.</summary>
    public static BookPicture Cell(BookFacts facts)
    {
        var pen = new ActPen(118, 48);
        var cell = facts.Cells[0];
        var shown = System.Math.Clamp(cell.Emitters, 1, 3);
        foreach (var left in new[] { 2.0, 62.0 })
        {
            var isRight = left < 60;
            var top = isRight ? 9.4 : 15;
            pen.Box(left, 7, 52, 2.4, ActPen.Acrylic).Box(left, 32, 52, 1.6, ActPen.Wood)
                .Line(left + 17, top, left + 17, 32, 1.2).Line(left + 35, top, left + 35, 32, 1.2)
                .Line(left + 24, 27, left + 20, 18, 0.25).Line(left + 26, 26, left + 26, 16, 0.25).Line(left + 28, 27, left + 32, 18, 0.25)
                .Words(left + 26, 5, "panel", anchor: "middle", sizeMm: 3).Words(left + 37, 24, "card", sizeMm: 3).Words(left + 26, 36.8, "lamp board", anchor: "middle", sizeMm: 2.8);
            foreach (var x in Enumerable.Range(0, shown).Select(index => left + 24.4 + ((index - ((shown - 1) / 2.0)) * 5)))
            {
                Lamp(pen, x, 32, facts.LampType is { Form: EmitterForm.Single } type ? type : null);
            }

            if (!isRight)
            {
                pen.Arrow(left + 30, 19, left + 44, 11.4, 0.5);
            }
        }

        return pen.Right(2, 43, "it just touches").Wrong(62, 43, "a gap: light gets out")
            .Picture("A cell from the side round its emitters: right, its walls reach the panel; wrong, light escapes over them", $"The cell of “{Text(cell.Words)}” from the side, with its {(cell.Emitters == 1 ? "emitter" : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{cell.Emitters} emitters"))}: its walls stand on the lamp board and just touch the panel.");
    }

    /// <summary>The controller below the lamp board, or in the light.</summary>
    public static BookPicture House(BookFacts facts)
    {
        const double FloorMm = 45.6;
        var pen = new ActPen(118, 58);
        var chip = facts.Wiring!.Pins.Controllers[0].Chip.ToString();
        foreach (var left in new[] { 2.0, 62.0 })
        {
            var isRight = left < 60;
            Walls(pen, left, 8, FloorMm + 2.4 - 8);
            pen.Box(left + 2, 5.6, 50, 2.4, ActPen.Acrylic);
            if (!facts.Lamps.IsEmpty)
            {
                Board(pen, left + 4.4, 22, 41, facts.LampType);
            }

            var y = isRight ? FloorMm - 4.6 : 17.4;
            pen.Box(left + 12, y, 24, 2, ActPen.Acrylic).Line(left + 14, y + 2, left + 14, y + 4.6, 1).Line(left + 34, y + 2, left + 34, y + 4.6, 1)
                .Box(left + 33, y - 2.6, 5, 2.6, ActPen.Metal).Words(left + 23, y - 0.8, chip, anchor: "middle", sizeMm: 2.6);
            if (isRight)
            {
                // The slot is open towards the floor, which closes it.
                pen.Box(left + 49.6, FloorMm - 3.2, 2.4, 3.2, ActPen.Paper, 0.2).Trace($"M{left + 38:0.##} {y - 1.4:0.##}h3.5l5 4.4h9", "none", 1).Words(left + 43.6, y - 3, "USB", anchor: "middle", sizeMm: 2.8);
            }
        }

        return pen.Right(2, 54.5, facts.Lamps.IsEmpty ? "on the floor" : "below the lamp board").Wrong(62, 54.5, facts.Lamps.IsEmpty ? "hanging on its wires" : "in the light: a shadow")
            .Picture($"The box from the side: right, the board with its {chip} stands on the floor; wrong, it lies under the panel", "Where the controller lives, from the side: on spacers on the floor, its USB cable through the slot at the foot of the wall.");
    }

    /// <summary>An emitter from the side as it is: with a round top, with a flat one, or soldered flat.</summary>
    /// <param name="pen">Draws it.</param>
    /// <param name="leftMm">Its left edge.</param>
    /// <param name="footMm">What it stands on.</param>
    /// <param name="type">Its type; null for one that is soldered flat.</param>
    public static ActPen Lamp(ActPen pen, double leftMm, double footMm, EmitterType? type) => type is not { HasLegs: true } ? pen.Box(leftMm, footMm - 1.3, 3.2, 1.3, ActPen.Lamp)
        : IsRound(type) ? pen.Trace($"M{leftMm:0.##} {footMm:0.##}v-2a1.6 1.6 0 0 1 3.2 0v2z", ActPen.Lamp)
        : pen.Box(leftMm, footMm - 3.2, 3.2, 3.2, ActPen.Lamp);

    /// <summary>Whether a lamp's top is a lens: it throws its light ahead.</summary>
    public static bool IsRound(EmitterType type) => type.HalfAngleDegrees < LensDegrees;

    private static void Walls(ActPen pen, double leftMm, double topMm, double highMm) =>
        pen.Box(leftMm + 2, topMm, 2.4, highMm - 2.4, ActPen.Wood).Box(leftMm + 49.6, topMm, 2.4, highMm - 2.4, ActPen.Wood).Box(leftMm + 2, topMm + highMm - 2.4, 50, 2.4, ActPen.Wood);

    private static void Board(ActPen pen, double leftMm, double topMm, double wideMm, EmitterType? type)
    {
        pen.Box(leftMm, topMm, wideMm, 2.2, ActPen.Wood);
        foreach (var x in Enumerable.Range(1, 3).Select(place => leftMm + (place * wideMm / 4) - 1.6))
        {
            Lamp(pen, x, topMm, type).Line(x + 0.8, topMm + 2.2, x + 0.8, topMm + 4, 0.3).Line(x + 2.4, topMm + 2.2, x + 2.4, topMm + 4, 0.3);
        }
    }
}
