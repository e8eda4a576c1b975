using System;
using System.Linq;
using Lampblack.Parts;
using Xunit;

namespace Lampblack.Tests.Parts;

public sealed class PointerTests
{
    [Fact]
    public void Selector_positions_are_symmetric_about_up_and_run_clockwise()
    {
        foreach (var part in PartCatalogue.BuiltIn.All.Where(part => part.Class == PartClass.Rotary))
        {
            var degrees = part.PositionDegrees;
            Assert.Equal(part.Positions!.Count, degrees.Length);
            for (var index = 0; index < degrees.Length; index++)
            {
                Assert.InRange(degrees[index], 0, 359.999999);

                // Mirrored left and right, the last is the first.
                var mirrored = degrees[degrees.Length - 1 - index];
                Assert.Equal(0, Math.IEEERemainder(degrees[index] + mirrored - 180, 360), 9);
                if (index > 0)
                {
                    Assert.Equal(0, Math.IEEERemainder(degrees[index - 1] - degrees[index] - part.Positions.StepDegrees, 360), 9);
                }
            }
        }
    }

    [Theory]
    [InlineData("toggle-mini-on-on", new double[] { 90, 270 })]
    [InlineData("toggle-mini-on-off-on", new double[] { 90, 0, 270 })]
    [InlineData("key-16", new double[] { 90, 0 })]
    [InlineData("rotary-3x30", new double[] { 120, 90, 60 })]
    [InlineData("rotary-4x30", new double[] { 135, 105, 75, 45 })]
    [InlineData("rotary-12x30", new double[] { 255, 225, 195, 165, 135, 105, 75, 45, 15, 345, 315, 285 })]
    [InlineData("pot-9mm", new double[] { })]
    public void Positions_point_where_one_expects_them(string id, double[] degrees) =>
        Assert.Equal(degrees, PartCatalogue.BuiltIn.Find(id)!.PositionDegrees);

    [Theory]
    [InlineData("pot-9mm", 230, -50)]
    [InlineData("pot-16mm-m9", 240, -60)]
    public void A_potentiometer_turns_clockwise_from_lower_left_to_lower_right(string id, double start, double end) =>
        Assert.Equal((start, end), PartCatalogue.BuiltIn.Find(id)!.Sweep);

    [Theory]
    [InlineData("encoder-m7-push")]
    [InlineData("pot-10-turn")]
    [InlineData("slider-45")]
    [InlineData("toggle-mini-on-on")]
    public void Endless_straight_and_many_turn_parts_have_no_sweep(string id) =>
        Assert.Null(PartCatalogue.BuiltIn.Find(id)!.Sweep);

    [Fact]
    public void The_front_is_bezel_and_knob_together()
    {
        var part = PartCatalogue.BuiltIn.Find("pot-9mm")!;
        Assert.Equal(15, part.Front().Bounds.WidthMm, 3);
        Assert.Equal(10.3, part.Covered().Bounds.WidthMm, 3);
        Assert.True(PartCatalogue.BuiltIn.Find("lamp-3mm")!.Front().IsEmpty);
    }

    [Theory]
    [InlineData("toggle-mini-on-on", 7.5)] // 6.5 + 1
    [InlineData("lamp-5mm-bezel", 9.0)] // 8 + 1
    [InlineData("screw-m3", 4.4)] // 3.4 + 1
    [InlineData("rotary-12x30", 9.0)] // 8.2 + 2 x 0.4: the nut covers only 0.9
    [InlineData("lamp-5mm", 5.1)] // nothing covers the paper
    public void The_paper_is_punched_a_millimetre_wider_where_the_bezel_allows(string id, double punchMm) =>
        Assert.Equal(punchMm, PartCatalogue.BuiltIn.Find(id)!.PaperPunchMm!.Value, 9);

    [Fact]
    public void Rectangles_and_slots_are_cut_with_a_knife()
    {
        Assert.Null(PartCatalogue.BuiltIn.Find("meter-96x48")!.PaperPunchMm);
        Assert.Null(PartCatalogue.BuiltIn.Find("slider-60")!.PaperPunchMm);
    }

    [Fact]
    public void The_body_box_is_centred_and_empty_without_a_body()
    {
        var box = PartCatalogue.BuiltIn.Find("toggle-mini-on-on")!.BodyBox;
        Assert.Equal((-3.45, -6.35, 6.9, 12.7), (box.LeftMm, box.BottomMm, box.WidthMm, box.HeightMm));
        Assert.Equal(default, PartCatalogue.BuiltIn.Find("screw-m3")!.BodyBox);
    }
}
