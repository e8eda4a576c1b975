using System;
using System.Collections.Immutable;
using System.Linq;
using System.Runtime.InteropServices;
using Lampblack.Artwork;
using Lampblack.Geometry;
using Lampblack.Imaging;
using Lampblack.Optics;
using Lampblack.Separations;

namespace Lampblack.Jobs;

/// <summary>Draws a panel's face, whole or a window of it, with the same separation and the same pictures as a build.</summary>
internal sealed class FaceDrawing(PanelArtwork artwork, PrintSetup setup, double spreadMm, HatchKey hatches, SheetOptics sheet, LinearColour lamps)
{
    private const double DotsPerMm = 8;
    private const double LargestSidePx = 1600;

    /// <summary>Whole blurs of the paper reach this far; drawn around a window and cut off again.</summary>
    private const double BlurMm = 3;

    /// <summary>The dots of the whole face.</summary>
    public static FaceFrame FrameOf(double widthMm, double heightMm)
    {
        var mmPerDot = Math.Max(1 / DotsPerMm, Math.Max(widthMm, heightMm) / LargestSidePx);
        return new(Dots(widthMm, mmPerDot), Dots(heightMm, mmPerDot), mmPerDot);
    }

    /// <summary>The face; null where the window lies outside.</summary>
    /// <param name="window">What of it is wanted; null for all.</param>
    public FacePictures? Draw(Box<PanelSpace>? window)
    {
        var panel = artwork.Laid.Panel;
        var frame = FrameOf(panel.WidthMm, panel.HeightMm);
        var (left, top, right, bottom) = window is { } box ? DotsOf(box, frame, panel.HeightMm) : (0, 0, frame.WidthPx, frame.HeightPx);
        if (right <= left || bottom <= top)
        {
            return null;
        }

        // Drawn with a margin for the paper's blur, which is cut off again; outside of the panel there is nothing to be seen.
        var margin = (int)Math.Ceiling(BlurMm / frame.MmPerDot);
        var (drawnLeft, drawnTop) = (Math.Max(0, left - margin), Math.Max(0, top - margin));
        var (drawnRight, drawnBottom) = (Math.Min(frame.WidthPx, right + margin), Math.Min(frame.HeightPx, bottom + margin));
        var view = new Box<PanelSpace>(
            drawnLeft * frame.MmPerDot,
            panel.HeightMm - (drawnBottom * frame.MmPerDot),
            (drawnRight - drawnLeft) * frame.MmPerDot,
            (drawnBottom - drawnTop) * frame.MmPerDot);
        var part = window is null ? artwork : ArtworkWindow.Within(artwork, view, spreadMm);
        var separation = Separator.Separate(part, setup.Printer, setup.Black, spreadMm, hatches).Value;
        var raster = PanelRaster.Of(PictureLayers.Finished(separation) with { View = view }, frame.MmPerDot, sheet);
        var hidden = Region<PanelSpace>.Union(separation.Shapes.Covers.Select(cover => cover.Region));
        var light = new Backlight(lamps, hidden.IsEmpty ? [] : [new LightCell(hidden, LinearColour.Black)]);
        using var day = PanelPictures.Day(raster);
        using var lit = PanelPictures.Lit(raster, light, RoomLight.Night.RoomShare)[0];
        return new(left, top, right - left, bottom - top, Cut(day), Cut(lit));

        ImmutableArray<byte> Cut(Picture picture)
        {
            using var cut = picture.Cut(left - drawnLeft, top - drawnTop, right - left, bottom - top);
            return ImmutableCollectionsMarshal.AsImmutableArray(PngFile.Write(cut));
        }
    }

    private static (int Left, int Top, int Right, int Bottom) DotsOf(Box<PanelSpace> box, FaceFrame frame, double heightMm) => (
        Math.Max(0, (int)Math.Floor(box.LeftMm / frame.MmPerDot)),
        Math.Max(0, (int)Math.Floor((heightMm - box.TopMm) / frame.MmPerDot)),
        Math.Min(frame.WidthPx, (int)Math.Ceiling(box.RightMm / frame.MmPerDot)),
        Math.Min(frame.HeightPx, (int)Math.Ceiling((heightMm - box.BottomMm) / frame.MmPerDot)));

    private static int Dots(double lengthMm, double mmPerDot) => Math.Max(1, (int)Math.Ceiling((lengthMm / mmPerDot) - 1e-6));
}
