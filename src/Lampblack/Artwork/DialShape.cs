using System.Linq;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using Lampblack.Geometry;
using Lampblack.Layout;

namespace Lampblack.Artwork;

/// <summary>Shapes of dials.</summary>
internal static class DialShape
{
    // Kept as long as the placed marks are: a dial that stays where it is while others are moved is not drawn again.
    private static readonly ConditionalWeakTable<DialMark[], StrongBox<(PlacedDial Dial, Region<PanelSpace> Shape)>> Drawn = [];

    public static Region<PanelSpace> Marks(PlacedDial dial)
    {
        if (ImmutableCollectionsMarshal.AsArray(dial.Marks) is not { Length: > 0 } marks)
        {
            return Draw(dial);
        }

        if (Drawn.TryGetValue(marks, out var drawn) && drawn.Value.Dial.Centre == dial.Centre && drawn.Value.Dial.Arc == dial.Arc)
        {
            return drawn.Value.Shape;
        }

        var shape = Draw(dial);
        Drawn.AddOrUpdate(marks, new((dial, shape)));
        return shape;
    }

    private static Region<PanelSpace> Draw(PlacedDial dial)
    {
        var marks = dial.Marks.Select(mark => Region<PanelSpace>.Stroke(
            new(
                [dial.Centre.Polar(mark.InnerRadiusMm, 90 - mark.ClockDegrees), dial.Centre.Polar(mark.OuterRadiusMm, 90 - mark.ClockDegrees)],
                Closed: false),
            mark.WidthMm,
            LineEnd.Flat));
        return Region<PanelSpace>.Union(dial.Arc is { } arc ? marks.Append(Band(dial.Centre, arc)) : marks);
    }

    public static Region<PanelSpace> Band(Point<PanelSpace> centre, DialBand band)
    {
        var outer = Outline<PanelSpace>.Arc(centre, band.OuterRadiusMm, 90 - band.FromClockDegrees, 90 - band.ToClockDegrees);
        if (System.Math.Abs(band.ToClockDegrees - band.FromClockDegrees) >= 360 - 1e-9)
        {
            return Region<PanelSpace>.Disc(centre, band.OuterRadiusMm).Except(Region<PanelSpace>.Disc(centre, band.InnerRadiusMm));
        }

        var inner = Outline<PanelSpace>.Arc(centre, band.InnerRadiusMm, 90 - band.ToClockDegrees, 90 - band.FromClockDegrees);
        return Region<PanelSpace>.FromCorners([.. outer.Points, .. inner.Points]);
    }
}
