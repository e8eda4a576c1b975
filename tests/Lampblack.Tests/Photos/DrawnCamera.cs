using System;
using System.Linq;
using System.Threading.Tasks;
using SkiaSharp;

namespace Lampblack.Tests.Photos;

/// <summary>
/// A camera of the tests' own: a pinhole with a lens that distorts by 1 + k1 r^2 (r in focal lengths), looking at a sheet before a light.
/// It knows nothing of how photos are read.
/// </summary>
internal sealed partial record DrawnCamera
{
    public int WidthPx { get; init; } = 3264;

    public int HeightPx { get; init; } = 2448;

    /// <summary>Focal length, in widths of the longer side.</summary>
    public double Focal { get; init; } = 0.75;

    /// <summary>How far the sheet leans away, and towards which side.</summary>
    public double TiltDegrees { get; init; }

    public double TiltTowardsDegrees { get; init; }

    /// <summary>How the camera is turned about its own axis.</summary>
    public double TurnDegrees { get; init; } = 90;

    /// <summary>Share of the picture that the sheet fills; above 1 it is cropped.</summary>
    public double Fill { get; init; } = 0.9;

    /// <summary>Where the sheet's middle lies in the picture, in shares of its sides.</summary>
    public (double X, double Y) Aside { get; init; }

    public double K1 { get; init; }

    /// <summary>Standard deviation of the blur, in pixels.</summary>
    public double BlurPx { get; init; } = 1;

    /// <summary>Noise at white, in linear light.</summary>
    public double Noise { get; init; } = 0.01;

    public double Vignetting { get; init; } = 0.3;

    /// <summary>How much brighter one side is lit than the other.</summary>
    public double Uneven { get; init; } = 0.3;

    /// <summary>How strongly bright surroundings are pulled down and dark ones up.</summary>
    public double ToneMapping { get; init; }

    /// <summary>By which power the camera's light differs from what its file says.</summary>
    public double Curve { get; init; } = 1;

    /// <summary>How far below the front the back is seen, in mm of air.</summary>
    public double ThicknessMm { get; init; }

    /// <summary>How far the sheet's middle bulges towards its front, in mm; its left and right edges lie flat. Negative hollows it.</summary>
    public double CurlMm { get; init; }

    /// <summary>Share of the picture's mean light that lies over all of it like a veil.</summary>
    public double Veil { get; init; }

    /// <summary>Share of the light around that each place glows with.</summary>
    public double Glow { get; init; }

    public bool IsFromBehind { get; init; }

    public double Exposure { get; init; } = 0.6;

    /// <summary>Light around the sheet, relative to paper.</summary>
    public double Around { get; init; } = 0.05;

    /// <summary>Light that falls on the front, relative to what comes through the paper.</summary>
    public double FrontLight { get; init; }

    public int Seed { get; init; } = 1;

    public int JpegQuality { get; init; } = 75;

    /// <summary>Whether sheets with colours are drawn in red, green and blue light; else all light is alike, which is three times as fast.</summary>
    public bool IsInColour { get; init; }

    public byte[] Jpeg(params DrawnSheet[] sheets) => Jpegs([1], sheets)[0];

    /// <summary>Several photos from one stand, each as many times as bright as the exposure says.</summary>
    public byte[][] Jpegs(double[] times, params DrawnSheet[] sheets)
    {
        // Only where colours are do the three lights differ.
        var all = Draw(sheets, -1, null);
        float[][] drawn = IsInColour && sheets.Any(sheet => sheet.HasColours) ? [.. Enumerable.Range(0, 3).Select(channel => Draw(sheets, channel, all))] : [all];
        var lights = drawn.Select(light => Stray(Blur(light, BlurPx))).ToList();
        return
        [
            .. times.Select((factor, index) => Encode([.. lights.Select((light, channel) =>
                (this with { Seed = Seed + (1000 * index) + (77 * channel) }).Develop([.. light.Select(value => (float)(value * factor))]))])),
        ];
    }

    private byte[] Develop(float[] light)
    {
        var codes = new byte[light.Length];
        var around = ToneMapping > 0 ? Surroundings(light) : null;
        Parallel.For(0, HeightPx, row =>
        {
            for (var column = 0; column < WidthPx; column++)
            {
                var at = (row * WidthPx) + column;
                var noisy = light[at] + (Noise * Gauss(at) * Math.Sqrt((Math.Max(0, light[at]) * 0.9) + 0.1));
                if (around is not null)
                {
                    noisy *= Math.Pow(0.3 / (0.05 + around[at]), ToneMapping);
                }

                codes[at] = Code(Curve == 1 ? noisy : Math.Pow(Math.Max(0, noisy), Curve));
            }
        });
        return codes;
    }

    private byte[] Encode(byte[][] channels)
    {
        using var bitmap = new SKBitmap(new SKImageInfo(WidthPx, HeightPx, SKColorType.Rgba8888, SKAlphaType.Opaque));
        var dots = bitmap.GetPixelSpan();
        var (red, green, blue) = (channels[0], channels[channels.Length / 2], channels[^1]);
        for (var at = 0; at < red.Length; at++)
        {
            // A little warm, as lamps are.
            dots[at * 4] = red[at];
            dots[(at * 4) + 1] = green[at];
            dots[(at * 4) + 2] = (byte)(blue[at] * 0.95);
            dots[(at * 4) + 3] = 255;
        }

        using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, JpegQuality);
        return data.ToArray();
    }

    private float[] Draw(DrawnSheet[] sheets, int channel, float[]? grey)
    {
        var light = new float[WidthPx * HeightPx];
        var longer = Math.Max(WidthPx, HeightPx);
        var focal = Focal * longer;
        var paper = sheets.Length > 0 ? sheets[0].Plan.Paper : null;
        var (paperWidth, paperHeight) = paper is null ? (210.0, 297.0) : ((paper.WidthMm * sheets.Length) + (20 * (sheets.Length - 1)), paper.HeightMm);

        // Distance at which the sheet fills the wanted share, as it lies after the turn.
        var (sine, cosine) = Math.SinCos(TurnDegrees * Math.PI / 180);
        var across = (Math.Abs(cosine) * paperWidth) + (Math.Abs(sine) * paperHeight);
        var upwards = (Math.Abs(sine) * paperWidth) + (Math.Abs(cosine) * paperHeight);
        var distance = Math.Max(across / WidthPx, upwards / HeightPx) * focal / Fill;

        var (leanSine, leanCosine) = Math.SinCos(TiltDegrees * Math.PI / 180);
        var (toSine, toCosine) = Math.SinCos(TiltTowardsDegrees * Math.PI / 180);

        // Sheet axes in the camera's frame (x right, y down, z away): turned about the axis in the sheet that stands across the lean.
        var right = Lean(cosine, -sine);
        var up = Lean(-sine, -cosine);
        if (IsFromBehind)
        {
            right = (-right.X, -right.Y, -right.Z);
        }

        (double X, double Y, double Z) Lean(double x, double y)
        {
            var (along, side) = ((x * toCosine) + (y * toSine), (-x * toSine) + (y * toCosine));
            var (leaned, z) = (along * leanCosine, along * leanSine);
            return ((leaned * toCosine) - (side * toSine), (leaned * toSine) + (side * toCosine), z);
        }

        // Front's outward normal, which looks at the camera when the front does: right x up.
        var normal = (X: (right.Y * up.Z) - (right.Z * up.Y), Y: (right.Z * up.X) - (right.X * up.Z), Z: (right.X * up.Y) - (right.Y * up.X));
        if (!IsFromBehind == normal.Z > 0)
        {
            normal = (-normal.X, -normal.Y, -normal.Z);
        }

        var middle = (X: Aside.X * WidthPx * distance / focal, Y: Aside.Y * HeightPx * distance / focal, Z: distance);
        var pxMm = distance / focal;
        Parallel.For(0, HeightPx, row =>
        {
            for (var column = 0; column < WidthPx; column++)
            {
                double value = 0;
                if (grey is not null && !IsColoured(column, row))
                {
                    light[(row * WidthPx) + column] = grey[(row * WidthPx) + column];
                    continue;
                }

                var first = Look(column + 0.5, row + 0.5, pxMm * 2.2);
                if (first.IsPlain)
                {
                    value = first.Light;
                }
                else
                {
                    for (var part = 0; part < 9; part++)
                    {
                        value += Look(column + (((part % 3) + 0.5) / 3), row + (((part / 3) + 0.5) / 3), pxMm / 3).Light;
                    }

                    value /= 9;
                }

                var (fx, fy) = ((column + 0.5 - (WidthPx / 2.0)) / longer * 2, (row + 0.5 - (HeightPx / 2.0)) / longer * 2);
                light[(row * WidthPx) + column] = (float)(value * Exposure * (1 - (Vignetting * ((fx * fx) + (fy * fy)) / 1.56)));
            }
        });
        return light;

        bool IsColoured(int column, int row)
        {
            var (x, y) = Straight((column + 0.5 - (WidthPx / 2.0)) / focal, (row + 0.5 - (HeightPx / 2.0)) / focal);
            for (var index = 0; index < sheets.Length; index++)
            {
                var (u, v) = Hit(x, y, 0, sheets[index], index);
                if (sheets[index].IsNearColour(u, v))
                {
                    return true;
                }
            }

            return false;
        }

        (double Light, bool IsPlain) Look(double column, double row, double width)
        {
            var (x, y) = ((column - (WidthPx / 2.0)) / focal, (row - (HeightPx / 2.0)) / focal);
            (x, y) = Straight(x, y);
            var total = Around;
            var isPlain = true;
            for (var index = 0; index < sheets.Length; index++)
            {
                var sheet = sheets[index];
                var (u, v) = Hit(x, y, 0, sheet, index);
                if (!sheet.IsPaper(u, v))
                {
                    continue;
                }

                var (bu, bv) = ThicknessMm == 0 ? (u, v) : Hit(x, y, -ThicknessMm, sheet, index);
                var front = sheet.Front(u, v, width, channel);
                var back = sheet.BackSide(bu, bv, width);
                var lamp = 1 + (Uneven * ((u / sheet.Plan.Paper.WidthMm) - 0.5)) - (Uneven * 0.5 * ((v / sheet.Plan.Paper.HeightMm) - 0.5));
                total = lamp * ((front * back) + (FrontLight * ((front * front) + 0.03)));
                isPlain = IsEven(front, sheet.FrontTransmittance) && IsEven(back, sheet.BackTransmittance);
            }

            return (total, isPlain);
        }

        (double U, double V) Hit(double x, double y, double above, DrawnSheet sheet, int index)
        {
            var at = Flat(x, y, above, sheet, index);
            for (var round = 0; round < 3 && CurlMm != 0; round++)
            {
                var aside = (2 * at.U / sheet.Plan.Paper.WidthMm) - 1;
                at = Flat(x, y, above + (CurlMm * (1 - (aside * aside))), sheet, index);
            }

            return at;
        }

        (double U, double V) Flat(double x, double y, double above, DrawnSheet sheet, int index)
        {
            // The point of the ray (x, y, 1) s in the plane that lies so far above the front's.
            var (ox, oy, oz) = (middle.X + (above * normal.X), middle.Y + (above * normal.Y), middle.Z + (above * normal.Z));
            var s = ((ox * normal.X) + (oy * normal.Y) + (oz * normal.Z)) / ((x * normal.X) + (y * normal.Y) + normal.Z);
            var (dx, dy, dz) = ((x * s) - ox, (y * s) - oy, s - oz);
            var u = (dx * right.X) + (dy * right.Y) + (dz * right.Z) + (paperWidth / 2) - (index * (sheet.Plan.Paper.WidthMm + 20));
            return (u, (dx * up.X) + (dy * up.Y) + (dz * up.Z) + (sheet.Plan.Paper.HeightMm / 2));
        }
    }

    private static bool IsEven(double light, double dark) => light >= 1 || light <= dark + 1e-12;

    /// <summary>Undoes r (1 + k1 r^2).</summary>
    private (double X, double Y) Straight(double x, double y)
    {
        var seen = Math.Sqrt((x * x) + (y * y));
        if (K1 == 0 || seen == 0)
        {
            return (x, y);
        }

        var r = seen;
        for (var step = 0; step < 6; step++)
        {
            r -= ((r * (1 + (K1 * r * r))) - seen) / (1 + (3 * K1 * r * r));
        }

        return (x * r / seen, y * r / seen);
    }

    private float[] Blur(float[] light, double sigma)
    {
        if (sigma <= 0)
        {
            return light;
        }

        var reach = (int)Math.Ceiling(sigma * 3.5);
        var weights = new float[(2 * reach) + 1];
        var sum = 0.0;
        for (var k = -reach; k <= reach; k++)
        {
            weights[k + reach] = (float)Math.Exp(-k * k / (2 * sigma * sigma));
            sum += weights[k + reach];
        }

        for (var k = 0; k < weights.Length; k++)
        {
            weights[k] /= (float)sum;
        }

        var once = new float[light.Length];
        var twice = new float[light.Length];
        Parallel.For(0, HeightPx, row => Along(light.AsSpan(row * WidthPx, WidthPx), once.AsSpan(row * WidthPx, WidthPx)));
        Parallel.For(0, HeightPx, row =>
        {
            var to = twice.AsSpan(row * WidthPx, WidthPx);
            for (var k = -reach; k <= reach; k++)
            {
                var from = once.AsSpan(Math.Clamp(row + k, 0, HeightPx - 1) * WidthPx, WidthPx);
                var weight = weights[k + reach];
                for (var column = 0; column < to.Length; column++)
                {
                    to[column] += weight * from[column];
                }
            }
        });
        return twice;

        void Along(ReadOnlySpan<float> from, Span<float> to)
        {
            for (var k = -reach; k <= reach; k++)
            {
                var weight = weights[k + reach];
                for (var column = Math.Max(0, -k); column < Math.Min(to.Length, to.Length - k); column++)
                {
                    to[column] += weight * from[column + k];
                }
            }
        }
    }

    private static byte Code(double linear)
    {
        linear = Math.Clamp(linear, 0, 1);
        var stored = linear <= 0.0031308 ? 12.92 * linear : (1.055 * Math.Pow(linear, 1 / 2.4)) - 0.055;
        return (byte)((stored * 255) + 0.5);
    }

    /// <summary>Nearly normal numbers that depend on the pixel and the seed alone.</summary>
    private double Gauss(int at)
    {
        var state = ((ulong)at * 0x9E3779B97F4A7C15) + ((ulong)Seed * 0xD1B54A32D192ED03);
        state = (state ^ (state >> 30)) * 0xBF58476D1CE4E5B9;
        state = (state ^ (state >> 27)) * 0x94D049BB133111EB;
        state ^= state >> 31;
        var sum = (state & 0xFFFF) + ((state >> 16) & 0xFFFF) + ((state >> 32) & 0xFFFF) + (state >> 48);
        return ((sum / 65536.0) - 2) * 1.7320508;
    }
}
