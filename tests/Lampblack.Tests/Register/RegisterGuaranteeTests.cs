using System;
using System.Collections.Generic;
using System.Linq;
using System.Text;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.Sheets;
using Xunit;

namespace Lampblack.Tests.Register;

/// <summary>
/// The promise of the spread: whatever the misregister, up to the spread, the mask covers nothing that is to shine; and where nothing is to be seen,
/// one side at least is black. Checked on plates of an independent rasteriser at 600 dpi, the mask displaced in its vectors by the spread less 0.01 mm.
/// </summary>
public sealed class RegisterGuaranteeTests
{
    private const double ShortMm = 0.01;

    private const string Small = """
        lampblack = 1
        title = "Register"
        [[panel]]
        id = "p"
        size = [60, 40]
        [[panel.legend]]
        text = "SHUTTER"
        at = [30, 28]
        height = 4
        [[panel.legend]]
        id = "warning"
        text = "HOT"
        at = [30, 12]
        height = 4
        role = "hidden"
        [[panel.control]]
        part = "toggle-mini-on-on"
        at = [10, 20]
        states = ["A", "B"]
        """;

    public static TheoryData<string> Examples => ["dome-desk", "yard-board", "kiln"];

    [Theory]
    [MemberData(nameof(Examples))]
    public void No_misregister_up_to_the_spread_covers_anything_that_shines(string example)
    {
        var desk = SeparatedDesk.Example(example);
        foreach (var sheet in desk.Sheets)
        {
            var plates = new SheetPlates(desk, sheet);
            foreach (var (name, error) in Errors(desk, sheet))
            {
                var mask = plates.MaskAfter(error);
                Assert.True(plates.Uncovered(mask) == 0, $"{example} {sheet.Id}, {name}: a hidden opening lies beside its cover");
                var covered = plates.CoveredDots(mask);
                Assert.True(
                    covered.Count == 0,
                    $"{example} {sheet.Id}, {name}: {covered.Count} dots that are to shine are covered, at {string.Join(" ", covered.Take(12).Select(dot => $"{dot.XMm:0.00},{dot.YMm:0.00}"))}");
            }
        }
    }

    [Theory]
    [MemberData(nameof(Examples))]
    public void In_register_nothing_leaks_where_nothing_is_to_be_seen(string example)
    {
        var desk = SeparatedDesk.Example(example);
        foreach (var sheet in desk.Sheets)
        {
            var plates = new SheetPlates(desk, sheet);
            var mask = plates.MaskAfter(Affine<SheetSpace, SheetSpace>.Identity);
            Assert.Equal(0, plates.Leaking(mask));
            Assert.Equal(0, plates.Bare(mask));
            Assert.Equal(0, plates.HiddenCovered(mask));
        }
    }

    [Fact]
    public void The_check_sees_a_mask_that_was_not_mirrored()
    {
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes(Small), "full");
        var plates = new SheetPlates(desk, desk.Sheets[0]);
        var mask = plates.MaskAfter(Affine<SheetSpace, SheetSpace>.Identity, page => Moved(page, new(-1, 0, page.WidthMm, 0, 1, 0)));
        Assert.True(plates.Covered(mask) + plates.Bare(mask) > 1000);
    }

    [Fact]
    public void The_check_sees_a_mask_mirrored_about_the_wrong_axis()
    {
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes(Small), "full");
        var plates = new SheetPlates(desk, desk.Sheets[0]);
        var mask = plates.MaskAfter(Affine<SheetSpace, SheetSpace>.Identity, page => Moved(page, new(-1, 0, page.WidthMm, 0, -1, page.HeightMm)));
        Assert.True(plates.Covered(mask) + plates.Bare(mask) > 1000);
    }

    [Fact]
    public void The_check_sees_a_spread_that_is_six_hundredths_too_small()
    {
        var promised = SeparatedDesk.Of(Encoding.UTF8.GetBytes(Small), "full");
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes(Small), "full", promised.SpreadMm - 0.06);
        var plates = new SheetPlates(desk, desk.Sheets[0]);
        Assert.Contains(Directions(promised.SpreadMm - ShortMm), error => plates.Covered(plates.MaskAfter(error.Error)) > 0);
    }

    [Fact]
    public void The_check_sees_a_shape_that_is_missing_from_the_mask()
    {
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes(Small), "full");
        var whole = desk.Sheets[0];
        var shape = desk.Panels[0].Shapes.Visible.First(mark => mark.Name == "SHUTTER").Shape.Map(whole.Panels[0].Map);
        var spoiled = whole with { Back = whole.Back.Insert(1, new(shape.Grow(0.6), Ink.FullK)) };
        var plates = new SheetPlates(desk, spoiled);
        Assert.True(plates.Covered(plates.MaskAfter(Affine<SheetSpace, SheetSpace>.Identity)) > 100);
    }

    [Fact]
    public void The_check_sees_a_hidden_legend_that_is_missing_from_the_mask()
    {
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes(Small), "full");
        var whole = desk.Sheets[0];
        var shape = desk.Panels[0].Shapes.Visible.First(mark => mark.Name == "HOT").Shape.Map(whole.Panels[0].Map);
        var spoiled = whole with { Back = whole.Back.Insert(1, new(shape.Grow(0.6), Ink.FullK)) };
        var plates = new SheetPlates(desk, spoiled);
        Assert.True(plates.HiddenCovered(plates.MaskAfter(Affine<SheetSpace, SheetSpace>.Identity)) > 100);
    }

    [Fact]
    public void The_check_sees_a_hidden_opening_that_comes_out_from_under_its_cover()
    {
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes(Small), "full");
        var plates = new SheetPlates(desk, desk.Sheets[0]);
        Assert.Equal(0, plates.Uncovered(plates.MaskAfter(Affine<SheetSpace, SheetSpace>.Shift(desk.SpreadMm - ShortMm, 0))));
        Assert.True(plates.Uncovered(plates.MaskAfter(Affine<SheetSpace, SheetSpace>.Shift(desk.SpreadMm + 0.3, 0))) + plates.HiddenCovered(plates.MaskAfter(Affine<SheetSpace, SheetSpace>.Shift(desk.SpreadMm + 0.3, 0))) > 0);
    }

    [Fact]
    public void The_leak_check_sees_a_hole_in_both_sides()
    {
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes(Small), "full");
        var sheet = desk.Sheets[0];
        var leak = Region<PanelSpace>.Disc(new(50, 10), 0.3).Map(sheet.Panels[0].Map);
        var spoiled = sheet with
        {
            Front = [.. sheet.Front, new(leak, Ink.None)],
            Back = [.. sheet.Back, new(leak, Ink.None)],
        };
        var plates = new SheetPlates(desk, spoiled);
        Assert.True(plates.Leaking(plates.MaskAfter(Affine<SheetSpace, SheetSpace>.Identity)) > 50);
    }

    private static IEnumerable<(string Name, Affine<SheetSpace, SheetSpace> Error)> Errors(SeparatedDesk desk, Sheet sheet)
    {
        var reachMm = desk.SpreadMm - ShortMm;
        foreach (var direction in Directions(reachMm))
        {
            yield return direction;
        }

        // A turn about the middle of all panels, so large that their farthest corner moves by the whole reach.
        var trims = sheet.Panels.Select(panel => panel.Trim).ToList();
        var left = trims.Min(box => box.LeftMm);
        var bottom = trims.Min(box => box.BottomMm);
        var all = new Box<SheetSpace>(left, bottom, trims.Max(box => box.RightMm) - left, trims.Max(box => box.TopMm) - bottom);
        var radiusMm = all.Centre.DistanceMm(new(all.LeftMm, all.BottomMm));
        foreach (var sign in new[] { 1, -1 })
        {
            var degrees = sign * 2 * Math.Asin(reachMm / 2 / radiusMm) * 180 / Math.PI;
            yield return ($"turned {degrees:0.####} degrees", Affine<SheetSpace, SheetSpace>.Shift(-all.Centre.XMm, -all.Centre.YMm)
                .Then(Affine<SheetSpace, SheetSpace>.Turn(degrees))
                .Then(Affine<SheetSpace, SheetSpace>.Shift(all.Centre.XMm, all.Centre.YMm)));
        }
    }

    private static IEnumerable<(string Name, Affine<SheetSpace, SheetSpace> Error)> Directions(double reachMm) =>
        Enumerable.Range(0, 16).Select(step =>
        {
            var there = new Point<SheetSpace>(0, 0).Polar(reachMm, step * 22.5);
            return ($"{reachMm} mm towards {step * 22.5} degrees", Affine<SheetSpace, SheetSpace>.Shift(there.XMm, there.YMm));
        });

    private static PdfPage Moved(PdfPage page, Affine<PageSpace, PageSpace> map) =>
        page with { Areas = [.. page.Areas.Select(area => area.Map(map))] };
}
