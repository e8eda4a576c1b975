using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Parts;
using Lampblack.Sheets;

namespace Lampblack.Wiring;

/// <summary>A part's terminal as it is drawn from behind: a dot, and its name beside it where no wire runs.</summary>
/// <param name="Dot">The dot: filled where a wire is soldered.</param>
/// <param name="Name">The name.</param>
internal sealed record TerminalMark(Region<BackSpace> Dot, Region<BackSpace> Name)
{
    private const double NameMm = 1.4;
    private const double LeastNameMm = 0.9;
    private const double DotMm = 0.7;
    private const double AirMm = 0.45;

    // A name that another one or a dot covers can't be read, one that a wire or a body's edge runs through hardly; which side it stands on matters little.
    private const double CoveredCost = 100;
    private const double LineCost = 10;
    private const double LaterCost = 0.1;

    // A name is so much nearer to its own dot than to any other, where it need not stand on a wire for that.
    private const double NearerFactor = 1.5;
    private const double DoubtCost = 5;

    // As one reads: before the dot, else behind it, above it, below it.
    private static readonly ImmutableArray<(double Dx, double Dy)> Sides = [(-1, 0), (1, 0), (0, 1), (0, -1)];

    /// <summary>The marks of a part.</summary>
    /// <param name="part">The part.</param>
    /// <param name="body">Its body, seen from behind.</param>
    /// <param name="used">The terminals that wires are soldered to.</param>
    /// <param name="map">From the front to the back.</param>
    /// <param name="looms">Where wires run.</param>
    /// <param name="full">All bodies, its own among them, and what else no name may lie on.</param>
    public static IEnumerable<TerminalMark> Of(PlacedPart part, Box<BackSpace> body, ImmutableHashSet<string> used, Affine<PanelSpace, BackSpace> map, IReadOnlyList<Box<BackSpace>> looms, IReadOnlyList<Box<BackSpace>> full)
    {
        var terminals = PartTerminals.Of(part.Part).Terminals.Select(terminal => (terminal.Name, At: map.Apply(part.Map.Apply(new Point<ItemSpace>(terminal.XMm, terminal.YMm))))).ToList();
        var middle = map.Apply(part.Centre);
        var least = terminals.SelectMany((one, index) => terminals.Skip(index + 1).Select(other => one.At.DistanceMm(other.At))).DefaultIfEmpty(10).Min();
        var size = Math.Clamp(least / 3, LeastNameMm, NameMm);
        var reach = body.Grow(10);
        var near = looms.Where(loom => loom.Overlaps(reach)).ToList();
        var taken = full.Where(box => box != body && box.Overlaps(reach)).ToList();
        taken.AddRange(terminals.Select(terminal => Box<BackSpace>.Around(terminal.At, 2 * DotMm, 2 * DotMm)));
        // All names of a part stand at one side of their dots where they can be read there; else each where it can.
        var isRing = part.Part.Class == PartClass.Rotary;
        var dots = terminals.ConvertAll(terminal => terminal.At);
        var whole = Sides.Select((side, index) => (Boxes: terminals.ConvertAll(terminal => Beside(terminal.Name, terminal.At, side)), Index: index))
            .Select(one => (one.Boxes, Cost: one.Boxes.Index().Sum(name => Cost(name.Item, [.. taken, .. one.Boxes.Take(name.Index)], near, body) + Doubt(name.Item, dots, name.Index)) + (LaterCost * one.Index))).MinBy(one => one.Cost);
        foreach (var (index, (name, at)) in terminals.Index())
        {
            var box = whole.Cost < DoubtCost ? whole.Boxes[index] : Sides.Select(side => Beside(name, at, side))
                .Select((one, later) => (Box: one, Cost: Cost(one, taken, near, body) + Doubt(one, dots, index) + (LaterCost * later))).MinBy(one => one.Cost).Box;
            taken.Add(box);
            var dot = Region<BackSpace>.Disc(at, DotMm);
            yield return new(used.Contains(name) ? dot : dot.Except(Region<BackSpace>.Disc(at, DotMm - 0.2)), LoomDrawing.Text(name, size, box.Centre));
        }

        Box<BackSpace> Beside(string name, Point<BackSpace> at, (double Dx, double Dy) side)
        {
            // On a ring of tags the name stands inwards, else outwards or beside its tag.
            var (inX, inY) = isRing ? Inwards(at, middle) : (-1, 0);
            var (dx, dy) = ((-side.Dx * inX) - (side.Dy * inY), (-side.Dx * inY) + (side.Dy * inX));
            (dx, dy) = isRing ? (dx, dy) : side;
            var wide = SheetText.WidthMm(name, size);
            return Box<BackSpace>.Around(new(at.XMm + (dx * Off(dx, wide, size)), at.YMm + (dy * Off(dx, wide, size))), wide, size);
        }
    }

    /// <summary>What it costs that another dot is nearly as near to a name as its own.</summary>
    private static double Doubt(Box<BackSpace> name, List<Point<BackSpace>> dots, int own) =>
        dots.Where((_, index) => index != own).Any(dot => Far(name, dot) < NearerFactor * Far(name, dots[own])) ? DoubtCost : 0;

    private static double Far(Box<BackSpace> name, Point<BackSpace> dot) => dot.DistanceMm(new(Math.Clamp(dot.XMm, name.LeftMm, name.RightMm), Math.Clamp(dot.YMm, name.BottomMm, name.TopMm)));

    private static double Off(double dx, double wideMm, double highMm) => DotMm + AirMm + ((Math.Abs(dx) > 0.5 ? wideMm : highMm) / 2);

    private static double Cost(Box<BackSpace> name, List<Box<BackSpace>> taken, List<Box<BackSpace>> looms, Box<BackSpace> body) =>
        (CoveredCost * taken.Count(other => other.Overlaps(name)))
        + (LineCost * looms.Count(loom => loom.Overlaps(name.Grow(LoomDrawing.ClearMm))))
        + (name.Overlaps(body) && !body.Contains(name) ? LineCost : 0);

    private static (double Dx, double Dy) Inwards(Point<BackSpace> at, Point<BackSpace> middle)
    {
        var far = at.DistanceMm(middle);
        return far < 1 ? (-1, 0) : ((middle.XMm - at.XMm) / far, (middle.YMm - at.YMm) / far);
    }
}
