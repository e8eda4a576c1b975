using System.IO;
using System.Linq;
using Lampblack.Geometry;
using SkiaSharp;

namespace Lampblack.Bench;

/// <summary>A page drawn elsewhere: A4 at 600 dpi, RGB, anti-aliased lettering in white and three colours on near-black. Always the same.</summary>
internal static class ArtPage
{
    private const int WidthPx = 4961;
    private const int HeightPx = 7016;
    private const float DotsPerMm = 600 / 25.4f;

    private static readonly SKColor[] Colours = [SKColors.White, SKColors.White, new(0xE0, 0xA0, 0x20), SKColors.White, new(0x40, 0xC0, 0x60), new(0xD0, 0x30, 0x30)];

    public static void Write(string path)
    {
        using SKBitmap page = new(new SKImageInfo(WidthPx, HeightPx, SKColorType.Rgb888x, SKAlphaType.Opaque));
        using SKCanvas canvas = new(page);
        using SKPaint paint = new() { IsAntialias = true };
        canvas.Clear(new(0x10, 0x10, 0x10));
        Letters letters = new();
        var number = 0;
        foreach (var letter in letters.Regions)
        {
            using SKPathBuilder builder = new();
            foreach (var border in letter.Borders())
            {
                builder.AddPoly([.. border.Points.Select(Place)], true);
            }

            using var outline = builder.Detach();
            paint.Color = Colours[number++ / 50 % Colours.Length];
            canvas.DrawPath(outline, paint);
        }

        using var png = page.Encode(SKEncodedImageFormat.Png, 100);
        File.WriteAllBytes(path, png.ToArray());
    }

    /// <summary>Forty lines over the page, a little larger than they were set.</summary>
    private static SKPoint Place(Point<ItemSpace> point) => new((float)(10 + (point.XMm * 2.1)) * DotsPerMm, HeightPx - ((float)(12 + (point.YMm * 1.68)) * DotsPerMm));
}
