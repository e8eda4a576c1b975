using System;
using Lampblack.Imaging;

namespace Lampblack.PictureArt;

/// <summary>CIE lightness and colour of sRGB codes (CIE 15; white is that of sRGB).</summary>
internal static class Lightness
{
    private static readonly double[] _linear = MakeLinear();

    /// <summary>L*, from 0 to 100.</summary>
    public static double Of(int red, int green, int blue) =>
        (116 * Root((0.2126 * _linear[red]) + (0.7152 * _linear[green]) + (0.0722 * _linear[blue]))) - 16;

    /// <summary>L* of a grey whose code need not be whole.</summary>
    public static double OfGrey(double code) => (116 * Root(Srgb.Decode(Math.Clamp(code, 0, 255) / 255))) - 16;

    /// <summary>The code, not whole, of a grey with a lightness from 0 to 100.</summary>
    public static double GreyCode(double lightness)
    {
        var root = (lightness + 16) / 116;
        var linear = root > 6.0 / 29 ? root * root * root : (root - (4.0 / 29)) * 108 / 841;
        return Srgb.Encode(Math.Clamp(linear, 0, 1)) * 255;
    }

    /// <summary>L*, a*, b*.</summary>
    public static (double L, double A, double B) Lab(int red, int green, int blue)
    {
        var (x, y, z) = Srgb.ToXyz(new(_linear[red], _linear[green], _linear[blue]));
        var (fx, fy, fz) = (Root(x / 0.9505), Root(y), Root(z / 1.0890));
        return ((116 * fy) - 16, 500 * (fx - fy), 200 * (fy - fz));
    }

    /// <summary>Whether light comes through: light to the eye, or strong in one colour at least.</summary>
    public static bool IsLight(int red, int green, int blue) =>
        Math.Max(red, Math.Max(green, blue)) >= 160 || Of(red, green, blue) >= 50;

    private static double Root(double share) => share > 216.0 / 24389 ? Math.Cbrt(share) : (share * 841 / 108) + (4.0 / 29);

    private static double[] MakeLinear()
    {
        var linear = new double[256];
        for (var code = 0; code < linear.Length; code++)
        {
            linear[code] = Srgb.Decode((byte)code);
        }

        return linear;
    }
}
