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
        foreach (var (name, at) in terminals)
        {
            var wide = SheetText.WidthMm(name, size);

            // On a ring of tags the name stands inwards, else outwards or beside its tag.
            var (inX, inY) = Inwards(at, middle);
            var sides = part.Part.Class == PartClass.Rotary ? [(inX, inY), (-inX, -inY), (-inY, inX), (inY, -inX)] : Sides;
            var box = sides.Select(side => Box<BackSpace>.Around(new(at.XMm + (side.Dx * Off(side, wide, size)), at.YMm + (side.Dy * Off(side, wide, size))), wide, size))
                .Select((one, index) => (Box: one, Cost: Cost(one, taken, near, body) + (LaterCost * index))).MinBy(one => one.Cost).Box;
            taken.Add(box);
            var dot = Region<BackSpace>.Disc(at, DotMm);
            yield return new(used.Contains(name) ? dot : dot.Except(Region<BackSpace>.Disc(at, DotMm - 0.2)), LoomDrawing.Text(name, size, box.Centre));
        }
    }

    private static double Off((double Dx, double Dy) side, double wideMm, double highMm) => DotMm + AirMm + ((Math.Abs(side.Dx) > 0.5 ? wideMm : highMm) / 2);

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
