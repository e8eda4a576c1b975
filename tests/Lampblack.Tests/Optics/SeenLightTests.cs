using Lampblack.Optics;
using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Optics;

/// <summary>Paper blur, room light, surfaces and unmeasured sheets against values worked out elsewhere.</summary>
public sealed class SeenLightTests
{
    private static readonly PaperOptics Paper = new(0.80, 0.155, 0.25);

    // kp ln 5 / pi from Arney's 1 / (1 + (kp f)^2): kp 0.15, 0.20, 0.25, 0.30, 0.35.
    [Theory]
    [InlineData(0.15, 0.0768)]
    [InlineData(0.20, 0.1025)]
    [InlineData(0.25, 0.1281)]
    [InlineData(0.30, 0.1537)]
    [InlineData(0.35, 0.1793)]
    public void An_edge_behind_paper_is_half_a_kp_wide(double spreadMm, double widthMm)
    {
        var paper = Paper with { SpreadMm = spreadMm };
        Assert.Equal(widthMm, HaloLight.EdgeWidthMm(paper), 1e-4);
        Assert.Equal(0.5 + (widthMm / 2), HaloLight.WidthMm(paper, 0.5), 1e-4);
    }

    // A slit of 0.3 mm behind a paper of kp 0.25: 1 - exp(-pi w / kp) = 0.97695.
    [Fact]
    public void A_narrow_opening_loses_a_little_light() => Assert.Equal(0.97695, HaloLight.MiddleShare(Paper, 0.3), 1e-5);

    // DICOM PS3.14, 7.2: a film box of 2000 cd/m2 with 10 cd/m2 of room light shows 12 at D 3, 30 at D 2.
    [Theory]
    [InlineData(3, 12)]
    [InlineData(2, 30)]
    public void Room_light_adds_to_what_comes_through(double density, double candelaPerM2) =>
        Assert.Equal(candelaPerM2, RoomLight.SeenCandelaPerM2(2000, density, 10), 9);

    // E R / pi on toner of 4 %: 538 lx 6.850, 108 lx 1.375, 10 lx 0.127; on paper of 80 %: 137.0, 27.5, 2.55.
    [Theory]
    [InlineData(538, 0.04, 6.850)]
    [InlineData(108, 0.04, 1.375)]
    [InlineData(10, 0.04, 0.127)]
    [InlineData(538, 0.80, 137.0)]
    [InlineData(108, 0.80, 27.5)]
    public void A_face_throws_room_light_back(double lux, double reflectance, double candelaPerM2) =>
        Assert.Equal(candelaPerM2, RoomLight.FaceCandelaPerM2(lux, reflectance), candelaPerM2 * 3e-3);

    // 500 lx behind a sheet of 0.16: 25.465 cd/m2.
    [Fact]
    public void A_legend_lit_from_behind_and_before_shows_both()
    {
        var place = new RoomLight(0, 500).PlaceCandelaPerM2(Paper with { Transmittance = 0.16 }, 1, 0.8);
        Assert.Equal(25.465, place, 1e-3);
        Assert.Equal(27.5, new RoomLight(108, 500).PlaceCandelaPerM2(Paper, 0, 0.8), 0.01);
    }

    // Saunderson: k1 0.04, k2 0.6, 0.8 inside gives 0.630769.
    [Fact]
    public void A_surface_darkens_what_lies_behind_it() => Assert.Equal(0.630769, new Surface(0.04, 0.6).Seen(0.8), 1e-6);

    // ISO 22891 with the paper's own pile as white body: Yw 85, Y0 78.2 gives 16.378 %; and opacity 0.92 of 0.85 is the same sheet.
    [Fact]
    public void Kubelka_Munk_s_sheet_passes_what_ISO_22891_reads_of_it()
    {
        var (low, high) = (0.1, 20.0);
        for (var step = 0; step < 60; step++)
        {
            var middle = (low + high) / 2;
            (low, high) = DiffuseLayer.OfScattering(middle, 0.85).UpperReflectance < 0.782 ? (middle, high) : (low, middle);
        }

        Assert.Equal(0.16378, DiffuseLayer.OfScattering(low, 0.85).Transmittance, 1e-5);
    }

    // Without loss T = 1 / (1 + X): 0.2 for X = 4, 1/9 for 8; and the general form goes over into it.
    [Fact]
    public void Without_loss_all_that_does_not_pass_comes_back()
    {
        var sheet = DiffuseLayer.OfScattering(4, 1);
        Assert.Equal((0.2, 0.8), (sheet.Transmittance, sheet.UpperReflectance));
        Assert.Equal(1.0 / 9, DiffuseLayer.OfScattering(8, 1).Transmittance, 12);
        Assert.Equal(0.2, DiffuseLayer.OfScattering(4, 1 - 1e-9).Transmittance, 1e-4);
    }

    [Fact]
    public void An_unmeasured_sheet_says_so_and_has_pinholes()
    {
        var sheet = SheetOptics.Unmeasured(Ink.FullK);
        Assert.Equal((Knowledge.Assumed, Knowledge.Assumed), (sheet.BlackKnown, sheet.PaperKnown));

        // 1.6 with 0.1 % of holes: T = 0.999 x 0.025119 + 0.001 = 0.026094.
        Assert.Equal(0.026094, sheet.FrontTransmission(Ink.FullK).Green, 1e-6);
        Assert.Equal(1, sheet.MaskTransmission(Ink.None).Luminance, 9);
        Assert.Equal(0.1429, SheetOptics.Unmeasured(Ink.FullK, 100).Paper.Transmittance, 5e-5);
    }

    [Fact]
    public void Each_side_s_black_counts_on_its_own_side_and_the_weaker_known_one_is_told()
    {
        var sheet = new SheetOptics(Paper, InkOptics.Assumed, new(Ink.FullK, new(1.8, 0, Knowledge.Measured), new(2.2, 0, Knowledge.Inferred)));
        Assert.Equal(1.8, Density.OfTransmittance(sheet.FrontTransmission(Ink.FullK).Red), 9);
        Assert.Equal(2.2, Density.OfTransmittance(sheet.MaskTransmission(Ink.FullK).Blue), 9);
        Assert.Equal(Knowledge.Inferred, sheet.BlackKnown);
    }
}
