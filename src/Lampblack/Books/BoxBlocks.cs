using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Geometry;

namespace Lampblack.Books;

/// <summary>The blocks of wood that a panel's screws go into, and how long these screws are. Common practice, no source; sizes from memory.</summary>
internal static class BoxBlocks
{
    /// <summary>How high a block is, below the plate.</summary>
    public const double HighMm = 15;

    /// <summary>Room between a block and the lamp board that is let down past it.</summary>
    public const double PastMm = 1;

    private const double UsualSideMm = 12;
    private const double LeastSideMm = 8;
    private const double JointMm = 1.5;
    private const double WasherMm = 0.5;
    private const double PaperMm = 0.2;
    private const double InInsertMm = 6;
    private const double NutMm = 3;

    // As machine screws are sold.
    private static readonly ImmutableArray<double> UsualMm = [6, 8, 10, 12, 16, 20, 25, 30, 35, 40];

    /// <summary>The blocks of a box, seen from the front: round each screw, up to the walls that are near, and no larger than the joints below leave room for.</summary>
    /// <param name="box">The box.</param>
    /// <param name="joints">Places of joints: the lamp board keeps its corner there.</param>
    /// <param name="facts">The desk.</param>
    public static ImmutableArray<Box<PanelSpace>> Of(BookBox box, IReadOnlyCollection<Point<PanelSpace>> joints, BookFacts facts)
    {
        var fixings = facts.Laid.Panels.First(panel => panel.Panel.Id == box.Id).Panel.Fixings;
        return fixings is null ? [] : [.. fixings.PlacesMm.Select(place => Fitting(box.Inside, place, joints)).Where(area => area.WidthMm > 0 && area.HeightMm > 0)];
    }

    private static Box<PanelSpace> Fitting(Box<PanelSpace> inside, (double XMm, double YMm) place, IReadOnlyCollection<Point<PanelSpace>> joints)
    {
        var sides = Enumerable.Range(0, (int)(UsualSideMm - LeastSideMm) + 1).Select(step => Around(inside, place.XMm, place.YMm, UsualSideMm - step)).ToList();
        return sides.Cast<Box<PanelSpace>?>().FirstOrDefault(area => !joints.Any(area!.Value.Grow(PastMm + JointMm).Contains)) ?? sides[^1];
    }

    /// <summary>How long a panel's screws must be: with a threaded insert, and with a nut below the block.</summary>
    public static (double InsertMm, double NutMm) ScrewsMm(Stack stack)
    {
        var through = stack.PlateMm + stack.GlueMm + stack.CoverMm + PaperMm + WasherMm;
        return (Sold(through + InInsertMm), Sold(through + HighMm + NutMm));
    }

    private static double Sold(double mm) => UsualMm.FirstOrDefault(one => one >= mm - 1e-9) is > 0 and var sold ? sold : Math.Ceiling(mm);

    private static Box<PanelSpace> Around(Box<PanelSpace> inside, double xMm, double yMm, double sideMm)
    {
        var (left, right) = Side(xMm, inside.LeftMm, inside.RightMm, sideMm);
        var (bottom, top) = Side(yMm, inside.BottomMm, inside.TopMm, sideMm);
        return new(left, bottom, Math.Max(0, right - left), Math.Max(0, top - bottom));
    }

    private static (double From, double To) Side(double at, double from, double to, double sideMm) =>
        at - from <= sideMm ? (from, Math.Max(from + sideMm, from + (2 * (at - from)))) : to - at <= sideMm ? (Math.Min(to - sideMm, to - (2 * (to - at))), to) : (at - (sideMm / 2), at + (sideMm / 2));
}
