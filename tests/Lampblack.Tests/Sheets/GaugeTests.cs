using System;
using System.Linq;
using System.Text;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;
using Lampblack.Tests.Register;
using Xunit;

namespace Lampblack.Tests.Sheets;

/// <summary>The gauges tell what they promise, worked out on the shapes themselves.</summary>
public sealed class GaugeTests
{
    private const string Desk = "lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [100, 60]\n[[panel.legend]]\ntext = \"A\"\nat = [50, 30]\n";

    [Theory]
    [InlineData(0, 0, "N=0 E=0 S=0 W=0")]
    [InlineData(0, 0.25, "N=2 E=0 S=0 W=0")]
    [InlineData(0.35, -0.15, "N=0 E=3 S=1 W=0")]
    [InlineData(-0.55, 0.05, "N=0 E=0 S=0 W=5")]
    [InlineData(0, 0.9, "N=6 E=0 S=0 W=0")]
    public void The_bright_dots_of_a_row_count_the_shift_towards_its_letter_in_tenths(double right, double up, string expected)
    {
        var sheet = Sheet();
        var black = Black(sheet.Front);
        var moved = Black(sheet.Back).Map(Affine<SheetSpace, SheetSpace>.Shift(right, up));
        var told = "NESW".Select(letter =>
        {
            var gauge = sheet.Gauges.Single(gauge => gauge.Name == $"dots-{char.ToLowerInvariant(letter)}");

            // Light comes through where neither side is black, inside the black bar's windows only: those are the round holes of the bar.
            var windows = black.Intersect(Region<SheetSpace>.Rectangle(gauge.Box)).FilledHoles().Where(hole => hole.AreaMm2 > 4).ToList();
            Assert.Equal(6, windows.Count);
            return $"{letter}={windows.Count(window => window.Except(moved).AreaMm2 > 1e-3)}";
        });
        Assert.Equal(expected, string.Join(' ', told));
    }

    [Fact]
    public void Where_the_waste_is_too_narrow_gauges_stand_inside_large_holes()
    {
        // 186 x 258 mm leaves no waste on A4; a hole of 120 x 90 mm has room for every gauge.
        const string Wide = "lampblack = 1\n[[part]]\nid = \"screen\"\nhole = [120, 90]\n[[panel]]\nid = \"p\"\nsize = [186, 258]\n[[panel.control]]\npart = \"screen\"\nat = [93, 129]\n";
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes(Wide), "full", paper: PaperSize.Find("A4"));
        Assert.Equal(["sheet-1 has no room for register marks, so a photo of it tells nothing of where side 2 lies"], desk.Findings.Where(finding => finding.Code == "gauge-no-room").Select(finding => finding.Message));
        var hole = desk.Sheets[0].Panels[0].Panel.Holes.Map(desk.Sheets[0].Panels[0].Map);
        Assert.Equal(["dots-e", "dots-n", "dots-s", "dots-w", "pass-band", "patches", "window"], desk.Sheets[0].Gauges.Select(gauge => gauge.Name).Order());
        Assert.All(desk.Sheets[0].Gauges, gauge => Assert.True(hole.Contains(Region<SheetSpace>.Rectangle(gauge.Box)), gauge.Name));
    }

    [Fact]
    public void The_tick_is_seen_in_A_and_after_every_wrong_turn_somewhere_else()
    {
        var sheet = Sheet();
        var (w, h) = (sheet.Paper.WidthMm, sheet.Paper.HeightMm);
        var room = SheetRoom.Of(sheet.Paper, PrinterProperties.Unmeasured);
        var page = SheetPdf.MaskPage(sheet, PrinterProperties.Unmeasured);
        var tick = Region<PageSpace>.Union(page.Areas.Select(area => area.Region)).Intersect(
            Region<PageSpace>.Rectangle(new(w - room.TurnBoxA.XMm - 2.4, room.TurnBoxA.YMm - 2.4, 4.8, 4.8)));
        Assert.True(tick.AreaMm2 > 2);

        // As the sheet lies before the maker after printing: turned over rightly, by the other edge, or printed on the very same face.
        InBox(tick.Map(new Affine<PageSpace, SheetSpace>(-1, 0, w, 0, 1, 0)), room.TurnBoxA);
        InBox(tick.Map(new Affine<PageSpace, SheetSpace>(1, 0, 0, 0, -1, h)), room.TurnBoxB);
        InBox(tick.Map(Affine<PageSpace, SheetSpace>.Shift(0, 0)), room.TurnBoxesFront[0]);
    }

    [Fact]
    public void The_bar_is_a_hundred_millimetres_long_on_both_sides()
    {
        var sheet = Sheet();
        foreach (var areas in new[] { sheet.Front, sheet.Back })
        {
            var bar = Black(areas).Pieces.Single(piece => piece.Bounds.BottomMm < 12 && piece.Bounds.WidthMm > 90);
            Assert.Equal(100, bar.Bounds.WidthMm, 4);
        }
    }

    [Fact]
    public void A_ring_of_one_millimetre_shows_in_the_window_in_perfect_register()
    {
        var sheet = Sheet();
        var box = Region<SheetSpace>.Rectangle(sheet.Gauges.Single(gauge => gauge.Name == "window").Box);
        var window = Assert.Single(Black(sheet.Front).Intersect(box).FilledHoles());
        var disc = Black(sheet.Back).Intersect(box);
        Assert.Equal(6, window.Bounds.WidthMm, 2);
        Assert.Equal(4, disc.Bounds.WidthMm, 2);
        Assert.True(window.Bounds.Centre.DistanceMm(disc.Bounds.Centre) < 1e-3);
    }

    [Fact]
    public void The_strips_at_both_ends_stay_free_of_heavy_toner()
    {
        var sheet = Sheet();
        var top = Region<SheetSpace>.Rectangle(new(0, sheet.Paper.HeightMm - 10, sheet.Paper.WidthMm, 10));
        foreach (var areas in new[] { sheet.Front, sheet.Back })
        {
            // Heavy is what holds a disc of 1.5 mm: lettering and frames do not.
            Assert.True(Black(areas).Intersect(top).Grow(-0.75).IsEmpty);
        }
    }

    private static void InBox(Region<SheetSpace> tick, Point<SheetSpace> middle) =>
        Assert.True(new Box<SheetSpace>(middle.XMm - 2.5, middle.YMm - 2.5, 5, 5).Contains(tick.Bounds), $"{tick.Bounds} is not in the box about {middle}");

    private static Sheet Sheet() => SeparatedDesk.Of(Encoding.UTF8.GetBytes(Desk), "full", paper: PaperSize.Find("A4")).Sheets[0];

    private static Region<SheetSpace> Black(System.Collections.Immutable.ImmutableArray<Lampblack.Formats.Painted<SheetSpace>> areas) =>
        Region<SheetSpace>.Union(areas.Select(area => area.Region));
}
