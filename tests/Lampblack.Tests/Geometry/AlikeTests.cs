using System.Linq;
using Lampblack.Geometry;
using Xunit;

namespace Lampblack.Tests.Geometry;

/// <summary>What is made once of shapes that are alike lies as if it were made of each.</summary>
public sealed class AlikeTests
{
    [Fact]
    public void What_is_made_of_alike_shapes_lies_as_if_made_of_each_and_is_made_once()
    {
        var made = 0;
        var disc = Region<PanelSpace>.Disc(new(0, 0), 3).Except(Region<PanelSpace>.Disc(new(0.5, 0), 1));
        Region<PanelSpace>[] shapes =
        [
            .. new[] { (10.0, 20.0), (31.25, 20), (8.4321, 77.1), (31.25, 20) }.Select(at => disc.Map(Affine<PanelSpace, PanelSpace>.Shift(at.Item1, at.Item2))),
            Region<PanelSpace>.Empty,
            Region<PanelSpace>.Rectangle(new(50, 50, 6, 6)),
        ];
        var grown = Region<PanelSpace>.OfAlike(shapes, shape =>
        {
            made++;
            return shape.Except(Region<PanelSpace>.Rectangle(new(shape.Bounds.LeftMm, shape.Bounds.BottomMm, shape.Bounds.WidthMm / 3, shape.Bounds.HeightMm)));
        }).ToList();
        Assert.Equal(2, made);
        Assert.Equal(shapes.Length, grown.Count);
        Assert.True(grown[4].IsEmpty);
        foreach (var (shape, one) in shapes.Zip(grown).Where(pair => !pair.First.IsEmpty))
        {
            var alone = shape.Except(Region<PanelSpace>.Rectangle(new(shape.Bounds.LeftMm, shape.Bounds.BottomMm, shape.Bounds.WidthMm / 3, shape.Bounds.HeightMm)));
            Assert.Equal(alone.AreaMm2, one.AreaMm2, 3);
            Assert.Equal(0, alone.Except(one).AreaMm2, 2);
            Assert.Equal(alone.Bounds.LeftMm, one.Bounds.LeftMm, 3);
            Assert.Equal(alone.Bounds.TopMm, one.Bounds.TopMm, 3);
        }
    }
}
