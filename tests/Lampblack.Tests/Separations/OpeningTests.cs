using System;
using System.Text;
using CsCheck;
using Lampblack.Geometry;
using Lampblack.Tests.Register;
using Xunit;

namespace Lampblack.Tests.Separations;

/// <summary>Openings are the lit shapes grown by a disc (Minkowski sum).</summary>
public sealed class OpeningTests
{
    // Steiner's formula: A + P r + pi r^2 and P + 2 pi r for convex shapes (J. Steiner 1840; here as in any text on parallel sets).
    public static TheoryData<string, double, double> Convex => new()
    {
        { "box = [20, 20, 10, 10]", 100, 40 },
        { "corners = [[20, 20], [24, 20], [20, 23]]", 6, 12 },
        { "disc = [30, 30, 4]", Math.PI * 16, Math.PI * 8 },
        { "corners = [[30, 30], [40, 30], [45, 38.6602540], [40, 47.3205081], [30, 47.3205081], [25, 38.6602540]]", 259.8076211, 60 },
    };

    [Theory]
    [MemberData(nameof(Convex))]
    public void Openings_of_convex_shapes_follow_Steiners_formula(string form, double areaMm2, double perimeterMm)
    {
        foreach (var spreadMm in new[] { 0.2, 0.5, 1.0, 2.0 })
        {
            var openings = Openings(form, spreadMm);
            Within(areaMm2 + (perimeterMm * spreadMm) + (Math.PI * spreadMm * spreadMm), openings.AreaMm2);
            Within(perimeterMm + (2 * Math.PI * spreadMm), openings.PerimeterMm);
        }
    }

    [Fact]
    public void A_re_entrant_corner_costs_its_square()
    {
        // L-shape 10 x 10 less 5 x 5, r = 1: area 75 + 40 + 5 pi / 4 - 1, perimeter 38 + 5 pi / 2 (worked by hand).
        var openings = Openings("corners = [[20, 20], [30, 20], [30, 25], [25, 25], [25, 30], [20, 30]]", 1);
        Within(117.9269908, openings.AreaMm2);
        Within(45.8539816, openings.PerimeterMm);
    }

    [Fact]
    public void A_frame_grows_outwards_and_inwards()
    {
        // 30 x 20 with a 10 x 10 hole, grown by 1: the outside by Steiner, the hole shrinks to 8 x 8 (worked by hand).
        var frame = Region<PanelSpace>.Rectangle(new(0, 0, 30, 20)).Except(Region<PanelSpace>.Rectangle(new(10, 5, 10, 10)));
        Within(639.1415927, frame.Grow(1).AreaMm2);
    }

    [Fact]
    public void Every_opening_holds_its_shape_with_the_spread_all_round() => Gen.Select(Gen.Double[0.3, 8], Gen.Double[0.3, 8], Gen.Double[0.05, 1.5])
        .Sample((width, height, spread) =>
        {
            var shape = Region<PanelSpace>.RoundedRectangle(new(10, 10, width, height), 0.4);
            var opening = shape.Grow(spread);
            Assert.True(opening.Contains(shape));
            var around = Region<PanelSpace>.Rectangle(opening.Bounds.Grow(1)).Except(opening);
            Assert.InRange(around.DistanceMm(shape), spread - (2 * Resolution.ChordErrorMm), spread + (2 * Resolution.GridMm));
        }, iter: 200);

    [Fact]
    public void A_ring_keeps_the_spread_on_its_inside_too() => Gen.Select(Gen.Double[1, 30], Gen.Double[0.3, 3], Gen.Double[0.05, 0.9]).Sample((inner, width, spread) =>
    {
        var ring = Region<PanelSpace>.Disc(new(50, 50), inner + width).Except(Region<PanelSpace>.Disc(new(50, 50), inner));
        var opening = ring.Grow(spread);
        var around = Region<PanelSpace>.Rectangle(opening.Bounds.Grow(1)).Except(opening);
        Assert.InRange(around.DistanceMm(ring), spread - (2 * Resolution.ChordErrorMm), spread + (2 * Resolution.GridMm));
    }, iter: 200);

    [Fact]
    public void Islands_too_small_to_print_are_left_out_of_the_mask()
    {
        // The counter of an A of 3 mm is closed by a spread of 0.45 mm but for a speck.
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes("lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [40, 30]\n[[panel.legend]]\ntext = \"A\"\nat = [20, 15]\nheight = 4"), "full", 0.3);
        var islands = desk.Panels[0].Shapes.Openings.FilledHoles();
        Assert.All(islands, island => Assert.False(island.Grow(-0.149).IsEmpty));
    }

    private static Region<PanelSpace> Openings(string form, double spreadMm)
    {
        var text = $"lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [80, 60]\n[[panel.area]]\n{form}\nrole = \"lit\"\n";
        return SeparatedDesk.Of(Encoding.UTF8.GetBytes(text), "full", spreadMm).Panels[0].Shapes.Openings;
    }

    private static void Within(double expected, double found) => Assert.InRange(found, expected * (1 - 1e-3), expected * (1 + 1e-3));
}
