using System;
using System.Threading.Tasks;
using SkiaSharp;

namespace Lampblack.Tests.Photos;

/// <summary>
/// A camera of the tests' own, held by hand over a page on a desk: a pinhole with a lens that distorts by 1 + k1 r^2 (r in focal lengths), blur, noise and uneven light.
/// It knows nothing of how photos are read.
/// </summary>
internal sealed record DeskCamera
{
    public int WidthPx { get; init; } = 3264;

    public int HeightPx { get; init; } = 2448;

    /// <summary>Focal length, in widths of the longer side.</summary>
    public double Focal { get; init; } = 0.75;

    public double TiltDegrees { get; init; }

    public double TiltTowardsDegrees { get; init; }

    public double TurnDegrees { get; init; } = 90;

    /// <summary>Share of the picture that the page fills; above 1 it is cropped.</summary>
    public double Fill { get; init; } = 0.9;

    public double K1 { get; init; }

    public double BlurPx { get; init; } = 1;

    public double Noise { get; init; } = 0.01;

    /// <summary>How much brighter one side is lit than the other, and the middle than the corners.</summary>
    public double Uneven { get; init; } = 0.3;

    public double Exposure { get; init; } = 0.9;

    public int Seed { get; init; } = 1;

    /// <summary>The photo, as JPEG.</summary>
    public byte[] Photo(DrawnPlate scene)
    {
        var light = Draw(scene);
        using var bitmap = new SKBitmap(new SKImageInfo(WidthPx, HeightPx, SKColorType.Gray8, SKAlphaType.Opaque));
        Blur(light);
        var random = new Random(Seed);
        var dots = bitmap.GetPixelSpan();
        for (var at = 0; at < light.Length; at++)
        {
            var gauss = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
            dots[at] = Code(light[at] + (Noise * gauss * Math.Sqrt((Math.Max(0, light[at]) * 0.9) + 0.1)));
        }

        using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, 80);
        return data.ToArray();
    }

    private float[] Draw(DrawnPlate scene)
    {
        var (paperWidth, paperHeight) = (scene.Plan.Paper.WidthMm, scene.Plan.Paper.HeightMm);
        var focal = Focal * Math.Max(WidthPx, HeightPx);
        var (sine, cosine) = Math.SinCos(TurnDegrees * Math.PI / 180);
        var distance = Math.Max(
            ((Math.Abs(cosine) * paperWidth) + (Math.Abs(sine) * paperHeight)) / WidthPx, ((Math.Abs(sine) * paperWidth) + (Math.Abs(cosine) * paperHeight)) / HeightPx) * focal / Fill;

        // The camera looks along z; the page's axes, turned about z and then leaned about an axis across the direction of the lean.
        var (leanSine, leanCosine) = Math.SinCos(TiltDegrees * Math.PI / 180);
        var (toSine, toCosine) = Math.SinCos(TiltTowardsDegrees * Math.PI / 180);
        var right = Lean(cosine, -sine);
        var up = Lean(-sine, -cosine);

        // Towards the camera: where z is less.
        var normal = (X: (right.Y * up.Z) - (right.Z * up.Y), Y: (right.Z * up.X) - (right.X * up.Z), Z: (right.X * up.Y) - (right.Y * up.X));
        if (normal.Z > 0)
        {
            normal = (-normal.X, -normal.Y, -normal.Z);
        }

        var light = new float[WidthPx * HeightPx];
        Parallel.For(0, HeightPx, row =>
        {
            for (var column = 0; column < WidthPx; column++)
            {
                var sum = 0.0;
                for (var part = 0; part < 4; part++)
                {
                    sum += Ray(column + 0.25 + (0.5 * (part % 2)), row + 0.25 + (0.5 * (part / 2)));
                }

                var (fx, fy) = ((column / (double)WidthPx) - 0.5, (row / (double)HeightPx) - 0.5);
                light[(row * WidthPx) + column] = (float)(sum / 4 * Exposure * (1 + (Uneven * (fx - (fy / 2) - ((fx * fx) + (fy * fy))))));
            }
        });
        return light;

        (double X, double Y, double Z) Lean(double x, double y)
        {
            var (along, side) = ((x * toCosine) + (y * toSine), (y * toCosine) - (x * toSine));
            return ((along * leanCosine * toCosine) - (side * toSine), (along * leanCosine * toSine) + (side * toCosine), along * leanSine);
        }

        double Ray(double column, double row)
        {
            var (x, y) = Straight((column - (WidthPx / 2.0)) / focal, (row - (HeightPx / 2.0)) / focal);
            return scene.Light(above =>
            {
                var (ox, oy, oz) = (above * normal.X, above * normal.Y, distance + (above * normal.Z));
                var s = ((ox * normal.X) + (oy * normal.Y) + (oz * normal.Z)) / ((x * normal.X) + (y * normal.Y) + normal.Z);
                var (dx, dy, dz) = ((x * s) - ox, (y * s) - oy, s - oz);
                return ((dx * right.X) + (dy * right.Y) + (dz * right.Z) + (paperWidth / 2), (dx * up.X) + (dy * up.Y) + (dz * up.Z) + (paperHeight / 2));
            });
        }
    }

    private (double X, double Y) Straight(double x, double y)
    {
        var seen = Math.Sqrt((x * x) + (y * y));
        var r = seen;
        for (var step = 0; step < 8 && seen > 0; step++)
        {
            r -= ((r * (1 + (K1 * r * r))) - seen) / (1 + (3 * K1 * r * r));
        }

        return seen == 0 ? (x, y) : (x * r / seen, y * r / seen);
    }

    private void Blur(float[] light)
    {
        if (BlurPx <= 0)
        {
            return;
        }

        var reach = (int)Math.Ceiling(BlurPx * 3.5);
        var weights = new float[(2 * reach) + 1];
        var sum = 0f;
        for (var k = -reach; k <= reach; k++)
        {
            weights[k + reach] = (float)Math.Exp(-k * k / (2 * BlurPx * BlurPx));
            sum += weights[k + reach];
        }

        var once = new float[light.Length];
        Parallel.For(0, HeightPx, row => Run(light, once, row * WidthPx, 1, WidthPx));
        Parallel.For(0, WidthPx, column => Run(once, light, column, WidthPx, HeightPx));

        void Run(float[] from, float[] to, int start, int step, int count)
        {
            for (var at = 0; at < count; at++)
            {
                var value = 0f;
                for (var k = -reach; k <= reach; k++)
                {
                    value += weights[k + reach] * from[start + (Math.Clamp(at + k, 0, count - 1) * step)];
                }

                to[start + (at * step)] = value / sum;
            }
        }
    }

    private static byte Code(double linear)
    {
        linear = Math.Clamp(linear, 0, 1);
        return (byte)((linear <= 0.0031308 ? 12.92 * linear : (1.055 * Math.Pow(linear, 1 / 2.4)) - 0.055) * 255 + 0.5);
    }
}
