using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Parts;
using Xunit;

namespace Lampblack.Tests.Parts;

/// <summary>The catalogue against tables and data sheets that others published.</summary>
public sealed class PublishedSizeTests
{
    // ISO 273:1979, clearance holes, medium series H13, in mm (read in two tables that quote it).
    [Theory]
    [InlineData("screw-m2", 2.4)]
    [InlineData("screw-m2-5", 2.9)]
    [InlineData("screw-m3", 3.4)]
    [InlineData("screw-m4", 4.5)]
    [InlineData("screw-m5", 5.5)]
    public void Screw_holes_are_the_medium_series_of_ISO_273(string id, double holeMm)
    {
        var hole = Assert.IsType<RoundCutout>(Known(id).Cutout);
        Assert.Equal(holeMm, hole.Diameter.Mm);
        Assert.Contains("ISO 273", hole.Diameter.Source, StringComparison.Ordinal);
    }

    // The same rows again for every mounting screw of another part.
    [Fact]
    public void Mounting_screws_have_the_clearance_hole_of_their_thread()
    {
        var medium = new Dictionary<string, double>(StringComparer.Ordinal)
        {
            ["screw M2"] = 2.4, ["screw M2.5"] = 2.9, ["screw M3"] = 3.4,
        };
        var screws = PartCatalogue.BuiltIn.All.SelectMany(part => part.ExtraHoles)
            .Where(hole => hole.Purpose.StartsWith("screw", StringComparison.Ordinal))
            .ToList();
        Assert.NotEmpty(screws);
        Assert.All(screws, hole => Assert.Equal(medium[hole.Purpose], hole.Diameter.Mm));
    }

    // 1 in = 25.4 mm exactly (international inch, 1959).
    [Theory]
    [InlineData("hole-1-4-in", 6.35)]
    [InlineData("hole-3-8-in", 9.525)]
    [InlineData("grommet-6", 9.525)]
    public void Inch_holes_are_exact(string id, double mm) =>
        Assert.Equal(mm, Assert.IsType<RoundCutout>(Known(id).Cutout).Diameter.Mm, 12);

    // A 16 mm push-button's data sheet, p. 25: hole 16 mm, +0.2/0; panel at most 3.2 mm.
    [Fact]
    public void The_16_mm_button_has_the_hole_of_its_data_sheet()
    {
        var part = Known("button-16-momentary");
        Assert.Equal(("16 mm", 0.2, 3.2), (part.DrillText, part.Cutout.TolerancePlus?.Mm, part.LargestPanelThickness?.Mm));
    }

    // A 10-turn potentiometer's data sheet, p. 2: hole 10.44 +/- 0.07, pin hole 1.60 at radius 7.42, panel up to 3.81 mm.
    [Fact]
    public void The_10_turn_potentiometer_has_the_holes_of_its_data_sheet()
    {
        var part = Known("pot-10-turn");
        var pin = Assert.Single(part.ExtraHoles);
        Assert.Equal("10.44 mm", part.DrillText);
        Assert.Equal(1.6, pin.Diameter.Mm);
        Assert.Equal(7.42, Math.Sqrt((pin.XMm * pin.XMm) + (pin.YMm * pin.YMm)), 9);
        Assert.Equal(3.81, part.LargestPanelThickness?.Mm);
    }

    // A 45 mm slide potentiometer's data sheet: travel 45.0, two M3 65.0 apart, lever 4.0 mm wide along the travel.
    [Fact]
    public void The_45_mm_slider_has_the_screws_and_the_run_of_its_data_sheet()
    {
        var part = Known("slider-45");
        Assert.Equal(45, part.Travel?.Mm);
        Assert.Equal(65, part.ExtraHoles[0].YMm - part.ExtraHoles[1].YMm);
        Assert.True(part.Holes()[0].Bounds.HeightMm > 45 + 4);
    }

    // IEC 60947-5-1, D22 (from memory): hole 22.3 mm, notch 3.2 mm wide, 24.1 mm from its bottom to the edge opposite.
    [Fact]
    public void The_22_mm_button_with_its_notch_measures_24_1_mm_overall()
    {
        var box = Known("button-22-momentary").Holes()[0].Bounds;
        Assert.Equal(24.1, box.HeightMm, 2);
        Assert.Equal(22.3, box.WidthMm, 2);
        Assert.Equal(12.95, box.TopMm, 2);
    }

    // DIN 43700 front sizes: 24 x 48 and 96 x 48 mm.
    [Theory]
    [InlineData("meter-48x24", 48, 24)]
    [InlineData("meter-96x48", 96, 48)]
    public void Meters_have_the_fronts_of_DIN_43700(string id, double widthMm, double heightMm)
    {
        var front = Known(id).Covered().Bounds;
        Assert.Equal((widthMm, heightMm), (front.WidthMm, front.HeightMm));
    }

    // An 18 mm rotary switch's data sheet: 30 degrees 12 positions, 36 degrees 10, 60 degrees 6; two poles 6, four poles 3 at 30 degrees.
    [Theory]
    [InlineData("rotary-12x30", 12, 30, 1)]
    [InlineData("rotary-10x36", 10, 36, 1)]
    [InlineData("rotary-6x60", 6, 60, 1)]
    [InlineData("rotary-6x30", 6, 30, 2)]
    [InlineData("rotary-3x30", 3, 30, 4)]
    public void Selectors_have_the_steps_and_poles_of_their_data_sheet(string id, int count, double stepDegrees, int poles) =>
        Assert.Equal((count, stepDegrees, poles), (Known(id).Positions?.Count, Known(id).Positions?.StepDegrees, Known(id).Poles));

    // MIL-STD-1472E fig. 4: a selector has a step of at least 15 degrees and at most 24 positions.
    [Fact]
    public void Selectors_keep_the_least_step_of_MIL_STD_1472E() => Assert.All(
        PartCatalogue.BuiltIn.All.Where(part => part.Class == PartClass.Rotary),
        part => Assert.True(part.Positions is { StepDegrees: >= 15, Count: >= 3 and <= 24 }, part.Id));

    // A name goes onto drawings and into tables: no trade mark signs, quotes, bars or letters beyond ASCII.
    [Fact]
    public void Names_are_plain_words() => Assert.All(
        PartCatalogue.BuiltIn.All,
        part => Assert.All(part.Name, sign => Assert.True(char.IsAsciiLetterOrDigit(sign) || " ,./()-;".Contains(sign, StringComparison.Ordinal), part.Name)));

    private static Part Known(string id) => PartCatalogue.BuiltIn.Find(id) ?? throw new KeyNotFoundException(id);
}
