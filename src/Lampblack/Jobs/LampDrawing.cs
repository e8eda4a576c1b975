using System;
using System.Collections.Immutable;
using System.Runtime.InteropServices;
using Lampblack.Artwork;
using Lampblack.Geometry;
using Lampblack.Imaging;
using Lampblack.Optics;
using Lampblack.Separations;

namespace Lampblack.Jobs;

/// <summary>Draws front and mask as two filters of light, so that one can be laid over the other in any register.</summary>
internal static class LampDrawing
{
    private const double DotsPerMm = 6;
    private const double LargestSidePx = 1200;

    /// <summary>So many standard deviations either way take in 99 of 100 sheets.</summary>
    private const double NinetyNine = 2.58;

    /// <summary>Both sheets before they are cut, each in register.</summary>
    public static HeldToLamp Draw(PanelArtwork artwork, PrintSetup setup, double spreadMm, HatchKey hatches, double shiftSdMm, double turnSdDegrees, bool isLearned)
    {
        var panel = artwork.Laid.Panel;
        var separation = Separator.Separate(artwork, setup.Printer, setup.Black, spreadMm, hatches).Value;
        var finished = PictureLayers.Finished(separation);
        var view = new Box<PanelSpace>(0, 0, panel.WidthMm, panel.HeightMm);
        var uncut = PictureLayers.Uncut(separation, finished) with { View = view };
        var mmPerDot = Math.Max(1 / DotsPerMm, Math.Max(panel.WidthMm, panel.HeightMm) / LargestSidePx);
        var sheet = SheetOptics.Unmeasured(separation.Build.Ink);

        // One side at a time: nothing printed on the other.
        using var front = PanelPictures.ThroughLight(PanelRaster.Of(uncut with { Mask = [] }, mmPerDot, sheet with { Paper = sheet.Paper with { SpreadMm = 0.01 } }));
        using var mask = PanelPictures.ThroughLight(PanelRaster.Of(uncut with { Front = [] }, mmPerDot, sheet with { Paper = sheet.Paper with { SpreadMm = 0.01 } }));
        using var holes = CoverageMap.Of(artwork.Holes, view, mmPerDot) is var coverage ? Holes(coverage) : null;
        return new(Png(front), Png(mask), Png(holes!), mmPerDot, NinetyNine * shiftSdMm, NinetyNine * turnSdDegrees, isLearned);
    }

    private static Picture Holes(CoverageMap coverage)
    {
        var field = LightField.Filled(coverage.WidthPx, coverage.HeightPx, coverage.MmPerDot, LinearColour.Black);
        field.Paint(coverage, LinearColour.White);
        var picture = field.ToPicture();
        field.Dispose();
        return picture;
    }

    private static ImmutableArray<byte> Png(Picture picture) => ImmutableCollectionsMarshal.AsImmutableArray(PngFile.Write(picture));
}
