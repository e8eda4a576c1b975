using System;
using System.Collections.Generic;
using System.Linq;
using System.Text;
using Lampblack.Separations;
using Lampblack.Tests.Register;
using Xunit;

namespace Lampblack.Tests.Art;

/// <summary>Where artwork goes and what lies over it, on plates of an independent rasteriser. Places are those of the drawing below, counted by hand.</summary>
public sealed class ArtPlaceTests
{
    private const string Head = "<svg xmlns=\"http://www.w3.org/2000/svg\"";

    /// <summary>A band from edge to edge and a block in the upper left corner.</summary>
    private const string Band = Head + " width=\"40mm\" height=\"30mm\" viewBox=\"0 0 40 30\"><rect width=\"40\" height=\"30\" fill=\"#101010\"/>"
        + "<rect y=\"10\" width=\"40\" height=\"4\" fill=\"#e0452c\"/><rect width=\"6\" height=\"6\" fill=\"#ffffff\"/></svg>";

    /// <summary>A white page with a frame of field.</summary>
    private const string Framed = Head + " width=\"20mm\" height=\"20mm\" viewBox=\"0 0 20 20\"><rect width=\"20\" height=\"20\" fill=\"#101010\"/>"
        + "<rect x=\"3\" y=\"3\" width=\"14\" height=\"14\" fill=\"#ffffff\"/></svg>";

    /// <summary>What one ink in full is on a plate.</summary>
    private const byte Full = 255;

    public static TheoryData<bool> Kinds => [false, true];

    public static TheoryData<bool, bool> BothKinds => new() { { false, false }, { false, true }, { true, false }, { true, true } };

    [Theory]
    [MemberData(nameof(Kinds))]
    public void What_ends_at_the_panels_edge_runs_on_to_the_end_of_the_bleed(bool isPicture)
    {
        var plates = Plates(40, 30, Item(isPicture, Band, "a", "width = 40"));
        var mask = plates.MaskAfter(0, 0);
        var inside = plates.At(plates.Front, 20, 18);
        Assert.True(inside.Black < Full && inside.Yellow > 100, $"{inside}");

        // The bleed is 3 mm (PanelSeparation.BleedMm); the band lies 16 to 20 mm above the panel's lower edge.
        foreach (var x in new[] { -2.9, -1.5, 41.5, 42.9 })
        {
            Assert.Equal(inside, plates.At(plates.Front, x, 18));
            Assert.Equal(0, plates.At(mask, x, 18).Black);
            Assert.Equal(Full, plates.At(plates.Front, x, 12).Black);
            Assert.Equal(Full, plates.At(mask, x, 12).Black);
        }

        foreach (var (x, y) in new[] { (-2.9, 32.9), (-2.9, 26.0), (4.0, 32.9), (-0.1, 30.1) })
        {
            Assert.Equal((0, 0, 0, 0), plates.At(plates.Front, x, y));
            Assert.Equal(0, plates.At(mask, x, y).Black);
        }
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Turned_artwork_runs_on_where_it_ends_at_the_edge_too(bool isPicture)
    {
        // Turned by a quarter clockwise about its lower left corner, which stands at the panel's upper left one: its x runs down, its y to the right.
        var plates = Plates(30, 40, Item(isPicture, Band, "a", "at = [0, 40]\nturn = 90\nwidth = 40"));
        var inside = plates.At(plates.Front, 18, 20);
        Assert.True(inside.Black < Full && inside.Yellow > 100, $"{inside}");
        foreach (var y in new[] { -2.9, -1.5, 41.5, 42.9 })
        {
            Assert.Equal(inside, plates.At(plates.Front, 18, y));
            Assert.Equal(Full, plates.At(plates.Front, 12, y).Black);
        }

        Assert.Equal((0, 0, 0, 0), plates.At(plates.Front, 32.9, 42.9));
        Assert.Equal((0, 0, 0, 0), plates.At(plates.Front, 27, 37));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Drawn_marks_lie_over_artwork_without_a_black_rim_and_holes_keep_their_white_windows(bool isPicture)
    {
        var plates = Plates(40, 30, Item(isPicture, Framed, "a", "at = [10, 5]\nwidth = 20"), """
            [[panel.area]]
            disc = [17, 15, 2]
            role = "lit"
            ink = "amber"
            [[panel.control]]
            part = "hole-6"
            at = [23, 12]
            """);
        var mask = plates.MaskAfter(0, 0);

        // Artwork's white reaches from 13 to 27 and 8 to 22: 3 mm around the disc there is nothing but white and amber, on the mask nothing at all.
        Assert.Equal(0, plates.In(plates.Front, 17, 15, 2.6).Count(dot => dot.Black != 0));
        Assert.Equal(0, plates.In(plates.Front, 17, 15, 1.9).Count(dot => dot.Yellow == 0));
        Assert.Equal(0, plates.In(mask, 17, 15, 2.6).Count(dot => dot != (0, 0, 0, 0)));

        // The crosshair is 0.12 mm thick and at most 2 mm long each way (HoleWindows); between its arms it is white.
        Assert.Equal(Full, plates.At(plates.Front, 23, 12).Black);
        Assert.Equal((0, 0, 0, 0), plates.At(plates.Front, 23.6, 12.6));
        Assert.Equal(Full, plates.At(mask, 23, 12).Black);
        Assert.Equal((0, 0, 0, 0), plates.At(mask, 23.6, 12.6));
        Assert.Equal((Full, Full, Full, Full), plates.At(plates.Front, 5, 5));
    }

    [Theory]
    [MemberData(nameof(BothKinds))]
    public void Of_two_pieces_of_artwork_the_later_one_hides_the_other_with_its_field_too(bool isFirstPicture, bool isSecondPicture)
    {
        var plates = Plates(40, 30, Item(isFirstPicture, Framed, "a", "at = [2, 5]\nwidth = 20"), Item(isSecondPicture, Framed, "b", "at = [16, 5]\nwidth = 20"));
        var mask = plates.MaskAfter(0, 0);

        // White: 5 to 19 and 19 to 33 across; the second one's frame, 16 to 19, covers the first one's white.
        Assert.Equal((0, 0, 0, 0), plates.At(plates.Front, 15.5, 15));
        Assert.Equal((0, 0, 0, 0), plates.At(plates.Front, 19.5, 15));
        Assert.Equal((Full, Full, Full, Full), plates.At(plates.Front, 17.5, 15));
        Assert.Equal((Full, Full, Full, Full), plates.At(mask, 17.5, 15));
        Assert.Equal((0, 0, 0, 0), plates.At(mask, 15.5, 15));
        Assert.Equal((0, 0, 0, 0), plates.At(mask, 19.5, 15));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Artwork_has_the_light_role_of_its_item(bool isPicture)
    {
        var unlit = Plates(40, 30, Item(isPicture, Framed, "a", "at = [10, 5]\nwidth = 20\nrole = \"unlit\""));
        Assert.Equal((0, 0, 0, 0), unlit.At(unlit.Front, 20, 15));
        Assert.Equal((Full, Full, Full, Full), unlit.At(unlit.MaskAfter(0, 0), 20, 15));

        // Hidden: one K layer in front, 0.5 mm larger than the opening (the usual spread), which is as drawn.
        var hidden = Plates(40, 30, Item(isPicture, Framed, "a", "at = [10, 5]\nwidth = 20\nrole = \"hidden\""));
        var mask = hidden.MaskAfter(0, 0);
        Assert.Equal((0, 0, 0, Full), hidden.At(hidden.Front, 20, 15));
        Assert.Equal((0, 0, 0, Full), hidden.At(hidden.Front, 12.6, 15));
        Assert.Equal((Full, Full, Full, Full), hidden.At(hidden.Front, 12.3, 15));
        Assert.Equal((0, 0, 0, 0), hidden.At(mask, 13.1, 15));
        Assert.Equal(Full, hidden.At(mask, 12.9, 15).Black);

        var backed = Plates(40, 30, Item(isPicture, Band, "a", "width = 40\nbacked = true"));
        Assert.Equal(backed.At(backed.Front, 20, 18), backed.At(backed.MaskAfter(0, 0), 20, 18));
    }

    [Theory]
    [InlineData("letters.svg", false)]
    [InlineData("letters.png", false)]
    [InlineData("letters.png", true)]
    public void A_second_pass_stays_away_from_what_the_first_leaves_open(string name, bool isHidden)
    {
        const double ChokeMm = 0.5;
        var desk = ArtSamples.Separated(name, keys: isHidden ? "role = \"hidden\"" : string.Empty);
        var plates = new ArtPlates(desk);
        foreach (var (areas, first) in new[]
        {
            (SecondPassAreas.Front(desk.Panels[0], ChokeMm), plates.Front),
            (SecondPassAreas.Mask(desk.Panels[0], ChokeMm), plates.MaskAfter(0, 0)),
        })
        {
            // What has not all inks is open, covered or an edge: the second pass keeps the choke from the first two.
            var open = isHidden && first == plates.Front
                ? Wider([.. first.Cyan.Select((cyan, dot) => cyan < 255 && first.Black[dot] == 255)], plates.Width)
                : [.. first.Black.Select(black => black < 255)];
            var near = Distances.Squared(open, plates.Width);
            var second = plates.Again(areas);
            var inked = Enumerable.Range(0, near.Length).Where(dot => (second.Black[dot] | second.Cyan[dot]) != 0).ToList();
            Assert.True(inked.Count > 100_000);

            // A dot and a half for both edges' own dots.
            var nearest = inked.MinBy(dot => near[dot]);
            var nearestMm = Math.Sqrt(near[nearest]) * ArtPlates.MmPerDot;
            Assert.True(nearestMm >= ChokeMm - (1.5 * ArtPlates.MmPerDot), FormattableString.Invariant($"{nearestMm:0.000} mm at {plates.Place(nearest)}, {(first == plates.Front ? "front" : "mask")}"));
            Assert.DoesNotContain(inked, dot => second.Black[dot] < 255);
        }
    }

    /// <summary>What is wider than the stand-back of 0.1 mm on both sides of an edge.</summary>
    private static bool[] Wider(bool[] set, int width)
    {
        var inside = Distances.Squared(Array.ConvertAll(set, dot => !dot), width);
        return Array.ConvertAll(inside, squared => squared > 9);
    }

    private static (string Name, byte[] Bytes, string Toml) Item(bool isPicture, string svg, string id, string keys)
    {
        // 1200 dots to the inch: 40 mm are 1890, 20 mm are 945.
        var (name, bytes) = isPicture ? ($"{id}.png", svg == Band ? ArtSamples.Rendered(svg, 1890, 1417) : ArtSamples.Rendered(svg, 945, 945)) : ($"{id}.svg", Encoding.UTF8.GetBytes(svg));
        return (name, bytes, $"[[panel.art]]\nid = \"{id}\"\nfile = \"{name}\"\n{keys}\n");
    }

    private static ArtPlates Plates(double widthMm, double heightMm, (string Name, byte[] Bytes, string Toml) first, string items = "") => Plates(widthMm, heightMm, [first], items);

    private static ArtPlates Plates(double widthMm, double heightMm, (string Name, byte[] Bytes, string Toml) first, (string Name, byte[] Bytes, string Toml) second) =>
        Plates(widthMm, heightMm, [first, second], string.Empty);

    private static ArtPlates Plates(double widthMm, double heightMm, List<(string Name, byte[] Bytes, string Toml)> arts, string items)
    {
        var toml = FormattableString.Invariant($"lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [{widthMm}, {heightMm}]\n{string.Concat(arts.Select(art => art.Toml))}{items}");
        return new(SeparatedDesk.Of(Encoding.UTF8.GetBytes(toml), "full", paper: ArtSamples.SmallPaper, files: new GivenFiles([.. arts.Select(art => (art.Name, art.Bytes))])));
    }
}
