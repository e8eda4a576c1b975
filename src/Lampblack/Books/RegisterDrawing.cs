using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Wiring;

namespace Lampblack.Books;

/// <summary>A socket of a shift register with the numbers of its pins: from above, as the chip goes in, and from below, as it is soldered.</summary>
internal static class RegisterDrawing
{
    private const int OnSide = 8;
    private const double PinMm = 4.6;
    private const double LetterMm = 2.5;

    // By the data sheets. Empty where a plug's wire goes: those pins say themselves which line they are.
    private static readonly ImmutableArray<string> Reads = Named(true, ["SH/LD", "CLK", "", "", "", "", "–", "GND", "QH", "SER", "", "", "", "", "INH", "VCC"]);
    private static readonly ImmutableArray<string> Drives = Named(false, ["", "", "", "", "", "", "", "GND", "QH'", "CLR", "CLK", "RCLK", "OE", "SER", "", "VCC"]);

    /// <summary>The sockets of a desk, each kind once.</summary>
    public static IEnumerable<BookPicture> Of(PinPlan pins) =>
        pins.Controllers.SelectMany(RegisterWires.Chips).Select(chip => chip.Name).Distinct().Select(name => Socket(name, name == "74HC165" ? Reads : Drives));

    /// <summary>A chip that goes in with its notch at the socket's, and one that is turned about.</summary>
    public static BookPicture Chip(PinPlan pins)
    {
        var name = pins.Controllers.SelectMany(RegisterWires.Chips).First().Name;
        var pen = new ActPen(118, 46);
        foreach (var left in new[] { 4.0, 64.0 })
        {
            var isRight = left < 60;
            pen.Box(left, 8, 44, 22, ActPen.Wood).Trace($"M{left:0.##} 16a3 3 0 0 1 0 6", ActPen.Paper).Words(left + 22, 6, "socket", anchor: "middle", sizeMm: 3).Box(left + 3, 11, 38, 16, ActPen.Black);
            var (notch, dot) = isRight ? (left + 3, left + 6) : (left + 41, left + 38);
            pen.Trace(isRight ? (FormattableString)$"M{notch:0.##} 17a2 2 0 0 1 0 4" : $"M{notch:0.##} 17a2 2 0 0 0 0 4", ActPen.Paper).Circle(dot, isRight ? 24.5 : 13.5, 0.9, ActPen.Paper)
                .Trace($"M{left + 12:0.##} 16h20v6h-20z", ActPen.Paper, 0.2).Words(left + 22, 20.4, name, anchor: "middle", sizeMm: 3.2);
        }

        return pen.Right(4, 39, "notch at notch, dot at pin 1").Wrong(64, 39, "turned about: it burns out")
            .Picture($"A {name} in its socket from above: right, its notch lies at the socket's; wrong, it is turned about", "Each chip in its socket from above: the notch of the chip lies at the notch of the socket.");
    }

    private static ImmutableArray<string> Named(bool isInput, ImmutableArray<string> names) =>
        Enumerable.Range(0, RegisterWires.Lines).Select(line => new RegisterPin(isInput, 0, line)).Aggregate(names, (all, pin) => all.SetItem(pin.Pin - 1, pin.Letter.ToString()));

    private static BookPicture Socket(string name, ImmutableArray<string> names)
    {
        var pen = new ActPen(118, 62);
        foreach (var (left, isAbove) in new[] { (14.0, true), (76.0, false) })
        {
            const double TopMm = 9;
            pen.Words(left + 13, 5, isAbove ? "from above" : "from below: solder here", isBold: true, anchor: "middle", sizeMm: 3)
                .Box(left, TopMm, 26, OnSide * PinMm, ActPen.Wood).Trace($"M{left + 10:0.##} {TopMm:0.##}a3 3 0 0 0 6 0", ActPen.Paper);
            foreach (var pin in Enumerable.Range(1, 2 * OnSide))
            {
                var isFirst = pin <= OnSide;
                var y = TopMm + (((isFirst ? pin - 1 : (2 * OnSide) - pin) + 0.5) * PinMm);

                // The one mirror of this drawing: from below pin 1 stands at the right of the notch.
                var isLeft = isFirst == isAbove;
                var (x, words) = (isLeft ? left : left + 26, names[pin - 1]);
                pen.Circle(x, y, 0.9, pin == 1 ? ActPen.Ink : ActPen.Metal, 0.3).Words(isLeft ? x + 2 : x - 2, y + 0.9, FormattableString.Invariant($"{pin}"), isBold: true, anchor: isLeft ? "start" : "end", sizeMm: LetterMm)
                    .Words(isLeft ? x - 2 : x + 2, y + 0.9, words, anchor: isLeft ? "end" : "start", sizeMm: LetterMm);
            }

            pen.Words(left + 13, TopMm + 19.5, name, isBold: true, anchor: "middle", sizeMm: LetterMm);
        }

        return pen.Words(4, 54, "black dot: pin 1, beside the notch", sizeMm: 3).Words(4, 59, "A to H: the wires of the plugs end there", sizeMm: 3)
            .Picture($"The socket of a {name} with its notch and the numbers 1 to 16 of its pins, from above and from below", $"The socket of a {name}: numbers and names of its pins, by its data sheet. From below, where it is soldered, left and right are exchanged.");
    }
}
