using System.Linq;
using Lampblack.Calibration;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.Sheets;
using Xunit;

namespace Lampblack.Tests.Calibration;

/// <summary>Where the calibration sheet's marks lie and what their codes tell.</summary>
public sealed class CalibrationPlanTests
{
    [Theory]
    [InlineData("A4")]
    [InlineData("Letter")]
    [InlineData("A3")]
    public void Marks_lie_on_the_sheet_apart_and_where_no_turn_or_mirror_brings_a_disc_into_another_window(string paper)
    {
        var plan = CalibrationPlan.Of(PaperSize.Find(paper)!)!;
        Assert.Equal(24, plan.Marks.Length);
        var squares = plan.Marks.Select(mark => new Box<SheetSpace>(mark.Place.XMm, mark.Place.YMm, 0, 0).Grow(RegisterMark.HalfSquareMm)).ToList();
        var extras = plan.TurnPlaces.Select(place => new Box<SheetSpace>(place.XMm, place.YMm, 0, 0).Grow(CalibrationPlan.HalfTurnPlaceMm))
            .Concat([plan.FrontCode.Grow(SheetCode.AirMm), plan.BackCode.Grow(SheetCode.AirMm + 1.5)]).ToList();
        var all = squares.Concat(extras).ToList();
        for (var first = 0; first < all.Count; first++)
        {
            Assert.True(all[first] is { LeftMm: >= 8, BottomMm: >= 8 } && all[first].RightMm <= plan.Paper.WidthMm - 7.99 && all[first].TopMm <= plan.Paper.HeightMm - 7.99);
            Assert.DoesNotContain(all.Skip(first + 1), other => other.Overlaps(all[first]));
        }

        foreach (var mark in plan.Marks)
        {
            var (x, y) = (plan.Paper.WidthMm - mark.Place.XMm, plan.Paper.HeightMm - mark.Place.YMm);
            foreach (var turned in new Point<SheetSpace>[] { new(x, mark.Place.YMm), new(mark.Place.XMm, y), new(x, y) })
            {
                Assert.All(plan.Marks, other => Assert.True((other.Place - turned).LengthMm > RegisterMark.WindowRadiusMm + RegisterMark.DiscRadiusMm));
            }
        }
    }

    [Fact]
    public void A_small_sheet_has_no_plan() => Assert.Null(CalibrationPlan.Of(PaperSize.Find("A5")!));

    [Fact]
    public void Ring_codes_tell_number_turn_and_mirror_and_one_wrong_cell_is_no_code()
    {
        Assert.True(RingCodes.Count >= CalibrationPlan.TurnMarkNumber);
        for (var number = 1; number <= RingCodes.Count; number++)
        {
            var code = RingCodes.Of(number);
            for (var turn = 0; turn < RingCodes.Cells; turn++)
            {
                var seen = ((code << turn) | (code >> (RingCodes.Cells - turn))) & 0xFFF;
                Assert.Equal((number, turn, false), RingCodes.Read(seen));

                // Seen from behind the cells come in the other order.
                var behind = Enumerable.Range(0, RingCodes.Cells).Where(cell => ((seen >> cell) & 1) != 0).Sum(cell => 1 << (11 - cell));
                Assert.Equal((number, true), RingCodes.Read(behind) is { } read ? (read.Number, read.IsMirrored) : default);
                Assert.All(Enumerable.Range(0, RingCodes.Cells), cell => Assert.Null(RingCodes.Read(seen ^ (1 << cell))));
            }
        }
    }

    [Fact]
    public void Sheet_codes_are_read_back_and_no_two_wrong_cells_make_another()
    {
        foreach (var code in new SheetCode[] { new(1, 0, 1, false, false), new(255, 15, 15, true, true), new(3, 3, 1, false, true), new(0, 0, 0, false, false) })
        {
            var cells = code.ToCells();
            Assert.Equal(code, SheetCode.Read(cells));
            for (var first = 0; first < SheetCode.Cells; first++)
            {
                for (var second = first; second < SheetCode.Cells; second++)
                {
                    Assert.Null(SheetCode.Read(cells ^ (1 << first) ^ (second > first ? 1 << second : 0)));
                }
            }
        }

        Assert.Null(SheetCode.Read(0));
        Assert.Null(SheetCode.Read((1 << SheetCode.Cells) - 1));
    }
}
