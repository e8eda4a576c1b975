using System;
using System.Collections.Immutable;
using System.Linq;
using System.Threading.Tasks;
using Lampblack.Geometry;
using Lampblack.Tests.Calibration;
using SkiaSharp;

namespace Lampblack.Tests.Photos;

/// <summary>
/// A photo of a lit panel in the dark, drawn by a pinhole camera of its own: shapes are projected corner by corner and filled by the drawing library, the light is
/// looked up for every pixel by the way back, which is solved by hand; then blur, vignetting, noise, the curve of IEC 61966-2-1 and eight bits.
/// </summary>
internal sealed record DrawnLitPanel(double WidthMm, double HeightMm)
{
    private const int WidthPx = 2000;
    private const int HeightPx = 1500;
    private const double FocalPx = 1560;

    public double TiltDegrees { get; init; }

    public double TurnDegrees { get; init; }

    public double PxPerMm { get; init; } = 8.5;

    /// <summary>The largest light's share of what a file can tell.</summary>
    public double Exposure { get; init; } = 0.6;

    public double BlurPx { get; init; } = 1.2;

    public double VignettingShare { get; init; } = 0.04;

    public double Noise { get; init; } = 0.006;

    public double Glow { get; init; } = 0.004;

    public int Seed { get; init; } = 1;

    private double DistanceMm => FocalPx / PxPerMm;

    public (double X, double Y) Project(double xMm, double yMm)
    {
        var (sin, cos) = Math.SinCos(TurnDegrees * Math.PI / 180);
        var (x, y) = (xMm - (WidthMm / 2), yMm - (HeightMm / 2));
        (x, y) = ((x * cos) - (y * sin), (x * sin) + (y * cos));
        var (tilt, flat) = Math.SinCos(TiltDegrees * Math.PI / 180);
        var depth = DistanceMm + (y * tilt);
        return ((WidthPx / 2.0) + (FocalPx * x / depth), (HeightPx / 2.0) - (FocalPx * y * flat / depth));
    }

    public (double XMm, double YMm) Unproject(double px, double py)
    {
        var (a, b) = ((px - (WidthPx / 2.0)) / FocalPx, ((HeightPx / 2.0) - py) / FocalPx);
        var (tilt, flat) = Math.SinCos(TiltDegrees * Math.PI / 180);
        var y = b * DistanceMm / (flat - (b * tilt));
        var x = a * (DistanceMm + (y * tilt));
        var (sin, cos) = Math.SinCos(TurnDegrees * Math.PI / 180);
        return ((x * cos) + (y * sin) + (WidthMm / 2), (y * cos) - (x * sin) + (HeightMm / 2));
    }

    /// <summary>The photo, and the mean light of each shape as it is on the panel.</summary>
    /// <param name="shapes">What shines, and how much of the light comes through.</param>
    /// <param name="lux">The light behind a place.</param>
    public (byte[] Png, ImmutableArray<double> Means) Take(ImmutableArray<(Region<PanelSpace> Shape, double Share)> shapes, Func<double, double, double> lux)
    {
        var light = new double[WidthPx * HeightPx];
        var means = shapes.Select(shape => Add(shape.Shape, shape.Share, lux, light)).ToImmutableArray();
        var most = light.Max();
        var chance = new Chance((ulong)Seed + 1);
        return (Encode(Blur(light), pixel =>
        {
            var (x, y) = ((pixel.X - (WidthPx / 2.0)) / 1250, (pixel.Y - (HeightPx / 2.0)) / 1250);
            var clean = ((pixel.Light / most * Exposure) + Glow) * (1 - (VignettingShare * ((x * x) + (y * y))));
            return clean + chance.Normal(Noise * Math.Sqrt(clean + 0.01));
        }), means);
    }

    /// <summary>A photo of nothing but noise around a grey.</summary>
    public byte[] Nothing(double grey)
    {
        var chance = new Chance((ulong)Seed + 1);
        return Encode(new double[WidthPx * HeightPx], _ => grey + chance.Normal(grey / 3));
    }

    private double Add(Region<PanelSpace> shape, double share, Func<double, double, double> lux, double[] light)
    {
        using var bitmap = new SKBitmap(new SKImageInfo(WidthPx, HeightPx, SKColorType.Gray8, SKAlphaType.Opaque));
        using var canvas = new SKCanvas(bitmap);
        canvas.Clear(SKColors.Black);
        using var builder = new SKPathBuilder();
        foreach (var border in shape.Borders())
        {
            builder.AddPoly([.. border.Points.Select(point => Project(point.XMm, point.YMm)).Select(at => new SKPoint((float)at.X, (float)at.Y))], true);
        }

        using var path = builder.Detach();
        using var paint = new SKPaint { IsAntialias = true, Color = SKColors.White };
        canvas.DrawPath(path, paint);
        canvas.Flush();
        var cover = bitmap.GetPixelSpan();
        var (sum, area) = (0.0, 0.0);
        for (var at = 0; at < light.Length; at++)
        {
            if (cover[at] > 0)
            {
                var (y, x) = Math.DivRem(at, WidthPx);
                var (xMm, yMm) = Unproject(x + 0.5, y + 0.5);
                var here = share * lux(xMm, yMm);
                light[at] += here * cover[at] / 255;
                (sum, area) = (sum + (here * cover[at]), area + cover[at]);
            }
        }

        return sum / area;
    }

    private double[] Blur(double[] light)
    {
        var reach = (int)Math.Ceiling(3 * BlurPx);
        var weights = Enumerable.Range(-reach, (2 * reach) + 1).Select(step => Math.Exp(-step * step / (2 * BlurPx * BlurPx))).ToArray();
        var total = weights.Sum();
        var (along, both) = (new double[light.Length], new double[light.Length]);
        Parallel.For(0, HeightPx, row =>
        {
            for (var column = reach; column < WidthPx - reach; column++)
            {
                for (var step = -reach; step <= reach; step++)
                {
                    along[(row * WidthPx) + column] += weights[step + reach] / total * light[(row * WidthPx) + column + step];
                }
            }
        });
        Parallel.For(reach, HeightPx - reach, row =>
        {
            for (var step = -reach; step <= reach; step++)
            {
                for (var column = 0; column < WidthPx; column++)
                {
                    both[(row * WidthPx) + column] += weights[step + reach] / total * along[((row + step) * WidthPx) + column];
                }
            }
        });
        return both;
    }

    private static byte[] Encode(double[] light, Func<(int X, int Y, double Light), double> camera)
    {
        var codes = new byte[light.Length];
        for (var at = 0; at < light.Length; at++)
        {
            var (y, x) = Math.DivRem(at, WidthPx);
            var linear = Math.Clamp(camera((x, y, light[at])), 0, 1);
            codes[at] = (byte)Math.Round(255 * (linear <= 0.0031308 ? 12.92 * linear : (1.055 * Math.Pow(linear, 1 / 2.4)) - 0.055));
        }

        using var bitmap = new SKBitmap(new SKImageInfo(WidthPx, HeightPx, SKColorType.Gray8, SKAlphaType.Opaque));
        System.Runtime.InteropServices.Marshal.Copy(codes, 0, bitmap.GetPixels(), codes.Length);
        using var data = bitmap.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }
}
