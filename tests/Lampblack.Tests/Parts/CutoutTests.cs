using System;
using CsCheck;
using Lampblack.Geometry;
using Lampblack.Parts;
using Xunit;

namespace Lampblack.Tests.Parts;

/// <summary>Areas against closed forms (plane geometry). Chords lie inside their arc, so areas of arcs come out a little small.</summary>
public sealed class CutoutTests
{
    private static readonly Gen<double> SizeMm = Gen.Double[1, 100];

    [Fact]
    public void A_round_hole_has_the_area_of_its_circle() => SizeMm.Sample(diameter =>
    {
        var circle = Math.PI * diameter * diameter / 4;
        Check(circle, new RoundCutout(Figure.FromUser(diameter)).Shape(), Math.PI * diameter);
    });

    [Fact]
    public void A_double_D_is_the_circle_less_two_segments() => Gen.Select(SizeMm, Gen.Double[0.1, 0.95]).Sample((diameter, share) =>
    {
        var shape = new FlattedCutout(Figure.FromUser(diameter), Figure.FromUser(share * diameter)).Shape();
        Check((Math.PI * diameter * diameter / 4) - (2 * Segment(diameter / 2, share * diameter / 2)), shape, Math.PI * diameter);
        Assert.Equal(share * diameter, shape.Bounds.WidthMm, Resolution.ChordErrorMm);
    });

    [Fact]
    public void A_single_D_is_the_circle_less_one_segment_on_the_right() => Gen.Select(SizeMm, Gen.Double[0.55, 0.95]).Sample((diameter, share) =>
    {
        var shape = new FlattedCutout(Figure.FromUser(diameter), Figure.FromUser(share * diameter), OneFlat: true).Shape();
        var toFlat = (share - 0.5) * diameter;
        Check((Math.PI * diameter * diameter / 4) - Segment(diameter / 2, toFlat), shape, Math.PI * diameter);
        Assert.Equal(toFlat, shape.Bounds.RightMm, Resolution.ChordErrorMm);
        Assert.Equal(-diameter / 2, shape.Bounds.LeftMm, Resolution.ChordErrorMm);
    });

    [Fact]
    public void A_slot_is_a_rectangle_and_a_circle_whatever_its_direction() => Gen.Select(SizeMm, Gen.Double[0.05, 0.9], Gen.Double[-360, 360]).Sample((length, share, degrees) =>
    {
        var width = share * length;
        var area = ((length - width) * width) + (Math.PI * width * width / 4);
        Check(area, new SlotCutout(Figure.FromUser(length), Figure.FromUser(width), degrees).Shape(), Math.PI * width);
    });

    [Fact]
    public void A_standing_slot_is_taller_than_wide()
    {
        var box = new SlotCutout(Figure.FromUser(51), Figure.FromUser(2.5), 90).Shape().Bounds;
        Assert.Equal(51, box.HeightMm, Resolution.ChordErrorMm);
        Assert.Equal(2.5, box.WidthMm, Resolution.ChordErrorMm);
        Assert.Equal(0, box.Centre.DistanceMm(default), Resolution.ChordErrorMm);
    }

    [Fact]
    public void A_rectangle_loses_its_corners_to_their_radius() => Gen.Select(SizeMm, SizeMm, Gen.Double[0, 0.5]).Sample((width, height, share) =>
    {
        var corner = share * Math.Min(width, height);
        var area = (width * height) - ((4 - Math.PI) * corner * corner);
        var shape = new RectangleCutout(Figure.FromUser(width), Figure.FromUser(height), Figure.FromUser(corner)).Shape();
        Check(area, shape, 2 * Math.PI * corner);
    });

    [Fact]
    public void A_key_adds_what_stands_outside_the_circle()
    {
        // Two of the button's radii reach the notch's corners: its own area is the strip beyond the circle's arc.
        const double Radius = 22.3 / 2, Half = 1.6, Top = 12.95;
        var underArc = (Half * Math.Sqrt((Radius * Radius) - (Half * Half))) + (Radius * Radius * Math.Asin(Half / Radius));
        var expected = (Math.PI * Radius * Radius) + (2 * Half * Top) - underArc;
        var part = PartCatalogue.BuiltIn.Find("button-22-momentary")!;
        Check(expected, part.Hole(), 2 * Math.PI * Radius);
        Assert.True(part.Hole().Contains(new Point<ItemSpace>(0, 12.9)));
        Assert.False(part.Hole().Contains(new Point<ItemSpace>(0, -11.3)));
    }

    [Theory]
    [InlineData("toggle-mini-on-on", "6.5 mm")]
    [InlineData("meter-96x48", "92 x 45 mm")]
    [InlineData("slider-45", "51 x 2.5 mm")]
    [InlineData("key-19", "19.2 mm, 16.2 mm across flats")]
    [InlineData("hole-1-4-in", "6.35 mm")]
    public void The_drill_text_is_what_one_says_in_a_workshop(string id, string text) =>
        Assert.Equal(text, PartCatalogue.BuiltIn.Find(id)!.DrillText);

    [Theory]
    [InlineData(0)]
    [InlineData(-5)]
    [InlineData(double.NaN)]
    public void A_size_that_is_none_gives_an_empty_shape(double mm)
    {
        var none = Figure.FromUser(mm);
        Assert.True(new RoundCutout(none).Shape().IsEmpty);
        Assert.True(new RectangleCutout(none, none, none).Shape().IsEmpty);
        Assert.True(new SlotCutout(none, none, 30).Shape().IsEmpty);
        Assert.True(new FlattedCutout(none, none).Shape().IsEmpty);
    }

    /// <summary>Area cut off a circle by a chord at a distance from its middle.</summary>
    private static double Segment(double radius, double distance) =>
        (radius * radius * Math.Acos(distance / radius)) - (distance * Math.Sqrt((radius * radius) - (distance * distance)));

    private static void Check(double areaMm2, Region<ItemSpace> shape, double arcMm)
    {
        // Chords miss the arcs by at most the stated error, and every corner moves to the grid by at most half its diagonal.
        var slack = (arcMm * Resolution.ChordErrorMm) + (shape.PerimeterMm * Resolution.GridMm / Math.Sqrt(2));
        Assert.InRange(shape.AreaMm2, areaMm2 - slack, areaMm2 + slack);
    }
}
