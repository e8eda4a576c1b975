using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text;

namespace Lampblack.Books;

/// <summary>Wires and numbers on the picture of a lamp board: an emitter's number is light on dark and stands beside it, a wire's is dark on light and stands on the wire, so that no row of both reads as one.</summary>
internal static class LampBoardWords
{
    private const double LetterMm = WireChains.SmallestMm;
    private const double WireMm = 0.5;

    // From a number on its wire to the wire's next corner: the bend is seen.
    private const double BendMm = 1.2;

    // Between a number of an emitter and one of a wire.
    private const double AirMm = 1.6;

    // A number is so much nearer to its own emitter than to any other.
    private const double NearerFactor = 1.25;

    private static readonly ImmutableArray<double> Shares = [0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82, 0.1, 0.9];

    /// <summary>A wire, all of it one line.</summary>
    public static void Wire(ActPen pen, ImmutableArray<(double X, double Y)> way, string name, WordRoom words)
    {
        var path = new StringBuilder();
        foreach (var (index, (x, y)) in way.Index())
        {
            path.Append(CultureInfo.InvariantCulture, $"{(index == 0 ? 'M' : 'L')}{x:0.##} {y:0.##}");
        }

        pen.Path(path.ToString(), lineMm: WireMm);
        foreach (var (one, next) in way.Zip(way.Skip(1)))
        {
            words.Line(one.X, one.Y, next.X, next.Y, name);
        }
    }

    /// <summary>Emitters' numbers, each beside its own: where there is room elsewhere none stands as near to another emitter.</summary>
    /// <param name="pen">Draws them.</param>
    /// <param name="lamps">Numbers and middles.</param>
    /// <param name="halfMm">Half of what is drawn of an emitter.</param>
    /// <param name="words">Finds room.</param>
    public static void Lamps(ActPen pen, ImmutableArray<(int Number, double X, double Y)> lamps, double halfMm, WordRoom words)
    {
        foreach (var lamp in lamps)
        {
            Lamp(pen, lamp, [.. lamps.Where(other => other.Number != lamp.Number).Select(other => (other.X, other.Y))], halfMm, words);
        }
    }

    private static void Lamp(ActPen pen, (int Number, double X, double Y) lamp, ImmutableArray<(double X, double Y)> others, double halfMm, WordRoom words)
    {
        var says = lamp.Number.ToString(CultureInfo.InvariantCulture);
        var (x, y) = words.Place(says, WordRoom.Round(lamp.X, lamp.Y, halfMm, says).OrderBy(place => others.Any(other => Far(other, place) < NearerFactor * Far((lamp.X, lamp.Y), place))));
        var wide = WordRoom.WideMm(says);
        words.Take(x, y, wide + AirMm, WordRoom.HighMm);
        pen.Box(x - (wide / 2), y - 1.4, wide, 2.8, ActPen.Ink, 0.1, 0.7).Words(x, y + 0.9, says, isBold: true, anchor: "middle", sizeMm: LetterMm, ink: ActPen.Paper);
    }

    /// <summary>A wire's number: on it where it is long enough, else beside it with a thin line.</summary>
    public static void Number(ActPen pen, ImmutableArray<(double X, double Y)> way, string name, WordRoom words)
    {
        var wide = WordRoom.WideMm(name);
        var (x, y) = words.Place(name, [.. On(way, wide), .. WordRoom.Along(way)], name);
        var (nearX, nearY) = way.Zip(way.Skip(1), (one, next) => Nearest(one, next, x, y)).MinBy(one => Far(one, (x, y)));
        if (Far((nearX, nearY), (x, y)) > 1.6)
        {
            pen.Line(nearX, nearY, x, y, 0.2);
        }

        pen.Box(x - (wide / 2), y - 1.5, wide, WordRoom.HighMm, ActPen.Paper, 0.15).Words(x, y + 0.9, name, anchor: "middle", sizeMm: LetterMm);
    }

    /// <summary>Places on its straight stretches, the longest first, clear of its bends.</summary>
    private static IEnumerable<(double X, double Y)> On(ImmutableArray<(double X, double Y)> way, double wideMm) =>
        from side in way.Zip(way.Skip(1)).OrderByDescending(side => Far(side.First, side.Second))
        let far = Far(side.First, side.Second)
        let half = far < 1e-9 ? 0 : ((Math.Abs(side.Second.X - side.First.X) * wideMm) + (Math.Abs(side.Second.Y - side.First.Y) * WordRoom.HighMm)) / far / 2
        from share in Shares
        where share * far >= half + BendMm && (1 - share) * far >= half + BendMm
        select (side.First.X + (share * (side.Second.X - side.First.X)), side.First.Y + (share * (side.Second.Y - side.First.Y)));

    private static (double X, double Y) Nearest((double X, double Y) one, (double X, double Y) next, double x, double y)
    {
        var (dx, dy) = (next.X - one.X, next.Y - one.Y);
        var share = (dx * dx) + (dy * dy) < 1e-9 ? 0 : Math.Clamp((((x - one.X) * dx) + ((y - one.Y) * dy)) / ((dx * dx) + (dy * dy)), 0, 1);
        return (one.X + (share * dx), one.Y + (share * dy));
    }

    private static double Far((double X, double Y) one, (double X, double Y) other) => Math.Sqrt(((one.X - other.X) * (one.X - other.X)) + ((one.Y - other.Y) * (one.Y - other.Y)));
}
