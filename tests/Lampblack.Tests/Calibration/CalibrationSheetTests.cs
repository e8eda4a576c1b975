using System;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.Sheets;
using Xunit;

namespace Lampblack.Tests.Calibration;

/// <summary>What lies on the calibration sheet and where, before it is a file.</summary>
public sealed class CalibrationSheetTests
{
    private const double MarginMm = 8;
    private const double SnapMm = 0.001;

    public static TheoryData<string, bool> Sheets
    {
        get
        {
            var sheets = new TheoryData<string, bool>();
            foreach (var paper in new[] { "A4", "Letter", "A3", "Legal", "Tabloid" })
            {
                sheets.Add(paper, false);
                sheets.Add(paper, true);
            }

            return sheets;
        }
    }

    [Theory]
    [MemberData(nameof(Sheets))]
    public void No_two_groups_share_room_and_none_leaves_the_margins(string paper, bool isBlackOnly)
    {
        var plan = PlanOf(paper);
        var groups = CalibrationSheet.Groups(plan, isBlackOnly);
        var inside = Inside(plan);
        foreach (var (index, group) in groups.Index())
        {
            Assert.True(inside.Grow(SnapMm).Contains(group.Box), group.Name);
            Assert.Equal((group.Name, string.Empty), (group.Name, string.Join(" ", groups.Skip(index + 1).Where(other => other.Box.Overlaps(group.Box)).Select(other => other.Name))));
        }

        Assert.Equal(24, groups.Count(group => group.Name.StartsWith("mark ", StringComparison.Ordinal)));
        Assert.Equal(10, groups.Count(group => group.Name.StartsWith("vernier ", StringComparison.Ordinal)));
    }

    [Theory]
    [MemberData(nameof(Sheets))]
    public void Whatever_is_printed_lies_in_its_group_or_is_field_between_them(string paper, bool isBlackOnly)
    {
        var plan = PlanOf(paper);
        var groups = CalibrationSheet.Groups(plan, isBlackOnly);
        foreach (var (side, areas) in new[] { ("front", CalibrationSheet.Front(plan, isBlackOnly, "study", 1)), ("back", CalibrationSheet.Back(plan, isBlackOnly, true, 1)) })
        {
            // Where the back says what it is, the front has field; behind words that need no lamp and behind the bars the back has, and around the marks' bright cells.
            var free = groups.Where(group => side == "front"
                ? group.Name != "back title"
                : group.Name is not ("steps" or "caution" or "reading" or "bar along" or "bar across") && !group.Name.StartsWith("mark ", StringComparison.Ordinal)).Select(group => group.Box).ToList();
            foreach (var piece in areas.SelectMany(area => area.Region.Pieces))
            {
                Assert.True(Inside(plan).Grow(SnapMm).Contains(piece.Bounds), side);
                var homes = groups.Where(group => group.Box.Grow(SnapMm).Contains(piece.Bounds)).ToList();
                if (homes.Count == 0)
                {
                    // Field: it comes near no group, on the back nor even where side 2 lies off.
                    var airMm = side == "front" ? 0.9 : 2.4;
                    Assert.DoesNotContain(free, box => Region<SheetSpace>.Rectangle(box.Grow(airMm)).Touches(piece));
                    Assert.DoesNotContain(plan.Marks, mark => side == "back" && Region<SheetSpace>.Disc(mark.Place, RegisterMark.FrontCellsOuterMm + airMm).Touches(piece));
                }
            }
        }
    }

    [Theory]
    [InlineData("A4")]
    [InlineData("Letter")]
    [InlineData("A3")]
    public void Patches_lie_in_their_groups_apart_and_each_group_has_bare_paper(string paper)
    {
        var plan = PlanOf(paper);
        var groups = CalibrationSheet.Groups(plan, isBlackOnly: false);
        var patches = CalibrationPatches.Of(plan);
        Assert.Equal(patches.Length, patches.Select(patch => patch.Id).Distinct().Count());
        foreach (var (index, patch) in patches.Index())
        {
            Assert.Single(groups, group => group.Box.Contains(patch.Box));
            Assert.DoesNotContain(patches.Skip(index + 1), other => other.Box.Overlaps(patch.Box, 1e-6));
            Assert.True(patch.Core is { WidthMm: >= 3, HeightMm: >= 3 }, patch.Id);
        }

        foreach (var name in new[] { "front", "back", "both", "coverage" })
        {
            var box = groups.Single(group => group.Name == name).Box;
            Assert.Equal(2, patches.Count(patch => patch.IsPaper && box.Contains(patch.Box)));
        }
    }

    [Fact]
    public void Every_black_that_drivers_treat_differently_is_there_as_vector_and_as_image_on_either_side_and_on_both()
    {
        // The six of facts 2.3: RGB 0, gray 0, K, 400 %, 300 % without K, 240 %.
        Ink[] wanted = [Ink.Rgb(0, 0, 0), Ink.Gray(0), Ink.FullK, Ink.Cmyk(1, 1, 1, 1), Ink.Cmyk(1, 1, 1, 0), Ink.Cmyk(0.6, 0.4, 0.4, 1)];
        var patches = CalibrationPatches.Of(PlanOf("A4"));
        foreach (var (ink, isImage) in wanted.SelectMany(ink => new[] { (ink, false), (ink, true) }))
        {
            foreach (var (front, back) in new (Ink?, Ink?)[] { (ink, null), (null, ink), (ink, ink) })
            {
                Assert.Contains(patches, patch => patch.IsImage == isImage && Equals(patch.Front, front) && Equals(patch.Back, back));
            }
        }

        var steps = patches.Where(patch => patch.Id.StartsWith("front-C", StringComparison.Ordinal)).Select(patch => patch.Front!.TotalCoverage).ToList();
        Assert.Equal([1, 1.5, 2, 2.5, 3, 3.5, 4], steps.Select(coverage => Math.Round(coverage, 9)));
        Assert.All(patches.Where(patch => patch.Id.StartsWith("opaque", StringComparison.Ordinal)), patch => Assert.True(patch is { Front.TotalCoverage: 4, Back: not null }));
    }

    [Fact]
    public void A_printer_with_black_only_gets_no_patch_and_no_area_with_another_ink()
    {
        var plan = PlanOf("A4");
        Assert.Equal(["gray", "K"], CalibrationPatches.Blacks(isBlackOnly: true).Select(black => black.Name));
        foreach (var area in CalibrationSheet.Front(plan, true, "attic", 1).Concat(CalibrationSheet.Back(plan, true, false, 1)))
        {
            Assert.True(area.Ink.Space == InkSpace.Gray || area.Ink == Ink.FullK);
        }
    }

    [Fact]
    public void Verniers_stand_near_the_four_corners_and_the_middle()
    {
        var plan = PlanOf("A4");
        var verniers = Vernier.Of(plan);
        Assert.Equal(["1x", "1y", "2x", "2y", "3x", "3y", "4x", "4y", "5x", "5y"], verniers.Select(vernier => vernier.Name));
        (double X, double Y)[] wanted = [(0, 297), (210, 297), (105, 148.5), (0, 0), (210, 0)];
        Assert.All(verniers, vernier => Assert.True(Math.Abs(vernier.Place.XMm - wanted[vernier.Number - 1].X) < 60 && Math.Abs(vernier.Place.YMm - wanted[vernier.Number - 1].Y) < 60, vernier.Name));
    }

    private static CalibrationPlan PlanOf(string paper) => CalibrationPlan.Of(PaperSize.Find(paper)!)!;

    private static Box<SheetSpace> Inside(CalibrationPlan plan) => new(MarginMm, MarginMm, plan.Paper.WidthMm - (2 * MarginMm), plan.Paper.HeightMm - (2 * MarginMm));
}
