using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Calibration;

/// <summary>A round hole of a panel, where it was meant to be.</summary>
/// <param name="Item">Panel and control, and the copy's number behind a point where there are several.</param>
/// <param name="Centre">Its middle.</param>
/// <param name="RadiusMm">Its radius.</param>
public sealed record PanelHole(string Item, Point<PanelSpace> Centre, double RadiusMm);

/// <summary>All of a panel that its hole template shows.</summary>
/// <param name="Id">The panel's id.</param>
/// <param name="Title">Its title.</param>
/// <param name="WidthMm">Its width.</param>
/// <param name="HeightMm">Its height.</param>
/// <param name="Outline">The finished plate.</param>
/// <param name="Holes">Its round holes; at least one.</param>
public sealed record TemplatePanel(string Id, string Title, double WidthMm, double HeightMm, Region<PanelSpace> Outline, ImmutableArray<PanelHole> Holes);

/// <summary>
/// A page on which a drilled plate is laid and photographed: coded windows tell where the page lies in the photo, and around each hole's place it is clear
/// (to be filled with a felt pen) or black (to be seen through the holes of a plate that is light).
/// </summary>
public sealed class TemplatePlan
{
    /// <summary>The windows' size as a share of a calibration sheet's.</summary>
    public const double MarkShare = RegisterMark.SmallShare;

    /// <summary>From a hole's edge to the end of what is clear or black around it.</summary>
    public const double ClearMm = 2.6;

    /// <summary>How many windows there are at most.</summary>
    public const int MostMarks = 24;

    internal const double MarginMm = 8;
    internal const double HeadMm = 17;
    internal const double FootMm = 6;

    // Fewer can't be told from chance, nor show the lens.
    private const int FewestMarks = 8;
    private const double AirMm = 1.5;
    private const int Columns = 5;
    private const int Rows = 7;

    // Code of a page: versions from here on are no calibration sheet's.
    private const int FirstVersion = 8;

    private TemplatePlan(TemplatePanel panel, PaperSize paper, bool isDark, Affine<PanelSpace, SheetSpace> map, ImmutableArray<Point<SheetSpace>> marks)
    {
        (Panel, Paper, IsDark, Map) = (panel, paper, isDark, map);
        Marks = [.. marks.Select((place, index) => new RegisterMark(index + 1, new(place.XMm / MarkShare, place.YMm / MarkShare)))];
        var (length, left) = (SheetCode.Cells * SheetCode.CellLengthMm, paper.WidthMm / 2 / MarkShare);
        CodeRow = new(left - (length / 2), ((paper.HeightMm - MarginMm - HeadMm + 1.5) / MarkShare) + SheetCode.AirMm, length, SheetCode.CellHeightMm);
    }

    /// <summary>The panel.</summary>
    public TemplatePanel Panel { get; }

    /// <summary>The paper.</summary>
    public PaperSize Paper { get; }

    /// <summary>Whether it is black around the holes, for a plate that is light.</summary>
    public bool IsDark { get; }

    /// <summary>From the panel to the page.</summary>
    public Affine<PanelSpace, SheetSpace> Map { get; }

    /// <summary>The windows, as those of a calibration sheet are that is so many times larger: places are in mm of that sheet.</summary>
    public ImmutableArray<RegisterMark> Marks { get; }

    /// <summary>The row of cells that tells which page it is, on that larger sheet.</summary>
    public Box<SheetSpace> CodeRow { get; }

    /// <summary>What the row of cells says.</summary>
    public SheetCode Code
    {
        get
        {
            var print = Fingerprint();
            return new(print & 255, PaperSize.All.IndexOf(Paper), FirstVersion + ((print >> 8) & 7), ((print >> 11) & 1) != 0, IsDark);
        }
    }

    /// <summary>The page for a panel; null where the paper has no room for the panel and for windows around its holes.</summary>
    /// <param name="panel">The panel.</param>
    /// <param name="paper">The paper.</param>
    /// <param name="isDark">Whether it is to be black around the holes; then no window may lie under the plate.</param>
    public static TemplatePlan? Of(TemplatePanel panel, PaperSize paper, bool isDark)
    {
        ArgumentNullException.ThrowIfNull(panel);
        ArgumentNullException.ThrowIfNull(paper);
        var room = new Box<SheetSpace>(MarginMm, MarginMm + FootMm, paper.WidthMm - (2 * MarginMm), paper.HeightMm - (2 * MarginMm) - HeadMm - FootMm);
        var ways = new[] { false, true }.Select(isTurned => Placed(panel, paper, isDark, room, isTurned)).OfType<TemplatePlan>().ToList();

        // Upright where that shows enough windows; else as it shows most.
        return ways.Find(way => way.Marks.Length >= Columns * 3) ?? ways.MaxBy(way => way.Marks.Length);
    }

    private static TemplatePlan? Placed(TemplatePanel panel, PaperSize paper, bool isDark, Box<SheetSpace> room, bool isTurned)
    {
        var (width, height) = isTurned ? (panel.HeightMm, panel.WidthMm) : (panel.WidthMm, panel.HeightMm);
        if (width > room.WidthMm || height > room.HeightMm)
        {
            return null;
        }

        var middle = room.Centre;
        var map = isTurned
            ? new Affine<PanelSpace, SheetSpace>(0, -1, middle.XMm + (width / 2), 1, 0, middle.YMm - (height / 2))
            : Affine<PanelSpace, SheetSpace>.Shift(middle.XMm - (width / 2), middle.YMm - (height / 2));
        var plate = new Box<SheetSpace>(middle.XMm - (width / 2), middle.YMm - (height / 2), width, height).Grow(AirMm);
        var half = RegisterMark.HalfSquareMm * MarkShare;
        var holes = panel.Holes.Select(hole => (Place: map.Apply(hole.Centre), Mm: hole.RadiusMm + ClearMm)).ToList();
        var outside = new List<Point<SheetSpace>>();
        var inside = new List<Point<SheetSpace>>();
        for (var row = 0; row < Rows; row++)
        {
            for (var column = 0; column < Columns; column++)
            {
                Point<SheetSpace> place = new(
                    room.LeftMm + half + (column * (room.WidthMm - (2 * half)) / (Columns - 1)), room.BottomMm + half + (row * (room.HeightMm - (2 * half)) / (Rows - 1)));
                var square = new Box<SheetSpace>(place.XMm, place.YMm, 0, 0).Grow(half);
                if (!square.Overlaps(plate))
                {
                    outside.Add(place);
                }
                else if (!isDark && holes.TrueForAll(hole => Far(square, hole.Place) > hole.Mm + 0.5))
                {
                    inside.Add(place);
                }
            }
        }

        var marks = outside.Concat(outside.Count < Columns * 3 ? inside : []).Take(MostMarks).ToImmutableArray();
        return marks.Length >= FewestMarks && Surround(marks, holes.Select(hole => hole.Place)) ? new(panel, paper, isDark, map, marks) : null;
    }

    private static double Far(Box<SheetSpace> square, Point<SheetSpace> place) => new Point<SheetSpace>(
        Math.Clamp(place.XMm, square.LeftMm, square.RightMm), Math.Clamp(place.YMm, square.BottomMm, square.TopMm)).DistanceMm(place);

    /// <summary>Whether the holes lie between windows: beyond them nothing is known of the lens.</summary>
    internal static bool Surround(IReadOnlyCollection<Point<SheetSpace>> marks, IEnumerable<Point<SheetSpace>> holes)
    {
        const double BeyondMm = 12;
        return holes.All(hole => Within(place => place.XMm, hole.XMm) && Within(place => place.YMm, hole.YMm));

        bool Within(Func<Point<SheetSpace>, double> way, double mm) => mm > marks.Min(way) - BeyondMm && mm < marks.Max(way) + BeyondMm;
    }

    /// <summary>Twelve bits of the panel and its holes to 0.01 mm (FNV-1a, folded): a page of an older design is told from one of this.</summary>
    private int Fingerprint()
    {
        var hash = 2166136261u;
        foreach (var unit in string.Create(CultureInfo.InvariantCulture, $"{Panel.Id} {Panel.WidthMm:0.00} {Panel.HeightMm:0.00}") + string.Concat(Panel.Holes.Select(hole =>
            string.Create(CultureInfo.InvariantCulture, $" {hole.Item} {hole.Centre.XMm:0.00} {hole.Centre.YMm:0.00} {hole.RadiusMm:0.00}"))))
        {
            hash = (hash ^ unit) * 16777619;
        }

        return (int)((hash >> 24) ^ (hash >> 12) ^ hash) & 0xFFF;
    }
}
