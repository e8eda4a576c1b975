using CsCheck;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;
using Xunit;

namespace Lampblack.Tests.Sheets;

public sealed class PageMappingTests
{
    private static readonly PaperSize A4 = PaperSize.Find("A4")!;
    private static readonly PrinterProperties Plain = PrinterProperties.Unmeasured;

    [Fact]
    public void The_front_page_is_the_sheet_as_seen() =>
        Near(new(30, 40), PageMapping.Front(Plain).Apply(new(30, 40)));

    // A portrait page turned about its long edge (automatic long edge, or by hand same edge first): front-view x stands at w - x on the back page.
    [Fact]
    public void A_long_edge_turn_shows_the_back_mirrored_from_left_to_right() =>
        Near(new(210 - 30, 40), PageMapping.Back(Plain, A4).Apply(new(30, 40)));

    // About the short edge (or by hand, other edge first) it stands at h - y: the same page after a half-turn.
    [Fact]
    public void A_short_edge_turn_is_the_same_after_a_half_turn() =>
        Near(new(30, 297 - 40), PageMapping.Back(Plain with { HalfTurnOfBack = true }, A4).Apply(new(30, 40)));

    [Fact]
    public void An_error_to_the_right_in_front_view_is_undone_in_front_view_before_the_mirror()
    {
        // The printer puts side 2 too far right by 0.3 as seen from the front: on the page it must go 0.3 to the right, that is to the left in front view.
        var printer = Plain with { SideTwo = Affine<SheetSpace, SheetSpace>.Shift(0.3, 0) };
        Near(new(210 - 30 + 0.3, 40), PageMapping.Back(printer, A4).Apply(new(30, 40)));
    }

    [Fact]
    public void What_is_printed_lands_where_it_was_meant_whatever_the_printer_does() => Gen.Select(
        Gen.Double[-2, 2], Gen.Double[-2, 2], Gen.Double[-0.5, 0.5], Gen.Double[0.994, 1.006], Gen.Double[0.994, 1.006], Gen.Bool).Sample(
        (shiftX, shiftY, degrees, scaleX, scaleY, halfTurn) =>
        {
            var one = Affine<SheetSpace, SheetSpace>.Scale(scaleX, scaleY);
            var two = Affine<SheetSpace, SheetSpace>.Turn(degrees).Then(Affine<SheetSpace, SheetSpace>.Scale(scaleY, scaleX)).Then(Affine<SheetSpace, SheetSpace>.Shift(shiftX, shiftY));
            var printer = Plain with { SideOne = one, SideTwo = two, HalfTurnOfBack = halfTurn };
            var meant = new Point<SheetSpace>(61, 203);

            // The printer's model: the page is turned back to front view, then side 1's scale and side 2's error are applied.
            var page = PageMapping.Back(printer, A4).Apply(meant);
            var seen = halfTurn
                ? new Point<SheetSpace>(page.XMm, A4.HeightMm - page.YMm)
                : new Point<SheetSpace>(A4.WidthMm - page.XMm, page.YMm);
            var printed = one.Apply(two.Apply(seen));
            Assert.True(printed.DistanceMm(meant) < 1e-9, $"{printed} is not {meant}");
        }, iter: 500);

    [Fact]
    public void The_back_page_is_a_mirror_image_and_the_front_page_is_not()
    {
        Assert.True(PageMapping.Back(Plain, A4).Determinant < 0);
        Assert.True(PageMapping.Front(Plain).Determinant > 0);
    }

    private static void Near(Point<PageSpace> expected, Point<PageSpace> found) =>
        Assert.True(expected.DistanceMm(found) < 1e-9, $"expected {expected}, found {found}");
}
