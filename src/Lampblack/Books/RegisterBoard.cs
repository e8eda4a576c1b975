using System;
using System.Linq;

namespace Lampblack.Books;

/// <summary>The perforated board that the sockets of the shift registers stand on, and where it lives. Sizes from memory.</summary>
internal static class RegisterBoard
{
    // Ten holes from socket to socket; a row with the resistors and capacitors beside it; a hole's room round all, and the spacers' screws.
    private const double SocketMm = 25.4;
    private const double RowMm = 30;
    private const double EndsMm = 15;

    /// <summary>How many sockets stand in a row: as many as the floor is wide for.</summary>
    public static int InRow(BookFacts facts)
    {
        var room = BoxSlots.Home(facts)?.WidthMm ?? facts.Wiring!.Wires.Home?.Laid.Panel.WidthMm ?? double.PositiveInfinity;
        return (int)Math.Clamp((room - (2 * EndsMm)) / SocketMm, 1, Math.Max(1, Sockets(facts.Wiring!)));
    }

    /// <summary>Its size: how long, how high.</summary>
    public static (double LongMm, double HighMm) SizeMm(BookFacts facts)
    {
        var row = InRow(facts);
        var rows = Math.Ceiling(Sockets(facts.Wiring!) / (double)row);
        return ((row * SocketMm) + EndsMm, (rows * RowMm) + EndsMm);
    }

    private static int Sockets(BookWiring wiring) => wiring.Pins.Controllers.Sum(plan => RegisterWires.Chips(plan).Count());
}
