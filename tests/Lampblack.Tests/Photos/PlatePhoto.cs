using System;
using System.Threading.Tasks;
using Lampblack.Geometry;
using Lampblack.Tests.Peers;
using SkiaSharp;

namespace Lampblack.Tests.Photos;

/// <summary>
/// Photos of A4 sheets whose two pages Ghostscript drew, laid over each other as light sees them and photographed aslant by a few lines of projective geometry.
/// It knows nothing of marks.
/// </summary>
internal sealed record PlatePhoto(InkPlates Front, InkPlates Back, int Dpi)
{
    private const int WidthPx = 2700;
    private const int HeightPx = 3600;

    /// <summary>How dark a layer of toner is to the lamp: density 0.9, so that both layers can be told apart from one.</summary>
    public const double Density = 0.9;

    /// <summary>From the photo's pixels to mm from the sheet's upper left corner: rows of the homography, the last with 1 at its end.</summary>
    public double[] Camera { get; init; } = [0.0830, 0.0011, -9, -0.0007, 0.0850, -6, 1.1e-5, -0.7e-5];

    /// <summary>Where marks of side 2 land besides what its page says, in front view.</summary>
    public Affine<SheetSpace, SheetSpace> Lands { get; init; } = Affine<SheetSpace, SheetSpace>.Identity;

    /// <summary>How far the front's colours lie off its K; null for a photo in gray.</summary>
    public (double RightMm, double UpMm)[]? Colours { get; init; }

    /// <summary>By how much side 2's toner was pulled to the right, at each place; null for nothing.</summary>
    public Func<Point<SheetSpace>, double>? Smear { get; init; }

    /// <summary>Whether the sheet was turned the wrong way for side 2.</summary>
    public bool IsHalfTurned { get; init; }

    /// <summary>Whether side 2 was printed at all.</summary>
    public bool HasBack { get; init; } = true;

    /// <summary>The photo as PNG.</summary>
    public byte[] Png()
    {
        var channels = Colours is null ? 1 : 3;
        using SKBitmap photo = new(new SKImageInfo(WidthPx, HeightPx, Colours is null ? SKColorType.Gray8 : SKColorType.Rgba8888, SKAlphaType.Opaque));
        var step = Colours is null ? 1 : 4;
        var codes = new byte[WidthPx * HeightPx * step];
        var meant = Lands.Inverse();
        Parallel.For(0, HeightPx, row =>
        {
            for (var column = 0; column < WidthPx; column++)
            {
                var light = new double[channels];
                for (var part = 0; part < 9; part++)
                {
                    // From the photo to the sheet, in mm from its upper left corner; the last row makes it a perspective.
                    var (x, y) = (column + (((part % 3) + 0.5) / 3), row + (((part / 3) + 0.5) / 3));
                    var w = 1 + (Camera[6] * x) + (Camera[7] * y);
                    var (right, down) = (((Camera[0] * x) + (Camera[1] * y) + Camera[2]) / w, ((Camera[3] * x) + (Camera[4] * y) + Camera[5]) / w);
                    for (var channel = 0; channel < channels; channel++)
                    {
                        light[channel] += right < 0 || right >= 210 || down < 0 || down >= 297 ? 0.01 : Math.Pow(10, -Density * (
                            (Colours is null ? Ink(Front, right, 297 - down) : Ink(Front, right, 297 - down, channel, Colours[channel])) + Behind(Smeared(meant.Apply(new(right, 297 - down))))));
                    }
                }

                for (var channel = 0; channel < channels; channel++)
                {
                    codes[(((row * WidthPx) + column) * step) + channel] = Code(0.85 * light[channel] / 9);
                }

                if (step == 4)
                {
                    codes[(((row * WidthPx) + column) * step) + 3] = 255;
                }
            }
        });
        codes.CopyTo(photo.GetPixelSpan());
        using var png = photo.Encode(SKEncodedImageFormat.Png, 90);
        return png.ToArray();
    }

    private Point<SheetSpace> Smeared(Point<SheetSpace> place) => Smear is null ? place : new(place.XMm - Smear(place), place.YMm);

    private double Behind(Point<SheetSpace> place) => !HasBack ? 0 : IsHalfTurned ? Ink(Back, place.XMm, 297 - place.YMm) : Ink(Back, 210 - place.XMm, place.YMm);

    private double Ink(InkPlates plates, double xMm, double yMm)
    {
        var dot = plates.AtMm(Math.Clamp(xMm, 0, 209.9), Math.Clamp(yMm, 0, 296.9), Dpi);
        return Math.Max(dot.Black, Math.Max(dot.Cyan, Math.Max(dot.Magenta, dot.Yellow))) / 255.0;
    }

    /// <summary>K, or the ink that keeps back this light where it was laid.</summary>
    private double Ink(InkPlates plates, double xMm, double yMm, int channel, (double RightMm, double UpMm) off)
    {
        var black = plates.AtMm(Math.Min(xMm, 209.9), Math.Min(yMm, 296.9), Dpi).Black;
        var (cyan, magenta, yellow, _) = plates.AtMm(Math.Clamp(xMm - off.RightMm, 0, 209.9), Math.Clamp(yMm - off.UpMm, 0, 296.9), Dpi);
        return Math.Max(black, channel switch { 0 => cyan, 1 => magenta, _ => yellow }) / 255.0;
    }

    // IEC 61966-2-1, the curve of sRGB.
    private static byte Code(double light) => (byte)Math.Round(255 * (light <= 0.0031308 ? 12.92 * light : (1.055 * Math.Pow(light, 1 / 2.4)) - 0.055), MidpointRounding.AwayFromZero);
}
