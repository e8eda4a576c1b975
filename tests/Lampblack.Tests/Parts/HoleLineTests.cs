using System.Linq;
using Lampblack.Geometry;
using Lampblack.Parts;
using Xunit;

namespace Lampblack.Tests.Parts;

/// <summary>Openings are told twice, in chords for the print and in arcs for tools: both must say the same.</summary>
public sealed class HoleLineTests
{
    public static TheoryData<string> All => [.. PartCatalogue.BuiltIn.All.Select(part => part.Id)];

    [Theory]
    [MemberData(nameof(All))]
    public void Arcs_and_chords_cut_the_same_opening(string id)
    {
        var part = PartCatalogue.BuiltIn.Find(id)!;
        var (holes, lines) = (part.Holes(), part.HoleLines());
        Assert.Equal(holes.Length, lines.Length);
        Assert.All(holes.Zip(lines), pair => AssertAlike(pair.First, pair.Second));
    }

    [Fact]
    public void Flats_of_both_kinds_are_where_the_print_has_them()
    {
        foreach (var oneFlat in new[] { false, true })
        {
            var cutout = new FlattedCutout(Figure.FromUser(12), Figure.FromUser(oneFlat ? 11 : 10.4), oneFlat);
            AssertAlike(cutout.Shape(), cutout.Line());
        }
    }

    /// <summary>The same but for chords, which miss an arc by 2 µm at most on either side.</summary>
    private static void AssertAlike(Region<ItemSpace> hole, ArcPath<ItemSpace> line)
    {
        var other = line.ToRegion();
        Assert.True(hole.Except(other).AreaMm2 + other.Except(hole).AreaMm2 < hole.PerimeterMm * 2 * Resolution.ChordErrorMm);
        Assert.True(line.ToOutline().SignedAreaMm2 > 0);
    }
}
