using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using Lampblack.Art;
using Lampblack.Geometry;
using Lampblack.Jobs;
using Lampblack.Layout;
using Lampblack.Parts;
using Lampblack.Tests.Register;
using Xunit;

namespace Lampblack.Tests.Art;

/// <summary>Holes that artwork carries; sizes and places are those written in the drawings.</summary>
public sealed class ArtHoleTests
{
    private const double PlaceMm = 0.05;
    private const double DiameterMm = 0.1;

    private const string Head = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"60mm\" height=\"40mm\" viewBox=\"0 0 60 40\"><rect width=\"60\" height=\"40\" fill=\"#101010\"/>"
        + "<rect x=\"4\" y=\"30\" width=\"20\" height=\"6\" fill=\"#ffffff\"/>";

    private const string Shapes = Head + """
        <circle id="hole-a" cx="10" cy="10" r="1.6" fill="#ff00ff"/>
        <rect class="panel hole2" x="20" y="6" width="8" height="5" fill="#ff00ff"/>
        <circle id="Hole-ring" cx="40" cy="10" r="2.5" stroke-width="0.4" stroke="#ff00ff" fill="none"/>
        <path id="hole-odd" d="M50 5h6v3h-3v4h-3z" fill="#ff00ff"/>
        <ellipse id="hole-oval" cx="12" cy="22" rx="4" ry="2" fill="#ff00ff"/>
        <circle id="lamp" cx="40" cy="25" r="2" fill="#ffffff"/></svg>
        """;

    [Theory]
    [InlineData("holes = \"hole\"")]
    [InlineData("hole-colour = \"#ff00ff\"")]
    public void Shapes_of_a_drawing_are_holes_by_name_or_by_colour(string key)
    {
        var holes = ReadArt.Of(Shapes, isPicture: false, 60, key).Content.Holes;
        Assert.Equal(5, holes.Length);
        Check(holes, new(10, 30), 3.2, 3.2);
        Check(holes, new(24, 31.5), 8, 5);

        // A ring without a fill is a hole up to the middle of its line: twice 2.5 mm.
        Check(holes, new(40, 30), 5, 5);
        Check(holes, new(53, 31.5), 6, 7);
        Check(holes, new(12, 18), 8, 4);

        // 6 x 3 and 3 x 4 mm.
        Assert.Equal(30, At(holes, new(53, 31.5)).Shape.AreaMm2, 3);
    }

    [Fact]
    public void Spots_of_a_picture_are_holes_by_colour()
    {
        var art = ReadArt.Of(Shapes.Replace(" fill=\"none\"", " fill=\"#ff00ff\"", StringComparison.Ordinal), isPicture: true, 60, "hole-colour = \"#ff00ff\"", 40);
        var holes = art.Content.Holes;
        Assert.Equal(5, holes.Length);
        Check(holes, new(10, 30), 3.2, 3.2);
        Check(holes, new(24, 31.5), 8, 5);
        Check(holes, new(40, 30), 5.4, 5.4);
        Assert.Equal(ReadArt.Field, art.At(10, 30));
        Assert.NotEqual(ReadArt.Field, art.At(14, 7));

        // No rim of magenta is left around a hole.
        Assert.DoesNotContain(Enumerable.Range(0, 100), step => art.At(10 + (step * 0.03), 30) != ReadArt.Field);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void The_gauge_of_the_examples_has_four_holes_of_3_2_mm(bool isPicture)
    {
        // make-gauge.py: circles of radius 1.6 mm, 5 mm from each corner of a square of 90 mm.
        var holes = isPicture
            ? ReadArt.Of("gauge.png", ArtSamples.Gauge("gauge.png"), "width = 90\nhole-colour = \"#ff00ff\"").Content.Holes
            : ReadArt.Of("gauge.svg", ArtSamples.Gauge("gauge.svg"), "holes = \"hole\"").Content.Holes;
        Assert.Equal(4, holes.Length);
        foreach (var place in new Point<ItemSpace>[] { new(5, 5), new(85, 5), new(5, 85), new(85, 85) })
        {
            Check(holes, place, 3.2, 3.2);
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(30)]
    [InlineData(-90)]
    public void Circles_are_drilled_rectangles_sawn_and_other_shapes_cut_as_they_are_drawn_wherever_artwork_is_turned(double turnDegrees)
    {
        var (desk, files) = ArtSamples.Desk("art.svg", Encoding.UTF8.GetBytes(Shapes), 60, 40, FormattableString.Invariant($"holes = \"hole\"\nat = [60, 50]\nturn = {turnDegrees}"));
        var toml = Encoding.UTF8.GetString(desk).Replace("size = [60, 40]", "size = [140, 140]", StringComparison.Ordinal);
        var parts = SeparatedDesk.Of(Encoding.UTF8.GetBytes(toml), "full", files: files).Panels[0].Artwork.Laid.Parts;
        var drilled = Part(parts, 10, 30, turnDegrees);
        Assert.Equal(3.2, Assert.IsType<RoundCutout>(drilled.Part.Cutout).Diameter.Mm, 6);
        var sawn = Assert.IsType<RectangleCutout>(Part(parts, 24, 31.5, turnDegrees).Part.Cutout);
        Assert.Equal((8, 5), (Math.Round(sawn.Width.Mm, 6), Math.Round(sawn.Height.Mm, 6)));
        var odd = Part(parts, 53, 31.5, turnDegrees);
        Assert.Equal(30, odd.Holes[0].AreaMm2, 3);
        Assert.Equal(40, Part(parts, 24, 31.5, turnDegrees).Holes[0].AreaMm2, 3);
    }

    [Fact]
    public void A_list_of_holes_is_drilled_where_it_says()
    {
        var request = new SeparateRequest("art.svg") { WidthMm = 60, Holes = [(20, 25.5, 6.5), (40.25, 8, 3), (50, 8, 3)] };
        var bytes = Encoding.UTF8.GetBytes(Shapes);
        var laid = SeparatedDesk.Of([.. Separate.Desk(request, [.. bytes])], "full", files: new GivenFiles(("art.svg", bytes))).Panels[0].Artwork.Laid;
        Assert.Equal(
            [(20, 25.5, 6.5), (40.25, 8, 3), (50, 8, 3)],
            laid.Parts.Select(part => (part.Centre.XMm, part.Centre.YMm, Assert.IsType<RoundCutout>(part.Part.Cutout).Diameter.Mm)).Order().Select(hole => hole));
    }

    [Theory]
    [InlineData("art.svg", "holes = \"bore\"")]
    [InlineData("art.svg", "hole-colour = \"#00ff00\"")]
    [InlineData("art.png", "hole-colour = \"#00ff00\"")]
    public void Holes_that_are_not_there_are_told_once(string file, string key)
    {
        var read = file == "art.svg" ? ReadArt.Of(Shapes, isPicture: false, 60, key) : ReadArt.Of(Shapes, isPicture: true, 60, key, 40);
        Assert.Single(read.Codes, code => code == "art-no-holes");
        Assert.Empty(read.Content.Holes);
    }

    private static PlacedPart Part(IEnumerable<PlacedPart> parts, double xMm, double yMm, double turnDegrees)
    {
        // Clockwise about the artwork's lower left corner, which stands at 60, 50.
        var (sin, cos) = Math.SinCos(turnDegrees * Math.PI / 180);
        var place = new Point<PanelSpace>(60 + (xMm * cos) + (yMm * sin), 50 - (xMm * sin) + (yMm * cos));
        return Assert.Single(parts, part => part.Centre.DistanceMm(place) < PlaceMm);
    }

    private static ArtHole At(ImmutableArray<ArtHole> holes, Point<ItemSpace> place) => Assert.Single(holes, hole => hole.Shape.Bounds.Centre.DistanceMm(place) < PlaceMm);

    private static void Check(ImmutableArray<ArtHole> holes, Point<ItemSpace> place, double widthMm, double heightMm)
    {
        var box = At(holes, place).Shape.Bounds;
        Assert.InRange(box.WidthMm, widthMm - DiameterMm, widthMm + DiameterMm);
        Assert.InRange(box.HeightMm, heightMm - DiameterMm, heightMm + DiameterMm);
    }
}
