using System;
using System.Globalization;
using System.Linq;
using System.Text;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Layout;
using Lampblack.Parts;
using Xunit;

namespace Lampblack.Tests.Desks;

public sealed class CaliperTests
{
    private const string Panel = "[[panel]]\nid = \"p\"\nsize = [100, 60]\n[[panel.control]]\npart = \"toggle-mini-on-on\"\nat = [20, 20]\n";

    /// <summary>Each case: what stands before a panel with a toggle, and every finding with its place.</summary>
    public static TheoryData<string, string> Faults => new()
    {
        { "[[caliper]]\nhole = 6", "stop key-missing 2:1" },
        { "[[caliper]]\npart = \"toggle-mini-onn-on\"\nhole = 6", "stop part-unknown 3:8" },
        { "[[caliper]]\npart = \"toggle-mini-on-on\"\nholes = 6", "stop key-unknown 4:1" },
        { "[[caliper]]\npart = \"toggle-mini-on-on\"\npositions = 3", "stop key-unknown 4:1" },
        { "[[caliper]]\npart = \"toggle-mini-on-on\"\nhole = 6\n[[caliper]]\npart = \"toggle-mini-on-on\"\nbezel = 11", "stop caliper-twice 6:8" },
        { "[[caliper]]\npart = \"toggle-mini-on-on\"\nhole = [6, 7]", "stop caliper-form 4:8" },
        { "[[caliper]]\npart = \"toggle-mini-on-on\"\nhole-corner = 1", "stop caliper-form 4:15" },
        { "[[caliper]]\npart = \"toggle-mini-on-on\"\nhole = 0", "stop value-range 4:8" },
        { "[[caliper]]\npart = \"toggle-mini-on-on\"\nhole = 12", "stop part-wrong 2:1" },
        { "[[caliper]]\npart = \"toggle-mini-on-on\"\nbody = [7, 0, 13]", "stop part-wrong 2:1" },
        { "[[caliper]]\npart = \"toggle-mini-on-on\"\nbody = [7, 13]", "stop value-range 4:8" },
        { "[[caliper]]\npart = \"toggle-mini-on-off-on\"\nhole = 6", "warn caliper-unused 2:1" },
        { "[[caliper]]\npart = \"toggle-mini-on-on\"", "" },
    };

    [Theory]
    [MemberData(nameof(Faults))]
    public void Every_fault_of_a_measured_part_is_found_at_its_place(string before, string expected) =>
        Assert.Equal(expected, Told(Read($"{before}\n{Panel}")));

    [Fact]
    public void Holes_covers_and_checks_follow_the_caliper_everywhere_the_part_is_used()
    {
        const string Two = Panel + "[[panel.control]]\npart = \"toggle-mini-on-on\"\nat = [34, 20]\n";
        var listed = Lay(Two);
        var measured = Lay("[[caliper]]\npart = \"toggle-mini-on-on\"\nhole = \"7 mm\"\nbezel = 15\n" + Two);
        Assert.All(listed.Value.Panels[0].Parts, part => Assert.Equal(6.5, part.Holes[0].Bounds.WidthMm, 2));
        Assert.All(measured.Value.Panels[0].Parts, part => Assert.Equal(7, part.Holes[0].Bounds.WidthMm, 2));
        Assert.All(measured.Value.Panels[0].Parts, part => Assert.Equal(15, part.Covered.Bounds.WidthMm, 2));

        // 14 mm apart there is room for nuts of 9.5 mm, and none for 15 mm.
        Assert.Empty(listed.Findings);
        Assert.Equal("parts-collide", Assert.Single(measured.Findings).Code);
    }

    [Fact]
    public void What_was_not_measured_stays_as_it_is_listed()
    {
        var listed = PartCatalogue.BuiltIn.Find("toggle-mini-on-on-keyed")!;
        var desk = Read("[[caliper]]\npart = \"toggle-mini-on-on-keyed\"\nhole = 6.7\nbushing = 9\n" + Panel).Value;
        var measured = desk.Parts.Find("toggle-mini-on-on-keyed")!;
        Assert.Equal(listed with { Cutout = new RoundCutout(Figure.FromUser(6.7)), BushingLength = Figure.FromUser(9) }, measured);
        Assert.NotNull(measured.Key);
        Assert.Same(PartCatalogue.BuiltIn.Find("toggle-mini-on-on"), desk.Parts.Find("toggle-mini-on-on"));
    }

    [Theory]
    [InlineData("meter-48x29", "hole = [45.2, 26]\nhole-corner = 1", "45.2 x 26")]
    [InlineData("meter-48x29", "hole-corner = 2", "45.6 x 26.3")]
    [InlineData("key-19", "hole = [19, 16]", "19, 16 across flats")]
    [InlineData("slider-45", "hole = [50, 3]", "50 x 3")]
    public void A_hole_keeps_its_form(string part, string keys, string expected)
    {
        var listed = PartCatalogue.BuiltIn.Find(part)!;
        var measured = Read($"[[caliper]]\npart = \"{part}\"\n{keys}\n{Panel}").Value.Parts.Find(part)!;
        Assert.Equal(expected, measured.Cutout.SizeText);
        Assert.IsType(listed.Cutout.GetType(), measured.Cutout);
        Assert.NotEqual(listed, measured);
    }

    [Fact]
    public void A_part_that_the_desk_defines_can_be_measured_too()
    {
        var desk = Read("[[part]]\nid = \"mine\"\nhole = 5\n[[caliper]]\npart = \"mine\"\nhole = 5.3\nbezel = [9, 8]\n" + Panel.Replace("toggle-mini-on-on", "mine", StringComparison.Ordinal));
        Assert.Empty(desk.Findings);
        Assert.Equal(("5.3", "9 x 8"), (desk.Value.Parts.Find("mine")!.Cutout.SizeText, desk.Value.Parts.Find("mine")!.Bezel!.SizeText));
    }

    private static Checked<Desk> Read(string text) => DeskReader.Read("desk.toml", Encoding.UTF8.GetBytes("lampblack = 1\n" + text));

    private static Checked<LaidDesk> Lay(string text) => DeskLayout.Place(Read(text).Value, FontShelf.Bundled);

    private static string Told(Checked<Desk> desk) => string.Join('\n', desk.Findings.Select(finding => string.Create(
        CultureInfo.InvariantCulture, $"{finding.Severity.ToString().ToLowerInvariant()} {finding.Code} {finding.Span?.Line}:{finding.Span?.Column}")));
}
