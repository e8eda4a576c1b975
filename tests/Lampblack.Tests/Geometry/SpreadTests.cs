using System.Linq;
using Lampblack.Geometry;
using Lampblack.Lettering;
using Xunit;

namespace Lampblack.Tests.Geometry;

/// <summary>Growing: exact to the error that it promises, however few corners it leaves.</summary>
public sealed class SpreadTests
{
    public static TheoryData<string, double, double> Cases => new()
    {
        { "S&8", 0.15, Resolution.SpreadErrorMm },
        { "S&8", 0.5, Resolution.SpreadErrorMm },
        { "QUARTZ %", 0.5, Resolution.SpreadErrorMm },
        { "aeg@", 1.5, Resolution.SpreadErrorMm },
        { "S&8", 0.15, 0.01 },
        { "QUARTZ %", 0.15, 0.01 },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Every_place_of_a_grown_border_is_as_far_from_the_shape_as_was_asked(string words, double radiusMm, double errorMm)
    {
        var shape = Words(words);
        var grown = shape.Grow(radiusMm, errorMm);
        foreach (var border in grown.Borders())
        {
            for (var index = 0; index < border.Points.Length; index++)
            {
                var (here, next) = (border.Points[index], border.Points[(index + 1) % border.Points.Length]);
                foreach (var share in new[] { 0, 0.25, 0.5 })
                {
                    var place = new Point<ItemSpace>(here.XMm + (share * (next.XMm - here.XMm)), here.YMm + (share * (next.YMm - here.YMm)));
                    Assert.InRange(DistanceMm(shape, place), radiusMm - errorMm, radiusMm + errorMm);
                }
            }
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Few_corners_cover_what_many_corners_cover(string words, double radiusMm, double errorMm)
    {
        var shape = Words(words);
        var (few, many) = (shape.Grow(radiusMm, errorMm), shape.Grow(radiusMm, 2e-4));
        Assert.True(few.CornerCount < many.CornerCount);
        Assert.Equal(many.FilledHoles().Length, few.FilledHoles().Length);
        Assert.InRange(few.Except(many).AreaMm2 + many.Except(few).AreaMm2, 0, many.PerimeterMm * errorMm);
    }

    [Fact]
    public void Copies_grow_as_each_would_alone()
    {
        // Two places on the grid, one between its lines, one so near the last that both run together.
        var word = Words("ON");
        var shifts = new (double X, double Y)[] { (0, 0), (30.0001, 0), (60.00004, 5), (61.5, 8.2) };
        var copies = shifts.Select(shift => word.Map(Affine<ItemSpace, ItemSpace>.Shift(shift.X, shift.Y))).ToArray();
        var together = Region<ItemSpace>.Union(copies).Grow(0.5);
        var alone = Region<ItemSpace>.Union(copies.Select(copy => copy.Grow(0.5)));
        Assert.Equal(alone.Pieces.Length, together.Pieces.Length);
        Assert.InRange(alone.Except(together).AreaMm2 + together.Except(alone).AreaMm2, 0, together.PerimeterMm * Resolution.GridMm);
    }

    [Fact]
    public void What_stands_free_in_a_frame_is_grown_apart_from_it()
    {
        var frame = Region<ItemSpace>.Rectangle(new(-10, -10, 40, 30)).Except(Region<ItemSpace>.Rectangle(new(-9, -9, 38, 28)));
        var word = Words("ON");
        var grown = frame.Union(word).Grow(0.5);
        Assert.Equal(word.Grow(0.5).AreaMm2 + frame.Grow(0.5).AreaMm2, grown.AreaMm2, 1e-6);
    }

    private static Region<ItemSpace> Words(string words) => TextOutline.Line(BundledFonts.Find("barlow-condensed-semibold")!, words, 2.8).Shape;

    private static double DistanceMm(Region<ItemSpace> shape, Point<ItemSpace> place) =>
        shape.DistanceMm(Region<ItemSpace>.Rectangle(new(place.XMm - 1e-4, place.YMm - 1e-4, 2e-4, 2e-4)));
}
