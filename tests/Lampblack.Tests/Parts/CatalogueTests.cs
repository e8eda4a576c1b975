using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Parts;
using Xunit;

namespace Lampblack.Tests.Parts;

public sealed class CatalogueTests
{
    private static readonly ImmutableArray<Part> All = PartCatalogue.BuiltIn.All;

    public static TheoryData<string> Ids => [.. All.Select(part => part.Id)];

    [Fact]
    public void There_are_at_least_thirty_four_parts_and_some_of_every_class()
    {
        Assert.True(All.Length >= 34, $"only {All.Length} parts");
        Assert.Equal(Enum.GetValues<PartClass>().Order(), All.Select(part => part.Class).Distinct().Order());
    }

    [Fact]
    public void Every_id_is_used_once() =>
        Assert.Equal(All.Length, All.Select(part => part.Id).Distinct(StringComparer.Ordinal).Count());

    [Fact]
    public void Every_name_is_used_once() =>
        Assert.Equal(All.Length, All.Select(part => part.Name).Distinct(StringComparer.Ordinal).Count());

    [Theory]
    [MemberData(nameof(Ids))]
    public void A_built_in_part_has_no_problem(string id) => Assert.Empty(PartCheck.Problems(Known(id)));

    [Theory]
    [MemberData(nameof(Ids))]
    public void Every_figure_says_where_it_comes_from(string id) =>
        Assert.All(Known(id).Figures(), pair => Assert.False(string.IsNullOrWhiteSpace(pair.Figure.Source), pair.What));

    [Theory]
    [MemberData(nameof(Ids))]
    public void The_bezel_covers_the_hole_and_the_cut_paper(string id)
    {
        var part = Known(id);
        if (part.Bezel is null)
        {
            Assert.Null(part.CoverMm);
            Assert.Equal(0, part.PaperMarginMm);
            return;
        }

        Assert.True(part.CoverMm >= 0.5, $"covers only {part.CoverMm} mm");
        Assert.True(part.Covered().Contains(part.Holes()[0]));
        Assert.InRange(part.PaperMarginMm, 0.2, 0.5);
        Assert.True(part.Covered().Contains(part.Holes()[0].Grow(part.PaperMarginMm)));
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void Extra_holes_leave_material_around_the_main_hole(string id)
    {
        var holes = Known(id).Holes();
        foreach (var extra in holes.Skip(1))
        {
            // Acrylic between holes breaks out when it is thinner than about a millimetre (common practice, no source).
            Assert.True(extra.DistanceMm(holes[0]) >= 0.9, $"{extra.DistanceMm(holes[0])} mm left");
        }
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void The_body_behind_is_at_least_as_large_as_the_main_hole_of_what_is_pushed_through(string id)
    {
        var part = Known(id);
        if (part.Body is null || part.Class is PartClass.Slider)
        {
            return;
        }

        var hole = part.Holes()[0].Bounds;
        Assert.True(part.BodyBox.Grow(0.5).Contains(hole) || part.Class is PartClass.Lamp, $"{part.BodyBox} behind {hole}");
    }

    [Fact]
    public void The_parts_that_the_dome_desk_uses_are_there()
    {
        Assert.Equal(PartClass.Toggle, Known("toggle-mini-on-on").Class);
        Assert.Equal(PartClass.Potentiometer, Known("pot-9mm").Class);
    }

    [Fact]
    public void An_unknown_id_finds_nothing() => Assert.Null(PartCatalogue.BuiltIn.Find("toggle-mini-on-on "));

    [Fact]
    public void Own_parts_come_after_the_built_in_ones_and_replace_those_of_the_same_id()
    {
        var own = Known("pot-9mm") with { Id = "pot-own", Name = "Own" };
        var other = Known("pot-9mm") with { Name = "Measured" };
        var catalogue = PartCatalogue.BuiltIn.With([own, other]);

        Assert.Equal(All.Length + 1, catalogue.All.Length);
        Assert.Same(own, catalogue.All[^1]);
        Assert.Same(own, catalogue.Find("pot-own"));
        Assert.Same(other, catalogue.Find("pot-9mm"));
        Assert.Null(PartCatalogue.BuiltIn.Find("pot-own"));
    }

    [Theory]
    [InlineData("pot-9m", "pot-9mm")]
    [InlineData("toggle-mini-on-no", "toggle-mini-on-on")]
    [InlineData("Toggle_Mini_On_On", "toggle-mini-on-on")]
    [InlineData("rotary-12x03", "rotary-12x30")]
    [InlineData("screw-m2.5", "screw-m2-5")]
    public void A_mistyped_id_is_answered_with_the_one_that_was_meant(string typed, string meant) =>
        Assert.Equal(meant, PartCatalogue.BuiltIn.Near(typed)[0]);

    [Fact]
    public void Words_alone_find_parts_that_have_them_all()
    {
        var near = PartCatalogue.BuiltIn.Near("covered");
        Assert.Equal(["toggle-standard-covered"], near);
    }

    [Theory]
    [InlineData("")]
    [InlineData("---")]
    [InlineData("steam-whistle-brass")]
    public void Nothing_is_suggested_for_what_is_like_no_part(string typed) =>
        Assert.Empty(PartCatalogue.BuiltIn.Near(typed));

    [Fact]
    public void Ids_that_are_equally_near_come_in_the_order_of_the_alphabet() =>
        Assert.Equal(["button-16-lit", "button-19-lit"], PartCatalogue.BuiltIn.Near("button-1x-lit")[..2]);

    [Fact]
    public void At_most_three_ids_are_suggested() => Assert.Equal(3, PartCatalogue.BuiltIn.Near("button").Length);

    private static Part Known(string id) =>
        PartCatalogue.BuiltIn.Find(id) ?? throw new KeyNotFoundException(id);
}
